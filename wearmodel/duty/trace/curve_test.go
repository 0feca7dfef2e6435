package trace

import (
	"math"
	"math/rand/v2"
	"testing"
)

// around is a curve of a lap with corners to both sides, and sights of it
// with noise.
func around(noise float64) (*curve, []sight) {
	rng := rand.New(rand.NewPCG(7, 7))
	c := &curve{start: pose{30, -20, 0.4}}
	// An L of six square corners, its sides 300, 120, 140, 130, 160 and 250 m.
	for _, a := range []struct{ turn, radius, straight float64 }{
		{1, 40, 50}, {1, 30, 85}, {-1, 25, 70}, {1, 35, 105}, {1, 20, 180}, {1, 50, 210},
	} {
		c.arcs = append(c.arcs, arc{meters: a.radius * math.Pi / 2, bend: a.turn / a.radius}, arc{meters: a.straight, straight: true})
	}
	var out []sight
	at, _ := c.poses()
	for j, a := range c.arcs {
		for s := 1.5; s < a.meters; s += 3 {
			p, _ := at[j].along(a.bend, s)
			off := noise * rng.NormFloat64()
			out = append(out, sight{p.x - off*math.Sin(p.heading), p.y + off*math.Cos(p.heading), 1 + float64(len(out)%3)})
		}
	}
	return c, out
}

// The way along an arc against its own sum in small steps, and a place beside
// it back again.
func TestAlongAnArc(t *testing.T) {
	p := pose{3, -4, 2.1}
	for _, bend := range []float64{0, 1e-9, -1e-6, 1e-3, -0.05, 0.1} {
		const s, steps = 40.0, 40000
		x, y, mx, my := p.x, p.y, 0.0, 0.0
		for k := range steps {
			h := p.heading + bend*s*(float64(k)+0.5)/steps
			x, y = x+math.Cos(h)*s/steps/2, y+math.Sin(h)*s/steps/2
			mx, my = mx+x/steps, my+y/steps
			x, y = x+math.Cos(h)*s/steps/2, y+math.Sin(h)*s/steps/2
		}
		end, middle := p.along(bend, s)
		if math.Hypot(end.x-x, end.y-y) > 1e-5 || math.Hypot(middle[0]-mx, middle[1]-my) > 1e-5 {
			t.Errorf("bend %g: end %.6f %.6f, want %.6f %.6f; middle %.6f, want %.6f %.6f", bend, end.x, end.y, x, y, middle, mx, my)
		}
		on, _ := p.along(bend, 31)
		along, left := p.beside(arc{meters: s, bend: bend}, on.x-2*math.Sin(on.heading), on.y+2*math.Cos(on.heading))
		if math.Abs(along-31) > 1e-4 || math.Abs(left-2) > 1e-4 {
			t.Errorf("bend %g: %.6f along and %.6f to the left, want 31 and 2", bend, along, left)
		}
	}
}

// The pull is half the fall of the misfit by each parameter: against
// differences of the misfit itself.
func TestTiesAreTheSlope(t *testing.T) {
	c, sights := around(0.5)
	const variance = 0.25
	q := c.tie(sights, variance)
	for a := range q.pull {
		step := 1e-5
		for _, b := range q.bend {
			if b == a {
				step = 1e-8
			}
		}
		by := make([]float64, len(q.pull))
		by[a] = step
		up := c.moved(q, by).tie(sights, variance).misfit
		by[a] = -step
		down := c.moved(q, by).tie(sights, variance).misfit
		slope := (down - up) / (4 * step)
		// Where an arc ends, the nearest arc of a sight changes: a small difference.
		if tol := 1e-3 * math.Sqrt(q.matrix.At(a, a)*q.misfit); math.Abs(slope-q.pull[a]) > tol {
			t.Errorf("parameter %d pulls with %.6g, the misfit falls by %.6g (within %.2g)", a, q.pull[a], slope, tol)
		}
	}
}

// A place is beside an arc of more than half a round, whatever its side, by
// the nearer way to the arc's middle.
func TestBesideALongArc(t *testing.T) {
	for _, sign := range []float64{1, -1} {
		p := pose{5, -7, 0.6}
		a := arc{meters: 50, bend: sign / 10} // 5 rad
		for _, s := range []float64{-5, -1, 0, 20, 31.5, 49, 52, 55} {
			for _, off := range []float64{-3, 0, 4} {
				on, _ := p.along(a.bend, s)
				along, left := p.beside(a, on.x-off*math.Sin(on.heading), on.y+off*math.Cos(on.heading))
				near(t, "along", along, s, 1e-9)
				near(t, "left", left, off, 1e-9)
			}
		}
	}
}

// Sights are the mean places of fixes beside each node, in a circle's order:
// here of a square of 40 m.
func TestSights(t *testing.T) {
	l := polygon([]float64{0, 20, 40, 40, 40, 20, 0, 0}, []float64{0, 0, 0, 20, 40, 40, 40, 20})
	f := &fitted{line: l, noise: 1, places: []place{
		{x: 4, y: 1}, {x: 12, y: 3}, // the mean is 8, 2
		{x: 38, y: 26, segment: 3}, {x: 41, y: 30, segment: 3, drift: -3}, // 2 and 2 to the left
		{x: 30, y: 44.5, segment: 4},            // 4.5 m to the right: wild
		{x: 30, y: 44.5, segment: 4, drift: -3}, // and by 1.5 where the lap is off by 3
	}}
	got := f.sights(3)
	want := []sight{{38, 28, 2}, {30, 41.5, 1}, {20, 40, 0}, {0, 40, 0}, {0, 20, 0}, {8, 2, 2}, {20, 0, 0}, {40, 0, 0}}
	for k, w := range want {
		near(t, "east", got[k].x, w.x, 1e-12)
		near(t, "north", got[k].y, w.y, 1e-12)
		near(t, "weight", got[k].weight, w.weight, 0)
	}
	// Just inside and outside of four spreads.
	f.places = []place{{x: 4, y: 4}, {x: 8, y: -4}, {x: 9, y: 4.01}, {x: 9, y: -4.01}}
	if got := f.sights(0)[0]; got.weight != 2 {
		t.Errorf("%g places count, want 2", got.weight)
	}
}

// Two straights of 100 m and two half rounds of 20 m radius, from the middle
// of a straight: each sight is beside its own arc, those off the ends too.
func TestPass(t *testing.T) {
	half := 20 * math.Pi
	c := &curve{pose{-50, 0, 0}, []arc{{100, 0, true}, {half, 0.05, false}, {100, 0, true}, {half, 0.05, false}}}
	at, _ := c.poses()
	near(t, "end east", at[4].x, -50, 1e-9)
	near(t, "end north", at[4].y, 0, 1e-9)
	type seen struct {
		arc     int
		s, left float64
	}
	sights := []sight{
		{-52, 0.5, 1}, // before the start, so beside the last arc
		{-45, 1, 1}, {20, -2, 1}, {49, 0, 1},
		{50 + 19*math.Sin(0.3), 20 - 19*math.Cos(0.3), 1}, {71, 20, 1},
		{48, 39, 1}, // on the way back
		{51, 40, 1}, // a fix out of order, still on the half round
		{-20, 42, 1}, {-49, 40, 1}, {-70, 20, 1},
		{-49, 0.25, 1}, // beyond the end, so beside the first
	}
	back := math.Atan2(1, 20)
	before := math.Atan2(2, 19.5)
	want := []seen{
		{3, (math.Pi - before) * 20, 20 - math.Hypot(2, 19.5)},
		{0, 5, 1}, {0, 70, -2}, {0, 99, 0},
		{1, 6, 1}, {1, half / 2, -1},
		{2, 2, 1}, {1, (math.Pi - back) * 20, 20 - math.Hypot(1, 20)},
		{2, 70, -2}, {2, 99, 0}, {3, half / 2, 0},
		{0, 1, 0.25},
	}
	var got []seen
	c.pass(at, sights, func(k, arc int, s, left float64) {
		if k != len(got) {
			t.Errorf("sight %d called as %d", len(got), k)
		}
		got = append(got, seen{arc, s, left})
	})
	for k, w := range want {
		if got[k].arc != w.arc || math.Abs(got[k].s-w.s) > 1e-9 || math.Abs(got[k].left-w.left) > 1e-9 {
			t.Errorf("sight %d: %+v, want %+v", k, got[k], w)
		}
	}
	// Back over the end of an arc, whatever comes later.
	c.arcs[3] = arc{10, 0, true}
	at, _ = c.poses()
	c.pass(at, sights[5:8], func(k, arc int, s, left float64) {
		if w := want[5+k]; arc != w.arc || math.Abs(s-w.s) > 1e-9 || math.Abs(left-w.left) > 1e-9 {
			t.Errorf("sight %d: arc %d, %g, %g, want %+v", k, arc, s, left, w)
		}
	})
	// Before the start in the second half of the sights, and beyond the end in
	// the first, it is not turned round.
	count := 0
	c.pass(at, []sight{{48, 0, 1}, {49, 0, 1}, {-52, 0, 1}}, func(k, arc int, s, left float64) {
		if count++; k == 2 && arc != 0 {
			t.Errorf("a last sight before the start is beside arc %d", arc)
		}
	})
}
