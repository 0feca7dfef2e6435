package trace

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/mat"
)

// Load is speed times angle: lefts of 2 rad at 20 m/s and 3 rad at 10, rights
// of 1 rad at 30. A straight says nothing.
func TestLeftShareByHand(t *testing.T) {
	all := []stretch{{0, 0, 50, 2, 20}, {0, 0, 40, -1, 30}, {0, 0, 90, 0, 60}, {0, 0, 30, 3, 10}}
	// Bends and lengths are known by themselves: a variance each.
	q := &ties{bend: []int{3, 5, -1, 8}, length: []int{4, 6, 7, 9}, pull: make([]float64, 10)}
	variance := []float64{1, 1, 1, 1e-6, 4, 4e-6, 9, 16, 2e-5, 1}
	q.matrix = mat.NewSymDense(10, nil)
	for a, v := range variance {
		q.matrix.SetSym(a, a, 1/v)
	}
	share, sd := leftShare(all, q)
	const left, whole = 70.0, 100.0
	near(t, "share", share, left/whole, 1e-12)
	// Load goes with the root of the bend and with the length: relative
	// variances, and the share of load L moves by (1 - share) dL/100 for a left
	// and -share dL/100 for a right.
	relative := func(bend, meters, vb, vm float64) float64 { return vb/bend/bend/4 + vm/meters/meters }
	want := 0.3*0.3*(0.4*0.4*relative(0.04, 50, 1e-6, 4)+0.3*0.3*relative(0.1, 30, 2e-5, 1)) +
		0.7*0.7*0.3*0.3*relative(0.025, 40, 4e-6, 9)
	near(t, "deviation", sd, math.Sqrt(1.5*1.5*want+0.003*0.003), 1e-8)
}

// The deviation of a whole lap's share is its gradient, by differences, on the
// covariance of the parameters; grip gives a corner the speed that goes with
// the root of its radius.
func TestShareDeviationByDifferences(t *testing.T) {
	c, sights := around(0.5)
	q := c.tie(sights, 0.25)
	stretches := func(c *curve) (all []stretch) {
		for _, a := range c.arcs {
			speed := 60.0
			if !a.straight {
				speed = math.Sqrt(9 / math.Abs(a.bend))
			}
			all = append(all, stretch{meters: a.meters, turn: a.bend * a.meters, speed: speed})
		}
		return all
	}
	share, sd := leftShare(stretches(c), q)
	gradient := mat.NewVecDense(len(q.pull), nil)
	for a := 3; a < len(q.pull); a++ {
		by := make([]float64, len(q.pull))
		by[a] = 1e-6
		up, _ := leftShare(stretches(c.moved(q, by)), q)
		gradient.SetVec(a, (up-share)/1e-6)
	}
	want := math.Sqrt(2.25*mat.Inner(gradient, q.spread(), gradient) + 9e-6)
	near(t, "deviation", sd/want, 1, 1e-3)
}

// Where nothing is known the share is one half or known to one half.
func TestLeftShareUnknown(t *testing.T) {
	not := simple()
	not.matrix.SetSym(0, 1, 0.3)
	if share, sd := leftShare([]stretch{{0, 0, 90, 0, 30}}, not); share != 0.5 || sd != 0.5 {
		t.Errorf("no turn: %g, %g", share, sd)
	}
	if share, sd := leftShare([]stretch{{0, 0, 90, 1, 30}, {0, 0, 90, -1, 10}}, not); share != 0.75 || sd != 0.5 {
		t.Errorf("no covariance: %g, %g", share, sd)
	}
	loose := &ties{bend: []int{0, 2}, length: []int{1, 3}, pull: make([]float64, 4), matrix: mat.NewSymDense(4, nil)}
	for a := range 4 {
		loose.matrix.SetSym(a, a, 1e-6)
	}
	if _, sd := leftShare([]stretch{{0, 0, 90, 1, 30}, {0, 0, 90, -1, 10}}, loose); sd != 0.5 {
		t.Errorf("hardly known: %g", sd)
	}
}
