package planner

import (
	"math"
	"testing"

	"example.com/tripwear/wearmodel/duty"
)

// The demo's corner list closes; its drawing must too, and be as long.
func TestViewOfACornerList(t *testing.T) {
	f, trip := demo(t, "juniper")
	p := plan(t, f, trip)
	if len(p.Circuits) != 1 || p.Circuits[0].ID != "heron-flats" || p.Circuits[0].Name != "Heron Flats" {
		t.Fatalf("circuits %+v, want Heron Flats alone: the other is known by its summary", p.Circuits)
	}
	points := p.Circuits[0].Points
	if len(points) != viewPoints {
		t.Fatalf("%d points", len(points))
	}
	length, most, turned := 0.0, 0.0, 0.0
	for i, a := range points {
		b, c := points[(i+1)%len(points)], points[(i+2)%len(points)]
		step := math.Hypot(b.X-a.X, b.Y-a.Y)
		length, most = length+step, max(most, step)
		turned += math.Remainder(math.Atan2(c.Y-b.Y, c.X-b.X)-math.Atan2(b.Y-a.Y, b.X-a.X), 2*math.Pi)
	}
	if math.Abs(length-3500) > 20 || most > 20 {
		t.Errorf("%.0f m around with steps up to %.0f m, want 3500 m in steps of 15 m", length, most)
	}
	// Hopf's theorem of turning tangents.
	if math.Abs(turned-2*math.Pi) > 1e-9 {
		t.Errorf("turns %.3f rad, want 2 pi: to the left", turned)
	}
	// The first corner is a left one, and it loads the right-hand wheels.
	for _, q := range points {
		if q.Load != 0 {
			if q.Load < 0 {
				t.Errorf("the first corner, 90 deg left, has a load of %g", q.Load)
			}
			break
		}
	}
}

// A circle driven at 10 m/s with a radius of 50 m is drawn as one, however far
// its figures are rounded: where one in fifty of its turning is missing it
// still closes. Lefts go up from the start, rights down.
func TestViewOfACircle(t *testing.T) {
	for _, c := range []struct{ side, turned float64 }{{1, 1}, {-1, 1}, {1, 0.98}, {1, 1.02}} {
		const n = 2400 // states of 13 cm
		d := duty.Duty{Metres: 100 * math.Pi}
		for range n {
			d.States = append(d.States, duty.State{V: 10, Ay: c.side * c.turned * 2, Seconds: 10 * math.Pi / n})
		}
		points := fromAbove(d)
		if len(points) != viewPoints {
			t.Fatalf("%d points", len(points))
		}
		for i, p := range points {
			angle := 2 * math.Pi * float64(i) / viewPoints
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
	d := duty.Duty{Metres: 200 * math.Pi}
	for i := range n {
		side := 1.0
		if i >= n/2 {
			side = -1
		}
		d.States = append(d.States, duty.State{V: 10, Ay: side * 2, Seconds: 20 * math.Pi / n})
	}
	for i, p := range fromAbove(d) {
		angle := 4 * math.Pi * float64(i) / viewPoints
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
