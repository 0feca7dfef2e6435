package trace

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/mat"
)

// Where the sights lie on the curve, the normal matrix is how the pull falls by
// each parameter: against differences of the pull itself.
func TestTiesAreTheCurvature(t *testing.T) {
	c, sights := around(0)
	const variance = 0.25
	q := c.tie(sights, variance)
	near(t, "misfit of sights on the curve", q.misfit, 0, 1e-9)
	size := len(q.pull)
	if size != 3+6*3 {
		t.Fatalf("%d parameters, want 21", size)
	}
	for a := range size {
		step := 1e-4 / math.Sqrt(q.matrix.At(a, a))
		by := make([]float64, size)
		by[a] = step
		up := c.moved(q, by).tie(sights, variance).pull
		by[a] = -step
		down := c.moved(q, by).tie(sights, variance).pull
		for b := range size {
			scale := math.Sqrt(q.matrix.At(a, a) * q.matrix.At(b, b))
			near(t, "element in its own scale", (down[b]-up[b])/(2*step)/scale, q.matrix.At(a, b)/scale, 1e-4)
		}
	}
}

// One straight of 100 m to the east that ends 3 m north and 4 m west of where
// it should: what closes it costs the gap in deviations of 0.05 m and of 0.001
// rad, and sights count by their weight over the variance.
func TestMisfit(t *testing.T) {
	c := &curve{pose{0, 0, 0}, []arc{{100, 0, true}}}
	q := c.tie([]sight{{10, 2, 3}, {50, -1, 2}, {70, 9, 0}}, 0.5)
	near(t, "misfit", q.misfit, (3*4+2*1)/0.5+100*100/0.05/0.05, 1e-6)
	turned := &curve{pose{0, 0, 0}, []arc{{0.1, 0, true}, {1, 0.3, false}}}
	end, _ := pose{0.1, 0, 0}.along(0.3, 1)
	q = turned.tie(nil, 1)
	near(t, "misfit of a turn", q.misfit, (end.x*end.x+end.y*end.y)/0.0025+0.09/1e-6, 1e-6)
	near(t, "pull of the bend", q.pull[q.bend[1]], -(0.3*1/1e-6 + (end.x*q.alongBend(t, turned, 0)+end.y*q.alongBend(t, turned, 1))/0.0025), 1)
}

// alongBend is how the end of a curve moves east or north by its last bend.
func (q *ties) alongBend(t *testing.T, c *curve, axis int) float64 {
	t.Helper()
	by := make([]float64, len(q.pull))
	const step = 1e-6
	by[q.bend[len(c.arcs)-1]] = step
	a, _ := c.moved(q, by).poses()
	b, _ := c.poses()
	n := len(c.arcs)
	return [2]float64{a[n].x - b[n].x, a[n].y - b[n].y}[axis] / step
}

func TestMoved(t *testing.T) {
	c := &curve{pose{1, 2, 3}, []arc{{10, 0, true}, {20, 0.1, false}}}
	q := &ties{bend: []int{-1, 4}, length: []int{3, 5}}
	m := c.moved(q, []float64{0.1, 0.2, 0.3, 4, 0.05, -6})
	near(t, "east", m.start.x, 1.1, 1e-15)
	near(t, "north", m.start.y, 2.2, 1e-15)
	near(t, "heading", m.start.heading, 3.3, 1e-15)
	near(t, "straight", m.arcs[0].meters, 14, 0)
	near(t, "bend of a straight", m.arcs[0].bend, 0, 0)
	near(t, "length", m.arcs[1].meters, 14, 0)
	near(t, "bend", m.arcs[1].bend, 0.15, 1e-15)
	if c.arcs[0].meters != 10 || c.arcs[1].bend != 0.1 {
		t.Error("the curve itself has moved")
	}
	// A bend may be the first parameter.
	q.bend[1], q.length[1] = 0, 1
	near(t, "bend", c.moved(q, []float64{0.1, 2, 0, 0, 0, 0}).arcs[1].bend, 0.2, 1e-15)
}

func TestPossible(t *testing.T) {
	good := arc{meters: 10, bend: 0.1}
	for _, tt := range []struct {
		arcs []arc
		want bool
	}{
		{[]arc{good, good}, true}, {[]arc{good}, false}, {nil, false},
		{[]arc{good, {meters: 1}}, true}, {[]arc{{meters: 0.99}, good}, false},
		{[]arc{good, {meters: 10, bend: 0.596}}, true}, {[]arc{good, {meters: 10, bend: 0.598}}, false},
		{[]arc{{meters: 10, bend: -0.596}, good}, true}, {[]arc{{meters: 10, bend: -0.598}, good}, false},
		{[]arc{good, {meters: math.NaN()}}, false}, {[]arc{good, {meters: 10, bend: math.NaN()}}, false},
	} {
		if got := (&curve{arcs: tt.arcs}).possible(); got != tt.want {
			t.Errorf("%+v possible: %v", tt.arcs, got)
		}
	}
}

// simple is normal equations of three parameters whose scales are far apart:
// 4, 0.01 and 1e6 on the diagonal.
func simple() *ties {
	return &ties{
		matrix: mat.NewSymDense(3, []float64{4, 0.1, 400, 0.1, 0.01, -30, 400, -30, 1e6}),
		pull:   []float64{1, 0.2, 3000},
	}
}

// The step and the covariance against a dense solver.
func TestStepAndSpread(t *testing.T) {
	for _, damp := range []float64{0, 1e-3, 2} {
		q := simple()
		dense := mat.DenseCopyOf(q.matrix)
		for a := range 3 {
			dense.Set(a, a, dense.At(a, a)*(1+damp))
		}
		var want mat.VecDense
		if err := want.SolveVec(dense, mat.NewVecDense(3, q.pull)); err != nil {
			t.Fatal(err)
		}
		by := q.step(damp)
		for a := range by {
			near(t, "step", by[a]/want.AtVec(a), 1, 1e-9)
		}
	}
	var inverse mat.Dense
	if err := inverse.Inverse(simple().matrix); err != nil {
		t.Fatal(err)
	}
	v := simple().spread()
	for a := range 3 {
		for b := range 3 {
			near(t, "covariance", v.At(a, b)/inverse.At(a, b), 1, 1e-7)
		}
	}
	not := simple()
	not.matrix.SetSym(0, 1, 0.3) // more than the root of 4 * 0.01
	if not.step(1e-3) != nil || not.spread() != nil {
		t.Error("a matrix that is not positive definite has a step")
	}
	if not.step(3) == nil {
		t.Error("well damped, it has none")
	}
}

// A curve whose every parameter is off comes back to sights without noise.
func TestPolishFindsTheCurve(t *testing.T) {
	want, sights := around(0)
	c := &curve{start: pose{want.start.x + 1, want.start.y - 1.5, want.start.heading + 0.02}}
	for j, a := range want.arcs {
		a.meters += float64(j%3 - 1)
		a.bend *= 1 + 0.01*float64(j%4-1)
		c.arcs = append(c.arcs, a)
	}
	got, q := c.polish(sights, 0.25, firstSteps)
	if q.misfit > 1e-6 {
		t.Errorf("misfit %.3g", q.misfit)
	}
	for j, w := range want.arcs {
		near(t, "meters", got.arcs[j].meters, w.meters, 0.01)
		near(t, "bend", got.arcs[j].bend, w.bend, 1e-5)
	}
	// It never gets worse, and without steps it stays.
	same, q0 := c.polish(sights, 0.25, 0)
	if same != c || q0.misfit <= q.misfit {
		t.Errorf("no steps: misfit %g", q0.misfit)
	}
}
