package decision

import (
	"slices"
	"time"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/projection"
	"example.com/tripwear/planner/trip"
	"example.com/tripwear/profiles"
)

// option is one possible action for a set, with what it leaves to chance and
// what it is expected to cost.
type option struct {
	plan.Decision
	margin   float64 // chance that the margin is crossed on the trip
	size     [2]float64
	hours    float64 // of labor, s
	rate     float64 // of that labor, money an hour
	site     int     // where it is renewed: a leg, home, or nowhere
	bought   int     // new sets that are not on the shelf
	counter  bool    // they are bought at the stop
	ruledOut string  // why it cannot be chosen; "" where it can
}

// Occasions beside the stops.
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
	return chooser{set: s, w: w, way: way, today: today, part: way.Folder.Parts[s.Part], asIs: s.After, safety: way.Folder.Model.Safety}
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
	fresh := c.newSet(0)
	out = append(out, c.replaceBefore(fresh))
	if op, ok := c.bring(fresh); ok {
		op.Action, op.Spare, op.site = plan.ReplaceBefore, true, homeSite
		c.laborBefore(&op)
		out = append(out, op)
	}
	return c.withSupplies(out)
}

// withSupplies gives every option its supplies: as many new sets as it takes, from
// the shelf as far as that goes, or bought; each way is an option of its own,
// since another set may want what lies on the shelf.
func (c chooser) withSupplies(options []option) []option {
	var out []option
	for _, op := range options {
		for op.Shelf = min(c.set.Shelf, op.wants()); op.Shelf >= 0; op.Shelf-- {
			supply := op
			supply.bought = op.wants() - op.Shelf
			if op.Action == plan.ReplaceAtStop {
				supply.counter = supply.bought > 0 && slices.Contains(c.way.Legs[op.Leg].Can, "parts")
				if !supply.counter {
					supply.size = c.trunkRoom()
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
	case op.Action == plan.Run || op.Action == plan.Watch:
		return 0
	case op.Spare:
		return 2
	default:
		return 1
	}
}

// last is the index of the last leg.
func (c chooser) last() int { return len(c.way.Legs) - 1 }

// asItIs is to do nothing.
func (c chooser) asItIs() option {
	end := c.asIs[c.last()]
	op := option{
		Decision: plan.Decision{Action: plan.Run, Leg: -1, POut: end.PLimit, PUnsafe: c.unsafe(end.PLimit), LifeEnd: end.P50},
		margin:   end.PMargin, site: noSite,
	}
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

// newSet projects a new set that goes on before the given leg.
func (c chooser) newSet(from int) []plan.Band {
	return c.w.Outcome(c.set.Replacement, from, false)
}

// replaceBefore is a new set before leaving, with its bands.
func (c chooser) replaceBefore(fresh []plan.Band) option {
	end := fresh[c.last()]
	op := option{
		Decision: plan.Decision{Action: plan.ReplaceBefore, Leg: -1, POut: end.PLimit, PUnsafe: c.unsafe(end.PLimit), LifeEnd: end.P50},
		margin:   end.PMargin, site: homeSite,
	}
	c.laborBefore(&op)
	return op
}

// replaceAt is a new set at a stop.
func (c chooser) replaceAt(stop int) option {
	before, end := c.asIs[stop], c.w.OutcomeAtEnd(c.set.Replacement, stop+1)
	op := option{
		Decision: plan.Decision{
			Action: plan.ReplaceAtStop, Leg: stop, LifeEnd: end.P50,
			POut:    either(before.PLimit, end.PLimit),
			PUnsafe: c.unsafe(either(before.PLimit, end.PLimit)),
		},
		margin: either(before.PMargin, end.PMargin), site: stop,
		hours: float64(c.part.Hours), rate: float64(c.way.Folder.Car.Costs.Shop),
	}
	op.Shop = slices.Contains(c.way.Legs[stop].Can, "shop")
	if !op.Shop {
		op.rate = float64(c.way.Folder.Car.Costs.Hour)
	}
	return op
}

// trunkRoom is the room the set takes in the boot.
func (c chooser) trunkRoom() [2]float64 {
	return [2]float64{float64(c.part.Volume), float64(c.part.Weight)}
}

// laborBefore sets the labor of a renewal before leaving: at home where that can
// be done, otherwise in a workshop.
func (c chooser) laborBefore(op *option) {
	op.hours, op.rate = float64(c.part.Hours), float64(c.way.Folder.Car.Costs.Hour)
	if !c.fits("home") {
		op.Shop, op.rate = true, float64(c.way.Folder.Car.Costs.Shop)
	}
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

// paddock says whether the car stands where a spare can be fitted before leg j,
// which is not the first.
func (c chooser) paddock(j int) bool {
	legs := c.way.Legs
	return legs[j].Kind == profiles.CircuitLeg || legs[j-1].Kind != profiles.RoadLeg
}

// bring takes a spare along and fits it in the paddock: at the margin, and at
// the latest before the leg that would leave more than the cap to chance.
// The chances start from the given bands, of the set as it is or of a new one.
// What no check on the way shows is not carried: nobody would know when.
func (c chooser) bring(bands []plan.Band) (option, bool) {
	if !c.fits("paddock") || c.set.Caught == 0 {
		return option{}, false
	}
	latest := slices.IndexFunc(bands, func(b plan.Band) bool { return c.unsafe(b.PLimit) > float64(c.safety.Cap) })
	change := latest
	for change > 0 && !c.paddock(change) {
		change--
	}
	if latest == 0 || latest > 0 && change == 0 {
		return option{}, false
	}
	// What is needed of the spare: everything from the first circuit day that
	// may need it.
	from := change
	if from < 0 {
		from = slices.IndexFunc(bands, func(b plan.Band) bool { return b.PLimit > float64(c.safety.Run) })
		for from > 0 && !c.paddock(from) {
			from--
		}
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
	need := bands[c.last()].PLimit
	if change >= 0 {
		need = 1 // the change is planned
	}
	return option{
		Decision: plan.Decision{
			Action: plan.Bring, Leg: change, LifeEnd: after.P50, PNeed: need,
			POut:    either(stuck, after.PLimit),
			PUnsafe: c.unsafe(either(crossing, after.PLimit)),
		},
		site: noSite, size: c.trunkRoom(),
	}, true
}

// previous is the chance of the limit before leg j.
func previous(bands []plan.Band, j int) float64 {
	if j == 0 {
		return 0
	}
	return bands[j-1].PLimit
}

// ruleOut rules an option out where it is not safe, where what was found forbids
// it, or where the part cannot be there in time.
func (c chooser) ruleOut(op *option) {
	switch {
	case len(c.set.Stop) > 0 && (op.Action != plan.ReplaceBefore || c.set.RepairFirst):
		op.ruledOut = "found"
	case op.PUnsafe > float64(c.safety.Cap):
		op.ruledOut = "unsafe"
	case c.orderedTooLate(op):
		op.ruledOut = "late"
	}
}

// orderedTooLate says whether an option needs a part that would arrive after departure.
func (c chooser) orderedTooLate(op *option) bool {
	if op.bought == 0 || op.counter || c.today.IsZero() || c.way.Depart.IsZero() {
		return false
	}
	return OrderBy(c.way.Depart, c.part).Before(c.today)
}
