package planner

import (
	"math"
	"testing"

	"example.com/tripwear/planner/trip"
)

// The demo's corner list closes; its drawing must too, and be as long.
func TestViewOfACornerList(t *testing.T) {
	f, outing := demo(t, "juniper")
	p := planned(t, f, outing)
	if len(p.Circuits) != 1 || p.Circuits[0].ID != "heron-flats" || p.Circuits[0].Name != "Heron Flats" {
		t.Fatalf("circuits %+v, want Heron Flats alone: the other is known by its summary", p.Circuits)
	}
	points := p.Circuits[0].Points
	if len(points) != trip.ViewPoints {
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
