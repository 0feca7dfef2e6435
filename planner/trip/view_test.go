package trip

import (
	"math"
	"testing"

	"example.com/tripwear/wearmodel/duty"
)

// A circle driven at 10 m/s with a radius of 50 m is drawn as one, however far
// its figures are rounded: where one in fifty of its turning is missing it
// still closes. Lefts go up from the start, rights down.
func TestViewOfACircle(t *testing.T) {
	for _, c := range []struct{ side, turned float64 }{{1, 1}, {-1, 1}, {1, 0.98}, {1, 1.02}} {
		const n = 2400 // states of 13 cm
		d := duty.Duty{Meters: 100 * math.Pi}
		for range n {
			d.States = append(d.States, duty.State{V: 10, Ay: c.side * c.turned * 2, Seconds: 10 * math.Pi / n})
		}
		points := fromAbove(d)
		if len(points) != ViewPoints {
			t.Fatalf("%d points", len(points))
		}
		for i, p := range points {
			angle := 2 * math.Pi * float64(i) / ViewPoints
			x, y := 50*math.Sin(angle), c.side*50*(1-math.Cos(angle))
			if math.Hypot(p.X-x, p.Y-y) > 0.14 || p.V != 10 || p.Load != c.side*c.turned*2 {
				t.Errorf("%+v, point %d: %+v, want it at %.2f, %.2f", c, i, p, x, y)
				break
			}
		}
	}
}

// A lap that crosses itself, a circle to the left and one to the right, turns by
// nothing in all: it is drawn as two circles of 50 m, one above the start and
// one below, and closes.
func TestViewOfAnEight(t *testing.T) {
	const n = 2400 // states of 26 cm
	d := duty.Duty{Meters: 200 * math.Pi}
	for i := range n {
		side := 1.0
		if i >= n/2 {
			side = -1
		}
		d.States = append(d.States, duty.State{V: 10, Ay: side * 2, Seconds: 20 * math.Pi / n})
	}
	for i, p := range fromAbove(d) {
		angle := 4 * math.Pi * float64(i) / ViewPoints
		side := 1.0
		if angle > 2*math.Pi {
			side = -1
		}
		x, y := 50*math.Sin(angle), side*50*(1-math.Cos(angle))
		if !(math.Hypot(p.X-x, p.Y-y) < 0.3) {
			t.Errorf("point %d: %+v, want it at %.2f, %.2f", i, p, x, y)
			break
		}
	}
}
