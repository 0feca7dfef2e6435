package projection

import (
	"math"
	"time"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/trip"
	"example.com/tripwear/profiles"
)

// wearUnmeasured puts on a point what the driving since it was fitted took by
// the model: up to car.yaml's odometer the miles and the circuit days given
// there, on the stock reference lap, after that the logbook's trips. Of miles
// that nobody knows it was on for, any share may be its own.
func wearUnmeasured(w *trip.Journey, p *Level, a kind.At, of func(*kind.Wear) float64) {
	car, e := w.Folder.Car, a.Entry
	if e.Logged {
		p.wornRoad, p.wornCircuit = w.Past.Worn(of, float64(e.Since.Odometer), float64(car.Odometer))
		return
	}
	p.wornRoad, p.wornCircuit = wearSinceWritten(w, of)
	before := of(&w.PerMeter) * float64(max(0, car.Written-e.Since.Odometer))
	p.wornRoad += before
	if e.Since.Unmetered {
		p.doubtful = before
	}
	p.wornCircuit += float64(of(&w.PerDay) * float64(e.CircuitDays))
}

// wearSinceWritten is what was driven past car.yaml's odometer took by the model.
func wearSinceWritten(w *trip.Journey, of func(*kind.Wear) float64) (road, circuit float64) {
	return w.Past.Worn(of, float64(w.Folder.Car.Written), float64(w.Folder.Car.Odometer))
}

// wearSinceReading puts on a measured point what was driven after its reading,
// and keeps the age of the set's oldest reading. In place of an outlier that is
// better than the others allow it takes the reading before it; a worse one
// stands until it is read again.
func (s *Set) wearSinceReading(w *trip.Journey, post Posterior, p *Level, kp kind.Point, a kind.At) {
	at := math.Min(float64(w.Folder.Car.Written), float64(w.Folder.Car.Odometer))
	var date time.Time
	key := profiles.SeenKey(kp.What, p.Place, p.Zone)
	if seen, ok := a.Entry.Seen[key]; ok {
		at, date = float64(seen.Odometer), seen.Date
	}
	if m, ok := post.Outliers[key]; ok && m.Odometer == at && m.Date.Equal(date) {
		road, circuit := w.Past.Worn(kp.Of, m.UsedOdometer, math.Max(at, m.UsedOdometer))
		if m.Used-road-circuit < p.Start { // better than could be; a worse one stands
			p.Start, at, date = m.Used, m.UsedOdometer, m.UsedDate
		}
	}
	driven := math.Max(0, float64(w.Folder.Car.Odometer)-at)
	p.wornRoad, p.wornCircuit = w.Past.Worn(kp.Of, at, at+driven)
	if driven >= s.Driven {
		s.Driven, s.MeasuredOn = driven, date
	}
}
