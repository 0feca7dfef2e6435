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

// partHistory is what became of one part. Ages are in the model's measure of
// its life: L10 lives of a hub bearing, crack lives of a rotor.
type partHistory struct {
	goodAt float64 // it was still good at this age
	badAt  float64 // it was found bad at this age; 0 where it never was
	onCar  bool    // it is the one on the car
	place  string
	part   string
	since  bool // it went on with the last repair there, or after it

	days, meters float64 // circuit days and way until it was found bad, where the logbook has it from new on
}

// rotorShape is the Weibull shape of rotors' lives about the life that the
// model gives: narrow, since their spread is in the rate. Engineering choice.
const rotorShape = 4.0

// learnReplacements learns from parts whose end is a finding, not a level.
func (l *Evidence) learnReplacements() {
	l.Hubs, l.replaced, l.repaired = map[string]reliability.Scale{}, map[string][]partHistory{}, map[string]bool{}
	l.corners = map[string]corner{}
	for _, k := range kind.All {
		if !k.Replaced {
			continue
		}
		for _, t := range k.ID.Info().Sets {
			for _, place := range t.At {
				l.replaced[t.ID] = append(l.replaced[t.ID], l.partHistories(k, place)...)
				l.repaired[t.ID] = l.repaired[t.ID] || lastFix(l.Way.Folder, k.ID, place) > 0
			}
			if k.Lifetime {
				l.learnHubLives(t.ID)
			} else {
				l.learnCrackLives(k, t.ID)
			}
		}
	}
}

// cured is the chance that a repair cured a corner, before any evidence.
// Engineering choice.
const cured = 0.5

// corner is what a corner's history says of the corner itself.
type corner struct {
	odd      float64 // chance that it is wrong, leaving repairs aside
	repaired bool
	cured    float64 // chance that the last repair cured it

	uncured, mended reliability.Scale // what is believed if it did not, and if it did
}

// learnHubLives learns from the lives of parts that fail. A repair that was meant
// to cure is a theory, which what became of the bearings since speaks for or
// against.
func (l *Evidence) learnHubLives(id string) {
	fresh := reliability.Hubs()
	uncured, mended, chance := fresh, fresh, cured
	learned, repaired := false, false
	for _, r := range l.replaced[id] {
		repaired = repaired || r.since
		if !r.heard() {
			continue
		}
		if repaired {
			if yes, no := float64(chance*r.likelihood(mended)), float64((1-chance)*r.likelihood(uncured)); yes+no > 0 {
				chance = yes / (yes + no)
			}
		}
		if r.onCar && r.badAt == 0 {
			continue // the draws of its life begin at its age
		}
		if repaired {
			mended = r.update(mended)
		}
		uncured, learned = r.update(uncured), true
	}
	if !learned {
		return
	}
	l.Hubs[id] = uncured
	if l.repaired[id] {
		l.Hubs[id] = uncured.Repaired(mended, chance)
	}
	l.corners[id] = corner{uncured.Odd(), l.repaired[id], chance, uncured, mended}
}

// heard says whether anything became of a part.
func (r partHistory) heard() bool { return r.badAt > 0 || r.goodAt > 0 }

// likelihood is the chance of what became of a part.
func (r partHistory) likelihood(s reliability.Scale) float64 {
	lasted := s.Survive(0, r.goodAt)
	if r.badAt > 0 {
		return math.Max(1e-9, lasted-s.Survive(0, r.badAt))
	}
	return lasted
}

// learnCrackLives learns from the lives of parts that crack.
func (l *Evidence) learnCrackLives(k *kind.Kind, id string) {
	if len(l.replaced[id]) == 0 {
		return
	}
	spread := k.Spreads(l.Way.At(k, l.replaced[id][0].place))
	if spread.Circuit <= 0 {
		return
	}
	// A life of 1 is the middle one at the scale below.
	middle := float64(-math.Log(math.Ln2) / rotorShape)
	scale, n := reliability.NewScale(reliability.Prior{Shape: rotorShape, Weights: []float64{1}, Means: []float64{middle}, SDs: []float64{spread.Circuit}}), 0
	for _, r := range l.replaced[id] {
		if (r.since || !l.repaired[id]) && (r.badAt > 0 || r.goodAt > 0) {
			scale = r.update(scale)
			n++
		}
	}
	if n == 0 {
		return
	}
	mean, sd := scale.Log()
	s := projection.RatePosterior{Mean: []float64{0, middle - mean}, Root: [][]float64{{spread.Road}, {0, sd}}}
	s.Learned = plan.Learned{Readings: n, Road: multiplier(0, spread.Road, spread.Road), Circuit: multiplier(middle-mean, sd, spread.Circuit)}
	l.Sets[id] = s
}

// update is the posterior of the scale after one part's history.
func (r partHistory) update(s reliability.Scale) reliability.Scale {
	if r.badAt > 0 {
		return s.FoundBad(r.goodAt, r.badAt)
	}
	return s.Good(r.goodAt)
}

// partHistories lists what became of the parts of a kind at a place.
func (l *Evidence) partHistories(k *kind.Kind, place string) []partHistory {
	f := l.Way.Folder
	on := l.Way.At(k, place)
	if on.Entry == nil { // of a kind that not every car has
		return nil
	}
	fix := lastFix(f, k.ID, place)
	of := k.Points(on)[0].Of
	var out []partHistory
	for _, part := range fittedParts(f, k.ID, place) {
		if part.Entry.Since.Unmetered {
			continue
		}
		r := partHistory{onCar: math.IsInf(part.To, 1) || part.Kept, place: place, part: part.Part, since: fix > 0 && part.From >= fix}
		good, checked, worn := 0.0, false, 0.0 // odometers at which it was last good, and worn but not at its end
		for _, e := range part.rows(f) {
			found, ok := k.Find(e.What, logbook.Finding(e.Text))
			if !ok || e.Place != place || r.badAt > 0 {
				continue
			}
			if found.Ended {
				r.badAt = ageAt(l.Way, part, of, place, float64(e.Odometer))
				if part.Logged {
					r.meters = float64(e.Odometer) - part.From
					r.days = l.Way.Past.Days(l.Way.Past.On(kind.At{Part: f.Parts[part.Part], Place: place}), part.From, float64(e.Odometer))
				}
			} else if !r.onCar || k.SpeaksFor(e.What, found.Word) {
				good, checked = float64(e.Odometer), true
			} else {
				worn = float64(e.Odometer)
			}
		}
		switch {
		case !r.onCar && r.badAt == 0:
			r.goodAt = ageAt(l.Way, part, of, place, part.To) // taken off while good
		case checked:
			r.goodAt = ageAt(l.Way, part, of, place, good)
		}
		if r.badAt > 0 && worn > 0 { // its end came after that, which is no news past the life that the model gives it
			r.goodAt = max(r.goodAt, min(1, ageAt(l.Way, part, of, place, worn)))
		}
		out = append(out, r)
	}
	return out
}

// ageAt is how far a part was nominally used at an odometer. The circuit days
// of car.yaml that the logbook does not account for are spread evenly over
// the miles before.
func ageAt(w *trip.Journey, l fittedPart, of func(*kind.Wear) float64, place string, odometer float64) float64 {
	p := w.Past
	on := p.On(kind.At{Part: w.Folder.Parts[l.Part], Place: place})
	if l.Logged {
		road, circuit := p.Worn(of, on, l.From, odometer)
		return road + circuit
	}
	written := float64(w.Folder.AsWritten().Odometer)
	at := min(odometer, written)
	if used, ok := l.Entry.Used[place]; ok {
		if odometer <= written {
			return float64(used) * (at - l.From) / max(1, written-l.From)
		}
		road, circuit := p.Worn(of, on, written, odometer)
		return float64(used) + road + circuit
	}
	road, circuit := p.Worn(of, on, l.From, odometer)
	missing := max(0, float64(l.Entry.CircuitDays)-p.Days(on, l.From, written))
	if written > l.From {
		missing *= (at - l.From) / (written - l.From)
	}
	return road + circuit + float64(missing*of(&w.PerDay))
}
