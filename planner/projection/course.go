package projection

import (
	"math"
	"slices"

	"example.com/tripwear/planner/plan"
)

// Course is what becomes of a set and its spare, draw by draw.
type Course struct {
	set   *Set
	legs  int
	home  int        // leg before which the spare comes home
	until float64    // when the spare goes on at the latest, in legs
	first []crossing // of the part that starts
	spare []crossing // of the one that was brought; nil without one
	on    []bool     // it was fitted
	over  []bool     // the trip ended on the road before it could be
	best  float64    // the most that a check of the spare catches

	On      []float64 // by leg, and back home: share of draws in which the spare is on before it
	Fitted  float64   // share of draws that fitted the spare
	Thrown  float64   // mean share of life that came off with the old part
	LifeEnd float64   // median share of life left at the end, or as the spare comes home

	After []plan.Band // of whichever part is on, by leg, from the last with the spare along; but for the chance of the limit
}

// Spare says when a spare that was brought goes on: at the first check in the
// paddock that finds the margin reached, or expects it before the next one, and
// at the latest before a leg.
type Spare struct {
	Checks []Check
	Latest int  // a leg's index; below 0 where the checks alone call for it
	Home   int  // the leg before which a spare that is not on comes home; 0 where it is along to the end
	Ends   bool // nobody asks what comes after that
}

// change is a time within a leg at which the spare can go on.
type change struct {
	at    float64   // share of the leg driven
	reach []float64 // by point, the level at which it goes on
}

// Follow takes a set through the legs from one on. With a spare, that one goes
// on draw by draw and wears on at the same rates.
func (w *Worker) Follow(s *Set, from int, spare *Spare) *Course {
	c := &Course{set: s, legs: len(w.Usages), first: noCrossings(w.N)}
	f := &follower{Course: c, run: w.Start(s), near: make([]bool, w.N), passed: make([][]float64, len(s.Levels)), before: make([][]float64, len(s.Levels))}
	for i := range s.Levels {
		f.before[i], f.passed[i] = make([]float64, w.N), slices.Repeat([]float64{f.unpassed(0)}, w.N)
	}
	if spare != nil {
		c.spare, c.on, c.over = noCrossings(w.N), make([]bool, w.N), make([]bool, w.N)
		for _, check := range spare.Checks {
			c.best = max(c.best, check.Credit)
		}
		c.On = make([]float64, c.legs+1)
		f.fresh = s.Replacement
		if f.fresh == nil {
			f.fresh = s
		}
		f.start = w.noiseOf(f.fresh).start
		if c.home = spare.Home; c.home == 0 {
			c.home = c.legs
		}
		if c.until = float64(c.home); spare.Latest >= 0 {
			c.until = float64(spare.Latest)
		}
		c.After = make([]plan.Band, c.legs)
	}
	end := c.legs
	if spare != nil && spare.Ends {
		end = c.home
	}
	for j := from; j < end; j++ {
		changes := f.changes(j, spare)
		if spare == nil && j > from && s.idle(j, from) {
			continue
		}
		for i, level := range f.Level {
			copy(f.before[i], level.Values)
		}
		for i := range s.Levels {
			f.advancePoint(i, j, from)
		}
		if f.look(changes) {
			f.leg(j, changes)
		}
		if spare != nil && j >= c.home-1 {
			f.compare()
			c.After[j] = f.band()
		}
	}
	if spare != nil {
		c.LifeEnd = c.After[c.home-1].P50
		on := 0.0
		for j := range c.On {
			on += c.On[j] / float64(w.N)
			c.On[j] = on
		}
		c.Fitted, c.Thrown = c.Fitted/float64(w.N), c.Thrown/float64(w.N)
	}
	return c
}

func noCrossings(n int) []crossing { return slices.Repeat([]crossing{{leg: -1}}, n) }

// follower follows a set through its legs.
type follower struct {
	*Course
	*run
	fresh  *Set        // the spare
	start  []*column   // where its points start
	before [][]float64 // by point and draw: level at the start of the leg
	passed [][]float64 // by point and draw: when the margin was passed
	near   []bool      // by draw: the leg may take it past a margin, or change it
}

// unpassed is when the margin of a part fitted at a time was passed, at first:
// never yet, and of one without a margin from the start.
func (f *follower) unpassed(fitted float64) float64 {
	if f.set.Lifetime {
		return fitted
	}
	return math.Inf(1)
}

// changes lists the times within a leg at which a spare can go on.
func (f *follower) changes(j int, spare *Spare) []change {
	if spare == nil || j >= f.home || spare.Latest >= 0 && j > spare.Latest {
		return nil
	}
	if j == spare.Latest {
		return []change{{reach: slices.Repeat([]float64{math.Inf(1)}, len(f.set.Levels))}}
	}
	var out []change
	for n, c := range spare.Checks {
		if !c.Paddock || int(c.At) != j || n > 0 && spare.Checks[n-1].At == c.At && spare.Checks[n-1].Paddock {
			continue
		}
		next := f.until
		for _, later := range spare.Checks[n+1:] {
			if later.Paddock && later.At > c.At {
				next = min(next, later.At)
				break
			}
		}
		one := change{at: c.At - float64(j)}
		for i := range f.set.Levels {
			one.reach = append(one.reach, f.set.Levels[i].Margin+f.set.expected(i, c.At, next))
		}
		out = append(out, one)
	}
	return out
}

// expected is the nominal wear of a point between two times. Nobody can tell
// that of a part which fails without a margin.
func (s *Set) expected(i int, from, to float64) float64 {
	sum := 0.0
	for j, loss := range s.Levels[i].Loss {
		if share := min(to, float64(j+1)) - max(from, float64(j)); share > 0 && !s.Lifetime {
			sum += float64(loss * share)
		}
	}
	return sum
}

// look finds the draws that may pass a margin or change within the leg that was
// just taken, and says whether there are any.
func (f *follower) look(changes []change) (any bool) {
	clear(f.near)
	for i, level := range f.Level {
		line := f.set.Levels[i].Margin
		for _, c := range changes {
			line = max(line, c.reach[i])
		}
		if level.lo > line {
			continue
		}
		any = true
		for k, v := range level.Values {
			if v <= line {
				f.near[k] = true
			}
		}
	}
	return any
}

// leg walks every draw through a leg.
func (f *follower) leg(j int, changes []change) {
	road, fitted := !f.Usages[j].Circuit, f.Fitted
	for k, near := range f.near {
		if !near {
			continue
		}
		if f.spare == nil {
			f.cross(&f.first[k], k, j, 0, 1)
			continue
		}
		at := 0.0
		for _, c := range changes {
			if f.on[k] || f.over[k] {
				break
			}
			f.cross(&f.first[k], k, j, at, c.at)
			if at = c.at; f.due(k, c) {
				f.fit(k, j, at)
			}
		}
		if f.on[k] {
			f.cross(&f.spare[k], k, j, at, 1)
			continue
		}
		f.cross(&f.first[k], k, j, at, 1)
		f.over[k] = f.over[k] || (road || j >= f.home) && f.first[k].leg == j
	}
	if f.Fitted > fitted {
		for _, level := range f.Level {
			level.lo, level.hi = bounds(level.Values)
		}
	}
}

// cross notes where within a part of a leg a draw passes its margin, and its
// limit where it has not yet.
func (f *follower) cross(x *crossing, k, j int, from, to float64) {
	if x.leg >= 0 || to < from {
		return
	}
	for i := range f.set.Levels {
		p, start, end := &f.set.Levels[i], f.before[i][k], f.Level[i].Values[k]
		reaches := func(line float64) (float64, bool) {
			taken := start - end
			switch {
			case start-float64(to*taken) > line:
				return 0, false
			case start-float64(from*taken) <= line:
				return float64(j) + from, true
			}
			return float64(j) + (start-line)/taken, true
		}
		margin, ok := reaches(p.Margin)
		if !ok {
			continue
		}
		f.passed[i][k] = min(f.passed[i][k], margin)
		if at, ok := reaches(p.Limit); ok && (x.leg < 0 || at < x.at) {
			*x = crossing{j, f.passed[i][k], at}
		}
	}
}

// due says whether the spare goes on in a draw.
func (f *follower) due(k int, c change) bool {
	for i := range f.set.Levels {
		start, end := f.before[i][k], f.Level[i].Values[k]
		if start-float64(c.at*(start-end)) <= c.reach[i] {
			return true
		}
	}
	return false
}

// fit puts the spare on in a draw within a leg.
func (f *follower) fit(k, j int, at float64) {
	left := 1.0
	for i := range f.set.Levels {
		p := &f.set.Levels[i]
		start, end := f.before[i][k], f.Level[i].Values[k]
		taken := start - end
		left = min(left, (start-float64(at*taken)-p.Limit)*p.lifeScale())
		level := p.New
		if f.start[i] != nil {
			level = f.start[i].Values[k]
		}
		f.before[i][k] = level + float64(at*taken)
		f.Level[i].Values[k] = f.before[i][k] - taken
		f.passed[i][k] = f.unpassed(float64(j) + at)
	}
	f.on[k] = true
	f.On[j+int(math.Ceil(at))]++
	f.Fitted++
	f.Thrown += max(0, left)
}

// Uncaught is by leg the chance that the limit was crossed by its end and no
// check caught it.
func (c *Course) Uncaught(checks []Check) []float64 {
	out := make([]float64, c.legs)
	for _, x := range c.first {
		if x.leg >= 0 {
			out[x.leg] += (1 - c.set.credit(x, checks)) / float64(len(c.first))
		}
	}
	for j := 1; j < len(out); j++ {
		out[j] += out[j-1]
	}
	return out
}

// SpareUnnoticed is the least chance that a spare crosses its limit unnoticed:
// were every crossing met by the best of its checks.
func (c *Course) SpareUnnoticed() float64 {
	n := 0
	for _, x := range c.spare {
		if x.leg >= 0 {
			n++
		}
	}
	return float64(n) / float64(len(c.spare)) * (1 - c.best)
}

// Ends sums up a course with a spare, beside that of the same set without: the
// chances of being stopped short, which is on the road before the spare is on or
// with it anywhere, of a limit that only checks keep it from crossing, and of
// crossing one unnoticed. A check may miss the margin: what would cross without
// a spare, before the spare goes on whatever they show, counts as it does there.
// Each is by leg, by the end of it.
func (c *Course) Ends(without *Course, checks []Check) (out, crossed, unnoticed []float64) {
	n := float64(len(c.first))
	out, crossed, unnoticed = make([]float64, c.legs), make([]float64, c.legs), make([]float64, c.legs)
	for k, old := range without.first {
		spare, caught := c.spare[k], 1.0
		missed := old.leg >= 0 && (old.at < c.until || !c.on[k])
		if missed {
			caught = c.set.credit(old, checks)
			unnoticed[old.leg] += (1 - caught) / n
		}
		if spare.leg >= 0 {
			unnoticed[spare.leg] += float64(caught*(1-c.set.credit(spare, checks))) / n
		}
		switch {
		case c.over[k]:
			out[c.first[k].leg] += 1 / n
		case spare.leg >= 0:
			out[spare.leg] += 1 / n
		}
		switch {
		case missed:
			crossed[old.leg] += 1 / n
		case spare.leg >= 0:
			crossed[spare.leg] += 1 / n
		}
	}
	for j := 1; j < c.legs; j++ {
		out[j], crossed[j], unnoticed[j] = out[j]+out[j-1], crossed[j]+crossed[j-1], unnoticed[j]+unnoticed[j-1]
	}
	return out, crossed, unnoticed
}
