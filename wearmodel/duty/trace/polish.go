package trace

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// How a corner list is fitted to the sights. Engineering choices.
const (
	closedBy    = 0.05 // m, one standard deviation of the gap at the end of a lap
	closedTurn  = 1e-3 // rad, and of the direction there
	steadyBy    = 1e-3 // of the misfit, that a last step takes off at most
	firstDamp   = 1e-3 // Marquardt's factor
	mostDamp    = 1e4
	shortestArc = 1.0           // m
	mostTurn    = 1.9 * math.Pi // rad, of one arc
)

// ties are the normal equations of a curve: how its misfit answers to its
// start and to the bend and length of every arc.
type ties struct {
	matrix *mat.SymDense
	pull   []float64
	misfit float64 // in variances of one fix
	bend   []int   // where each arc's bend stands; -1 of a straight
	length []int   // and its length
}

// tie works out the normal equations. A change of an arc moves all that comes
// after it as a stiff body: a shift in two directions and a turn about the
// origin. So a sight is summed once with those three, whatever the number of
// arcs before it.
func (c *curve) tie(sights []sight, variance float64) *ties {
	type vec = [3]float64
	n := len(c.arcs)
	q := &ties{bend: make([]int, n), length: make([]int, n)}
	at, middles := c.poses()
	size := 3
	arcOf := []int{-1, -1, -1} // before all
	for j, a := range c.arcs {
		q.bend[j] = -1
		if !a.straight {
			q.bend[j] = size
			arcOf = append(arcOf, j)
			size++
		}
		q.length[j] = size
		arcOf = append(arcOf, j)
		size++
	}
	// Movers: what a unit of each does to all places after its arc.
	movers := make([]vec, size)
	movers[0], movers[1], movers[2] = vec{1, 0, 0}, vec{0, 1, 0}, vec{c.start.y, -c.start.x, 1}
	for j, a := range c.arcs {
		if b := q.bend[j]; b >= 0 {
			m := middles[j]
			movers[b] = vec{a.meters * m[1], -a.meters * m[0], a.meters}
		}
		e := at[j+1]
		sin, cos := math.Sincos(e.heading)
		movers[q.length[j]] = vec{cos + float64(a.bend*e.y), sin - float64(a.bend*e.x), a.bend}
	}
	// Sums over the sights of each arc.
	type sums struct {
		rigid   [3][3]float64
		pull    vec
		own     vec // own bend with the three
		ownOwn  float64
		ownPull float64
	}
	arcs := make([]sums, n+1)
	c.pass(at, sights, func(k, j int, s, left float64) {
		w := sights[k].weight / variance
		if w == 0 {
			return
		}
		here, middle := at[j].along(c.arcs[j].bend, s)
		sin, cos := math.Sincos(here.heading)
		b := vec{-sin, cos, float64(sin*here.y) + float64(cos*here.x)}
		own := s * (b[2] + float64(b[0]*middle[1]) - float64(b[1]*middle[0]))
		t := &arcs[j]
		q.misfit += float64(w * left * left)
		t.ownOwn += float64(w * own * own)
		t.ownPull += float64(w * own * left)
		for d := range b {
			t.pull[d] += float64(w * b[d] * left)
			t.own[d] += float64(w * own * b[d])
			for e := range b {
				t.rigid[d][e] += float64(w * b[d] * b[e])
			}
		}
	})
	// Sums over the sights of an arc and all after it.
	after := make([]sums, n+2)
	for j := n - 1; j >= 0; j-- {
		after[j] = after[j+1]
		for d := range 3 {
			after[j].pull[d] += arcs[j].pull[d]
			for e := range 3 {
				after[j].rigid[d][e] += arcs[j].rigid[d][e]
			}
		}
	}
	q.matrix, q.pull = mat.NewSymDense(size, nil), make([]float64, size)
	for b, m := range movers {
		j := arcOf[b]
		later := after[j+1]
		var moved vec // the later sights as this one moves them
		for d := range 3 {
			q.pull[b] += float64(m[d] * later.pull[d])
			for e := range 3 {
				moved[d] += float64(later.rigid[d][e] * m[e])
			}
		}
		isBend := j >= 0 && q.bend[j] == b
		if isBend {
			q.pull[b] += arcs[j].ownPull
		}
		for a := 0; a <= b; a++ {
			v := dot(movers[a][:], moved[:])
			switch {
			case isBend && a == b:
				v += arcs[j].ownOwn
			case isBend:
				v += dot(movers[a][:], arcs[j].own[:])
			}
			q.matrix.SetSym(a, b, v)
		}
	}
	c.close(q, at, movers)
	return q
}

// close adds that the lap ends where it began.
func (c *curve) close(q *ties, at []pose, movers [][3]float64) {
	end := at[len(c.arcs)]
	turned := end.heading - c.start.heading
	size := len(movers)
	rows := [3][]float64{make([]float64, size), make([]float64, size), make([]float64, size)}
	for a := 2; a < size; a++ {
		m := movers[a]
		rows[0][a] = (m[0] - float64(m[2]*end.y)) / closedBy
		rows[1][a] = (m[1] + float64(m[2]*end.x)) / closedBy
		if a > 2 {
			rows[2][a] = m[2] / closedTurn
		}
	}
	miss := [3]float64{
		(c.start.x - end.x) / closedBy, (c.start.y - end.y) / closedBy,
		-math.Remainder(turned, 2*math.Pi) / closedTurn,
	}
	for r, row := range rows {
		q.matrix.SymRankOne(q.matrix, 1, mat.NewVecDense(size, row))
		q.misfit += float64(miss[r] * miss[r])
		for a, v := range row {
			q.pull[a] += float64(v * miss[r])
		}
	}
}

// moved is the curve a step further.
func (c *curve) moved(q *ties, by []float64) *curve {
	m := &curve{pose{c.start.x + by[0], c.start.y + by[1], c.start.heading + by[2]}, append([]arc(nil), c.arcs...)}
	for j := range m.arcs {
		a := &m.arcs[j]
		if b := q.bend[j]; b >= 0 {
			a.bend += by[b]
		}
		a.meters += by[q.length[j]]
	}
	return m
}

// possible says that no arc has vanished or gone round itself.
func (c *curve) possible() bool {
	for _, a := range c.arcs {
		if !(a.meters >= shortestArc && math.Abs(a.bend*a.meters) < mostTurn) {
			return false
		}
	}
	return len(c.arcs) > 1
}

// polish finds the curve of least misfit near the given one by the method of
// Levenberg and Marquardt (D. W. Marquardt, J. SIAM 11 (1963)).
func (c *curve) polish(sights []sight, variance float64, steps int) (*curve, *ties) {
	q := c.tie(sights, variance)
	damp := firstDamp
	for range steps {
		better := false
		if by := q.step(damp); by != nil {
			if m := c.moved(q, by); m.possible() {
				if next := m.tie(sights, variance); next.misfit < q.misfit {
					done := next.misfit > q.misfit*(1-steadyBy)
					c, q, better = m, next, true
					if damp /= 10; done {
						break
					}
				}
			}
		}
		if !better {
			if damp = damp * 10; damp > mostDamp {
				break
			}
		}
	}
	return c, q
}

// factor is that of the matrix with its diagonal raised by a share and scaled
// to one: nil where it is not positive definite. Meters and bends differ by
// many powers of ten.
func (q *ties) factor(raise float64) (*mat.Cholesky, []float64) {
	size := len(q.pull)
	scale := make([]float64, size)
	for a := range scale {
		scale[a] = 1 / math.Sqrt(math.Max(1e-12, q.matrix.At(a, a)))
	}
	scaled := mat.NewSymDense(size, nil)
	for a := range size {
		for b := range a {
			scaled.SetSym(a, b, q.matrix.At(a, b)*scale[a]*scale[b])
		}
		scaled.SetSym(a, a, 1+raise)
	}
	var factor mat.Cholesky
	if !factor.Factorize(scaled) {
		return nil, nil
	}
	return &factor, scale
}

// step is the way to the least misfit, damped.
func (q *ties) step(damp float64) []float64 {
	factor, scale := q.factor(damp)
	if factor == nil {
		return nil
	}
	by := make([]float64, len(scale))
	for a, s := range scale {
		by[a] = q.pull[a] * s
	}
	v := mat.NewVecDense(len(by), by)
	if factor.SolveVecTo(v, v) != nil {
		return nil
	}
	for a, s := range scale {
		by[a] *= s
	}
	return by
}
