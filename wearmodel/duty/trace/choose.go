package trace

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// How many arcs the fixes speak for. Engineering choices.
const (
	firstSteps  = 12  // of the first fit
	laterSteps  = 6   // of one with an arc less
	hopeful     = 3   // times the price, beyond which an arc is not tried without
	mostRefused = 4   // tries in a row that fail
	mostWork    = 1e9 // multiplications, about: a lap of 20 corners takes a tenth
)

// choice is a way to a simpler curve.
type choice struct {
	kind int
	arc  int
	cost float64 // what it adds to the misfit, if all were linear
	free int     // parameters it does away with
}

const (
	straighten = iota // the arc becomes a straight
	unite             // the arc and the next become one
	leaveOut          // the straight goes
)

// simplify fits the curve and takes arcs away as long as the misfit rises by
// less than the price of the parameters they had, the logarithm of the number
// of fixes for each (the criterion of G. Schwarz, Annals of Statistics 6
// (1978)). What noise alone has bent is gone then.
func (c *curve) simplify(sights []sight, variance float64) (*curve, *ties) {
	count := 0.0
	for _, s := range sights {
		count += s.weight
	}
	price := math.Log(math.Max(math.E, count))
	c, q := c.polish(sights, variance, firstSteps)
	refused := map[choice]bool{}
	for work := 0.0; work < mostWork; work += float64(laterSteps * math.Pow(float64(len(q.pull)), 3)) {
		spread := q.spread()
		if spread == nil {
			return c, q
		}
		best := choice{cost: math.Inf(1)}
		for _, o := range c.choices(q, spread) {
			if !refused[choice{kind: o.kind, arc: o.arc}] && o.cost-float64(price*float64(o.free)) < best.cost-float64(price*float64(best.free)) {
				best = o
			}
		}
		if best.cost > hopeful*price*float64(best.free) || len(refused) >= mostRefused {
			return c, q
		}
		simpler := c.take(best, q, spread, sights, variance)
		if simpler.possible() {
			m, mq := simpler.polish(sights, variance, laterSteps)
			if mq.misfit-q.misfit < price*float64(len(q.pull)-len(mq.pull)) {
				c, q = m, mq
				clear(refused)
				continue
			}
		}
		refused[choice{kind: best.kind, arc: best.arc}] = true
	}
	return c, q
}

// spread is the covariance of the parameters, nil where there is none.
func (q *ties) spread() *mat.SymDense {
	factor, scale := q.factor(1e-9)
	var v mat.SymDense
	if factor == nil || factor.InverseTo(&v) != nil {
		return nil
	}
	for a := range scale {
		for b := range a + 1 {
			v.SetSym(a, b, v.At(a, b)*scale[a]*scale[b])
		}
	}
	return &v
}

// choices lists the ways to a simpler curve, each with Wald's statistic.
func (c *curve) choices(q *ties, v *mat.SymDense) []choice {
	var out []choice
	for j, a := range c.arcs {
		l := q.length[j]
		if a.straight {
			if len(c.arcs) > 2 {
				out = append(out, choice{leaveOut, j, a.meters * a.meters / v.At(l, l), 1})
			}
			continue
		}
		b := q.bend[j]
		out = append(out, choice{straighten, j, a.bend * a.bend / v.At(b, b), 1})
		if j+1 < len(c.arcs) && !c.arcs[j+1].straight {
			n := q.bend[j+1]
			d := a.bend - c.arcs[j+1].bend
			out = append(out, choice{unite, j, d * d / (v.At(b, b) + v.At(n, n) - 2*v.At(b, n)), 2})
		}
	}
	return out
}

// take makes a choice: the step that fulfils it at the least misfit, were all
// linear, and then the arc less.
func (c *curve) take(o choice, q *ties, v *mat.SymDense, sights []sight, variance float64) *curve {
	size := len(q.pull)
	along := make([]float64, size)
	var off float64
	switch j := o.arc; o.kind {
	case straighten:
		along[q.bend[j]], off = 1, c.arcs[j].bend
	case unite:
		along[q.bend[j]], along[q.bend[j+1]] = 1, -1
		off = c.arcs[j].bend - c.arcs[j+1].bend
	case leaveOut:
		along[q.length[j]], off = 1, c.arcs[j].meters
	}
	w := mat.NewVecDense(size, along)
	var by mat.VecDense
	by.MulVec(v, w)
	by.ScaleVec(-off/mat.Dot(w, &by), &by)
	m := c.moved(q, by.RawVector().Data).reduced(o)
	if o.kind != unite {
		return m
	}
	// Where the arcs differ little the border between them may lie anywhere, and
	// the step goes too far.
	if plain := c.moved(q, make([]float64, size)).reduced(o); plain.tie(sights, variance).misfit < m.tie(sights, variance).misfit {
		return plain
	}
	return m
}

// reduced makes a choice as it stands: the curve m itself, with less arcs.
func (m *curve) reduced(o choice) *curve {
	a := &m.arcs[o.arc]
	switch o.kind {
	case straighten:
		a.bend, a.straight = 0, true
	case unite:
		b := m.arcs[o.arc+1]
		turn := float64(a.bend*a.meters) + float64(b.bend*b.meters)
		a.meters += b.meters
		a.bend = turn / a.meters
		m.drop(o.arc + 1)
	case leaveOut:
		m.drop(o.arc)
	}
	for j := 0; j+1 < len(m.arcs); j++ {
		if m.arcs[j].straight && m.arcs[j+1].straight {
			m.arcs[j].meters += m.arcs[j+1].meters
			m.drop(j + 1)
			j--
		}
	}
	return m
}

func (c *curve) drop(j int) { c.arcs = append(c.arcs[:j], c.arcs[j+1:]...) }
