package trace

import (
	"math"
	"testing"
)

// A loop of noise is drawn out of the line wherever it lies, over the start
// too, and the line stays where it was elsewhere.
func TestUntangle(t *testing.T) {
	const radius = 100.0
	n := int(math.Round(2 * math.Pi * radius / nodeSpacing))
	for _, at := range []int{0, n / 3, n - 1} {
		x, y := make([]float64, n), make([]float64, n)
		for i := range x {
			y[i], x[i] = math.Sincos(2 * math.Pi * float64(i) / float64(n))
			x[i], y[i] = radius*x[i], radius*y[i]
		}
		// A step back of 3 m along the way, and out.
		back := (at - 3 + n) % n
		x[at], y[at] = x[back]*1.01, y[back]*1.01
		l := spaced(x, y, n)
		sharp := func(l *line) (worst float64) {
			for _, turn := range l.turn {
				worst = max(worst, math.Abs(turn))
			}
			return worst
		}
		if sharp(l) <= sharpestTurn {
			t.Fatalf("node %d: the knot turns %.2f rad at a node, no more than a line may", at, sharp(l))
		}
		l = l.untangle()
		if got := sharp(l); got > sharpestTurn {
			t.Errorf("node %d: still turns %.2f rad at a node", at, got)
		}
		away := 2 * math.Pi * float64(at) / float64(n)
		for i := range l.x {
			off := math.Hypot(l.x[i], l.y[i]) - radius
			far := math.Abs(math.Remainder(math.Atan2(l.y[i], l.x[i])-away, 2*math.Pi))*radius > 40
			if far && math.Abs(off) > 0.02 || math.Abs(off) > 1.5 {
				t.Errorf("node %d: %.3f m off at (%.1f, %.1f)", at, off, l.x[i], l.y[i])
				break
			}
		}
	}
}
