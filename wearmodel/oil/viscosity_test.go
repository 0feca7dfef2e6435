package oil

import (
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
