package trace

import (
	"math"
	"slices"

	"example.com/tripwear/wearmodel/duty"
)

// How the line is fitted. Engineering choices, tried on invented circuits.
const (
	jumpCost   = 1.0  // what a jump of curvature costs, in variances of the misfit per factor of e in its square
	firstJump  = 0.2  // g of lateral acceleration at the speed there: a jump that is cheap at first, which gives an evenly smooth line
	lastJump   = 0.01 // g, and at last, which gives stretches of one curvature
	wholeJump  = 1.0  // g, beyond which no road car goes
	evenRounds = 5    // of the fit, with an evenly smooth line
	rounds     = 16   // in all
	farMove    = 6.0  // m, a node moves at most in a round of an even line
	nearMove   = 1.0  // m, and later
	wild       = 4.0  // spreads, beyond which a fix does not count
	firstNoise = 2.0  // m, before anything is known
	leastNoise = 0.02 // m
)

// place is a fix of a hot lap.
type place struct {
	x, y    float64
	lap     int
	t       float64
	speed   float64
	segment int
	drift   float64 // m to the left, the slow error of its lap
}

// fitted is the line with what the last round knew.
type fitted struct {
	*line
	places []place
	speed  []float64 // m/s, at each node
	noise  float64   // m, spread of the fixes across the line
	system *ring     // of a round: misfit and price of jumps
}

// fit bends the line to the places of all laps, round by round: each place
// pulls the segment it is beside sideways, and every change of curvature from
// node to node costs jumpCost ln(1 + change^2/jump^2), as in sparse regression
// by reweighted least squares: large jumps, at the ends of corners, are nearly
// free, small ones are smoothed away. Noise is estimated from the misfit.
func (l *line) fit(places []place, laps int) *fitted {
	n := len(l.x)
	f := &fitted{line: l, places: places, noise: firstNoise, system: newRing(n)}
	weights := make([]float64, n)
	f.speed = f.speeds()
	side := make([]float64, n)
	for round := range rounds {
		most := nearMove
		if round < evenRounds {
			most = farMove
			f.line = spaced(f.x, f.y, n).untangle() // a rough start has bunched the nodes
		}
		f.line.measure()
		kappa := f.line.curvature()
		late := math.Min(1, float64(max(0, round-evenRounds+1))/float64(rounds-evenRounds-3))
		jump := firstJump * math.Pow(lastJump/firstJump, late)
		for i := range weights {
			scale := f.speed[i] * f.speed[i] / duty.G // from curvature to g
			d := (kappa[f.next(i)] - kappa[i]) * scale
			if round < evenRounds {
				d = 0
			}
			weights[i] = jumpCost * scale * scale * (1/(float64(d*d)+float64(jump*jump)) + 1/(wholeJump*wholeJump))
		}
		if round > 2 && laps >= driftLaps {
			f.undrift()
		}
		f.gather(side, round > 2)
		h2 := math.Pow(f.total()/float64(n), 2)
		variance := f.noise * f.noise
		for i, w := range weights {
			w *= variance
			first := f.before(i)
			f.system.addRow(first, w, [4]float64{-1 / h2, 3 / h2, -3 / h2, 1 / h2})
			d := w * (kappa[f.next(i)] - kappa[i]) / h2
			j := f.next(i)
			side[first] += d
			side[i] -= float64(3 * d)
			side[j] += float64(3 * d)
			side[f.next(j)] -= d
		}
		f.system.solve(side)
		f.move(side, most)
		f.estimate(weights)
	}
	f.line.measure()
	return f
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
	return sum
}

// gather sets the system and its right-hand side to the pull of the places.
func (f *fitted) gather(side []float64, reject bool) {
	f.system.clear()
	clear(side)
	limit := math.Inf(1)
	if reject {
		limit = wild * f.noise
	}
	for k := range f.places {
		p := &f.places[k]
		i, u, left := f.locate(p.x, p.y, p.segment)
		p.segment = i
		left -= p.drift
		if math.Abs(left) > limit {
			continue
		}
		a, b := 1-u, u
		j := f.next(i)
		f.system.at[0][i] += float64(a * a)
		f.system.at[0][j] += float64(b * b)
		f.system.at[1][i] += float64(a * b)
		side[i] += float64(a * left)
		side[j] += float64(b * left)
	}
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

// estimate takes the noise from the misfit, less the freedom that the line
// has: a smoother of sixth order that reaches w has a degree of freedom in 3 w.
func (f *fitted) estimate(weights []float64) {
	f.line.measure()
	n := len(f.x)
	h := f.total() / float64(n)
	density := float64(len(f.places)) / f.total()
	freedom := 0.0
	for _, w := range weights {
		reach := math.Pow(w*f.noise*f.noise*h/density, 1.0/6)
		freedom += math.Min(1, h/(3*math.Max(h/3, reach)))
	}
	const plenty = 8000 // places are as good as all
	step := 1 + len(f.places)/plenty
	misfit := make([]float64, 0, len(f.places)/step+1)
	for k := 0; k < len(f.places); k += step {
		p := &f.places[k]
		_, _, left := f.locate(p.x, p.y, p.segment)
		misfit = append(misfit, math.Abs(left-p.drift))
	}
	const toSpread = 1.4826 // of a normal distribution over its median absolute value
	spread := toSpread * median(misfit)
	left := 1 - freedom/float64(len(f.places))
	f.noise = math.Max(leastNoise, spread/math.Sqrt(math.Max(0.2, left)))
}

// start makes the first line from one lap, and puts the places of all laps
// beside it.
func start(tr *track, o *outline, parts []part, length float64) (*line, []place) {
	hot := make([]int, 0, len(parts))
	for i, p := range parts {
		if p.why == "" {
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

	var places []place
	i, k := 0, 0
	for lap, p := range parts {
		if p.why != "" {
			continue
		}
		for i < len(tr.t) && tr.t[i] < p.from {
			i++
		}
		base := -1.0
		guess := 0
		for ; i < len(tr.t) && tr.t[i] < p.to; i++ {
			for k+2 < len(o.t) && o.t[k+1] < tr.t[i] {
				k++
			}
			gone := o.gone[k]
			if base < 0 {
				base = gone
			}
			guess = int(math.Round((gone - base) / p.meters * float64(n)))
			near := l.nearest(tr.x[i], tr.y[i], guess, max(12, n/25))
			places = append(places, place{x: tr.x[i], y: tr.y[i], lap: lap, t: tr.t[i], speed: o.speed[min(k+1, len(o.speed)-1)], segment: near})
		}
	}
	return l, places
}
