package bearing

import (
	"math"
	"testing"

	"example.com/tripwear/wearmodel/duty"
)

// Two circuit days of 5 x 20 min at pace 0.80 on an invented circuit of 3.5
// km, with an out and an in lap at 0.6 of the pace in each session, from an
// independent program: within 3 % (it prints two or three digits).
func TestTwoCircuitDays(t *testing.T) {
	var segs []duty.Segment
	for _, c := range [][3]float64{ // straight m, turn deg, radius m
		{582.646, 90, 60}, {208.518, 70, 120}, {172.435, -80, 40},
		{197.686, 100, 50}, {304.983, -60, 85}, {210.171, 130, 80},
		{389.678, 80, 40}, {278.752, -50, 70}, {306.902, 80, 55},
	} {
		segs = append(segs, duty.Segment{Straight: c[0], Turn: c[1] * math.Pi / 180, Radius: c[2]})
	}
	hot, err := duty.Simulate(car, segs, 0.80)
	if err != nil {
		t.Fatal(err)
	}
	gentle, err := duty.Simulate(car, segs, 0.6*0.80)
	if err != nil {
		t.Fatal(err)
	}
	laps := 10 * duty.SessionLaps(20*60, hot.Seconds)
	radius := [4]float64{0.316, 0.316, 0.314, 0.314}
	a := Circuit(car, all(plain), radius, hot)
	b := Circuit(car, all(plain), radius, gentle)
	for p, want := range [4]float64{0.050, 0.141, 0.031, 0.080} {
		got := laps*a[p] + 20*b[p]
		t.Logf("%v: %.4f of L10, independent %v", duty.Place(p), got, want)
		near(t, duty.Place(p).String(), got, want, 0.03)
	}
}
