package decision

import (
	"slices"
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
	size     [2]float64 // room in the trunk: m3, kg
	hours    float64    // of labor, s
	rate     float64    // of that labor, money an hour
	site     int        // where the set is replaced: a stop's leg, homeSite or noSite
	bought   int        // new sets that are not on the shelf
	counter  bool       // they are bought at the stop
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
	asIs   []plan.Band // of the set as the car stands, by leg
	safety profiles.Safety
}

func newChooser(s *projection.Set, w *projection.Worker, way *trip.Journey, today time.Time) chooser {
	return chooser{set: s, w: w, way: way, today: today, part: kind.Filled(way.Folder, way.Folder.Parts[s.Part]), asIs: s.After, safety: way.Folder.Model.Safety}
}

// options lists every action open to the set, the one that does nothing first.
func (c chooser) options() []option {
	out := []option{c.asItIs()}
	if op, ok := c.bring(c.asIs); ok {
		out = append(out, op)
	}
	for _, j := range c.stops() {
		out = append(out, c.replaceAt(j))
	}
	replaced := c.w.Outcome(c.set.Replacement, 0, false)
	out = append(out, c.replaceBefore(replaced))
	if op, ok := c.bring(replaced); ok {
		op.Action, op.Spare = plan.ReplaceBefore, true
		c.atHome(&op)
		out = append(out, op)
	}
	return c.withSupplies(out)
}

// withSupplies gives every option the new sets it takes, from the shelf as far
// as that goes, or bought. Each way is an option of its own, since another set
// may want what lies on the shelf.
func (c chooser) withSupplies(options []option) []option {
	var out []option
	for _, op := range options {
		for op.Shelf = min(c.set.Shelf, op.wants()); op.Shelf >= 0; op.Shelf-- {
			supply := op
			supply.bought = op.wants() - op.Shelf
			if op.Action == plan.ReplaceAtStop {
				supply.counter = supply.bought > 0 && slices.Contains(c.way.Legs[op.Leg].Can, "parts")
				if !supply.counter {
					supply.size = c.packed()
				}
			}
			c.price(&supply)
			c.ruleOut(&supply)
			out = append(out, supply)
		}
	}
	return out
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

// leaving is an option that leaves a chance of crossing the limit and, at home,
// a band.
func (c chooser) leaving(action plan.Action, leg int, crossing float64, end plan.Band) option {
	return option{
		Decision: plan.Decision{Action: action, Leg: leg, POut: crossing, PUnsafe: c.unsafe(crossing), LifeEnd: end.P50},
		margin:   end.PMargin, site: noSite,
	}
}

// asItIs does nothing.
func (c chooser) asItIs() option {
	end := c.asIs[c.last()]
	op := c.leaving(plan.Run, -1, end.PLimit, end)
	if op.POut > float64(c.safety.Run) || op.margin > 0.5 || c.set.Watched {
		op.Action = plan.Watch
	}
	return op
}

// unsafe is the chance of driving across the limit unnoticed; an oil fill
// beyond its ceiling hurts the engine, not the people.
func (c chooser) unsafe(crossing float64) float64 {
	if !c.set.Critical {
		return 0
	}
	return crossing * (1 - c.set.Caught)
}

// either is the chance that at least one of two independent things happens.
func either(a, b float64) float64 { return 1 - float64((1-a)*(1-b)) }

// replaceBefore is a new set before leaving, with its bands.
func (c chooser) replaceBefore(bands []plan.Band) option {
	end := bands[c.last()]
	op := c.leaving(plan.ReplaceBefore, -1, end.PLimit, end)
	c.atHome(&op)
	return op
}

// atHome has a set replaced before leaving: at home where that can be done,
// otherwise in a shop.
func (c chooser) atHome(op *option) {
	op.site, op.hours, op.rate = homeSite, float64(c.part.Hours), float64(c.way.Folder.Car.Costs.Hour)
	if !c.fits("home") {
		op.Shop, op.rate = true, float64(c.way.Folder.Car.Costs.Shop)
	}
}

// replaceAt is a new set at a stop.
func (c chooser) replaceAt(stop int) option {
	before, end := c.asIs[stop], c.w.OutcomeAtEnd(c.set.Replacement, stop+1)
	op := c.leaving(plan.ReplaceAtStop, stop, either(before.PLimit, end.PLimit), end)
	op.margin, op.site = either(before.PMargin, end.PMargin), stop
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

// bring packs a spare and fits it in the paddock: at the margin, and at the
// latest before the leg that would leave more than the cap to chance. The
// chances start from the given bands, of the set as it is or of a new one. What
// no check on the way shows is not brought: nobody would know when to fit it.
func (c chooser) bring(bands []plan.Band) (option, bool) {
	if !c.fits("paddock") || c.set.Caught == 0 {
		return option{}, false
	}
	latest := slices.IndexFunc(bands, func(b plan.Band) bool { return c.unsafe(b.PLimit) > float64(c.safety.Cap) })
	change := c.paddockBefore(latest)
	if latest == 0 || latest > 0 && change == 0 {
		return option{}, false
	}
	// The spare has to last from the first circuit day that may need it.
	from := change
	if from < 0 {
		from = c.paddockBefore(slices.IndexFunc(bands, func(b plan.Band) bool { return b.PLimit > float64(c.safety.Run) }))
	}
	if from < 0 {
		return option{}, false
	}
	after := c.w.OutcomeAtEnd(c.set.Replacement, from)
	// A crossing on the road, away from any paddock, still stops the trip.
	stuck, until := 0.0, c.last()
	if change >= 0 {
		until = change - 1
	}
	for j := 0; j <= until; j++ {
		if c.way.Legs[j].Kind == profiles.RoadLeg {
			stuck += bands[j].PLimit - previous(bands, j)
		}
	}
	crossing := previous(bands, until+1)
	op := c.leaving(plan.Bring, change, either(stuck, after.PLimit), after)
	op.PUnsafe = c.unsafe(either(crossing, after.PLimit))
	op.margin, op.size, op.PNeed = 0, c.packed(), bands[c.last()].PLimit
	if change >= 0 {
		op.PNeed = 1 // the change is planned
	}
	return op, true
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
	case op.PUnsafe > float64(c.safety.Cap), op.Action == plan.ReplaceBefore && c.asGoodAsNew():
		op.ruledOut = plan.BindCap
	case c.orderedTooLate(op):
		op.ruledOut = plan.BindLate
	}
}

// asGoodAsNew is an oil fill so fresh that another gains nothing. What its life
// has to be: engineering choice.
func (c chooser) asGoodAsNew() bool {
	const fresh = 0.95
	return !c.set.Critical && len(c.set.Stop) == 0 && c.lifeLeft(homeSite) >= fresh
}

// orderedTooLate says whether an option needs a part that would arrive after
// departure.
func (c chooser) orderedTooLate(op *option) bool {
	if op.bought == 0 || op.counter || c.today.IsZero() || c.way.Depart.IsZero() {
		return false
	}
	return OrderBy(c.way.Depart, float64(c.part.LeadTime)).Before(c.today)
}
