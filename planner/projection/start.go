package projection

import (
	"math"
	"time"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/trip"
	"example.com/tripwear/profiles"
)

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
	if m, ok := post.Outliers[OutlierKey(s.ID, key)]; ok && m.Odometer == at && m.Date.Equal(date) {
		road, circuit := w.Past.Worn(kp.Of, w.Past.On(a), m.UsedOdometer, math.Max(at, m.UsedOdometer))
		if m.Used-road-circuit < p.Start { // better than could be; a worse one stands
			p.Start, at, date = m.Used, m.UsedOdometer, m.UsedDate
		}
	}
	driven := math.Max(0, float64(w.Folder.Car.Odometer)-at)
	var visits []trip.VisitLoss
	p.wornRoad, visits = w.Past.Taken(kp.Of, w.Past.On(a), at, at+driven)
	for _, v := range visits { // what sets their circuits apart is known
		p.wornCircuit += float64(v.Loss[1] * s.Rates.OnCircuit("", "", v.Circuit) / s.Rates.OnCircuit("", "", ""))
	}
	if r, ok := s.Rates.Starts[PointKey(p.Place, p.Zone)]; ok && r.Odometer == at && r.Level == p.Start {
		p.tied = r.Index
	}
	if driven >= s.Driven {
		s.Driven, s.MeasuredOn = driven, date
	}
}
