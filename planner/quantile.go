package planner

import (
	"math"
	"slices"
)

// bins is the resolution of the first pass; each bin then holds a few values.
const bins = 2048

// quantiles finds order statistics of a column of draws in linear time. It
// keeps its scratch space between calls.
type quantiles struct {
	count  [bins]int32
	within []float64
}

// at fills out with the empirical quantiles of x at the rising shares p: for
// each, the smallest value with at least that share of x at or below it.
func (q *quantiles) at(x []float64, p, out []float64) {
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, v := range x {
		lo, hi = min(lo, v), max(hi, v)
	}
	if lo == hi {
		for i := range p {
			out[i] = lo
		}
		return
	}
	clear(q.count[:])
	scale := (bins - 1) / (hi - lo)
	for _, v := range x {
		q.count[int((v-lo)*scale)]++
	}
	bin, below := 0, int32(0)
	for i, share := range p {
		rank := max(0, int32(math.Ceil(share*float64(len(x))))-1)
		for below+q.count[bin] <= rank {
			below += q.count[bin]
			bin++
		}
		out[i] = q.inBin(x, lo, scale, bin, int(rank-below))
	}
}

// inBin returns the value of the given rank among those of one bin.
func (q *quantiles) inBin(x []float64, lo, scale float64, bin, rank int) float64 {
	q.within = q.within[:0]
	for _, v := range x {
		if int((v-lo)*scale) == bin {
			q.within = append(q.within, v)
		}
	}
	slices.Sort(q.within)
	return q.within[rank]
}
