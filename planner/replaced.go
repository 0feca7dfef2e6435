package planner

import (
	"math"

	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/wearmodel/duty"
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

// replacements hears what became of hub bearings and rotors.
func (t *teachings) replacements(b *builder) {
	t.hubs, t.replaced = map[string]reliability.Scale{}, map[string][]served{}
	for _, p := range duty.Places {
		id := "hub-" + p.String()
		t.replaced[id] = b.became(profiles.Bearing, p.String(), func(w wear) float64 { return w.hub[p] })
		scale, heard := reliability.NewScale(reliability.HubPrior()), false
		for _, r := range t.replaced[id] {
			if r.now && r.bad == 0 {
				continue // that it is good today is heard when its life is drawn
			}
			scale, heard = r.tell(scale), true
		}
		if heard {
			t.hubs[p.String()] = scale
		}
	}
	spread := float64(b.folder.Model.Spread.RotorCrack)
	if spread <= 0 {
		return
	}
	// A life of 1 is the middle one at the scale below.
	middle := float64(-math.Log(math.Ln2) / rotorShape)
	for axle := range 2 {
		scale, n := reliability.NewScale(reliability.Prior{Shape: rotorShape, Weights: []float64{1}, Means: []float64{middle}, SDs: []float64{spread}}), 0
		id := setID(profiles.Rotors, axle)
		for _, p := range axlePlaces(axle) {
			all := b.became(profiles.Rotors, p.String(), func(w wear) float64 { return w.crack[p] })
			for _, r := range all {
				if r.bad > 0 || r.good > 0 {
					scale = r.tell(scale)
					n++
				}
			}
			t.replaced[id] = append(t.replaced[id], all...)
		}
		if n == 0 {
			continue
		}
		mean, sd := scale.Log()
		thick := float64(b.folder.Model.Spread.RotorThickness)
		s := belief{circuit: middle - mean, circuitSD: sd, roadSD: thick}
		s.learned = Learned{Readings: n, Road: multiplier(0, thick, thick), Circuit: multiplier(s.circuit, sd, spread)}
		t.sets[id] = s
	}
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
func (b *builder) became(k profiles.Kind, place string, of func(wear) float64) []served {
	f := b.folder
	fix := fixed(f, k, place)
	var out []served
	for _, l := range lives(f, k, place) {
		if l.from < fix {
			continue
		}
		r := served{now: math.IsInf(l.to, 1), place: place, part: l.part}
		good, felt := 0.0, false // odometer at which it was last good
		for _, e := range f.Log[l.first:l.last] {
			if e.Place != place || e.What != logbook.Hub && e.What != logbook.Face || (e.What == logbook.Hub) != (k == profiles.Bearing) || r.bad > 0 {
				continue
			}
			switch e.Text {
			case "play", "rough", "moved", "catches", "edge":
				r.bad = b.ageAt(l, of, place, float64(e.Odometer))
			default:
				good, felt = float64(e.Odometer), true
			}
		}
		switch {
		case !r.now && r.bad == 0:
			r.good = b.ageAt(l, of, place, l.to) // taken off while good
		case felt:
			r.good = b.ageAt(l, of, place, good)
		}
		out = append(out, r)
	}
	return out
}

// ageAt is how far a part was nominally used at an odometer. The circuit days
// of car.yaml that the logbook does not account for are spread evenly over
// the miles before.
func (b *builder) ageAt(l life, of func(wear) float64, place string, odometer float64) float64 {
	p := b.heard.past
	if l.logged {
		road, circuit := p.worn(of, l.from, odometer)
		return road + circuit
	}
	written := float64(b.folder.AsWritten().Odometer)
	at := min(odometer, written)
	if used, ok := l.entry.Used[place]; ok {
		if odometer <= written {
			return float64(used) * (at - l.from) / max(1, written-l.from)
		}
		road, circuit := p.worn(of, written, odometer)
		return float64(used) + road + circuit
	}
	road, circuit := p.worn(of, l.from, odometer)
	missing := max(0, float64(l.entry.CircuitDays)-p.days(l.from, written))
	if written > l.from {
		missing *= (at - l.from) / (written - l.from)
	}
	return road + circuit + float64(missing*of(b.perDay))
}
