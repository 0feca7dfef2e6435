package tire

import (
	"slices"
	"testing"

	"example.com/tripwear/wearmodel/duty"
)

// heronFlats is a circuit of 3.5 km, invented, mostly to the left.
var heronFlats = func() []duty.Segment {
	var segs []duty.Segment
	for _, c := range [][3]float64{ // straight m, turn deg, radius m
		{582.646, 90, 60}, {208.518, 70, 120}, {172.435, -80, 40},
		{197.686, 100, 50}, {304.983, -60, 85}, {210.171, 130, 80},
		{389.678, 80, 40}, {278.752, -50, 70}, {306.902, 80, 55},
	} {
		segs = append(segs, duty.Segment{Straight: c[0], Turn: c[1] * deg, Radius: c[2]})
	}
	return segs
}()

// weekend is the depth (mm) lost by zone over sessions of seven hot laps at a
// pace, each with an out and an in lap at 0.6 of it on cool rubber.
func weekend(t *testing.T, segs []duty.Segment, pace float64, sessions float64) [4][3]float64 {
	t.Helper()
	hot, err := duty.Simulate(juniper, segs, pace)
	if err != nil {
		t.Fatal(err)
	}
	gentle, err := duty.Simulate(juniper, segs, 0.6*pace)
	if err != nil {
		t.Fatal(err)
	}
	car := onJuniper()
	a, b := Circuit(juniper, car, hot), Circuit(juniper, car, gentle)
	laps := duty.SessionLaps(20*60, hot.Seconds)
	var mm [4][3]float64
	for p := range mm {
		for z := range mm[p] {
			mm[p][z] = 1000 * sessions * (laps*a[p].Zones[z] + 2*b[p].Zones[z])
		}
	}
	return mm
}

// Two circuit days of 5 x 20 min, from an independent program: within 3 %.
func TestTwoCircuitDays(t *testing.T) {
	got := weekend(t, heronFlats, 0.80, 10)
	want := [4][3]float64{
		{1.10, 0.91, 0.72},
		{1.19, 1.29, 1.38},
		{1.21, 0.95, 0.68},
		{1.23, 1.19, 1.16},
	}
	for _, p := range duty.Places {
		for z, w := range want[p] {
			t.Logf("%v %v: %.4f mm, independent %v (%+.1f %%)", p, Zone(z), got[p][z], w, 100*(got[p][z]/w-1))
			near(t, p.String()+" "+[...]string{"inside", "middle", "outside"}[z]+", mm", got[p][z], w, 0.03)
		}
	}
}

// A mirrored circuit wears the other side, exactly. Symmetry.
func TestMirroredCircuit(t *testing.T) {
	got := weekend(t, heronFlats, 0.80, 1)
	mirrored := slices.Clone(heronFlats)
	for i := range mirrored {
		mirrored[i].Turn = -mirrored[i].Turn
	}
	other := weekend(t, mirrored, 0.80, 1)
	for _, p := range duty.Places {
		if got[p] != other[p.Mirror()] {
			t.Errorf("%v: %v, in the mirror %v", p, got[p], other[p.Mirror()])
		}
	}
}

// A 200-treadwear set from 8/32 in is used up in its worst zone, 2 to 3/32
// left, after about 6,000-7,000 highway miles and 4 circuit days, with 4 to
// 5/32 in its best: common practice, no source. The abrasion is set by it.
func TestSetIsUsedUp(t *testing.T) {
	const km = 6500 * mile / 1000
	road := Road(juniper, onJuniper(), highway, 0.9)
	days := weekend(t, heronFlats, 0.80, 20)
	worst, best := 8.0, 0.0 // 32nds left
	for _, p := range duty.Places {
		for z := range days[p] {
			left := 8 - (days[p][z]+road[p].Zones[z]*km*1000)/1000/inch*32
			t.Logf("%v %v: %.2f/32 left", p, Zone(z), left)
			worst, best = min(worst, left), max(best, left)
		}
	}
	if worst < 2 || worst > 3 {
		t.Errorf("worst zone has %.2f/32 in left, want 2 to 3", worst)
	}
	// Half of a 32nd of slack: gauges are read in 32nds.
	if best < 3.5 || best > 5.5 {
		t.Errorf("best zone has %.2f/32 in left, want 4 to 5", best)
	}
}
