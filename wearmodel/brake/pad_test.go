package brake

import (
	"testing"
)

// Pads wear at least four times faster at 400 deg C than cool, says the trade
// press (published, secondary). It is said of street pads.
func TestPadWearWhenHot(t *testing.T) {
	street := Pad{Wear: 20e-15, Threshold: 230, Activation: 3700}
	if got := street.rate(400) / street.rate(100); got < 4 {
		t.Errorf("hot over cool: got %.2f, want at least 4", got)
	}
}

// The rate neither jumps at the threshold nor falls with heat.
func TestPadRate(t *testing.T) {
	p := pad(1)
	near(t, "at the threshold", p.rate(p.Threshold+1e-9), p.Wear, 1e-9)
	for temp := 0.0; temp < 900; temp += 10 {
		if p.rate(temp+10) < p.rate(temp) {
			t.Errorf("wear falls from %.0f deg C", temp)
		}
	}
}

func TestTooHot(t *testing.T) {
	p := pad(1)
	if p.TooHot(Outcome{Bulk: 600}) || !p.TooHot(Outcome{Bulk: 601}) {
		t.Error("the session mean is not held against the pad's limit")
	}
}
