package planner

import (
	"math"
	"time"

	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
)

// unmeasured puts on a point what the driving since it was fitted took by the
// model: up to car.yaml's odometer the miles and the circuit days it gives, on
// the stock reference lap, from there on what the logbook says was driven.
func (b *builder) unmeasured(p *point, fit fitting, of func(wear) float64) {
	car := b.folder.Car
	if b.heard.past != nil && fit.entry.Logged {
		p.wornRoad, p.wornCircuit = b.heard.past.worn(of, float64(fit.entry.Since.Odometer), float64(car.Odometer))
		return
	}
	until := car.Odometer
	if b.heard.past != nil {
		until = max(car.Written, fit.entry.Since.Odometer)
		p.wornRoad, p.wornCircuit = b.sinceWritten(of)
	}
	p.wornRoad += float64(of(b.perMetre) * float64(until-fit.entry.Since.Odometer))
	p.wornCircuit += float64(of(b.perDay) * float64(fit.entry.CircuitDays))
}

// sinceWritten is what was driven past car.yaml's odometer took by the model.
func (b *builder) sinceWritten(of func(wear) float64) (road, circuit float64) {
	if b.heard.past == nil {
		return 0, 0
	}
	return b.heard.past.worn(of, float64(b.folder.Car.Written), float64(b.folder.Car.Odometer))
}

// since puts on a measured point what was driven after its reading, and keeps
// the age of the set's oldest reading. A reading that the others contradict
// gives way to the last one that they do not.
func (b *builder) since(s *set, p *point, fit fitting, what logbook.What, of func(wear) float64) {
	if b.heard.past == nil {
		return
	}
	at := math.Min(float64(b.folder.Car.Written), float64(b.folder.Car.Odometer))
	var date time.Time
	key := profiles.SeenKey(what, p.Place, p.Zone)
	if seen, ok := fit.entry.Seen[key]; ok {
		at, date = float64(seen.Odometer), seen.Date
	}
	if m, ok := b.heard.instead[key]; ok && m.wrong.odometer == at && m.wrong.date.Equal(date) {
		p.Start, at, date = m.sound.level, m.sound.odometer, m.sound.date
	}
	driven := math.Max(0, float64(b.folder.Car.Odometer)-at)
	p.wornRoad, p.wornCircuit = b.heard.past.worn(of, at, at+driven)
	if driven >= s.Driven {
		s.Driven, s.MeasuredOn = driven, date
	}
}
