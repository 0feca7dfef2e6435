package projection

import (
	"math"
	"slices"

	"example.com/tripwear/planner/plan"
)

// bandShares are the quantiles of a band.
var bandShares = [3]float64{0.05, 0.50, 0.95}

// bins is the resolution of a histogram: fine enough that a bin of a column
// of draws holds a few values.
const bins = 2048

// histogram finds order statistics and counts of a column of draws in linear
// time, exactly: the bins narrow the search down, the values decide. It keeps
// its scratch space between columns.
type histogram struct {
	span   span
	bin    []uint16     // of every draw
	upTo   [bins]int32  // how many draws lie in a bin or below
	slot   [bins]uint8  // by bin, where its values are collected; 0 where they are not
	values [6][]float64 // by slot: the bins of three quantiles, the limit and the margin
}

func newHistogram(draws int) *histogram { return &histogram{bin: make([]uint16, draws)} }

// span is a range of values, divided into bins.
type span struct{ lo, scale float64 }

// newSpan lays the bins over values from lo to hi, or a rounding error beyond.
func newSpan(lo, hi float64) span {
	const slack = 1e-6
	width := hi - lo
	if width <= slack*max(math.Abs(lo), math.Abs(hi)) {
		return span{lo, 0} // one bin for all
	}
	return span{lo - float64(slack*width), (1 - 3*slack) * bins / width}
}

// bin is the bin of a value within the span.
func (s span) bin(v float64) uint16 { return uint16((v-s.lo)*s.scale) % bins }

// line is the bin of a value that may lie outside the span.
func (s span) line(v float64) uint16 {
	return uint16(min(max((v-s.lo)*s.scale, 0), bins-1))
}

// count counts a column into the bins.
func (h *histogram) count(x *column) {
	span, bin, counts := newSpan(x.lo, x.hi), h.bin[:len(x.Values)], &h.upTo
	h.span, *counts = span, [bins]int32{}
	for k, v := range x.Values {
		b := span.bin(v)
		bin[k] = b
		counts[b]++
	}
	sum := int32(0)
	for b := range counts {
		sum += counts[b]
		counts[b] = sum
	}
}

// below is how many draws lie in lower bins.
func (h *histogram) below(bin uint16) int32 {
	if bin == 0 {
		return 0
	}
	return h.upTo[bin-1]
}

// collect lists the values of some bins.
func (h *histogram) collect(x []float64, wanted ...uint16) {
	slot := &h.slot
	*slot = [bins]uint8{}
	for i, b := range wanted {
		slot[b] = uint8(i + 1)
		h.values[i+1] = h.values[i+1][:0]
	}
	for k, b := range h.bin[:len(x)] {
		if i := slot[b%bins]; i != 0 {
			h.values[i] = append(h.values[i], x[k])
		}
	}
}

// band summarises a column: the quantiles of a band and the shares at or below
// the limit and the margin.
func (h *histogram) band(x *column, limit, margin float64) plan.Band {
	h.count(x)
	var bin [len(bandShares)]uint16
	var rank [len(bandShares)]int32
	for i, share := range bandShares {
		rank[i] = max(0, int32(math.Ceil(share*float64(len(x.Values))))-1)
		b, _ := slices.BinarySearch(h.upTo[:], rank[i]+1)
		bin[i] = uint16(b)
	}
	h.collect(x.Values, bin[0], bin[1], bin[2], h.span.line(limit), h.span.line(margin))
	var q [len(bandShares)]float64
	for i, b := range bin {
		values := h.values[h.slot[b]]
		slices.Sort(values)
		q[i] = values[rank[i]-h.below(b)]
	}
	return plan.Band{P5: q[0], P50: q[1], P95: q[2], PLimit: h.share(limit), PMargin: h.share(margin)}
}

// share is the share of the column at or below a line whose bin was collected.
func (h *histogram) share(line float64) float64 {
	b := h.span.line(line)
	n := h.below(b)
	for _, v := range h.values[h.slot[b]] {
		if v <= line {
			n++
		}
	}
	return float64(n) / float64(len(h.bin))
}

// shareUpTo is the share of some numbers at or below a line.
func shareUpTo(x []float64, line float64) float64 {
	n := 0
	for _, v := range x {
		if v <= line {
			n++
		}
	}
	return float64(n) / float64(len(x))
}
