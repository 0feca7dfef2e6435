package decision

import (
	"slices"
	"time"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/projection"
	"example.com/tripwear/planner/trip"
)

// Ahead is what lies before one set of the car on a season.
type Ahead struct {
	set      *projection.Set
	w        *projection.Worker
	way      *trip.Journey // all legs
	today    time.Time
	outlooks map[Part]outlook
	bands    map[Part][][]plan.Band // of points, where somebody asked
	brought  map[brought]*option    // nil where no spare would help

	stretches []trip.Stretch
}

// NewAhead looks ahead of a set. The worker is its own from then on.
func NewAhead(s *projection.Set, w *projection.Worker, season *trip.Journey, stretches []trip.Stretch, today time.Time) *Ahead {
	s.ProjectAsIs(w, len(season.Legs))
	return &Ahead{set: s, w: w, way: season, stretches: stretches, today: today, outlooks: map[Part]outlook{}, bands: map[Part][][]plan.Band{}, brought: map[brought]*option{}}
}

// brought is a spare for a part that went on before a leg, on the stretch that
// begins with another.
type brought struct {
	part        *projection.Set
	from, first int
}

// Part is what is on the car of a set: the part as it stands today, or a new
// one, and whether a spare was along since. What it comes to hangs on nothing
// else, since a new part starts as every new part does.
type Part struct {
	New    bool
	From   int // leg of the season before which the new one went on
	Along  int // number of the stretch on which a spare was along, from 1; 0 for none
	Latest int // leg of that stretch before which it went on at the latest; -1 where the checks alone called for it
}

// Step is one thing that can be done about a set on a stretch.
type Step struct {
	plan.Decision
	Size   [2]float64 // room in the trunk: m3, kg
	Site   int        // where the set is replaced: a stop's leg, HomeSite or NoSite
	Visits bool       // in a shop
	Next   Part       // on the car from then on
	Bills  []Bill     // for parts
	on     Part       // as the stretch begins, whatever was along
	c      chooser
	op     option
}

// Replaces says whether the step puts a new part on at home or at a stop.
func (s Step) Replaces() bool {
	return s.Action == plan.ReplaceBefore || s.Action == plan.ReplaceAtStop
}

// Bill is what parts cost on a day: as they are ordered at the latest, or as the
// trip leaves.
type Bill struct {
	Day    time.Time
	Amount float64
}

// bills of an option on a stretch.
func (c chooser) bills(op option) []Bill {
	var out []Bill
	for n, buy := range Needs(op.Decision, c.way.Legs) {
		if n < op.Shelf {
			continue
		}
		day := c.way.Depart
		if Ordered(c.way, c.part, buy) {
			day = OrderFor(day, c.part, buy).By
		}
		out = append(out, Bill{day, float64(c.part.Price)})
	}
	return out
}

// The sites beside the stops.
const (
	NoSite   = noSite
	HomeSite = homeSite
)

// outlook of a part on the whole season.
func (a *Ahead) outlook(p Part) outlook {
	if o, ok := a.outlooks[p]; ok {
		return o
	}
	s := a.set
	if p.New {
		s = a.w.FromLeg(s, p.From)
	}
	c := chooser{set: s, w: a.w, way: a.way}
	var o outlook
	if p.Along == 0 {
		o = c.outlook(s, p.From, a.w.Outcome(s, p.From, true))
	} else {
		o = c.withSpare(a.outlook(Part{New: p.New, From: p.From}), a.spare(s, p))
	}
	a.outlooks[p] = o
	return o
}

// points are the bands of a part's points, on the whole season.
func (a *Ahead) points(p Part) [][]plan.Band {
	if a.bands[p] == nil {
		a.bands[p] = a.w.Project(a.outlook(p).set, p.From).Points
	}
	return a.bands[p]
}

// spare is the one that was along with a part.
func (a *Ahead) spare(s *projection.Set, p Part) *projection.Spare {
	at := a.stretches[p.Along-1]
	c := chooser{set: s, way: at.Way, ahead: a, at: at}
	return c.spare(s, p.Latest)
}

// withSpare is the outlook of a set with which a spare was along.
func (c chooser) withSpare(without outlook, spare *projection.Spare) outlook {
	ends := c.w.Follow(without.set, without.from, spare)
	o := without
	o.along = ends.On
	o.bands = slices.Clone(ends.After)
	out, _, _ := ends.Ends(without.course(), nil)
	for j := range o.bands {
		o.bands[j].PLimit = out[j]
	}
	o.uncaught = onceEach(func(watched bool) []float64 {
		if !c.set.Critical {
			return make([]float64, len(out))
		}
		_, _, unnoticed := ends.Ends(without.course(), without.set.Checks(c.way.Legs, watched))
		return unnoticed
	})
	return o
}

// on is an outlook as a stretch of the season sees it. What reaches its limit
// on everyday miles and is not replaced counts on the trip after them.
func (o outlook) on(at trip.Stretch) outlook {
	whole, all := o.uncaught, o.bands
	o.before = plan.Band{}
	if at.First > 0 {
		o.before = all[at.First-1]
	}
	o.bands = slices.Clone(all[at.First : at.First+len(at.Way.Legs)])
	for j := range o.bands {
		if at.Since > 0 {
			o.bands[j].PLimit -= all[at.Since-1].PLimit
		}
	}
	o.uncaught = onceEach(func(watched bool) []float64 {
		all, out := whole(watched), make([]float64, len(at.Way.Legs))
		for j := range out {
			out[j] = since(all, at.First, at.First+j)
		}
		return out
	})
	return o
}

// chooser for a part on a stretch.
func (a *Ahead) chooser(at trip.Stretch, p Part) chooser {
	c := newChooser(a.outlook(Part{New: p.New, From: p.From}).set, a.w, at.Way, a.today)
	c.ahead, c.at = a, at
	c.asIs = a.outlook(p).on(at)
	c.set = c.on(at)
	return c
}

// on is the chooser's set as it is on a stretch.
func (c chooser) on(at trip.Stretch) *projection.Set {
	s, to := *c.set, at.First+len(at.Way.Legs)
	s.After, s.First, s.Most = c.asIs.bands, c.ahead.set.First, -1
	s.Points, s.Levels = nil, slices.Clone(s.Levels)
	if s.On != nil {
		s.On = s.On[at.First:to]
	}
	most := 0.0
	for i := range s.Levels {
		p := c.asIs.level(i, at.First)
		s.Levels[i].Start = p.Start
		p.Loss, p.After = p.Loss[at.First:to], nil
		p.Slow, p.Fast, p.Cap = nil, nil, nil
		s.Points = append(s.Points, p)
		for j, taken := range p.Loss {
			if i == s.First && taken > most && !s.PerLeg {
				s.Most, most = j, taken
			}
		}
	}
	if at.AtHome {
		s.FitAt = slices.DeleteFunc(slices.Clone(s.FitAt), func(place string) bool { return place == "paddock" })
	}
	return &s
}

// level is a point of the part that is probably on by a leg, nominal.
func (o outlook) level(i, leg int) plan.Point {
	p, from := o.set.Levels[i].Point, o.from
	for j, on := range o.along {
		if on > 0.5 && j <= leg {
			p.Start, from = p.New, j
			break
		}
	}
	for j := from; j < leg && p.Measure.Info().Length; j++ {
		p.Start -= p.Loss[j]
	}
	p.Start = max(0, p.Start)
	return p
}

// Steps lists what can be done about the set with a part on the car, on the
// stretch with a number; what is ruled out is not among them. The last one does nothing and does not take the car, at a price
// that nothing else has.
func (a *Ahead) Steps(k int, p Part) []Step {
	at := a.stretches[k]
	c := a.chooser(at, p)
	options := c.options()
	var out []Step
	add := func(op option) {
		op.PAsIs = options[0].POut
		s := Step{Decision: op.Decision, Size: op.size, Site: op.site, Visits: op.visits(), Next: p, Bills: c.bills(op), on: Part{New: p.New, From: p.From}, c: c, op: op}
		switch op.Action {
		case plan.ReplaceBefore:
			s.Next = Part{New: true, From: at.First}
		case plan.ReplaceAtStop:
			s.Next = Part{New: true, From: at.First + op.Leg + 1}
		case plan.Run, plan.Watch, plan.Bring, plan.DoNotTake:
		}
		if op.Action == plan.Bring || op.Spare {
			s.Next.Along, s.Next.Latest = k+1, op.Leg
		}
		out = append(out, s)
	}
	for _, op := range options {
		if op.ruledOut == "" {
			add(op)
		}
	}
	none := nearest(options)
	none.site, none.size = noSite, [2]float64{}
	add(none)
	out[len(out)-1].Cost = noActionCost
	return out
}

// Explained is the set on the step's stretch, with what is decided and why; the
// bands of its points are of the part that is on as it begins, whatever is done.
func (s Step) Explained() plan.Set {
	at, points := s.c.at, s.c.ahead.points(s.on)
	for i := range s.c.set.Points {
		bands := slices.Clone(points[i][at.First : at.First+len(at.Way.Legs)])
		for j := range bands {
			if at.Since > 0 {
				bands[j].PLimit -= points[i][at.Since-1].PLimit
			}
		}
		s.c.set.Points[i].After = bands
	}
	s.c.bind(&s.op)
	s.c.explain(&s.op)
	s.c.set.Decision = s.op.Decision
	return s.c.set.Set
}

// TrunkLimit is what the trunk holds on a trip beside the luggage, the oil for
// topping up and the sets that are swapped: m3, kg.
func TrunkLimit(way *trip.Journey) [2]float64 { return trunkLimit(way) }

// SharedLabor is what two steps on one axle at one site save.
func SharedLabor(x, y *Step) float64 {
	if x.Site == NoSite || x.Site != y.Site {
		return 0
	}
	return sharedLabor(option{Decision: x.Decision, site: x.Site}, option{Decision: y.Decision, site: y.Site})
}
