package trace

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"gonum.org/v1/gonum/mat"
)

// Corners cut in two, straights a little bent and corners of the wrong radius
// are given up, and what is there stays.
func TestSimplifyFindsTheCorners(t *testing.T) {
	want, sights := around(0.5)
	got, _ := halved(want).simplify(sights, 0.25)
	if len(got.arcs) != len(want.arcs) {
		t.Fatalf("%d arcs, want %d: %+v", len(got.arcs), len(want.arcs), got.arcs)
	}
	for j, w := range want.arcs {
		g := got.arcs[j]
		if g.straight != w.straight || math.Abs(g.bend-w.bend) > 0.06*math.Abs(w.bend) || math.Abs(g.meters-w.meters) > 3 {
			t.Errorf("arc %d: %+v, want %+v", j, g, w)
		}
	}
}

// halved is a curve with every arc cut in two whose bends differ a little.
func halved(c *curve) *curve {
	rough := &curve{start: c.start}
	for j, a := range c.arcs {
		half := arc{meters: a.meters / 2, bend: a.bend * (1 + 0.02*float64(j%3))}
		other := arc{meters: a.meters / 2, bend: a.bend * (1 - 0.02*float64(j%3))}
		rough.arcs = append(rough.arcs, half, other)
	}
	return rough
}

// What is left is, by Schwarz's criterion, as good as the corner list that the
// sights were made from, whatever the noise.
func TestSimplifyIsAsGoodAsTheTruth(t *testing.T) {
	for seed := range uint64(12) {
		rng := rand.New(rand.NewPCG(seed, 9))
		want, sights := around(0)
		count := 0.0
		for k := range sights {
			s := &sights[k]
			off := 0.5 / math.Sqrt(s.weight)
			s.x, s.y = s.x+off*rng.NormFloat64(), s.y+off*rng.NormFloat64()
			count += s.weight
		}
		_, truth := want.polish(sights, 0.25, 30)
		got, q := halved(want).simplify(sights, 0.25)
		more := q.misfit - truth.misfit + math.Log(count)*float64(len(q.pull)-len(truth.pull))
		if more > 1 {
			t.Errorf("seed %d: %d arcs and %d parameters, by %.2f worse than the truth's %d and %d", seed, len(got.arcs), len(q.pull), more, len(want.arcs), len(truth.pull))
		}
		for j, a := range got.arcs[1:] {
			if a.straight && got.arcs[j].straight {
				t.Errorf("seed %d: two straights in a row", seed)
			}
		}
	}
}

// Wald's statistics by hand: the square of what goes over its variance.
func TestChoices(t *testing.T) {
	c := &curve{arcs: []arc{{50, 0.02, false}, {30, -0.01, false}, {80, 0, true}, {20, 0.05, false}}}
	q := &ties{bend: []int{0, 2, -1, 5}, length: []int{1, 3, 4, 6}}
	v := mat.NewSymDense(7, nil)
	for a, d := range []float64{4e-6, 1, 9e-6, 1, 25, 1e-6, 1} {
		v.SetSym(a, a, d)
	}
	v.SetSym(0, 2, -1e-6)
	want := []choice{
		{straighten, 0, 100, 1}, {unite, 0, 9e-4 / 15e-6, 2}, {straighten, 1, 1e-4 / 9e-6, 1},
		{leaveOut, 2, 256, 1}, {straighten, 3, 2500, 1},
	}
	got := c.choices(q, v)
	if len(got) != len(want) {
		t.Fatalf("%+v, want %+v", got, want)
	}
	for i, w := range want {
		g := got[i]
		near(t, "statistic", g.cost/w.cost, 1, 1e-12)
		if g.kind != w.kind || g.arc != w.arc || g.free != w.free {
			t.Errorf("%+v, want %+v", g, w)
		}
	}
	// Of two arcs a straight stays.
	c.arcs = []arc{{50, 0.02, false}, {80, 0, true}}
	if got := c.choices(&ties{bend: []int{0, -1}, length: []int{1, 4}}, v); len(got) != 1 {
		t.Errorf("of two arcs: %+v", got)
	}
	c.arcs = append(c.arcs, arc{50, 0.03, false})
	if got := c.choices(&ties{bend: []int{0, -1, 2}, length: []int{1, 4, 3}}, v); len(got) != 3 {
		t.Errorf("of three arcs: %+v", got)
	}
}

func TestReduced(t *testing.T) {
	straight := func(m float64) arc { return arc{m, 0, true} }
	bent := func(m, bend float64) arc { return arc{m, bend, false} }
	for _, tt := range []struct {
		name string
		arcs []arc
		o    choice
		want []arc
	}{
		{"straightened", []arc{bent(10, 1), bent(20, 2), bent(30, 3)}, choice{kind: straighten, arc: 1}, []arc{bent(10, 1), straight(20), bent(30, 3)}},
		{"with straights on both sides", []arc{straight(10), bent(20, 2), straight(30), bent(40, 4)}, choice{kind: straighten, arc: 1}, []arc{straight(60), bent(40, 4)}},
		{"the last", []arc{bent(10, 1), straight(20), bent(30, 3)}, choice{kind: straighten, arc: 2}, []arc{bent(10, 1), straight(50)}},
		{"the first stays apart from the last", []arc{bent(10, 1), bent(20, 2), straight(30)}, choice{kind: straighten, arc: 0}, []arc{straight(10), bent(20, 2), straight(30)}},
		{"united", []arc{bent(5, 1), bent(10, 2), bent(30, 4), bent(7, 3)}, choice{kind: unite, arc: 1}, []arc{bent(5, 1), bent(40, 3.5), bent(7, 3)}},
		{"left out", []arc{bent(10, 1), straight(20), bent(30, 3)}, choice{kind: leaveOut, arc: 1}, []arc{bent(10, 1), bent(30, 3)}},
	} {
		if got := (&curve{arcs: tt.arcs}).reduced(tt.o); !slices.Equal(got.arcs, tt.want) {
			t.Errorf("%s: %+v, want %+v", tt.name, got.arcs, tt.want)
		}
	}
}

// A choice is made by the step of least misfit that fulfils it, which goes along
// what the covariance makes of the constraint (Lagrange's multiplier).
func TestTake(t *testing.T) {
	want, sights := around(0.5)
	c, _ := halved(want).polish(sights, 0.25, 1)
	for j := range c.arcs {
		c.arcs[j].straight = j%4 == 3 // the second half of every straight
		if c.arcs[j].straight {
			c.arcs[j].bend = 0
		}
	}
	q := c.tie(sights, 0.25)
	v := q.spread()
	stepped, plain := 0, 0
	for _, o := range c.choices(q, v) {
		w := make([]float64, len(q.pull))
		off := 0.0
		switch o.kind {
		case straighten:
			w[q.bend[o.arc]], off = 1, c.arcs[o.arc].bend
		case leaveOut:
			w[q.length[o.arc]], off = 1, c.arcs[o.arc].meters
		case unite:
			w[q.bend[o.arc]], w[q.bend[o.arc+1]], off = 1, -1, c.arcs[o.arc].bend-c.arcs[o.arc+1].bend
		}
		var by mat.VecDense
		by.MulVec(v, mat.NewVecDense(len(w), w))
		all := mat.Dot(&by, mat.NewVecDense(len(w), w))
		step := make([]float64, len(w))
		for a := range step {
			step[a] = -off / all * by.AtVec(a)
		}
		m := c.moved(q, step)
		switch o.kind {
		case straighten:
			near(t, "bend", m.arcs[o.arc].bend, 0, 1e-9)
		case leaveOut:
			near(t, "meters", m.arcs[o.arc].meters, 0, 1e-6)
		case unite:
			near(t, "bend", m.arcs[o.arc].bend, m.arcs[o.arc+1].bend, 1e-9)
		}
		m = m.reduced(o)
		if o.kind == unite {
			still := c.moved(q, make([]float64, len(w))).reduced(o)
			if still.tie(sights, 0.25).misfit < m.tie(sights, 0.25).misfit {
				m = still
				plain++
			} else {
				stepped++
			}
		}
		got := c.take(o, q, v, sights, 0.25)
		near(t, "start", math.Hypot(got.start.x-m.start.x, got.start.y-m.start.y)+math.Abs(got.start.heading-m.start.heading), 0, 1e-4)
		if len(got.arcs) != len(m.arcs) {
			t.Errorf("%+v: %d arcs, want %d", o, len(got.arcs), len(m.arcs))
			continue
		}
		for j, a := range m.arcs {
			near(t, "meters of an arc", got.arcs[j].meters, a.meters, 1e-4)
			near(t, "bend of an arc", got.arcs[j].bend, a.bend, 1e-6)
		}
	}
	if stepped == 0 || plain == 0 {
		t.Errorf("%d unions by the step, %d as they stand: want some of both", stepped, plain)
	}
}
