package trace

import (
	"math"
	"slices"

	"example.com/tripwear/wearmodel/duty"
)

// How the line is fitted. Engineering choices, tried on lines of real circuits.
const (
	evenRounds  = 3    // of the fit, with a stiff line and no slow errors
	chooseRound = 4    // in which the swing is chosen, as in the last
	adaptRound  = 5    // in which the price is adapted
	rounds      = 8    // in all
	firstSwing  = 1.0  // g/s, see stiffness
	farMove     = 6.0  // m, a node moves at most in a round of a stiff line
	nearMove    = 1.0  // m, and later
	wild        = 4.0  // spreads, beyond which a fix does not count
	firstNoise  = 2.0  // m, before anything is known
	leastNoise  = 0.02 // m
	together    = 0.25 // s, fixes within which are one sight
	mostFolds   = 8    // groups of laps, of which one is left out to judge the line of the others
)

// place is a fix of a hot lap.
type place struct {
	x, y    float64
	lap     int
	t       float64
	speed   float64
	segment int
}

// sight is how far to the left of the line fixes next to one another lie.
type sight struct {
	lap          int
	t            float64
	node         int
	share        float64 // of the segment from the node on
	left, weight float64 // m; fixes
}

// fitted is the line with what the last round knew.
type fitted struct {
	*line
	places []place
	sights []sight
	slow   []slow    // the slow error of each lap
	speed  []float64 // m/s, at each node
	noise  float64   // m, spread of the fixes across the line
	wander float64   // m2/s, by which the slow errors grow
	swing  float64   // g/s, see stiffness
	ease   []float64 // factor of the price at each node
	folds  []*pulls
	price  *ring     // of changes of curvature
	drawn  []float64 // what the price pulls at the nodes
}

// pulls is what some laps' sights say of the nodes: a matrix of a diagonal and
// the one beside it, and a right-hand side.
type pulls struct{ own, next, side []float64 }

func newPulls(n int) *pulls {
	return &pulls{make([]float64, n), make([]float64, n), make([]float64, n)}
}

// add adds times the pulls of q.
func (p *pulls) add(q *pulls, times float64) {
	for i := range p.own {
		p.own[i] += float64(times * q.own[i])
		p.next[i] += float64(times * q.next[i])
		p.side[i] += float64(times * q.side[i])
	}
}

// fit bends the line to the places of all laps, round by round: each place
// pulls the segment it is beside sideways, less the slow error of its lap, and
// every change of lateral acceleration by the second has its price. What
// the price is, laps that were left out decide.
func (l *line) fit(places []place, laps int, swingLimit float64) *fitted {
	n := len(l.x)
	f := &fitted{
		line: l, places: places, noise: firstNoise, swing: math.Min(firstSwing, swingLimit),
		slow: make([]slow, laps), price: newRing(n), drawn: make([]float64, n),
	}
	f.speed, f.ease = f.speeds(), slices.Repeat([]float64{1}, n)
	for round := range rounds {
		most := nearMove
		if round < evenRounds {
			most = farMove
			f.line = spaced(f.x, f.y, n).untangle() // a rough start has bunched the nodes
		}
		f.measure()
		limit := math.Inf(1)
		if round >= evenRounds {
			limit = wild * f.noise
		}
		f.look(limit)
		f.charge()
		if round >= evenRounds {
			f.unrest()
			f.drift()
		}
		f.folds = f.gather(f.slow)
		switch round {
		case chooseRound, rounds - 1:
			f.choose(swingLimit)
		case adaptRound:
			f.adapt()
			f.charge()
		}
		f.move(f.solve(f.all(), f.swing), most)
		if round < evenRounds {
			f.spread()
		}
	}
	f.measure()
	f.look(wild * f.noise)
	f.charge()
	f.folds = f.gather(f.slow)
	return f
}

// all is the pulls of all laps.
func (f *fitted) all() *pulls {
	p := newPulls(len(f.x))
	for _, q := range f.folds {
		p.add(q, 1)
	}
	return p
}

// leastSpeed keeps a car that crawls from counting as one that cannot corner, m/s.
const leastSpeed = 8

// speeds is the mean speed of the places beside each node; where there are
// none, that of the node before.
func (f *fitted) speeds() []float64 {
	sum, count := make([]float64, len(f.x)), make([]float64, len(f.x))
	last := 0.0
	for _, p := range f.places {
		sum[p.segment] += p.speed
		count[p.segment]++
		last = p.speed
	}
	for i := range sum {
		if count[i] > 0 {
			last = sum[i] / count[i]
		}
		sum[i] = math.Max(leastSpeed, last)
	}
	// Noise makes single speeds too great by far, and their sixth power counts.
	const reach = 5 // nodes
	out := make([]float64, len(sum))
	for i := range out {
		for q := i - reach; q <= i+reach; q++ {
			out[i] += sum[(q%len(sum)+len(sum))%len(sum)] / (2*reach + 1)
		}
	}
	return out
}

// look finds the places beside the line and joins those of a moment.
func (f *fitted) look(limit float64) {
	n := float64(len(f.x))
	f.sights = f.sights[:0]
	var now sight
	var first, way, since float64
	flush := func() {
		if at := math.Mod(first+way/now.weight+n, n); now.weight > 0 && at >= 0 {
			now.node = min(int(at), len(f.x)-1)
			now.share = at - float64(now.node)
			now.t /= now.weight
			now.left /= now.weight
			f.sights = append(f.sights, now)
		}
		now.weight = 0
	}
	for k := range f.places {
		p := &f.places[k]
		i, u, left := f.locate(p.x, p.y, p.segment)
		p.segment = i
		if math.Abs(left-f.slow[p.lap].left(p.t, f.dir[i])) > limit {
			continue
		}
		step := math.Remainder(float64(i)+u-first, n)
		if now.weight > 0 && (p.lap != now.lap || p.t-since > together || math.Abs(step) > 2) {
			flush()
		}
		if now.weight == 0 {
			first, way, step, since = float64(i)+u, 0, 0, p.t
			now = sight{lap: p.lap}
		}
		way += step
		now.t += p.t
		now.left += left
		now.weight++
	}
	flush()
}

// charge works out the price of changes of curvature where the line is.
func (f *fitted) charge() {
	f.price.clear()
	clear(f.drawn)
	kappa := f.curvature()
	h := f.total() / float64(len(f.x))
	h2 := h * h
	for i := range kappa {
		scale := f.scale(i, h)
		w := scale * scale * h / nodeSpacing * f.ease[i]
		first, j := f.before(i), f.next(i)
		f.price.addRow(first, w, [4]float64{-1 / h2, 3 / h2, -3 / h2, 1 / h2})
		d := w * (kappa[j] - kappa[i]) / h2
		f.drawn[first] += d
		f.drawn[i] -= float64(3 * d)
		f.drawn[j] += float64(3 * d)
		f.drawn[f.next(j)] -= d
	}
}

// adapt makes changes of curvature cheaper where the line has them, at the ends
// of corners, and dearer on straights and in long corners. What counts is the
// product of what the line of one half of the laps has and that of the other:
// the square of one line's would take noise for the ends of corners.
func (f *fitted) adapt() {
	const (
		reach = 4    // nodes to either side
		least = 0.05 // of the square of the swing, that changes have everywhere
	)
	n := len(f.x)
	h := f.total() / float64(n)
	var halves [2][]float64
	for half := range halves {
		p := newPulls(n)
		for k := half; k < len(f.folds); k += len(halves) {
			p.add(f.folds[k], float64(len(halves)))
		}
		halves[half] = f.bent(f.solve(p, f.swing))
	}
	swung := make([]float64, n)
	for i := range swung {
		w, j := f.scale(i, h)/f.swing, f.next(i)
		swung[i] = w * w * (halves[0][j] - halves[0][i]) * (halves[1][j] - halves[1][i])
	}
	for i := range f.ease {
		sum := 0.0
		for q := -reach; q <= reach; q++ {
			weight := float64(reach+1-max(q, -q)) / ((reach + 1) * (reach + 1))
			sum += float64(weight * swung[((i+q)%n+n)%n])
		}
		f.ease[i] = (1 + least) / (math.Max(0, sum) + least)
	}
}

// scale makes of a change of curvature at a node one of lateral acceleration,
// g/s.
func (f *fitted) scale(i int, h float64) float64 {
	return f.speed[i] * f.speed[i] * f.speed[i] / duty.G / h
}

// gather sums what the sights of each fold say, less the slow errors of their laps.
func (f *fitted) gather(slow []slow) []*pulls {
	folds := make([]*pulls, min(len(slow), mostFolds))
	for k := range folds {
		folds[k] = newPulls(len(f.x))
	}
	for k := range f.sights {
		s := &f.sights[k]
		p := folds[s.lap%len(folds)]
		left := s.left - slow[s.lap].left(s.t, f.dir[s.node])
		a, b := 1-s.share, s.share
		j := f.next(s.node)
		p.own[s.node] += float64(s.weight * a * a)
		p.own[j] += float64(s.weight * b * b)
		p.next[s.node] += float64(s.weight * a * b)
		p.side[s.node] += float64(s.weight * a * left)
		p.side[j] += float64(s.weight * b * left)
	}
	return folds
}

// stiffness is the price in variances of the misfit, as if the lateral
// acceleration changed by the swing, one standard deviation.
func (f *fitted) stiffness(swing float64) float64 { return f.noise * f.noise / (swing * swing) }

// solve is the way of each node to the left that the pulls give.
func (f *fitted) solve(p *pulls, swing float64) []float64 {
	by := slices.Clone(p.side)
	stiff := f.stiffness(swing)
	for i, d := range f.drawn {
		by[i] += float64(stiff * d)
	}
	f.price.with(p, stiff).solve(by)
	return by
}

// ridge keeps a system solvable where fixes are few and the price is high.
const ridge = 1e-10

// with is the price times a stiffness and the pulls.
func (r *ring) with(p *pulls, stiff float64) *ring {
	out := newRing(len(p.own))
	for k := range r.at {
		for i, v := range r.at[k] {
			out.at[k][i] = float64(stiff * v)
		}
	}
	for i := range p.own {
		out.at[0][i] = float64((1+ridge)*out.at[0][i]) + p.own[i]
		out.at[1][i] += p.next[i]
	}
	return out
}

// move shifts every node along its normal.
func (f *fitted) move(by []float64, most float64) {
	nx, ny := make([]float64, len(by)), make([]float64, len(by))
	for i := range by {
		a, b := f.dir[f.before(i)], f.dir[i]
		x, y := -(a[1] + b[1]), a[0]+b[0]
		d := math.Max(1e-9, math.Hypot(x, y))
		nx[i], ny[i] = x/d, y/d
	}
	for i, d := range by {
		d = math.Max(-most, math.Min(most, d))
		f.x[i] += float64(d * nx[i])
		f.y[i] += float64(d * ny[i])
	}
}

// spread takes the noise from the misfit while the line is stiff.
func (f *fitted) spread() {
	f.measure()
	const plenty = 8000 // places are as good as all
	step := 1 + len(f.places)/plenty
	misfit := make([]float64, 0, len(f.places)/step+1)
	for k := 0; k < len(f.places); k += step {
		p := &f.places[k]
		_, _, left := f.locate(p.x, p.y, p.segment)
		misfit = append(misfit, math.Abs(left))
	}
	const toSpread = 1.4826 // of a normal distribution over its median absolute value
	f.noise = math.Max(leastNoise, toSpread*median(misfit))
}

// Swings that are tried. Engineering choices; cars on real circuits are driven
// near the usual one, whatever the circuit.
const (
	leastSwing  = 0.06 // g/s
	swingFactor = 1.5  // from one to the next
	swingTries  = 10
	mostSwing   = 3.0  // more than any tried
	usualSwing  = 0.55 // g/s
	swingSpread = 0.35 // of its logarithm, one standard deviation
)

// choose picks the swing: every fold of laps is judged by the line of the
// others, with a slow error of its own, and the least swing is taken whose
// misfit is not beyond the best by more than one standard error of the
// difference (L. Breiman and others, Classification and Regression Trees
// (1984), the rule of one standard error).
func (f *fitted) choose(most float64) {
	if len(f.folds) < 2 {
		return
	}
	var swings, sums [swingTries]float64
	var misfit [swingTries][mostFolds]float64
	for j := range swings {
		swings[j] = leastSwing * math.Pow(swingFactor, float64(j))
		off := math.Log(swings[j]/usualSwing) / swingSpread
		if sums[j] = off * off; swings[j] > most {
			sums[j] = math.Inf(1)
		}
	}
	count := float64(len(f.folds))
	for k, fold := range f.folds {
		others := f.all()
		others.add(fold, -1)
		for j, swing := range swings {
			misfit[j][k] = f.misfit(f.solve(others, swing), k)
			sums[j] += misfit[j][k]
		}
	}
	best := slices.Index(sums[:], slices.Min(sums[:]))
	if best < 0 {
		return // no number: the fit will not be sound
	}
	f.swing = swings[best]
	for j := best - 1; j >= 0; j-- {
		more, mean, squares := sums[j]-sums[best], 0.0, 0.0
		for k := range f.folds {
			mean += (misfit[j][k] - misfit[best][k]) / count
		}
		for k := range f.folds {
			d := misfit[j][k] - misfit[best][k] - mean
			squares += float64(d * d)
		}
		if more > math.Sqrt(squares*count/(count-1)) {
			break
		}
		f.swing = swings[j]
	}
}

// start makes the first line from one lap, and puts the places of all laps
// beside it, and says how many laps those are of.
func start(tr *track, o *outline, parts []part, length float64) (*line, []place, int) {
	hot := make([]int, 0, len(parts))
	for i, p := range parts {
		if p.hot() {
			hot = append(hot, i)
		}
	}
	slices.SortStableFunc(hot, func(a, b int) int {
		return int(math.Copysign(1, parts[a].seconds()-parts[b].seconds()))
	})
	model := parts[hot[len(hot)/2]]
	var x, y []float64
	for k := range o.t {
		if o.t[k] >= model.from && o.t[k] < model.to-float64(0.5*(o.t[min(k+1, len(o.t)-1)]-o.t[k])) {
			x, y = append(x, o.x[k]), append(y, o.y[k])
		}
	}
	n := int(math.Min(mostNodes, math.Max(60, math.Round(length/nodeSpacing))))
	l := spaced(x, y, n).untangle()

	places := make([]place, 0, len(tr.t))
	i, k := 0, 0
	lap, hotLaps := -1, len(hot)
	const nearby = 12 // nodes
	for _, p := range parts {
		if !p.hot() {
			continue
		}
		lap++
		for i < len(tr.t) && tr.t[i] < p.from {
			i++
		}
		base, near, searched := -1.0, 0, -1
		for ; i < len(tr.t) && tr.t[i] < p.to; i++ {
			for k+2 < len(o.t) && o.t[k+1] < tr.t[i] {
				k++
			}
			gone := o.gone[k]
			if base < 0 {
				base = gone
			}
			// Once a second far and wide, and between near the place before.
			if k != searched {
				guess := int(math.Round((gone - base) / p.meters * float64(n)))
				near, searched = l.nearest(tr.x[i], tr.y[i], guess, max(nearby, n/25)), k
			} else {
				near = l.nearest(tr.x[i], tr.y[i], near, nearby)
			}
			of := lap
			if hotLaps == 1 {
				of = i % 2
			}
			places = append(places, place{x: tr.x[i], y: tr.y[i], lap: of, t: tr.t[i], speed: o.speed[min(k+1, len(o.speed)-1)], segment: near})
		}
	}
	if hotLaps == 1 { // its fixes by turns are two laps, each judged by the other
		slices.SortStableFunc(places, func(a, b place) int { return a.lap - b.lap })
		hotLaps = 2
	}
	return l, places, hotLaps
}
