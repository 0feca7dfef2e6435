package circuits

import (
	"math"
	"time"

	"example.com/tripwear/planner/learning"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/projection"
	"example.com/tripwear/planner/trip"
	"example.com/tripwear/profiles"
	"example.com/tripwear/wearmodel/bearing"
	"example.com/tripwear/wearmodel/duty"
	"example.com/tripwear/wearmodel/tire"
)

// circuitTime shares the lap out.
func circuitTime(c *plan.Circuit, v duty.Vehicle, d duty.Duty) {
	const across = 0.1 * duty.G
	for _, s := range d.States {
		share := s.Seconds / d.Seconds
		if v.TractiveForce(s) < 0 {
			c.Braking += share
		} else {
			c.OnPower += share
		}
		if math.Abs(s.Ay) > across {
			c.Cornering += share
		}
	}
}

// circuitLoad is what the four wheels carry.
func circuitLoad(c *plan.Circuit, m trip.Machine, d duty.Duty) {
	for _, s := range d.States {
		for p, w := range m.Vehicle.Loads(s) {
			c.Places[p].Mean += w.Fz * s.Seconds / d.Seconds
			c.Places[p].Most = max(c.Places[p].Most, w.Fz)
		}
	}
	tread, hubs := tire.Circuit(m.Vehicle, m.Tires, d), bearing.Circuit(m.Vehicle, m.Hubs, m.Radius, d)
	var allTread, allHubs float64
	for p := range c.Places {
		c.Places[p].Place = duty.Place(p).String()
		allTread, allHubs = allTread+tread[p].Mean, allHubs+hubs[p]
	}
	for p := range c.Places {
		if allTread > 0 && allHubs > 0 {
			c.Places[p].Slip, c.Places[p].Hub = tread[p].Mean/allTread, hubs[p]/allHubs
		}
	}
}

// against compares the lap with the stock reference lap.
func against(m trip.Machine, f *profiles.Folder, d duty.Duty) (plan.Ratios, error) {
	ref, err := duty.Simulate(m.Vehicle, trip.Segments(f.Reference), d.Pace)
	if err != nil {
		return plan.Ratios{}, err
	}
	perKm := func(d duty.Duty) [4]float64 {
		var out [4]float64
		out[0] = d.BrakeEnergy
		tread, hubs := tire.Circuit(m.Vehicle, m.Tires, d), bearing.Circuit(m.Vehicle, m.Hubs, m.Radius, d)
		for p := range tread {
			out[1] += tread[p].Mean
			out[3] = max(out[3], hubs[p])
		}
		for _, s := range d.States {
			out[2] += float64(math.Abs(s.Ay) * s.Seconds)
		}
		for k := range out {
			out[k] /= d.Meters
		}
		return out
	}
	a, b := perKm(d), perKm(ref)
	return plan.Ratios{Brakes: a[0] / b[0], Tread: a[1] / b[1], Lateral: a[2] / b[2], Hub: a[3] / b[3]}, nil
}

// circuitWears is what a day on the circuit takes from every set, by the lap and hour.
func circuitWears(c *plan.Circuit, m trip.Machine, f *profiles.Folder, leg profiles.Leg) error {
	way, err := trip.NewJourney(m, f, profiles.Trip{Legs: []profiles.Leg{leg}, Depart: trip.Latest(f, time.Time{})})
	if err != nil {
		return err
	}
	learned, err := learning.Learn(m, way)
	if err != nil {
		return err
	}
	day := way.Legs[0]
	c.Laps = day.Laps / float64(day.Sessions)
	hours := float64(day.Sessions) * day.SessionTime / 3600
	for _, s := range projection.NewSets(way, learned.Posterior) {
		if s.PerLeg {
			continue // brake fluid boils or does not: it does not wear
		}
		w := plan.SetWear{ID: s.ID, Name: s.Name, Kind: s.Kind}
		if share, p := hardest(s, "", hours); p != nil {
			w.Share, w.PerLap, w.PerHour = share, p.Loss[0]/day.Laps, p.Loss[0]/hours
			w.Where, w.Measure = p.Where(), p.Measure
		}
		c.Wear = append(c.Wear, w)
	}
	return nil
}
