package planner

import (
	"math"
	"time"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/profiles"
)

// unmeasured puts on a point what the driving since it was fitted took by the
// model: up to car.yaml's odometer the miles and the circuit days it gives, on
// the stock reference lap, from there on what the logbook says was driven.
func unmeasured(w *journey, p *point, a kind.At, of func(*kind.Wear) float64) {
	car, e := w.folder.Car, a.Entry
	if w.past != nil && e.Logged {
		p.wornRoad, p.wornCircuit = w.past.worn(of, float64(e.Since.Odometer), float64(car.Odometer))
		return
	}
	until := car.Odometer
	if w.past != nil {
		until = max(car.Written, e.Since.Odometer)
		p.wornRoad, p.wornCircuit = sinceWritten(w, of)
	}
	p.wornRoad += float64(of(&w.perMetre) * float64(until-e.Since.Odometer))
	p.wornCircuit += float64(of(&w.perDay) * float64(e.CircuitDays))
}

// sinceWritten is what was driven past car.yaml's odometer took by the model.
func sinceWritten(w *journey, of func(*kind.Wear) float64) (road, circuit float64) {
	if w.past == nil {
		return 0, 0
	}
	return w.past.worn(of, float64(w.folder.Car.Written), float64(w.folder.Car.Odometer))
}

// since puts on a measured point what was driven after its reading, and keeps
// the age of the set's oldest reading. A reading that the others contradict
// gives way to the last one that they do not.
func (s *set) since(w *journey, post posterior, p *point, kp kind.Point, a kind.At) {
	if w.past == nil {
		return
	}
	at := math.Min(float64(w.folder.Car.Written), float64(w.folder.Car.Odometer))
	var date time.Time
	key := profiles.SeenKey(kp.What, p.Place, p.Zone)
	if seen, ok := a.Entry.Seen[key]; ok {
		at, date = float64(seen.Odometer), seen.Date
	}
	if m, ok := post.instead[key]; ok && m.odometer == at && m.date.Equal(date) {
		p.Start, at, date = m.sound, m.soundAt, m.soundDate
	}
	driven := math.Max(0, float64(w.folder.Car.Odometer)-at)
	p.wornRoad, p.wornCircuit = w.past.worn(kp.Of, at, at+driven)
	if driven >= s.Driven {
		s.Driven, s.MeasuredOn = driven, date
	}
}
