package learning

import (
	"maps"
	"math"
	"slices"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/projection"
	"example.com/tripwear/planner/trip"
	"example.com/tripwear/wearmodel/reliability"
)

// spreads are those of a kind's factors, sd of ln, so that together they are as
// wide as the kind's rates.
type spreads struct {
	inAll     kind.Spreads
	road      float64 // of a set
	circuit   float64
	point     float64 // on roads and circuits alike
	apart     float64 // of a circuit
	bySummary float64 // of one known by its summary alone
	visit     float64 // scale of what a visit takes at its pace
	common    float64 // share of the sd of a set's that its kind has
}

// Engineering choices.
const (
	// sharedVariance is the share of the variance of a set's rates that the sets
	// of its kind on a car have in common: the driver, the roads, the circuits.
	sharedVariance = 0.5
	// pointShare is how differently a set's points wear from what the model says,
	// as a share of the narrower of its rates: a tread zone by 0.15, a pad by 0.18.
	pointShare = 0.6
	// wheelVariance is the share of its variance that the zones of a wheel have in
	// common.
	wheelVariance = 0.6
	// apartShare and visitShare are those of circuits and of visits, of the rate on
	// circuits: for a tread 0.25 and 0.15.
	apartShare, visitShare = 0.5, 0.3
)

func split(in kind.Spreads) spreads {
	s := spreads{
		inAll: in, point: pointShare * math.Min(in.Road, in.Circuit), apart: apartShare * in.Circuit, visit: visitShare * in.Circuit,
		common: math.Sqrt(sharedVariance),
	}
	rest := func(all float64, parts ...float64) float64 {
		v := float64(all * all)
		for _, p := range parts {
			v -= float64(p * p)
		}
		return math.Sqrt(math.Max(0, v))
	}
	s.road = rest(in.Road, s.point)
	s.circuit = rest(in.Circuit, s.point, s.apart, math.Sqrt2*s.visit)
	s.bySummary = math.Hypot(s.apart, in.Summary)
	return s
}

// Factors come in a fixed order: the kind's road and circuit, the visits, the
// circuits, for every set and part its road, its circuit, and its points, and
// how circuits' rates drifted from event to event.
func (h *history) ofVisit(visit int) int { return 2 + visit }

// mostSteps is how many steps a drift has: of more visits some go together.
// Engineering choice.
const mostSteps = 40

// steps is how many steps a drift has, stepOf which one a visit comes after.
func (h *history) steps() int { return max(0, min(mostSteps, h.past.Visits)-1) }

func (h *history) stepOf(visit int) int { return visit * (h.steps() + 1) / max(1, h.past.Visits) }

// drifted is by how much rates on circuits drifted up to a visit.
func (h *history) drifted(visit int) []reliability.Power {
	if visit < 0 || h.stepOf(visit) == 0 {
		return nil
	}
	return []reliability.Power{{Factor: h.ofKey(len(h.keys)) + h.stepOf(visit) - 1, Exponent: 1}}
}

// factors is how many there are without any theory.
func (h *history) factors() int { return h.ofKey(len(h.keys)) + h.steps() }

func (h *history) ofCircuit(name string) int {
	return 2 + h.past.Visits + slices.IndexFunc(h.past.Circuits, func(c trip.Circuit) bool { return c.Name == name })
}

func (h *history) ofKey(key int) int {
	return 2 + h.past.Visits + len(h.past.Circuits) + (2+2*h.ofWheel())*key
}

// ofPoint are the factors of one point, the same on roads and circuits: its
// wheel's, and where that has several zones its own.
func (h *history) ofPoint(key int, place, zone string) []reliability.Power {
	first := h.ofKey(key) + 2
	if place == h.kind.ID.Info().Sets[h.axleOf(key)].At[1] {
		first += h.ofWheel()
	}
	out := []reliability.Power{{Factor: first, Exponent: 1}}
	if len(h.zones) > 1 {
		out = append(out, reliability.Power{Factor: first + 1 + slices.Index(h.zones, zone), Exponent: 1})
	}
	return out
}

// ofWheel is how many factors a wheel has.
func (h *history) ofWheel() int {
	if len(h.zones) > 1 {
		return 1 + len(h.zones)
	}
	return 1
}

// roadOf and circuitOf are the factors of a set's rates.
func (h *history) roadOf(key int) []reliability.Power {
	return []reliability.Power{{Factor: 0, Exponent: 1}, {Factor: h.ofKey(key), Exponent: 1}}
}

func (h *history) circuitOf(key int) []reliability.Power {
	return []reliability.Power{{Factor: 1, Exponent: 1}, {Factor: h.ofKey(key) + 1, Exponent: 1}}
}

// priorFactors is the prior of the factors, by how much visits scatter and rates
// drift.
func (h *history) priorFactors(by unrest) []reliability.Factor {
	sd := func(v float64) reliability.Factor { return reliability.Factor{SD: math.Max(v, leastSpread)} }
	s := h.spread
	var roads, circuits []reliability.Told
	for _, b := range h.beliefs {
		roads, circuits = append(roads, b.road), append(circuits, b.circuit)
	}
	road, roads := parted(roads, s.common)
	circuit, circuits := parted(circuits, s.common)
	out := []reliability.Factor{sd(road), sd(circuit)}
	for range h.past.Visits {
		out = append(out, projection.Visits(by.scatter))
	}
	for _, c := range h.past.Circuits {
		if c.Summary {
			out = append(out, sd(s.bySummary))
		} else {
			out = append(out, sd(s.apart))
		}
	}
	for key := range h.keys {
		for _, own := range []reliability.Told{roads[key], circuits[key]} {
			f := sd(own.SD)
			f.Mean = own.Mean
			out = append(out, f)
		}
		wheel, zone := s.point, 0.0
		if len(h.zones) > 1 {
			wheel, zone = s.point*math.Sqrt(wheelVariance), s.point*math.Sqrt(1-wheelVariance)
		}
		for range 2 {
			out = append(out, sd(wheel))
			for range h.ofWheel() - 1 {
				out = append(out, sd(zone))
			}
		}
	}
	step := by.drift * math.Sqrt(float64(h.past.Visits)/float64(h.steps()+1))
	for n := range h.steps() {
		f := sd(step)
		if n > 0 {
			f.After = len(out) // the one before
		}
		out = append(out, f)
	}
	return out
}

// taken is what the driving between two odometers took from a reading's point,
// with the factors it is multiplied by. A visit's factor is in its scatter, that
// of its pace among it.
func (h *history) taken(r reading, of func(*kind.Wear) float64, p *trip.Past, on trip.Spans, from, to float64) []reliability.Taken {
	road, visits := p.Taken(of, on, from, to)
	var out []reliability.Taken
	own := h.ofPoint(r.key, r.place, r.zone)
	if road > 0 {
		out = append(out, reliability.Taken{Amount: road, Powers: append(h.roadOf(r.key), own...)})
	}
	for _, v := range visits {
		if v.Loss[1] <= 0 {
			continue
		}
		powers := append(make([]reliability.Power, 0, 6), h.circuitOf(r.key)...)
		powers = append(powers,
			reliability.Power{Factor: h.ofVisit(v.Visit), Exponent: math.Hypot(v.Loss.Slope()/math.Sqrt2, h.spread.visit)},
			reliability.Power{Factor: h.ofCircuit(v.Circuit), Exponent: 1})
		powers = append(append(powers, own...), h.drifted(v.Visit)...)
		out = append(out, reliability.Taken{Amount: v.Loss[1], Powers: powers})
	}
	return out
}

// visitOf is the visit that took something; -1 for roads.
func (h *history) visitOf(t reliability.Taken) int {
	if t.Powers[0].Factor == 0 {
		return -1
	}
	return t.Powers[2].Factor - h.ofVisit(0)
}

// middleSlope is the mean effect of pace over the visits between readings.
func (h *history) middleSlope() float64 {
	sum, n := 0.0, 0.0
	for _, r := range h.readings {
		for _, t := range r.taken {
			if h.visitOf(t) >= 0 {
				e := t.Powers[2].Exponent
				sum, n = sum+float64(2*(float64(e*e)-float64(h.spread.visit*h.spread.visit))), n+1
			}
		}
	}
	if n == 0 {
		return 0
	}
	return math.Sqrt(math.Max(0, sum/n))
}

// unrest is how little circuits' wear stays the same.
type unrest struct {
	scatter float64 // how many times as much as usual visits scatter
	drift   float64 // a step of the rates from event to event, sd of ln
	visits  int     // that were read after
}

// How surely it is known before the logbook how much visits scatter and rates
// drift: as from so many visits and events. The drift that is usual. How far the
// search for both goes. Engineering choices.
const (
	scatterKnown = 2
	driftKnown   = 3
	usualDrift   = 0.06
	unrestClose  = 0.05
	unrestSteps  = 5
)

var usualUnrest = unrest{scatter: 1, drift: usualDrift}

// unrestBy is how much visits scatter and rates drift, by a fit that took it to be
// so much already (one step of expectation and maximisation).
func (h *history) unrestBy(l estimate) unrest {
	first, latest := map[int]float64{}, 0 // by visit: the odometer of the reading after it
	for _, i := range l.used {
		for _, t := range h.readings[i].taken {
			if v := h.visitOf(t); v >= 0 {
				at, seen := first[v]
				if first[v], latest = h.readings[i].odometer, max(latest, v); seen {
					first[v] = min(at, first[v])
				}
			}
		}
	}
	seen := slices.Sorted(maps.Keys(first))
	if len(seen) == 0 || !slices.ContainsFunc(seen, func(v int) bool { return first[v] != first[seen[0]] }) {
		seen = nil // what one reading says of them all is their rate
	}
	scatter, visits := float64(scatterKnown), len(seen)
	for _, v := range seen {
		mean, variance := l.fit.Of(h.ofVisit(v))
		square := float64(mean*mean) + variance
		weight := (projection.VisitFreedom + 1) / (projection.VisitFreedom + square/(l.scatter*l.scatter))
		scatter += float64(weight * square)
	}
	drift, events := float64(driftKnown*usualDrift*usualDrift), float64(driftKnown)
	for n := range h.stepOf(latest) {
		mean, variance := l.fit.Step(h.factors() - h.steps() + n)
		drift += (float64(mean*mean) + variance) * float64(h.steps()+1) / float64(h.past.Visits)
		events++
	}
	return unrest{math.Sqrt(scatter / float64(scatterKnown+visits)), math.Sqrt(drift / events), visits}
}

// near says whether one unrest is as good as another.
func (u unrest) near(o unrest) bool {
	return math.Abs(u.scatter/o.scatter-1) < unrestClose && math.Abs(u.drift/o.drift-1) < unrestClose
}

// latest is the last visit that an estimate's readings were made after; -1: none.
func (h *history) latest(l estimate) int {
	latest := -1
	for _, i := range l.used {
		if n := len(h.readings[i].taken); n > 0 {
			latest = max(latest, h.visitOf(h.readings[i].taken[n-1]))
		}
	}
	return latest
}

// visitAhead is the scatter of a coming visit beside its pace. A visit tells of
// the scale what one draw of a t distribution tells.
func (h *history) visitAhead(by unrest) projection.Scatter {
	pace := float64(h.slope * h.slope / 2)
	usual := float64(h.spread.visit * h.spread.visit)
	told := 2 * projection.VisitFreedom / (projection.VisitFreedom + 3.0)
	return projection.Scatter{
		Scale:  math.Sqrt(math.Max(usual/4, float64(by.scatter*by.scatter*(pace+usual))-pace)),
		Unsure: 1 / math.Sqrt(told*float64(scatterKnown+by.visits)),
	}
}
