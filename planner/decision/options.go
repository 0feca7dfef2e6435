package decision

import (
	"slices"
	"sync"
	"time"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/projection"
	"example.com/tripwear/planner/trip"
	"example.com/tripwear/profiles"
)

// option is one possible action for a set, with what it leaves to chance and
// what it is expected to cost.
type option struct {
	plan.Decision
	margin   float64    // chance that the margin is passed on the trip
	crossing float64    // chance that the limit is crossed on the trip, by a spare too
	thrown   float64    // mean share of life thrown away where a spare goes on
	size     [2]float64 // room in the trunk: m3, kg
	hours    float64    // of labor, s
	rate     float64    // of that labor, money an hour
	site     int        // where the set is replaced: a stop's leg, homeSite or noSite
	bought   int        // new sets that are not on the shelf
	counter  bool       // they are bought at the stop
	role     role       // in a spare that two sets share
	hint     string     // where a part that cannot be fitted there would make it safe
	ruledOut plan.Bind  // why it cannot be chosen; "" where it can
}

// Sites beside the stops.
const (
	noSite   = -2
	homeSite = -1
)

// chooser works out the actions open to one set.
type chooser struct {
	set    *projection.Set
	w      *projection.Worker
	way    *trip.Journey
	today  time.Time
	part   profiles.Part
	asIs   outlook // of the set as the car stands
	safety profiles.Safety

	ahead *Ahead // of a season; nil for a trip by itself
	at    trip.Stretch
}

// outlook is what a set comes to from a leg on: its bands by leg, and by leg the
// chance that the limit was crossed by then unnoticed, where the set is watched
// and where it is not. On a trip of a season the chances of the limit are the
// trip's own.
type outlook struct {
	set      *projection.Set
	from     int       // leg before which it goes on
	along    []float64 // by leg, the chance that a spare which was along is on before it; nil without one
	before   plan.Band // as the trip begins
	bands    []plan.Band
	uncaught func(watched bool) []float64
	course   func() *projection.Course
}

// atEnd is the chance of an unnoticed crossing on the whole trip.
func (o outlook) atEnd(watched bool) float64 { return o.uncaught(watched)[len(o.bands)-1] }

// outlook of a set whose bands are known.
func (c chooser) outlook(s *projection.Set, from int, bands []plan.Band) outlook {
	course := sync.OnceValue(func() *projection.Course { return c.w.Follow(s, from, nil) })
	of := func(watched bool) []float64 {
		out := make([]float64, len(bands))
		if !s.Critical || bands[len(bands)-1].PLimit == 0 {
			return out
		}
		if checks := s.Checks(c.legs(), watched); len(checks) > 0 {
			return course().Uncaught(checks)
		}
		for j, b := range bands {
			out[j] = b.PLimit
		}
		return out
	}
	return outlook{set: s, from: from, bands: bands, uncaught: onceEach(of), course: course}
}

// onceEach works out either answer once.
func onceEach(of func(bool) []float64) func(bool) []float64 {
	no, yes := sync.OnceValue(func() []float64 { return of(false) }), sync.OnceValue(func() []float64 { return of(true) })
	return func(is bool) []float64 {
		if is {
			return yes()
		}
		return no()
	}
}

// legs are those that the set is projected through.
func (c chooser) legs() []plan.Leg {
	if c.ahead != nil {
		return c.ahead.way.Legs
	}
	return c.way.Legs
}

// fresh is the outlook of a new set that goes on before a leg of the trip.
func (c chooser) fresh(from int) outlook {
	if c.ahead != nil {
		return c.ahead.outlook(Part{New: true, From: c.at.First + from}).on(c.at)
	}
	if from == 0 {
		return c.outlook(c.set.Replacement, 0, c.w.Outcome(c.set.Replacement, 0, false))
	}
	set := c.w.FromLeg(c.set, from)
	end := c.w.OutcomeAtEnd(set, from)
	bands := make([]plan.Band, len(c.way.Legs))
	for j := from; j < len(bands); j++ {
		bands[j] = end
	}
	return c.outlook(set, from, bands)
}

func newChooser(s *projection.Set, w *projection.Worker, way *trip.Journey, today time.Time) chooser {
	c := chooser{set: s, w: w, way: way, today: today, part: kind.Filled(way.Folder, way.Folder.Parts[s.Part]), safety: way.Folder.Model.Safety}
	c.asIs = c.outlook(s, 0, s.After)
	return c
}

// options lists every action open to the set, the one that does nothing first.
func (c chooser) options() []option {
	out := []option{c.asItIs()}
	if !c.past() {
		if op, ok := c.bringOnce(c.asIs); ok {
			out = append(out, op)
		}
		for _, j := range c.stops() {
			out = append(out, c.replaceAt(j))
		}
	}
	if c.way.Under != nil && !slices.ContainsFunc(c.way.Under.Can, c.fits) { // nothing can be fitted here
		return c.withSupplies(out)
	}
	replaced := c.fresh(0)
	out = append(out, c.replaceBefore(replaced))
	if op, ok := c.bringOnce(replaced); ok {
		op.Action, op.Spare = plan.ReplaceBefore, true
		c.atHome(&op)
		out = append(out, op)
	}
	return c.withSupplies(out)
}

// past says whether the set is more likely than not past its limit before a trip of
// a season: it is replaced first.
func (c chooser) past() bool { return c.asIs.before.PLimit > 0.5 }

// withSupplies gives every option the new sets it takes, from the shelf as far
// as that goes, or bought. Each way is an option of its own, since another set
// may want what lies on the shelf.
func (c chooser) withSupplies(options []option) []option {
	var out []option
	for _, op := range options {
		for op.Shelf = min(c.set.Shelf, op.wants()); op.Shelf >= 0; op.Shelf-- {
			supply := op
			supply.bought = op.wants() - op.Shelf
			supply.counter = supply.bought > 0 && slices.Contains(c.can(op), "parts")
			if op.Action == plan.ReplaceAtStop && !supply.counter {
				supply.size = c.packed()
			}
			c.price(&supply)
			c.ruleOut(&supply)
			out = append(out, supply)
		}
	}
	return out
}

// can is what can be done where an option has the set replaced away from home.
func (c chooser) can(op option) []string {
	switch {
	case op.Action == plan.ReplaceAtStop:
		return c.way.Legs[op.Leg].Can
	case op.Action == plan.ReplaceBefore && c.way.Under != nil:
		return c.way.Under.Can
	}
	return nil
}

// wants is how many new sets an option takes.
func (op option) wants() int {
	switch {
	case goesOn(op.Action):
		return 0
	case op.Spare:
		return 2
	}
	return 1
}

// last is the index of the last leg.
func (c chooser) last() int { return len(c.way.Legs) - 1 }

// leaving is an option that leaves a chance of crossing the limit, another of
// doing so unnoticed and, at home, a band. It is watched where it may well
// cross, or would not be safe with the checks of a set that is not watched.
func (c chooser) leaving(action plan.Action, leg int, crossing float64, unnoticed func(watched bool) float64, end plan.Band) option {
	op := option{
		Decision: plan.Decision{Action: action, Leg: leg, POut: crossing, PUnsafe: unnoticed(false), LifeEnd: end.P50},
		margin:   end.PMargin, crossing: crossing, site: noSite,
	}
	goesPast := goesOn(action) && (op.margin > 0.5 || c.set.Watched)
	if !c.small(op.POut) || op.PUnsafe > float64(c.safety.Cap) || goesPast {
		op.Watched, op.PUnsafe = true, unnoticed(true)
	}
	return op
}

// printed is half a percent: two chances closer than that print alike, and the
// draws scatter by a few tenths.
const printed = 0.005

// small says whether a chance is one to run on. Of chances that print as the
// owner's threshold none is, so that no word turns on less than is printed.
func (c chooser) small(chance float64) bool {
	return chance <= max(0, float64(c.safety.Run)-printed)
}

// asItIs does nothing, but may watch.
func (c chooser) asItIs() option {
	end := c.asIs.bands[c.last()]
	op := c.leaving(plan.Run, -1, end.PLimit, c.asIs.atEnd, end)
	op.margin -= c.asIs.before.PMargin
	if op.Watched {
		op.Action = plan.Watch
	}
	return op
}

// either is the chance that at least one of two independent things happens.
func either(a, b float64) float64 { return 1 - float64((1-a)*(1-b)) }

// replaceBefore is a new set before leaving, with its bands.
func (c chooser) replaceBefore(replaced outlook) option {
	end := replaced.bands[c.last()]
	op := c.leaving(plan.ReplaceBefore, -1, end.PLimit, replaced.atEnd, end)
	c.atHome(&op)
	return op
}

// atHome has a set replaced before leaving, or before going on from where the
// trip stands: by the owner where that can be done, otherwise in a shop.
func (c chooser) atHome(op *option) {
	op.site, op.hours, op.rate = homeSite, float64(c.part.Hours), float64(c.way.Folder.Car.Costs.Hour)
	own := c.fits("home")
	if c.way.Under != nil {
		own = c.fits("paddock") && slices.Contains(c.way.Under.Can, "paddock")
	}
	if !own {
		op.Shop, op.rate = true, float64(c.way.Folder.Car.Costs.Shop)
	}
}

// replaceAt is a new set at a stop.
func (c chooser) replaceAt(stop int) option {
	before, after := c.asIs.bands[stop], c.fresh(stop+1)
	end := after.bands[c.last()]
	unnoticed := func(watched bool) float64 { return either(c.asIs.uncaught(watched)[stop], after.atEnd(watched)) }
	op := c.leaving(plan.ReplaceAtStop, stop, either(before.PLimit, end.PLimit), unnoticed, end)
	op.margin, op.site = either(before.PMargin-c.asIs.before.PMargin, end.PMargin), stop
	op.hours, op.rate = float64(c.part.Hours), float64(c.way.Folder.Car.Costs.Shop)
	op.Shop = slices.Contains(c.way.Legs[stop].Can, "shop")
	if !op.Shop {
		op.rate = float64(c.way.Folder.Car.Costs.Hour)
	}
	return op
}

// packed is the room the set takes in the trunk: m3, kg.
func (c chooser) packed() [2]float64 {
	return [2]float64{float64(c.part.Volume), float64(c.part.Weight)}
}

// stops lists the stops that can fit the set.
func (c chooser) stops() []int {
	var out []int
	for j, l := range c.way.Legs {
		if l.Kind == profiles.StopLeg && slices.ContainsFunc(l.Can, c.fits) {
			out = append(out, j)
		}
	}
	return out
}

func (c chooser) fits(place string) bool { return slices.Contains(c.set.FitAt, place) }

// paddockBefore is the last leg up to j before which the car stands where a
// spare can be fitted; 0 where there is none, j itself where that is below 0.
func (c chooser) paddockBefore(j int) int {
	legs := c.way.Legs
	for j > 0 && legs[j].Kind != profiles.CircuitLeg && legs[j-1].Kind == profiles.RoadLeg {
		j--
	}
	return j
}

// bringOnce is bring; on a season it is worked out once for a part on a trip,
// however that came to be on. A second spare for one part is not brought.
func (c chooser) bringOnce(from outlook) (option, bool) {
	switch {
	case c.ahead == nil:
		return c.bring(from)
	case from.along != nil:
		return option{}, false
	}
	of := brought{from.set, from.from, c.at.First}
	if _, ok := c.ahead.brought[of]; !ok {
		if op, ok := c.bring(from); ok {
			c.ahead.brought[of] = &op
		} else {
			c.ahead.brought[of] = nil
		}
	}
	if op := c.ahead.brought[of]; op != nil {
		return *op, true
	}
	return option{}, false
}

// bring packs a spare that goes on in the paddock, draw by draw: at the check
// that finds the margin or expects it before the next, and at the latest before
// the leg that would leave more than the cap to chance. It starts from the set
// as it is or from a new one. What no check on the way shows is not brought:
// nobody would know when to fit it.
func (c chooser) bring(from outlook) (option, bool) {
	if !c.fits("paddock") || !c.set.Checked() {
		return option{}, false
	}
	bands := from.bands
	latest := slices.IndexFunc(from.uncaught(true), func(p float64) bool { return p > float64(c.safety.Cap) })
	change := c.paddockBefore(latest)
	if latest == 0 || latest > 0 && change == 0 {
		return option{}, false
	}
	if change < 0 && c.small(bands[c.last()].PLimit) {
		return option{}, false
	}
	op, ends := c.bringUntil(from, change)
	least := ends
	// The spare's own chance counts too: earlier, if that helps. It grows the
	// earlier the spare goes on, so what it alone leaves ends the search.
	for ends.Fitted > 0 && op.PUnsafe > float64(c.safety.Cap) && least.SpareUnnoticed() < op.PUnsafe {
		sooner := change - 1
		if change < 0 {
			sooner = c.last()
		}
		if change = c.paddockBefore(sooner); change <= 0 {
			break
		}
		var earlier option
		if earlier, least = c.bringUntil(from, change); earlier.PUnsafe < op.PUnsafe {
			op = earlier
		}
	}
	return op, ends.Fitted > 0
}

// bringUntil is a spare that goes on before a leg at the latest, and what becomes
// of it.
func (c chooser) bringUntil(from outlook, change int) (option, *projection.Course) {
	spare := c.spare(from.set, change)
	spare.Ends = true
	ends := c.w.Follow(from.set, from.from, spare)
	first, last := c.at.First, c.at.First+c.last()
	op := option{
		Decision: plan.Decision{Action: plan.Bring, Leg: change, Watched: true, PNeed: ends.Fitted, On: ends.On[first : last+2], LifeEnd: ends.LifeEnd},
		site:     noSite, size: c.packed(), thrown: ends.Thrown,
	}
	out, crossed, unnoticed := ends.Ends(from.course(), from.set.Checks(c.legs(), true))
	op.POut, op.crossing, op.PUnsafe = since(out, c.at.Since, last), since(crossed, c.at.Since, last), since(unnoticed, first, last)
	if !c.set.Critical {
		op.PUnsafe = 0
	}
	return op, ends
}

// spare is one that is along on the trip with a set, and goes on before a leg of
// it at the latest.
func (c chooser) spare(set *projection.Set, latest int) *projection.Spare {
	first, home := c.at.First, c.at.First+len(c.way.Legs)
	s := &projection.Spare{Latest: latest, Home: home}
	if latest >= 0 {
		s.Latest += first
	}
	for _, check := range set.Checks(c.legs(), true) {
		if check.At >= float64(first) && check.At <= float64(home) {
			s.Checks = append(s.Checks, check)
		}
	}
	return s
}

// since is what a chance that grows leg by leg has grown by on the legs from
// one up to another.
func since(by []float64, first, last int) float64 {
	if first == 0 {
		return by[last]
	}
	return by[last] - by[first-1]
}

// previous is the chance of the limit before leg j.
func previous(bands []plan.Band, j int) float64 {
	if j == 0 {
		return 0
	}
	return bands[j-1].PLimit
}

// ruleOut rules an option out where a finding forbids it, where it is not safe,
// or where the part cannot be there in time.
func (c chooser) ruleOut(op *option) {
	switch {
	case len(c.set.Stop) > 0 && (op.Action != plan.ReplaceBefore || c.set.RepairFirst):
		op.ruledOut = plan.BindFound
	case op.PUnsafe > float64(c.safety.Cap), c.past() && op.Action != plan.ReplaceBefore, op.Action == plan.ReplaceBefore && c.asGoodAsNew():
		op.ruledOut = plan.BindCap
	case c.orderedTooLate(op):
		op.ruledOut = plan.BindLate
	}
}

// asGoodAsNew is a set whose end is not dangerous, so fresh that another gains
// nothing. What its life
// has to be: engineering choice.
func (c chooser) asGoodAsNew() bool {
	const fresh = 0.95
	return !c.set.Critical && len(c.set.Stop) == 0 && c.lifeLeft(homeSite) >= fresh
}

// orderedTooLate says whether an option needs a part that would not be there in
// time. What lies on the shelf goes on first, and the rest is packed.
func (c chooser) orderedTooLate(op *option) bool {
	switch {
	case op.bought == 0 || op.counter:
		return false
	case c.way.Under != nil: // on the road there is what the trunk holds
		return true
	case c.way.Depart.IsZero():
		return false
	}
	buy := plan.BuyBring
	if op.Action == plan.ReplaceBefore && op.Shelf == 0 {
		buy = plan.BuyBefore
	}
	return OrderFor(c.way.Depart, c.part, buy).Late(c.today)
}
