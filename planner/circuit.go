package planner

import (
	"fmt"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/trip"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
	"example.com/tripwear/wearmodel/duty"
)

// Drive says how a circuit is to be driven; the zero value is the circuit's
// own lap time, or intermediate where it has none.
type Drive struct {
	Pace         string  // a word or a share of grip
	LapTime      float64 // s; with it no Pace
	Reverse, Wet bool
}

// leg is a day of the model's sessions on a circuit.
func (d Drive) leg(f *profiles.Folder, id string) profiles.Leg {
	c, session := f.Circuits[id], f.Model.Session
	leg := profiles.Leg{
		Kind: profiles.CircuitLeg, Name: id, Days: 1, Pace: d.Pace, Ambient: session.Ambient,
		Sessions: profiles.Sessions{Count: session.PerDay, Each: session.Each},
		LapTime:  quantity.Duration(d.LapTime), Reverse: d.Reverse, Wet: d.Wet,
	}
	if d.Pace == "" && d.LapTime == 0 && c.LapTime == 0 && c.Trace == nil {
		leg.Pace = "intermediate"
	}
	return leg
}

// DescribeCircuit works out one circuit of the folder, by id or name.
func DescribeCircuit(f *profiles.Folder, circuit string, drive Drive) (*plan.Circuit, error) {
	id, err := trip.FindCircuit(f, circuit)
	if err != nil {
		return nil, err
	}
	m := trip.NewMachine(f)
	leg := drive.leg(f, id)
	c := f.Circuits[id]
	name := func(err error) error { return fmt.Errorf("%s: %w", c.Name, err) }
	d, err := trip.CircuitDuty(m, f, leg, 0)
	if err != nil {
		return nil, name(err)
	}
	out := &plan.Circuit{
		ID: id, Name: c.Name, Car: f.Car.Name, Known: known(c), Reverse: leg.Reverse, Wet: leg.Wet,
		Meters: d.Meters, LapTime: d.Seconds, Pace: d.Pace, LeftShare: duty.LeftShare(d),
		TopSpeed: d.TopSpeed, MinSpeed: d.MinSpeed, HeavyBrakings: len(d.Brakings), Sessions: leg.Sessions,
	}
	there := m.OnLeg(leg, f.Model)
	circuitTime(out, there.Vehicle, d)
	circuitLoad(out, there, d)
	if out.Segs, _, err = m.Corners(f, leg); err != nil {
		return nil, name(err)
	}
	if !c.BySummary() {
		direction(out)
		turns(out, d)
		stops(out, there.Vehicle, d)
		if out.View, err = trip.View(m, f, leg); err != nil {
			return nil, name(err)
		}
	}
	if c.Trace != nil {
		lap, err := m.Survey(c.Trace)
		if err != nil {
			return nil, name(err)
		}
		out.ShareSD, out.Track = lap.ShareSD, track(lap)
	}
	if out.Against, err = against(there, f, d); err != nil {
		return nil, name(err)
	}
	return out, circuitWears(out, m, f, leg)
}
