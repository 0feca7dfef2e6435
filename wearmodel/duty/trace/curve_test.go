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
		c.arcs = append(c.arcs, arc{metres: a.radius * math.Pi / 2, bend: a.turn / a.radius}, arc{metres: a.straight, straight: true})
	}
	var out []sight
	at, _ := c.poses()
	for j, a := range c.arcs {
		for s := 1.5; s < a.metres; s += 3 {
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
		along, left := p.beside(arc{metres: s, bend: bend}, on.x-2*math.Sin(on.heading), on.y+2*math.Cos(on.heading))
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
