package trace

import (
	"cmp"
	"fmt"
	"math"
	"slices"
)

// How laps of another way round are told: some circuits have a chicane that is
// driven on some laps only. Engineering choices.
const (
	ownWay       = 8.0 // m to one side between the nearest of two groups of laps, at least
	ownWaySpread = 5.0 // spreads of how far laps are off the line anywhere, for many laps
	binNodes     = 10  // nodes whose fixes are taken together
	mostWays     = 4   // round a circuit that are told apart
	lasting      = 8   // bins to either side: what differs longer is the receiver's slow error
)

// fitOneWay fits the line of the laps that go one way, and says which they are.
func (tr *track) fitOneWay(o *outline, whole []part) (*fitted, []part) {
	parts := slices.Clone(whole)
	judge(parts, slowLap)
	// Several laps that are not much slower may go another way.
	more := slices.Clone(whole)
	judge(more, improving)
	if count := func(parts []part) (n int) {
		for _, p := range parts {
			if p.hot() {
				n++
			}
		}
		return n
	}; count(more) >= count(parts)+2 {
		if f := fitSoundly(tr, o, more); f != nil && f.variants(more) {
			judge(more, slowLap)
			parts = more
		}
	}
	if !slices.ContainsFunc(parts, part.hot) {
		return nil, parts
	}
	f := fitSoundly(tr, o, parts)
	for range mostWays {
		fewer := slices.Clone(parts)
		if f == nil || !f.variants(fewer) {
			break
		}
		g := fitSoundly(tr, o, fewer)
		if g == nil {
			break
		}
		f, parts = g, fewer
	}
	return f, parts
}

// variants looks for the place where the laps part the most. Where they do, the
// larger group stays, of two as large the one with the fastest lap, and the
// laps of the other are told what they are. It says whether there were any.
func (f *fitted) variants(parts []part) bool {
	var used []int
	for i, p := range parts {
		if p.hot() {
			used = append(used, i)
		}
	}
	if len(used) < 2 {
		return false
	}
	apart := f.besideEachLap(len(used))
	bins := len(apart[0])
	var sizes []float64
	most, at, count := 0.0, 0, 0 // the widest gap, where, and how many laps are to its right
	laps := make([]int, len(used))
	var order []int
	for b := range bins {
		for l := range laps {
			laps[l] = l
			sizes = append(sizes, math.Abs(apart[l][b]))
		}
		slices.SortStableFunc(laps, func(i, j int) int { return cmp.Compare(apart[i][b], apart[j][b]) })
		for l := 1; l < len(laps); l++ {
			if gap := apart[laps[l]][b] - apart[laps[l-1]][b]; gap > most {
				most, at, count = gap, b, l
				order = slices.Clone(laps)
			}
		}
	}
	const toSpread = 1.4826 // of a normal distribution over its median absolute value
	if fewer := 1 + 2/float64(len(used)); most < math.Max(ownWay, ownWaySpread*fewer*toSpread*median(sizes)) {
		return false
	}
	fastest := func(group []int) (least float64) {
		least = math.Inf(1)
		for _, l := range group {
			least = math.Min(least, parts[used[l]].seconds())
		}
		return least
	}
	right, left, side := order[:count], order[count:], "right"
	if len(right) > len(left) || len(right) == len(left) && fastest(right) < fastest(left) {
		right, left, side = left, right, "left"
	}
	for _, l := range right {
		parts[used[l]].why = fmt.Sprintf("goes another way than the laps used: up to %.0f m to their %s, %.1f km into the lap",
			most, side, float64(at)/float64(bins)*f.total()/1000)
	}
	return true
}

// besideEachLap is how far to the left of the line each lap goes, m, bin by bin
// along it, less what lasts; 0 where there are no fixes.
func (f *fitted) besideEachLap(laps int) [][]float64 {
	bins := len(f.x) / binNodes
	sum, fixes := make([][]float64, laps), make([][]float64, laps)
	for l := range laps {
		sum[l], fixes[l] = make([]float64, bins), make([]float64, bins)
	}
	// A lap's own offset is to the left on one straight and to the right on the next.
	offset := make([]knot, laps)
	place := func(p place) (node int, nx, ny, left float64) {
		i, _, left := f.locate(p.x, p.y, p.segment)
		return i, -f.dir[i][1], f.dir[i][0], left
	}
	for _, p := range f.places {
		_, nx, ny, left := place(p)
		offset[p.lap].add(nx, ny, left, 1)
	}
	for l := range offset {
		offset[l].x, offset[l].y = offset[l].solve()
	}
	for _, p := range f.places {
		i, nx, ny, left := place(p)
		b := min(i/binNodes, bins-1)
		sum[p.lap][b] += left - float64(nx*offset[p.lap].x) - float64(ny*offset[p.lap].y)
		fixes[p.lap][b]++
	}
	mean := func(l, from, to int) float64 {
		s, n := 0.0, 0.0
		for b := from; b <= to; b++ {
			at := (b%bins + bins) % bins
			s, n = s+sum[l][at], n+fixes[l][at]
		}
		return s / math.Max(1, n)
	}
	out := make([][]float64, laps)
	for l := range out {
		out[l] = make([]float64, bins)
		for b := range bins {
			out[l][b] = mean(l, b-1, b+1) - float64((mean(l, b-lasting, b-3)+mean(l, b+3, b+lasting))/2)
		}
	}
	return out
}
