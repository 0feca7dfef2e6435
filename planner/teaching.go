package planner

import (
	"example.com/tripwear/planner/learning"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/projection"
	"example.com/tripwear/planner/trip"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
)

// Learn tells what the logbook teaches. With a trip it also tells what to
// measure next for it.
func Learn(f *profiles.Folder, outing *profiles.Trip, o Options) (*plan.Teaching, error) {
	o = o.orDefault()
	o.Prior = false
	m := trip.NewMachine(f)
	w, err := trip.BeforeTrip(m, f)
	if err != nil {
		return nil, err
	}
	l, err := learning.Learn(m, w)
	if err != nil {
		return nil, err
	}
	t := &plan.Teaching{Car: f.Car.Name, Rows: len(f.Log)}
	for _, e := range f.Log {
		if e.What == logbook.Trip {
			t.Trips++
		}
	}
	if t.Rows > 0 {
		t.Days = w.Past.Days(nil, 0, float64(f.Car.Odometer))
		t.Warnings = w.Past.TooLong
		l.Teach(t)
		t.Backtest = l.Backtest(o.Seed)
	}
	if outing == nil {
		return t, nil
	}
	c, _, err := decided(m, f, *outing, o.timeless())
	if err != nil {
		return nil, err
	}
	t.Trip = outing.Name
	t.Next = learning.Next(c.Journey, c.sets, projection.NewDraws(o.Draws, o.Seed))
	return t, nil
}
