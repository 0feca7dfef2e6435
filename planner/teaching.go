package planner

import (
	"maps"
	"path/filepath"
	"slices"
	"time"

	"example.com/tripwear/planner/learning"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/trip"
	"example.com/tripwear/planner/worth"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
)

// Learn tells what the logbook teaches. With a trip it also tells what it is worth
// to know before it, as its plan does.
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
	if t.Rows > 0 || len(f.Rates) > 0 {
		t.Days = w.Past.Days(nil, 0, float64(f.Car.Odometer))
		t.Warnings = w.Past.TooLong
		l.Teach(t)
		l.Settle(t.Hubs, circuitDays(m, f, t.Hubs))
		t.Backtest = l.Backtest(o.Seed)
	}
	if outing == nil {
		return t, nil
	}
	c, _, err := decided(m, f, *outing, o)
	if err != nil {
		return nil, err
	}
	t.Trip, t.Currency, t.Worth = outing.Name, f.Car.Costs.Currency, worth.Of(c.sets, c.Journey, o.Today, o.Seed)
	return t, nil
}

// circuitDays are what a usual day takes on every circuit of the folder, where
// there is a corner to ask about; a circuit that cannot be driven is left out.
func circuitDays(m trip.Machine, f *profiles.Folder, hubs []plan.HubTeaching) (out []learning.CircuitDay) {
	if len(hubs) == 0 {
		return nil
	}
	for _, id := range slices.Sorted(maps.Keys(f.Circuits)) {
		way, err := trip.Itinerary(m, f, profiles.Trip{Legs: []profiles.Leg{trip.Visit(f, id)}, Depart: trip.Latest(f, time.Time{})})
		if err == nil && len(way.Usages) > 0 {
			out = append(out, learning.CircuitDay{Name: f.Circuits[id].Name, Takes: way.Usages[0].Nominal()})
		}
	}
	return out
}

// Share writes into a file how fast the car's parts wear by its logbook alone, for
// owners of other cars: what those have told is left out.
func Share(f *profiles.Folder, file string) error {
	if filepath.Ext(file) != ".yaml" {
		return profiles.Errors{{What: "rates are written into a .yaml file", Hint: "tripwear learn --share rates.yaml"}}
	}
	alone := *f
	alone.Rates = nil
	m := trip.NewMachine(&alone)
	w, err := trip.BeforeTrip(m, &alone)
	if err != nil {
		return err
	}
	l, err := learning.Learn(m, w)
	if err != nil {
		return err
	}
	r := profiles.Rates{Mark: f.Mark(), Sets: l.Share()}
	if len(r.Sets) == 0 {
		return profiles.Errors{{What: "the logbook has no reading of tires or pads after a trip driven, so there is nothing to share", Hint: "tripwear help learning shows the rows that teach"}}
	}
	return r.Write(file)
}
