package planner

import (
	"math"
	"slices"
)

// bins is the resolution of a histogram: fine enough that a bin of a column
// of draws holds a few values.
const bins = 2048

// histogram finds order statistics and counts of a column of draws in linear
// time, exactly: the bins narrow the search down, the values decide. It keeps
// its scratch space between columns.
type histogram struct {
	lo, scale float64
	counts    [bins]int32    // of the draws in a bin; once it is summarised, in it and lower ones
	id        []uint16       // each draw's bin
	look      [wanted]uint16 // bins whose values are looked at
	slot      [1 << 16]uint8 // by bin: where its values are found, 0 where they are not looked at
	found     [wanted + 1][]float64
}

// wanted is how many bins the values are looked at of at most: those of the
// quantiles, the limit and the margin.
const wanted = 5

func newHistogram(draws int) *histogram {
	return &histogram{id: make([]uint16, draws)}
}

// open starts a column whose values lie between lo and hi, or a rounding
// error beyond.
func (h *histogram) open(lo, hi float64) {
	const slack = 1e-6
	clear(h.counts[:])
	h.lo, h.scale = lo-float64(slack*(hi-lo)), 0
	if scale := (1 - 3*slack) * bins / (hi - lo); !math.IsInf(scale, 0) {
		h.scale = scale
	}
}

// bin is the bin of a value of the column.
func (h *histogram) bin(v float64) uint16 { return uint16((v-h.lo)*h.scale) & (bins - 1) }

// line is the bin of a value that may lie outside the column.
func (h *histogram) line(v float64) uint16 {
	return uint16(min(max((v-h.lo)*h.scale, 0), bins-1))
}

// fill counts a whole column.
func (h *histogram) fill(x []float64) {
	h.open(extremes(x))
	h.count(x)
}

// count counts a column that keeps to the bounds given to open.
func (h *histogram) count(x []float64) {
	id := h.id[:len(x)]
	for k, v := range x {
		b := h.bin(v)
		id[k] = b
		h.counts[b]++
	}
}

// band summarises the column x that was counted: the quantiles of a band and
// the shares at or below the limit and the margin.
func (h *histogram) band(x []float64, limit, margin float64) Band {
	total := int32(0)
	for b, c := range h.counts {
		total += c
		h.counts[b] = total
	}
	var bin [3]uint16
	var rank [3]int
	for i, share := range bandShares {
		r := max(0, int32(math.Ceil(share*float64(len(x))))-1)
		at, _ := slices.BinarySearch(h.counts[:], r+1)
		bin[i], rank[i] = uint16(at), int(r-h.below(at))
	}
	atLimit, atMargin := h.line(limit), h.line(margin)
	h.collect(x, [wanted]uint16{bin[0], bin[1], bin[2], atLimit, atMargin})

	var q [3]float64
	for i, b := range bin {
		found := h.found[h.slot[b]]
		slices.Sort(found)
		q[i] = found[rank[i]]
	}
	return Band{
		P5: q[0], P50: q[1], P95: q[2],
		PLimit: h.share(atLimit, limit), PMargin: h.share(atMargin, margin),
	}
}

// collect gathers the values of the bins that are looked at.
func (h *histogram) collect(x []float64, look [wanted]uint16) {
	for _, b := range h.look {
		h.slot[b] = 0
	}
	h.look = look
	for i, b := range look {
		h.slot[b] = uint8(i + 1)
		h.found[i+1] = h.found[i+1][:0]
	}
	id := h.id[:len(x)]
	for k := range len(x) / 8 { // most eights hold none: a branch that is foretold
		b := (*[8]uint16)(id[8*k:])
		if h.slot[b[0]]|h.slot[b[1]]|h.slot[b[2]]|h.slot[b[3]]|h.slot[b[4]]|h.slot[b[5]]|h.slot[b[6]]|h.slot[b[7]] != 0 {
			h.gather(b[:], x[8*k:])
		}
	}
	rest := len(x) &^ 7
	h.gather(id[rest:], x[rest:])
}

// gather keeps the values of draws in bins that are looked at.
func (h *histogram) gather(id []uint16, x []float64) {
	for k, b := range id {
		if i := h.slot[b]; i != 0 {
			h.found[i] = append(h.found[i], x[k])
		}
	}
}

// below is how many draws lie in lower bins, once counts are sums.
func (h *histogram) below(bin int) int32 {
	if bin == 0 {
		return 0
	}
	return h.counts[bin-1]
}

// share is the share of the column at or below a value of the given bin.
func (h *histogram) share(bin uint16, value float64) float64 {
	n := h.below(int(bin))
	for _, v := range h.found[h.slot[bin]] {
		if v <= value {
			n++
		}
	}
	return float64(n) / float64(len(h.id))
}
