package planner

import (
	"slices"

	"example.com/tripwear/profiles"
)

// option is one possible action for a set, with what it leaves to chance.
// A later choice by cost prices the same options.
type option struct {
	Decision
	margin float64 // chance that the margin is crossed on the trip
}

// decide lists what could be done about a set and chooses.
func decide(s *set, w *worker, b *builder) Decision {
	o := options{set: s, w: w, b: b, safety: b.folder.Model.Safety}
	return o.choose()
}

// options works out the actions open to one set.
type options struct {
	set    *set
	w      *worker
	b      *builder
	safety profiles.Safety
}

// last is the index of the last leg.
func (o options) last() int { return len(o.b.legs) - 1 }

// uncaught is the share of crossings that the plan's checks would miss.
func (o options) uncaught() float64 { return 1 - o.set.Caught }

// asIs is to do nothing.
func (o options) asIs() option {
	end := o.set.After[o.last()]
	return option{
		Decision: Decision{
			Action: Run, Leg: -1, POut: end.PLimit, PUnsafe: o.unsafe(end.PLimit), LifeEnd: end.P50,
		},
		margin: end.PMargin,
	}
}

// unsafe is the chance of driving across the limit unnoticed; an oil fill
// beyond its ceiling hurts the engine, not the people.
func (o options) unsafe(crossing float64) float64 {
	if !o.set.Critical {
		return 0
	}
	return crossing * o.uncaught()
}

// either is the chance that at least one of two independent things happens.
func either(a, b float64) float64 { return 1 - (1-a)*(1-b) }

// fresh projects a new set that goes on before the given leg.
func (o options) fresh(from int) []Band {
	return o.w.project(o.set.fresh, from).set
}

// renewBefore is a new set before leaving.
func (o options) renewBefore() option {
	bands := o.fresh(0)
	end := bands[o.last()]
	return option{
		Decision: Decision{Action: RenewBefore, Leg: -1, POut: end.PLimit, PUnsafe: o.unsafe(end.PLimit), LifeEnd: end.P50},
		margin:   end.PMargin,
	}
}

// renewAt is a new set at a stop.
func (o options) renewAt(stop int) option {
	before, end := o.set.After[stop], o.fresh(stop + 1)[o.last()]
	return option{
		Decision: Decision{
			Action: RenewAtStop, Leg: stop, LifeEnd: end.P50,
			POut:    either(before.PLimit, end.PLimit),
			PUnsafe: o.unsafe(either(before.PLimit, end.PLimit)),
		},
		margin: either(before.PMargin, end.PMargin),
	}
}

// stops lists the stops that can fit the set.
func (o options) stops() []int {
	var out []int
	for j, l := range o.b.legs {
		if l.Kind == profiles.StopLeg && slices.ContainsFunc(l.Can, o.fits) {
			out = append(out, j)
		}
	}
	return out
}

func (o options) fits(place string) bool { return slices.Contains(o.set.fit, place) }

// paddock says whether the car stands where a spare can be fitted before leg j.
func (o options) paddock(j int) bool {
	legs := o.b.legs
	return legs[j].Kind == profiles.CircuitLeg || j > 0 && legs[j-1].Kind != profiles.RoadLeg
}

// carry takes a spare along and fits it in the paddock: at the margin, and at
// the latest before the leg that would leave more than the cap to chance.
// The chances start from the given bands, of the set as it is or of a new one.
// What no check on the way shows is not carried: nobody would know when.
func (o options) carry(bands []Band) (option, bool) {
	if !o.fits("paddock") || o.set.Caught == 0 {
		return option{}, false
	}
	latest := -1
	for j := range bands {
		if o.unsafe(bands[j].PLimit) > float64(o.safety.Cap) {
			latest = j
			break
		}
	}
	change := latest
	for change > 0 && !o.paddock(change) {
		change--
	}
	if latest == 0 || latest > 0 && change == 0 {
		return option{}, false
	}
	// What is needed of the spare: everything from the first circuit day that
	// may need it.
	from := change
	if from < 0 {
		from = slices.IndexFunc(bands, func(b Band) bool { return b.PLimit > float64(o.safety.Run) })
		for from > 0 && !o.paddock(from) {
			from--
		}
	}
	if from < 0 {
		return option{}, false
	}
	after := o.fresh(from)[o.last()]
	// A crossing on the road, away from any paddock, still stops the trip.
	stuck, until := 0.0, o.last()
	if change >= 0 {
		until = change - 1
	}
	for j := 0; j <= until; j++ {
		if o.b.legs[j].Kind == profiles.RoadLeg {
			stuck += bands[j].PLimit - previous(bands, j)
		}
	}
	crossing := previous(bands, until+1)
	return option{Decision: Decision{
		Action: Carry, Leg: change, LifeEnd: after.P50,
		PNeed:   bands[o.last()].PLimit,
		POut:    either(stuck, after.PLimit),
		PUnsafe: o.unsafe(either(crossing, after.PLimit)),
	}}, true
}

// previous is the chance of the limit before leg j.
func previous(bands []Band, j int) float64 {
	if j == 0 {
		return 0
	}
	return bands[j-1].PLimit
}

// passes says whether an option keeps to the cap and to the owner's accepted
// chance of being stopped short.
func (o options) passes(op option) bool {
	return op.PUnsafe <= float64(o.safety.Cap) && op.POut <= float64(o.safety.Accept)
}

// choose takes the first action that holds, from the one that costs least
// life: leave it, fit a spare on the way only if it comes to that, renew at a
// stop, renew before leaving, renew and carry another.
func (o options) choose() Decision {
	asIs := o.asIs()
	finish := func(op option) Decision {
		op.PAsIs = asIs.POut
		o.explain(&op)
		return op.Decision
	}
	likelyMargin := asIs.margin > float64(o.safety.WillFail)
	if o.passes(asIs) && (!likelyMargin || o.set.Critical) {
		if asIs.POut > float64(o.safety.Run) || likelyMargin {
			asIs.Action = Watch
		}
		return finish(asIs)
	}

	var ranked []option
	spare, ok := o.carry(o.set.After)
	wanted := asIs.POut < float64(o.safety.WillFail) || spare.Leg < 0
	if ok && wanted {
		ranked = append(ranked, spare)
	}
	ranked = append(ranked, o.bestStop()...)
	before := o.renewBefore()
	ranked = append(ranked, before)
	if ok && !wanted {
		ranked = append(ranked, spare)
	}
	if both, ok := o.carry(o.fresh(0)); ok {
		both.Action, both.Spare = RenewBefore, true
		ranked = append(ranked, both)
	}
	for _, op := range ranked {
		if o.passes(op) {
			return finish(op)
		}
	}
	if !o.set.Critical && o.passes(asIs) {
		asIs.Action = Watch
		return finish(asIs)
	}
	return finish(o.leastBad(append(ranked, asIs)))
}

// bestStop is the stop that leaves the margin untouched most surely, if any.
func (o options) bestStop() []option {
	var best []option
	for _, j := range o.stops() {
		op := o.renewAt(j)
		if len(best) == 0 || op.margin < best[0].margin {
			best = []option{op}
		}
	}
	return best
}

// leastBad is for a set that nothing makes sure: the safe option most likely
// to see the trip through, or the word not to go.
func (o options) leastBad(all []option) option {
	best := -1
	for i, op := range all {
		if op.PUnsafe <= float64(o.safety.Cap) && (best < 0 || op.POut < all[best].POut) {
			best = i
		}
	}
	if best >= 0 {
		if all[best].Action == Run {
			all[best].Action = Watch
		}
		return all[best]
	}
	worst := all[len(all)-1] // as it stands
	for _, op := range all {
		if op.PUnsafe < worst.PUnsafe {
			worst = op
		}
	}
	worst.Action, worst.Leg, worst.Spare = DoNotTake, -1, false
	return worst
}
