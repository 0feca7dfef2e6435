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
	ownWay       = 5.0 // m to one side between the nearest of two groups of laps, at least
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
	if f != nil {
		f.tellSlow(tr, o, parts)
	}
	return f, parts
}

// tellSlow looks which of the laps that are too slow are so because they go
// another way than the line.
func (f *fitted) tellSlow(tr *track, o *outline, parts []part) {
	slow := slices.Clone(parts)
	var of []*part
	for i := range slow {
		switch p := &slow[i]; {
		case p.hot():
			p.why = "used"
		case p.slow:
			p.why = ""
			of = append(of, &parts[i])
		}
	}
	if len(of) == 0 {
		return
	}
	g := *f
	_, g.places, _ = start(tr, o, slow, f.total())
	for k := range g.places {
		p := &g.places[k]
		if len(of) == 1 {
			p.lap = 0
		}
		p.segment = f.nearest(p.x, p.y, p.segment, len(f.x)/25)
	}
	limit := waysApart(f.besideEachLap(len(f.slow)))
	for l, bins := range g.besideEachLap(len(of)) {
		at := 0
		for b := range bins {
			if math.Abs(bins[b]) > math.Abs(bins[at]) {
				at = b
			}
		}
		if math.Abs(bins[at]) > limit {
			of[l].why = f.anotherWay(bins[at], at, len(bins))
		}
	}
}

// waysApart is how far laps must part to go two ways, by how far those used do.
func waysApart(apart [][]float64) float64 {
	const toSpread = 1.4826 // of a normal distribution over its median absolute value
	var sizes []float64
	for _, bins := range apart {
		for _, v := range bins {
			sizes = append(sizes, math.Abs(v))
		}
	}
	fewer := 1 + 2/float64(len(apart))
	return math.Max(ownWay, ownWaySpread*fewer*toSpread*median(sizes))
}

// anotherWay says where a lap parts from the line, and how far.
func (f *fitted) anotherWay(left float64, bin, bins int) string {
	side := "left"
	if left < 0 {
		side = "right"
	}
	return fmt.Sprintf("goes another way than the laps used: up to %.0f m to their %s, %.1f km into the lap",
		math.Abs(left), side, float64(bin)/float64(bins)*f.total()/1000)
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
	most, at, count := 0.0, 0, 0 // the widest gap, where, and how many laps are to its right
	laps := make([]int, len(used))
	var order []int
	for b := range bins {
		for l := range laps {
			laps[l] = l
		}
		slices.SortStableFunc(laps, func(i, j int) int { return cmp.Compare(apart[i][b], apart[j][b]) })
		for l := 1; l < len(laps); l++ {
			if gap := apart[laps[l]][b] - apart[laps[l-1]][b]; gap > most {
				most, at, count = gap, b, l
				order = slices.Clone(laps)
			}
		}
	}
	if most < waysApart(apart) {
		return false
	}
	fastest := func(group []int) (least float64) {
		least = math.Inf(1)
		for _, l := range group {
			least = math.Min(least, parts[used[l]].seconds())
		}
		return least
	}
	right, left := order[:count], order[count:]
	most = -most
	if len(right) > len(left) || len(right) == len(left) && fastest(right) < fastest(left) {
		right, left, most = left, right, -most
	}
	for _, l := range right {
		parts[used[l]].why = f.anotherWay(most, at, bins)
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
