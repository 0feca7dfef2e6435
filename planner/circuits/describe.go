package circuits

import (
	"errors"
	"fmt"
	"math"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/trip"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
	"example.com/tripwear/wearmodel/duty"
)

// Drive says how a circuit is to be driven; the zero value is the circuit's
// own lap time, or intermediate where it has none.
type Drive struct {
	Pace      string  // a word or a share of grip
	LapTime   float64 // s; with it no Pace
	Direction string  // one of Directions, "" for Forward
	Wet       bool
}

// The ways round a circuit: as it was recorded, drawn or written, the other
// way, or as the eye has it from above.
const (
	Forward       = "forward"
	Reverse       = "reverse"
	Clockwise     = "clockwise"
	Anticlockwise = "anticlockwise"
)

// Directions lists them.
var Directions = []string{Forward, Reverse, Clockwise, Anticlockwise}

// leg is a day of the model's sessions on a circuit.
func (d Drive) leg(m trip.Machine, f *profiles.Folder, id string) (profiles.Leg, error) {
	c, session := f.Circuits[id], f.Model.Session
	leg := profiles.Leg{
		Kind: profiles.CircuitLeg, Name: id, Days: 1, Pace: d.Pace, Ambient: session.Ambient,
		Sessions: profiles.Sessions{Count: session.PerDay, Each: session.Each},
		LapTime:  quantity.Duration(d.LapTime), Reverse: d.Direction == Reverse, Wet: d.Wet,
	}
	if d.Pace == "" && d.LapTime == 0 && c.LapTime == 0 && c.Trace == nil {
		leg.Pace = "intermediate"
	}
	if d.Direction == Clockwise || d.Direction == Anticlockwise {
		course, err := m.Course(f, leg)
		if err != nil {
			return leg, err
		}
		way := direction(course.Segs)
		if way != Clockwise && way != Anticlockwise {
			return leg, fmt.Errorf("it is not known to go round clockwise or anticlockwise: say %s or %s", Forward, Reverse)
		}
		leg.Reverse = way != d.Direction
	}
	return leg, nil
}

// Describe works out one circuit of the folder, by id or name.
func Describe(f *profiles.Folder, circuit string, drive Drive) (*plan.Circuit, error) {
	id, err := trip.FindCircuit(f, circuit)
	if err != nil {
		return nil, err
	}
	m := trip.NewMachine(f)
	c := f.Circuits[id]
	name := func(err error) error { return fmt.Errorf("%s: %w", c.Name, err) }
	leg, err := drive.leg(m, f, id)
	if err != nil {
		return nil, name(err)
	}
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
	if out.Told, err = m.Told(f, leg); err != nil {
		return nil, name(err)
	}
	course, err := m.Course(f, leg)
	if err != nil {
		return nil, name(err)
	}
	out.Segs, out.Harder, out.BrakeSD = course.Segs, course.Harder, course.BrakeSD
	if !c.BySummary() {
		out.Direction = direction(out.Segs)
		turns(out, d)
		stops(out, there.Vehicle, d)
		if out.View, err = trip.View(m, f, leg); err != nil {
			return nil, name(err)
		}
	}
	switch {
	case c.Trace != nil:
		lap, err := m.Survey(c.Trace)
		if err != nil {
			return nil, name(err)
		}
		// What the recording says at its own speeds is nearer than a lap driven anew.
		out.LeftShare, out.ShareSD, out.Track = lap.LeftShare, lap.ShareSD, track(c.Trace, lap)
		if leg.Reverse {
			out.LeftShare = 1 - out.LeftShare
		}
		const apart = 0.01 // of the lap time
		timed := leg.Pace == "" && leg.LapTime == 0 && c.LapTime == 0 && !leg.Wet
		out.Track.Held = timed && math.Abs(d.Seconds/lap.Seconds-1) > apart
		if timed && !out.Track.Held {
			if out.ByPower, err = byPower(there.Vehicle, course, d); err != nil {
				return nil, name(err)
			}
		}
	case c.Map != nil:
		lap, err := m.Drawn(c)
		if err != nil {
			return nil, name(err)
		}
		out.ShareSD, out.Map = lap.ShareSD, mapped(c.Map, lap)
	}
	if out.Against, err = against(there, f, d); err != nil {
		return nil, name(err)
	}
	return out, circuitWears(out, m, f, leg)
}

// byPower is by what share a lap takes more braking, at its time, where the car
// has a tenth more power: it is then driven at less pace and reaches more speed.
func byPower(v duty.Vehicle, course trip.Course, d duty.Duty) (float64, error) {
	v.Power *= 1.1
	pace, err := duty.FitPace(v, course.Segs, d.Seconds)
	if out := (*duty.LapTimeError)(nil); errors.As(err, &out) {
		pace, err = out.Pace(), nil
	}
	if err != nil {
		return 0, err
	}
	more, err := duty.Simulate(v, course.Segs, pace)
	return more.BrakeEnergy*course.Harder/d.BrakeEnergy - 1, err
}
