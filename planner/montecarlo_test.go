package planner

import (
	"cmp"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/randomcar"
	"example.com/tripwear/profiles"
)

// A simulation of a trip written apart from the projection: plain loops over
// what a plan's JSON says, with random numbers of its own. Brake fluid is left
// out, as JSON does not hold what a leg's heat allows it.

// trials are how many draws a plan is made of and how many trips the simulation
// drives.
type trials struct{ draws, trips int }

var (
	few  = trials{propertyDraws, 6000}
	many = trials{40 * propertyDraws, 120000}
)

// simulated compares an owner's plan with the simulation. What differs by three
// standard errors, as one of many sets does by chance, must differ by as many
// of far more trials.
func simulated(t *rapid.T, o *randomcar.Owner, compare func(jsonPlan, trials) []string) {
	t.Helper()
	if len(compare(printed(t, answeredBy(t, o, few.draws)), few)) == 0 {
		return
	}
	for _, wrong := range compare(printed(t, answeredBy(t, o, many.draws)), many) {
		t.Error(wrong)
	}
}

// caught is the share of crossings that a check catches which was made between
// the margin and the limit. Tread and pads by gauge and rotors: engineering
// choices; a look 0.75: a statutory test by trained testers fails 0.74 of the
// cars that should fail; hubs 0.5: inspections bring 43 % of bad ones to light
// (from memory, secondary).
func (c jsonCheck) caught(k profiles.Kind) float64 {
	gauge := c.Measure != "" || c.Looks == "gauge"
	switch {
	case k == profiles.Tire && gauge:
		return 0.95
	case k == profiles.Pads && gauge:
		return 0.90
	case k == profiles.Tire || k == profiles.Pads:
		return 0.75
	case k == profiles.Rotors:
		return 0.65
	case k == profiles.Bearing:
		return 0.50
	}
	return 0
}

// moment is when a set is checked: on a leg, after a share of it.
type moment struct {
	leg     int
	share   float64
	caught  float64
	paddock bool // where a spare can go on
}

// moments are when the checklist has a set looked at.
func (p jsonPlan) moments(s jsonSet) []moment {
	var out []moment
	for _, c := range p.Checks {
		if c.Set != s.ID && !(s.Kind == profiles.Bearing && strings.Contains(c.What, "each wheel")) {
			continue
		}
		for j, l := range p.Legs {
			switch {
			case c.When == "at each fuel stop" && l.Kind == profiles.RoadLeg:
				for _, at := range l.RefuelAt {
					out = append(out, moment{j, at / l.Meters, c.caught(s.Kind), false})
				}
			case c.When == "before each session" && l.Kind == profiles.CircuitLeg:
				for i := range l.Sessions {
					out = append(out, moment{j, float64(i) / float64(l.Sessions), c.caught(s.Kind), true})
				}
			case c.When == "after each circuit day" && l.Kind == profiles.CircuitLeg:
				out = append(out, moment{j, 1, c.caught(s.Kind), true})
			}
		}
	}
	slices.SortStableFunc(out, func(a, b moment) int { return cmp.Or(cmp.Compare(a.leg, b.leg), cmp.Compare(a.share, b.share)) })
	return out
}

// trial is one set on one simulated trip.
type trial struct {
	p       jsonPlan
	s       jsonSet
	pace    float64
	rates   [3]float64 // road, circuit, circuit by summary
	gauge   []float64
	failsAt float64 // L10 lives from now, of a hub
}

func newTrial(r *rand.Rand, p jsonPlan, s jsonSet, pace float64) trial {
	t := trial{p: p, s: s, pace: pace}
	t.rates[0], t.rates[1] = math.Exp(s.RoadSpread*r.NormFloat64()), math.Exp(s.CircuitSpread*r.NormFloat64())
	t.rates[2] = t.rates[1] * math.Exp(s.SummarySpread*r.NormFloat64())
	for range s.Points {
		t.gauge = append(t.gauge, r.NormFloat64())
	}
	if s.Kind == profiles.Bearing {
		t.failsAt, t.rates[0] = hubLife(r, s.Points[0].Prior, s.RoadSpread)
	}
	return t
}

// hubLife draws how long a hub runs on that is good after some use on roads and
// on circuits, and how fast roads use it up: Weibull lives of shape 1.5 whose
// scale is 4.6 L10 lives for ordinary corners, 0.65 for the 3 in 100 that have
// a problem, whose shape is about 2.2 by a spread of 0.6 of its logarithm, from 1.1
// to 3.7 (engineering choices).
func hubLife(r *rand.Rand, used [2]float64, roadSpread float64) (left, road float64) {
	for {
		road = math.Exp(roadSpread * r.NormFloat64())
		age := used[0]*road + used[1]
		scale, shape := math.Exp(math.Log(4.6)+0.3*r.NormFloat64()), 1.5
		if r.Float64() < 0.03 {
			scale = math.Exp(math.Log(0.65) + 0.7*r.NormFloat64())
			for shape = 0; shape < 1 || shape > 4; {
				shape = 2.2 * math.Exp(0.6*r.NormFloat64())
			}
		}
		if life := scale * math.Pow(r.ExpFloat64(), 1/shape); life > age {
			return life - age, road
		}
	}
}

// loss is what a leg takes from a point.
func (t trial) loss(pt jsonPoint, j int) float64 {
	rate := t.rates[0]
	if l := t.p.Legs[j]; l.Kind == profiles.CircuitLeg {
		rate = t.rates[1]
		if l.BySummary {
			rate = t.rates[2]
		}
	}
	mid := pt.Loss[j]
	if mid <= 0 || len(pt.Slow) == 0 || pt.Slow[j] <= 0 || pt.Fast[j] <= 0 {
		return rate * mid
	}
	low, high := math.Log(pt.Slow[j]/mid), math.Log(pt.Fast[j]/mid)
	return rate * mid * math.Exp(t.pace*((high-low)/2+t.pace*(high+low)/2))
}

// level is a point's level at a moment, on the part that is on the car or on a
// new one that went on at another moment.
func (t trial) level(i, j int, share float64, fresh *moment) float64 {
	pt := t.s.Points[i]
	level, from, done := pt.New, 0, 0.0
	switch {
	case fresh != nil:
		from, done = fresh.leg, fresh.share
	case t.s.Kind == profiles.Bearing:
		level = t.failsAt
	case len(t.s.Seen) > 0 && (pt.Start == pt.Margin || t.s.Kind == profiles.Rotors && pt.Start == 0.1*pt.New):
		// put there by what was found: no higher, and lower only if the plan has it so
		level = pt.Start
	default:
		level = pt.Start + pt.Prior[0]*(1-t.rates[0]) + pt.Prior[1]*(1-t.rates[1]) + pt.Gauge*t.gauge[i]
	}
	for k := from; k <= j; k++ {
		part := 1.0
		if k == j {
			part = share
		}
		if k == from {
			part -= done
		}
		level -= part * t.loss(pt, k)
	}
	if len(pt.Cap) > 0 && fresh == nil && share == 1 {
		level = min(level, pt.Cap[j])
	}
	return level
}

// printedTo is by which share of a new part JSON's six figures may put a level over
// a line.
const printedTo = 1e-6

// past says whether a line is reached by any point.
func (t trial) past(j int, share float64, fresh *moment, line func(jsonPoint) float64) bool {
	for i := range t.s.Points {
		if t.level(i, j, share, fresh) <= line(t.s.Points[i])-printedTo*t.s.Points[i].New {
			return true
		}
	}
	return false
}

func limit(p jsonPoint) float64  { return p.Limit }
func margin(p jsonPoint) float64 { return p.Margin }

// unnoticed is the chance that the limit is crossed between two moments and no
// check in between that could show it does.
func (t trial) unnoticed(checks []moment, fresh *moment, until moment) float64 {
	if !t.past(until.leg, until.share, fresh, limit) {
		return 0
	}
	crossing := 0
	for crossing < until.leg && !t.past(crossing, 1, fresh, limit) {
		crossing++
	}
	best := 0.0
	for _, c := range checks {
		after := fresh == nil || c.leg > fresh.leg || c.leg == fresh.leg && c.share >= fresh.share
		before := c.leg < until.leg || c.leg == until.leg && c.share < until.share
		after = after && (c.leg > 0 || c.share > 0) // what is read before leaving is what the plan starts from
		shows := t.past(c.leg, c.share, fresh, margin)
		if t.s.Kind == profiles.Bearing { // it has no margin: only before the leg on which it fails
			shows = c.leg < crossing || c.leg == crossing && c.share == 0
		}
		if after && before && shows && !t.past(c.leg, c.share, fresh, limit) {
			best = max(best, c.caught)
		}
	}
	return 1 - best
}

// asDecided is the chance that this trip is driven past the limit unnoticed.
func (t trial) asDecided(checks []moment) float64 {
	d, home := t.s.Decision, moment{leg: len(t.p.Legs) - 1, share: 1}
	var on *moment // when what is on the car went on
	missed := 1.0  // chance that this is on it
	sum := 0.0
	switch d.Action {
	case plan.ReplaceBefore:
		on = &moment{}
	case plan.ReplaceAtStop:
		stop := moment{leg: d.Leg, share: 1}
		return sum + either(t.unnoticed(checks, nil, stop), t.fresh(checks, stop, home))
	case plan.Run, plan.Watch, plan.Bring, plan.DoNotTake:
	}
	if d.Action != plan.Bring && !d.Spare {
		return t.unnoticed(checks, on, home)
	}
	latest := home
	if d.Leg > 0 {
		latest = moment{leg: d.Leg, share: 0}
	}
	for _, c := range checks { // the spare goes on where a check finds the margin
		if c.leg > latest.leg || c.leg == latest.leg && c.share >= latest.share {
			break
		}
		if t.past(c.leg, c.share, on, limit) {
			return 1
		}
		if c.paddock && t.past(c.leg, c.share, on, margin) {
			sum += missed * c.caught * t.fresh(checks, c, home)
			missed *= 1 - c.caught
			break
		}
	}
	if d.Leg > 0 {
		return sum + missed*either(t.unnoticed(checks, on, latest), t.fresh(checks, latest, home))
	}
	if missed < 1 && t.past(home.leg, home.share, on, limit) {
		return sum + missed
	}
	return sum + missed*t.unnoticed(checks, on, home)
}

// fresh is unnoticed of a new part that goes on at a moment.
func (t trial) fresh(checks []moment, from, until moment) float64 {
	if t.s.Kind == profiles.Bearing {
		t.failsAt, _ = hubLife(rand.New(rand.NewPCG(uint64(math.Float64bits(t.failsAt)), 1)), [2]float64{}, 0)
	}
	return t.unnoticed(checks, &from, until)
}

func either(a, b float64) float64 { return 1 - (1-a)*(1-b) }

// simulate gives the chances to cross the limit as the car stands, and to do so
// unnoticed as decided.
func (by trials) simulate(p jsonPlan, s jsonSet) (asIs, unnoticed float64) {
	r, checks, home := rand.New(rand.NewPCG(99, uint64(len(s.ID)))), p.moments(s), len(p.Legs)-1
	for range by.trips {
		t := newTrial(r, p, s, r.NormFloat64())
		if t.past(home, 1, nil, limit) {
			asIs++
		}
		if s.Decision.Action != plan.DoNotTake {
			unnoticed += t.asDecided(checks)
		}
	}
	return asIs / float64(by.trips), unnoticed / float64(by.trips)
}

// errorsOf is three standard errors of a chance in the simulation and in the plan.
func (by trials) errorsOf(p float64) float64 {
	least := 2 / float64(by.draws)
	p = min(1-least, max(p, least))
	return 3*math.Sqrt(p*(1-p)*(1/float64(by.trips)+1/float64(by.draws))) + least
}

// TestSimulation: the chances as the car stands are those of the simulation,
// on cars of which nothing but levels is known.
func TestSimulation(t *testing.T) {
	randomcar.Check(t, 8, func(t *rapid.T) {
		o := randomcar.Draw(t, 0)
		for i := range o.Fitted {
			o.Fitted[i].Readings = slices.DeleteFunc(o.Fitted[i].Readings, func(r randomcar.Reading) bool { return r.Word != "" })
		}
		simulated(t, o, func(p jsonPlan, by trials) (wrong []string) {
			for _, s := range p.Sets {
				if s.Kind == profiles.Fluid || len(s.Stop) > 0 {
					continue
				}
				if got, _ := by.simulate(p, s); math.Abs(got-s.Decision.PAsIs) > by.errorsOf(s.Decision.PAsIs) {
					wrong = append(wrong, fmt.Sprintf("%s: %.4f by the plan, %.4f by the simulation", s.ID, s.Decision.PAsIs, got))
				}
			}
			return wrong
		})
	})
}
