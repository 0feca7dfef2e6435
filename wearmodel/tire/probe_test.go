package tire

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func readF(inside, middle, outside float64, even bool) Verdict {
	c := func(f float64) float64 { return (f - 32) / 1.8 }
	return Probe{c(inside), c(middle), c(outside)}.Read(even)
}

// The shop guides' rule: at most 20 degrees Fahrenheit across the tread,
// pressure before camber. Common practice, no source. Middle against edges for
// pressure; a cooler inside asks for more negative camber.
func TestProbe(t *testing.T) {
	for _, row := range []struct {
		in, mid, out float64
		even         bool
		concern      Concern
		pressure     Advice
		camber       Advice
		obscured     bool
	}{
		{190, 180, 170, false, ProbeFine, Leave, Leave, false},       // fine at the limit
		{200, 195, 165, false, ProbeAct, LessPressure, Leave, true},  // over-inflated first
		{170, 180, 195, false, ProbeWatch, Leave, MoreCamber, false}, // add negative camber
		{185, 170, 183, false, ProbeFine, MorePressure, Leave, true}, // under-inflated
		{200, 186, 172, false, ProbeWatch, Leave, LessCamber, false}, // inside runs 28 over
		{200, 186, 172, true, ProbeWatch, Leave, Leave, false},       // and the tread is even all the same
		{210, 194, 178, false, ProbeAct, Leave, LessCamber, false},
		{170, 189, 194, false, ProbeWatch, LessPressure, MoreCamber, false}, // the middle is out by 7: pressure, then camber
		{178, 181, 182, false, ProbeFine, Leave, Leave, false},              // 4 F are a probe's own error
		{170, 185, 180, false, ProbeFine, LessPressure, MoreCamber, false},  // the middle is out by 10: not above it
		{180, 180, 180, false, ProbeFine, Leave, Leave, false},
	} {
		v := readF(row.in, row.mid, row.out, row.even)
		if v.Concern != row.concern || v.Pressure != row.pressure || v.Camber != row.camber || v.Obscured() != row.obscured {
			t.Errorf("%g/%g/%g: %+v, obscured %v", row.in, row.mid, row.out, v, v.Obscured())
		}
		if wasVetoed := row.even; v.Vetoed != wasVetoed {
			t.Errorf("%g/%g/%g: vetoed %v", row.in, row.mid, row.out, v.Vetoed)
		}
	}
}

// The same everywhere hotter reads the same; camber is never touched while the
// middle is out by more than 10 degrees Fahrenheit.
func TestProbeProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		at := rapid.Float64Range(20, 130)
		p := Probe{at.Draw(t, "inside"), at.Draw(t, "middle"), at.Draw(t, "outside")}
		even := rapid.Bool().Draw(t, "even")
		v := p.Read(even)
		hotter := Probe{p.Inside + 15, p.Middle + 15, p.Outside + 15}.Read(even)
		if math.Abs(hotter.Spread-v.Spread) > 1e-9 || math.Abs(hotter.Arch-v.Arch) > 1e-9 {
			t.Errorf("%+v against %+v", v, hotter)
		}
		if v.Camber != Leave && math.Abs(v.Arch) > 10/1.8+1e-6 {
			t.Errorf("camber advice at an arch of %g K", v.Arch)
		}
		if v.Spread < 0 || math.Abs(v.Lean) > v.Spread+1e-9 {
			t.Errorf("%+v", v)
		}
	})
}
