package trace

import (
	"cmp"
	"math"
	"slices"
)

// How a start line is found. Engineering choices.
const (
	gateTries   = 64   // places tried
	gateFiner   = 40   // s around the best, in which every second is
	gateHalf    = 20.0 // m to either side of the place: half a track and the noise
	gateSpeed   = 8.0  // m/s, slower places are paddocks
	gateAlong   = 0.5  // cosine: within 60 degrees of its direction
	shortestLap = 15.0 // s
	lapLength   = 0.03 // laps differ in length by less
	likeMany    = 0.75 // of the most laps
	likeFast    = 0.7  // of the best mean speed
)

// outline is the trace once a second, each place the mean of the second
// around it, with the way gone so far.
type outline struct {
	at      []int // index in the track
	t, x, y []float64
	run     []int
	gone    []float64 // m
	speed   []float64 // m/s
	least   float64   // m, the shortest way round that counts as a lap
}

// standing is the way in a second (m) below which the car is taken to stand:
// what is left is noise.
const standing = 2.5

func (tr *track) outline() *outline {
	const half = 0.49 // s
	o := &outline{least: leastLap}
	for i := 0; i < len(tr.t); {
		lo, hi := i, i
		for lo > 0 && tr.t[i]-tr.t[lo-1] < half && tr.run[lo-1] == tr.run[i] {
			lo--
		}
		for hi < len(tr.t)-1 && tr.t[hi+1]-tr.t[i] < half && tr.run[hi+1] == tr.run[i] {
			hi++
		}
		reach := min(i-lo, hi-i) // the mean must be of both sides alike
		var t, x, y float64
		for j := i - reach; j <= i+reach; j++ {
			t, x, y = t+tr.t[j], x+tr.x[j], y+tr.y[j]
		}
		n := float64(2*reach + 1)
		o.at, o.t, o.x, o.y, o.run = append(o.at, i), append(o.t, t/n), append(o.x, x/n), append(o.y, y/n), append(o.run, tr.run[i])
		next := i + 1
		for next < len(tr.t) && tr.run[next] == tr.run[i] && tr.t[next]-tr.t[i] < 0.99 {
			next++
		}
		i = next
	}
	o.gone, o.speed = make([]float64, len(o.t)), make([]float64, len(o.t))
	for k := 1; k < len(o.t); k++ {
		o.gone[k] = o.gone[k-1]
		if o.run[k] != o.run[k-1] {
			continue
		}
		step, dt := math.Hypot(o.x[k]-o.x[k-1], o.y[k]-o.y[k-1]), o.t[k]-o.t[k-1]
		o.speed[k] = step / dt
		if step > standing*dt {
			o.gone[k] += step
		}
	}
	return o
}

// beyond is what of the trace lies far from a line, where another circuit may be.
func (o *outline) beyond(l *line) *outline {
	const far = 500 // m
	west, east, south, north := slices.Min(l.x)-far, slices.Max(l.x)+far, slices.Min(l.y)-far, slices.Max(l.y)+far
	out, cut := &outline{least: o.least}, 0
	for k := range o.t {
		if o.x[k] > west && o.x[k] < east && o.y[k] > south && o.y[k] < north {
			cut++
			continue
		}
		out.t, out.x, out.y = append(out.t, o.t[k]), append(out.x, o.x[k]), append(out.y, o.y[k])
		out.run, out.gone, out.speed = append(out.run, o.run[k]+cut), append(out.gone, o.gone[k]), append(out.speed, o.speed[k])
	}
	return out
}

// gate is a start line: a place and a direction.
type gate struct{ x, y, ux, uy float64 }

// crossing is one passage of the gate.
type crossing struct {
	k    int     // outline point before it
	t    float64 // s
	gone float64 // m
}

// crossings lists the passages in the gate's direction.
func (g gate) crossings(o *outline) []crossing {
	var out []crossing
	for k := 0; k+1 < len(o.t); k++ {
		if o.run[k] != o.run[k+1] {
			continue
		}
		dx, dy := o.x[k]-g.x, o.y[k]-g.y
		a := float64(dx*g.ux) + float64(dy*g.uy)
		if a > 0 || a < -300 {
			continue
		}
		ex, ey := o.x[k+1]-g.x, o.y[k+1]-g.y
		b := float64(ex*g.ux) + float64(ey*g.uy)
		if b <= 0 {
			continue
		}
		f := -a / (b - a)
		if math.Abs(float64((dx+float64(f*(ex-dx)))*-g.uy)+float64((dy+float64(f*(ey-dy)))*g.ux)) > gateHalf || b-a < gateAlong*math.Hypot(ex-dx, ey-dy) {
			continue
		}
		c := crossing{k, o.t[k] + float64(f*(o.t[k+1]-o.t[k])), o.gone[k] + float64(f*(o.gone[k+1]-o.gone[k]))}
		if n := len(out); n > 0 && o.run[out[n-1].k] == o.run[k] && c.t-out[n-1].t < shortestLap {
			continue
		}
		out = append(out, c)
	}
	return out
}

// findGate tries places all along the trace and keeps the one that cuts the
// most hot laps and, of those, the one that takes the least time for all: where
// it is badly placed, a lap has some of the way from the pits or to them. The
// length is the median of its laps; 0 where none is.
func (o *outline) findGate() (best gate, length float64) {
	var moving []int
	for k := 1; k+1 < len(o.t); k++ {
		if o.speed[k] > gateSpeed && o.run[k-1] == o.run[k+1] {
			moving = append(moving, k)
		}
	}
	tries := min(gateTries, len(moving))
	all := make([]tried, 0, tries)
	most, fastest := 0, 0.0
	for i := range tries {
		c := o.tryAt(moving[(2*i+1)*len(moving)/(2*tries)])
		all = append(all, c)
		most = max(most, len(c.times))
		if len(c.times) > 0 {
			fastest = math.Max(fastest, c.meters/c.usual)
		}
	}
	if most == 0 {
		return gate{}, 0
	}
	// Of those that cut about as many laps, the longest: a lap that comes close
	// to itself has loops of its own. A lap of several, from pits to pits, is one.
	// Where those are slow, of any that is as fast.
	for _, many := range []int{most, 1} {
		for _, c := range all {
			if float64(len(c.times)) >= likeMany*float64(many) && c.meters/c.usual >= likeFast*fastest {
				length = math.Max(length, c.meters)
			}
		}
		if length > 0 {
			break
		}
	}
	usual := math.Inf(1)
	for _, c := range all {
		if c.like(length) {
			usual = math.Min(usual, c.usual)
		}
	}
	better := func(a, b tried) bool {
		hotA, costA := a.cost(usual)
		hotB, costB := b.cost(usual)
		return hotA > hotB || hotA == hotB && costA < costB
	}
	pick := -1
	for i, c := range all {
		if c.like(length) && (pick < 0 || better(c, all[pick])) {
			pick = i
		}
	}
	if pick < 0 {
		return gate{}, 0
	}
	// And once more around it.
	found := all[pick]
	for i := range gateFiner {
		if k := all[pick].k + i - gateFiner/2; k > 0 && k+1 < len(o.t) && o.speed[k] > gateSpeed && o.run[k-1] == o.run[k+1] {
			if c := o.tryAt(k); c.like(length) && better(c, found) {
				found = c
			}
		}
	}
	return found.gate, found.meters
}

// like says whether the laps are of a length.
func (c tried) like(length float64) bool {
	return len(c.times) > 0 && math.Abs(c.meters/length-1) < lapLength
}

// cost is the number of hot laps and the time that they take, a little less
// where the gate is passed fast: a lap is timed better there.
func (c tried) cost(usual float64) (hot int, seconds float64) {
	for _, t := range c.times {
		if t < usual*slowLap {
			hot++
			seconds += t
		}
	}
	return hot, seconds * (1 + 0.02*gateSpeed/c.speed/float64(max(1, hot)))
}

// tried is a gate with the laps of like length that it cuts.
type tried struct {
	gate
	k      int     // outline point
	speed  float64 // m/s, there
	meters float64 // median
	times  []float64
	usual  float64 // s, of them
}

// tryAt tries a gate at a point of the outline, across its way there.
func (o *outline) tryAt(k int) tried {
	dx, dy := o.x[k+1]-o.x[k-1], o.y[k+1]-o.y[k-1]
	d := math.Hypot(dx, dy)
	if d == 0 {
		return tried{}
	}
	c := o.try(gate{o.x[k], o.y[k], dx / d, dy / d})
	c.k, c.speed = k, o.speed[k]
	return c
}

// try cuts the trace at a gate and keeps the most laps whose lengths differ
// by little.
func (o *outline) try(g gate) tried {
	type lap struct{ meters, seconds float64 }
	var all []lap
	cs := g.crossings(o)
	for i := 1; i < len(cs); i++ {
		if o.run[cs[i].k] == o.run[cs[i-1].k] {
			if l := cs[i].gone - cs[i-1].gone; l >= o.least {
				all = append(all, lap{l, cs[i].t - cs[i-1].t})
			}
		}
	}
	slices.SortFunc(all, func(a, b lap) int { return cmp.Compare(a.meters, b.meters) })
	first, from, to := 0, 0, 0
	for last := range all {
		for all[last].meters > all[first].meters*(1+2*lapLength) {
			first++
		}
		if last+1-first > to-from {
			from, to = first, last+1
		}
	}
	c := tried{gate: g}
	for _, l := range all[from:to] {
		c.times = append(c.times, l.seconds)
	}
	if from < to {
		c.usual = quantile(slices.Clone(c.times), usualShare)
		var fast []float64 // noise makes the way of a slow lap longer
		for _, l := range all[from:to] {
			if l.seconds < improving*c.usual {
				fast = append(fast, l.meters)
			}
		}
		c.meters = fast[len(fast)/2]
	}
	return c
}

// leastLap is the shortest lap, m: a kart track. Assumed. From shortLap on, a way
// round is at least told from none.
const leastLap, shortLap = 300.0, 100.0
