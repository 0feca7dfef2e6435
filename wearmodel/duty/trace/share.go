package trace

import (
	"math"
	"math/bits"
)

// sides is the curvature of every node to the left and to the right, 1/m: its
// size from one half of the laps, its side from the other. On a straight,
// where the halves know nothing but noise, both are 0 in the mean; the size of
// the curvature of all laps would not be, and would pull the share to one half.
type sides struct{ left, right, sure []float64 } // sure: share of the halves that turn left

// of is the curvature to one side, less that to the other.
func (h sides) of(side, i int) float64 {
	if side == leftSide {
		return h.left[i] - h.right[i]
	}
	return h.right[i] - h.left[i]
}

const (
	leftSide = iota
	rightSide
)

// halve splits the laps by Walsh's functions, in as many ways as differ.
func (f *fitted) halve() sides {
	n := len(f.x)
	h := sides{make([]float64, n), make([]float64, n), make([]float64, n)}
	seen := map[uint]bool{0: true}
	for mask := range uint(mostFolds) {
		key := uint(0)
		for k := range f.folds {
			key |= uint(bits.OnesCount(uint(k)&mask)%2) << k
		}
		if seen[key] {
			continue
		}
		seen[key] = true
		split := [2]*pulls{newPulls(n), newPulls(n)}
		ones := bits.OnesCount(key)
		for k, fold := range f.folds {
			half := key >> k & 1
			split[half].add(fold, float64(len(f.folds))/float64([2]int{len(f.folds) - ones, ones}[half]))
		}
		a, b := f.twice(split[0]), f.twice(split[1])
		for i := range n {
			h.count(i, a[i], b[i])
			h.count(i, b[i], a[i])
		}
	}
	for i := range n {
		count := float64(2 * (len(seen) - 1))
		h.left[i], h.right[i], h.sure[i] = h.left[i]/count, h.right[i]/count, h.sure[i]/count
	}
	f.prune(h)
	return h
}

// count adds a size to the side that another curvature says.
func (h sides) count(i int, size, side float64) {
	if side > 0 {
		h.left[i] += size
		h.sure[i]++
	} else {
		h.right[i] -= size
	}
}

// Beside a corner that begins at once, smoothing draws a bend to the other side,
// and so does noise on a straight. A bend counts that is hard, or that is mild
// and longer than smoothing draws them, with nearly all halves agreeing on its
// side. Engineering choices.
const (
	mildBend = 0.11 // of the hard corners' lateral acceleration, at most
	longBend = 3.5  // s
	agreed   = 0.95 // of the halves
)

// prune takes out the bends that may not be there.
func (f *fitted) prune(h sides) {
	lateral := f.curvature()
	for i, v := range f.speed {
		lateral[i] = math.Abs(lateral[i]) * v * v
	}
	hard := quantile(append([]float64(nil), lateral...), 0.9)
	f.eachBend(func(_, from, to int) {
		most, seconds, left := 0.0, 0.0, 0.0
		for i := from; i < to; i++ {
			most = math.Max(most, lateral[i])
			seconds += f.length[i] / f.speed[i]
			left += h.sure[i] / float64(to-from)
		}
		if sure := math.Max(left, 1-left); most < mildBend*hard && (seconds < longBend || sure < agreed) {
			clear(h.left[from:to])
			clear(h.right[from:to])
		}
	})
}

// eachBend calls for the nodes of every bend to one side.
func (f *fitted) eachBend(call func(side, from, to int)) {
	side := func(i int) int {
		if f.turn[i] > 0 {
			return leftSide
		}
		return rightSide
	}
	for from := 0; from < len(f.x); {
		to := from
		for to < len(f.x) && side(to) == side(from) {
			to++
		}
		call(side(from), from, to)
		from = to
	}
}

// twice is the curvature of the line that some pulls give, with what the
// smoothing left over smoothed and added once more (J. W. Tukey, Exploratory
// Data Analysis (1977), twicing), which keeps sharp corners sharp.
func (f *fitted) twice(p *pulls) []float64 {
	by := f.solve(p, f.swing)
	rest := append([]float64(nil), p.side...)
	for i := range rest {
		j := f.next(i)
		rest[i] -= float64(p.own[i]*by[i]) + float64(p.next[i]*by[j])
		rest[j] -= float64(p.next[i] * by[i])
	}
	f.price.with(p, f.stiffness(f.swing)).solve(rest)
	for i := range by {
		by[i] += rest[i]
	}
	return f.bent(by)
}

// bent is the curvature of the line with every node moved to the left.
func (f *fitted) bent(by []float64) []float64 {
	kappa := f.curvature()
	for i, d := range f.secondDifference(by) {
		kappa[i] += d
	}
	return kappa
}

// secondDifference is that of a figure of the nodes, by the way along the line.
func (f *fitted) secondDifference(v []float64) []float64 {
	out := make([]float64, len(v))
	h := f.total() / float64(len(v))
	for i := range v {
		out[i] = (v[f.before(i)] - 2*v[i] + v[f.next(i)]) / (h * h)
	}
	return out
}

// What the deviation of the share must cover beyond what the fixes show of it.
// Engineering choices, tried on lines of real circuits.
const (
	shareInflation = 1.7    // times what noise and laps make of the gradient
	shareFloor     = 0.0026 // what smoothing leaves when noise has none
)

// leftShare is the share of the cornering load taken in left turns at the
// measured speeds, with one standard deviation.
//
// Load over a stretch is the integral of |ay| dt, which is speed times the
// angle turned. The deviation is that of the share by its gradient: from the
// noise of the fixes, and from how laps differ, which the folds must say with
// their slow errors.
func (f *fitted) leftShare(h sides) (share, sd float64) {
	left, right := math.Max(0, dot(f.speed, h.left)), math.Max(0, dot(f.speed, h.right))
	if left+right == 0 {
		return 0.5, 0.5
	}
	share = left / (left + right)
	gradient := make([]float64, len(f.speed))
	for i, v := range f.speed {
		gradient[i] = v / (left + right) * (float64(h.sure[i]*(1-share)) + float64((1-h.sure[i])*share))
	}
	way := f.secondDifference(gradient)
	all := f.all()
	f.price.with(all, f.stiffness(f.swing)).solve(way)
	variance := 0.0
	for i, w := range way {
		variance += float64(w*w*all.own[i]) + float64(2*w*way[f.next(i)]*all.next[i])
	}
	variance *= f.noise * f.noise
	each, mean, count := make([]float64, len(f.folds)), 0.0, float64(len(f.folds))
	for k, fold := range f.folds {
		each[k] = dot(way, fold.side)
		mean += each[k] / count
	}
	for _, e := range each {
		variance += float64((e-mean)*(e-mean)) * count / (count - 1)
	}
	variance *= count / (count - 1) // few laps know little of how laps differ
	return share, math.Min(0.5, math.Sqrt(float64(shareInflation*shareInflation*variance)+float64(shareFloor*shareFloor)))
}
