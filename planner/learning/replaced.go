package learning

import (
	"math"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/projection"
	"example.com/tripwear/planner/trip"
	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/wearmodel/reliability"
)

// served is what became of one part, in the model's own measure of its
// life: shares of L10 of a hub bearing, shares of the crack life of a rotor.
type served struct {
	good  float64 // it was good at this age
	bad   float64 // it was found bad at this age; 0 where it never was
	now   bool    // it is the one on the car
	place string
	part  string
}

// rotorShape is the Weibull shape of rotors' lives about the life that the
// model gives: narrow, since their spread is in the rate. Engineering choice.
const rotorShape = 4.0

// replacements hears what became of parts that are replaced for other ends
// than a level that is read.
func (l *Logbook) replacements() {
	l.Hubs, l.replaced = map[string]reliability.Scale{}, map[string][]served{}
	for _, k := range kind.All {
		if !k.Replaced {
			continue
		}
		for _, t := range k.ID.Info().Sets {
			for _, place := range t.At {
				l.replaced[t.ID] = append(l.replaced[t.ID], l.became(k, place)...)
			}
			if k.Lifetime {
				l.lifetimes(t.ID)
			} else {
				l.crackLives(k, t.ID)
			}
		}
	}
}

// lifetimes hears the lives of what ends by a failure.
func (l *Logbook) lifetimes(id string) {
	scale, heard := reliability.NewScale(reliability.HubPrior()), false
	for _, r := range l.replaced[id] {
		if r.now && r.bad == 0 {
			continue // that it is good today is heard when its life is drawn
		}
		scale, heard = r.tell(scale), true
	}
	if heard {
		l.Hubs[id] = scale
	}
}

// crackLives hears the lives of what the model wears down to its end.
func (l *Logbook) crackLives(k *kind.Kind, id string) {
	spread := k.Spreads(l.Way.Folder.Model.Spread)
	if spread.Circuit <= 0 {
		return
	}
	// A life of 1 is the middle one at the scale below.
	middle := float64(-math.Log(math.Ln2) / rotorShape)
	scale, n := reliability.NewScale(reliability.Prior{Shape: rotorShape, Weights: []float64{1}, Means: []float64{middle}, SDs: []float64{spread.Circuit}}), 0
	for _, r := range l.replaced[id] {
		if r.bad > 0 || r.good > 0 {
			scale = r.tell(scale)
			n++
		}
	}
	if n == 0 {
		return
	}
	mean, sd := scale.Log()
	s := projection.Belief{Circuit: middle - mean, CircuitSD: sd, RoadSD: spread.Road}
	s.Learned = plan.Learned{Readings: n, Road: multiplier(0, spread.Road, spread.Road), Circuit: multiplier(s.Circuit, sd, spread.Circuit)}
	l.Sets[id] = s
}

// tell gives what is believed after one part's history.
func (r served) tell(s reliability.Scale) reliability.Scale {
	if r.bad > 0 {
		return s.FoundBad(r.good, r.bad)
	}
	return s.Good(r.good)
}

// became lists what became of the parts of a kind at a place since the last
// fix there.
func (l *Logbook) became(k *kind.Kind, place string) []served {
	f := l.Way.Folder
	on := l.Way.At(k, place)
	if on.Entry == nil { // of a kind that not every car has
		return nil
	}
	fix := fixed(f, k.ID, place)
	of := k.Points(on)[0].Of
	var out []served
	for _, part := range lives(f, k.ID, place) {
		if part.from < fix {
			continue
		}
		r := served{now: math.IsInf(part.to, 1), place: place, part: part.part}
		good, felt := 0.0, false // odometer at which it was last good
		for _, e := range f.Log[part.first:part.last] {
			found, ok := k.Find(e.What, logbook.Finding(e.Text))
			if !ok || e.Place != place || r.bad > 0 {
				continue
			}
			if found.Ended {
				r.bad = ageAt(l.Way, part, of, place, float64(e.Odometer))
			} else {
				good, felt = float64(e.Odometer), true
			}
		}
		switch {
		case !r.now && r.bad == 0:
			r.good = ageAt(l.Way, part, of, place, part.to) // taken off while good
		case felt:
			r.good = ageAt(l.Way, part, of, place, good)
		}
		out = append(out, r)
	}
	return out
}

// ageAt is how far a part was nominally used at an odometer. The circuit days
// of car.yaml that the logbook does not account for are spread evenly over
// the miles before.
func ageAt(w *trip.Journey, l life, of func(*kind.Wear) float64, place string, odometer float64) float64 {
	p := w.Past
	if l.logged {
		road, circuit := p.Worn(of, l.from, odometer)
		return road + circuit
	}
	written := float64(w.Folder.AsWritten().Odometer)
	at := min(odometer, written)
	if used, ok := l.entry.Used[place]; ok {
		if odometer <= written {
			return float64(used) * (at - l.from) / max(1, written-l.from)
		}
		road, circuit := p.Worn(of, written, odometer)
		return float64(used) + road + circuit
	}
	road, circuit := p.Worn(of, l.from, odometer)
	missing := max(0, float64(l.entry.CircuitDays)-p.Days(l.from, written))
	if written > l.from {
		missing *= (at - l.from) / (written - l.from)
	}
	return road + circuit + float64(missing*of(&w.PerDay))
}
