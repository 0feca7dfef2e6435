package oil

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// 32 mm2/s at 40 deg C and 5.4 at 100 make 8.5 at 80: a published worksheet on
// ASTM D341, which prints one decimal; 8.53 by the formula, computed.
func TestLine(t *testing.T) {
	l := LineThrough(32, 40, 5.4, 100)
	near(t, "at 80", l.At(80), 8.53, 1e-3)
	near(t, "at 40, as given", l.At(40), 32, 1e-3)
	near(t, "at 100, as given", l.At(100), 5.4, 1e-3)
}

// The line goes through its points to the accuracy of the inverse, and an oil
// thins as it warms.
func TestLineProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		thin := rapid.Float64Range(2, 30).Draw(t, "at 100")
		thick := thin * rapid.Float64Range(2, 20).Draw(t, "times at 40")
		l := LineThrough(thick, 40, thin, 100)
		for _, p := range []struct{ temp, want float64 }{{40, thick}, {100, thin}} {
			if got := l.At(p.temp); got < p.want*0.998 || got > p.want*1.002 {
				t.Errorf("at %g: got %g, want %g", p.temp, got, p.want)
			}
		}
		a := rapid.Float64Range(0, 149).Draw(t, "a")
		if l.At(a+1) >= l.At(a) {
			t.Errorf("thicker at %g than at %g", a+1, a)
		}
	})
}

// Thin liquids, where the last term of Z counts: ASTM D341, 2004 form, from
// memory; 1.0 + 0.7 + exp(-1.47 - 1.84 - 0.51) = 1.72193 and 0.5 + 0.7 +
// exp(-1.47 - 0.92 - 0.1275) = 1.28066, their double logarithms by hand. The
// inverse is said to be within 1 in 1,000.
func TestThinLiquids(t *testing.T) {
	near(t, "at 1.0 mm2/s", loglog(1), -0.627061, 1e-5)
	near(t, "at 0.5 mm2/s", loglog(0.5), -0.968857, 1e-5)
	for v := 0.25; v < 4; v += 0.05 {
		z := math.Pow(10, math.Pow(10, loglog(v)))
		near(t, "there and back", fromZ(z), v, 1e-3)
	}
	near(t, "of 1.72193", fromZ(1.7219278), 1, 1e-3)
	near(t, "of 1.28066", fromZ(1.2806610), 0.5, 1e-3)
}
