package brake

import (
	"math"
	"testing"

	"example.com/tripwear/wearmodel/duty"
)

// heron is an invented circuit of 3.5 km.
func heron() []duty.Segment {
	var segs []duty.Segment
	for _, s := range [][3]float64{ // m, deg + left, m
		{582.646, 90, 60},
		{208.518, 70, 120},
		{172.435, -80, 40},
		{197.686, 100, 50},
		{304.983, -60, 85},
		{210.171, 130, 80},
		{389.678, 80, 40},
		{278.752, -50, 70},
		{306.902, 80, 55},
	} {
		segs = append(segs, duty.Segment{Straight: s[0], Turn: s[1] * math.Pi / 180, Radius: s[2]})
	}
	return segs
}

// weekend runs an axle through two days of five sessions of 20 minutes, 70
// hot laps, at 24 deg C and a pace.
func weekend(t *testing.T, a Axle, pace float64) Outcome {
	t.Helper()
	d, err := duty.Simulate(car(), heron(), pace)
	if err != nil {
		t.Fatal(err)
	}
	const rest, night = 40 * 60, 15 * 3600
	day := []Session{{7, rest}, {7, rest}, {7, rest}, {7, rest}, {7, night}}
	return Run(car(), a, d, append(append([]Session(nil), day...), day...), 24)
}

// Two circuit days of an intermediate driver, from an independent program.
// Within 3 %, or what its last printed digit hides.
func TestCircuitDays(t *testing.T) {
	for _, row := range []struct {
		axle                           Axle
		pad, crack, thickness, hottest float64 // mm, 1, mm, deg C
	}{
		{front(), 2.12, 0.166, 0.021, 638},
		{rear(), 0.84, 0.065, 0.011, 535},
	} {
		o := weekend(t, row.axle, 0.80)
		near(t, "pads, mm", 1e3*o.PadMean, row.pad, 0.03)
		near(t, "crack", o.Crack, row.crack, 0.03)
		near(t, "thickness, mm", 1e3*o.Thickness, row.thickness, math.Max(0.03, 0.0005/row.thickness))
		near(t, "peak", o.Peak, row.hottest, 0.005)
		t.Logf("pads %.3f mm, crack %.4f, thickness %.4f mm, peak %.1f, mean %.1f deg C", 1e3*o.PadMean, o.Crack, 1e3*o.Thickness, o.Peak, o.Bulk)
	}
}

// A light car's rotors lose about 0.25 mm over ten circuit weekends and go for
// cracks, not thickness. Common practice, no source; "about" taken as a fifth.
func TestTenWeekends(t *testing.T) {
	const least = 2e-3 // m from new to discard; assumed, as stamped on most rotors
	o := weekend(t, front(), 0.80)
	near(t, "mm over ten weekends", 10*1e3*o.Thickness, 0.25, 0.20)
	if o.Thickness/least > o.Crack/3 {
		t.Errorf("thickness uses %.3f of the rotor, cracks %.3f", o.Thickness/least, o.Crack)
	}
}

// Plain blank rotors of a hard-driven street car last about 6 to 12 circuit
// days. Common practice, no source; hard-driven is a pace of 0.80 to 0.90, and
// a fifth either way is "about".
func TestRotorDays(t *testing.T) {
	for _, pace := range []float64{0.80, 0.85, 0.90} {
		days := 2 / weekend(t, front(), pace).Crack
		t.Logf("pace %.2f: %.1f days", pace, days)
		if days < 6*0.8 || days > 12*1.2 {
			t.Errorf("pace %.2f: rotors last %.1f days", pace, days)
		}
	}
}

// Street-performance front pads after 6,000-10,000 road miles and a couple of
// events from new (11 mm) have a little more than half their material left.
// Common practice, no source.
func TestPadsAfterEvents(t *testing.T) {
	const fresh = 11e-3
	event := weekend(t, front(), 0.80).PadMean
	for _, miles := range []float64{6000, 10000} {
		road := Road(car(), front(), highway(car()), miles*1609.344).PadMean
		left := 1 - (road+2*event)/fresh
		t.Logf("%.0f miles: %.3f left", miles, left)
		if left < 0.5 || left > 0.65 {
			t.Errorf("%.0f miles and two events: %.2f left", miles, left)
		}
	}
}

// Just over half left before an event is enough for one day; for two, a spare
// set belongs in the boot. Common practice, no source; the line is 3 mm of the
// thinnest pad.
func TestHalfWornPads(t *testing.T) {
	const half, line = 5.5e-3, 3e-3
	two := weekend(t, front(), 0.80).PadThinnest
	t.Logf("thinnest after one day %.2f mm, after two %.2f mm", 1e3*(half-two/2), 1e3*(half-two))
	if half-two/2 < line {
		t.Errorf("one day leaves %.2f mm", 1e3*(half-two/2))
	}
	if half-two > line {
		t.Errorf("two days leave %.2f mm", 1e3*(half-two))
	}
}
