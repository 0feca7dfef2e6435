package trip

import (
	"errors"
	"fmt"
	"slices"

	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/trace"
	"example.com/tripwear/wearmodel/duty"
	survey "example.com/tripwear/wearmodel/duty/trace"
)

// Survey finds the lap of a recorded track, once for each track.
func (m Machine) Survey(t *trace.Trace) (*survey.Lap, error) {
	return m.surveys.of(t, func() (*survey.Lap, error) {
		fixes := make([]survey.Fix, len(t.Fixes))
		for i, f := range t.Fixes {
			fixes[i] = survey.Fix{Time: f.Time, Lat: f.Lat, Lon: f.Lon, Gap: f.Gap}
		}
		lap, err := survey.Survey(fixes)
		if slow := (*survey.RateError)(nil); errors.As(err, &slow) {
			err = fmt.Errorf("%w; give the circuit by its corners or by length, left_share and lap_time instead", err)
		}
		return lap, err
	})
}

// Corners is the corner list of a circuit as a leg drives it, with the lap time
// that goes with it; none where the circuit is known by its summary.
func (m Machine) Corners(f *profiles.Folder, leg profiles.Leg) (segs []duty.Segment, lapTime float64, err error) {
	c := f.Circuits[leg.Name]
	lapTime = float64(c.LapTime)
	switch {
	case c.Trace != nil:
		lap, err := m.Survey(c.Trace)
		if err != nil {
			return nil, 0, err
		}
		segs = slices.Clone(lap.Segments)
		if lapTime == 0 {
			lapTime = lap.Seconds
		}
	case c.Map != nil:
		lap, err := m.Drawn(c)
		if err != nil {
			return nil, 0, err
		}
		segs = slices.Clone(lap.Segments)
	default:
		segs = Segments(c.Corners)
	}
	if leg.Reverse {
		segs = duty.Reverse(segs)
	}
	return segs, lapTime, nil
}

// On is the machine on a leg's circuit: a wet one has less grip and does not
// heat the tread. That water cools the brakes and the tread further is left
// out, on the safe side.
func (m Machine) OnLeg(leg profiles.Leg, model profiles.Model) Machine {
	if !leg.Wet {
		return m
	}
	grip := float64(model.Tire.WetGrip)
	m.Vehicle.Friction *= grip
	for p := range m.Tires {
		m.Tires[p].Friction *= grip
		m.Tires[p].HotFactor = 1
	}
	return m
}

// dutyKey is all that a circuit's duty depends on, within one folder.
type dutyKey struct {
	vehicle       duty.Vehicle
	circuit       string
	reverse, wet  bool
	word          string // the leg's own pace
	lapTime, pace float64
}

func keyOf(m Machine, leg profiles.Leg, pace float64) dutyKey {
	return dutyKey{m.Vehicle, leg.Name, leg.Reverse, leg.Wet, leg.Pace, float64(leg.LapTime), pace}
}

// CircuitDuty gives a circuit's duty at the given pace or, where it is 0, at
// the leg's own: its pace, its lap time, or the circuit's typical lap time,
// which is a dry one. Its slices are shared: they are not to be written to.
func CircuitDuty(m Machine, f *profiles.Folder, leg profiles.Leg, pace float64) (duty.Duty, error) {
	return m.duties.of(keyOf(m, leg, pace), func() (duty.Duty, error) { return driveCircuit(m, f, leg, pace) })
}

// driveCircuit works out a duty.
func driveCircuit(m Machine, f *profiles.Folder, leg profiles.Leg, pace float64) (duty.Duty, error) {
	segs, usual, err := m.Corners(f, leg)
	if err != nil {
		return duty.Duty{}, err
	}
	there := m.OnLeg(leg, f.Model)
	if pace == 0 {
		pace = f.Model.Pace(leg.Pace)
	}
	if len(segs) > 0 {
		if pace == 0 {
			car, lapTime := m.Vehicle, usual
			if leg.LapTime > 0 {
				car, lapTime = there.Vehicle, float64(leg.LapTime)
			}
			if pace, err = duty.FitPace(car, segs, lapTime); err != nil {
				return duty.Duty{}, err
			}
		}
		return duty.Simulate(there.Vehicle, segs, pace)
	}

	c := f.Circuits[leg.Name]
	s := duty.Summary{
		Meters:        float64(c.Length),
		LeftShare:     float64(c.LeftShare),
		HeavyBrakings: c.HeavyBrakings,
		Pace:          pace,
	}
	if leg.Reverse {
		s.LeftShare = 1 - s.LeftShare
	}
	reference := Segments(f.Reference)
	switch {
	case pace > 0:
	case leg.LapTime > 0:
		s.LapTime = float64(leg.LapTime)
	case leg.Wet:
		s.LapTime = usual
		dry, err := duty.FromSummary(m.Vehicle, reference, s)
		if err != nil {
			return duty.Duty{}, err
		}
		s.Pace, s.LapTime = dry.Pace, 0
	case pace == 0:
		s.LapTime = usual
	}
	return duty.FromSummary(there.Vehicle, reference, s)
}

// SlowLaps is the number of a session's laps that are driven slowly: out, in,
// and cooling down.
func SlowLaps(leg profiles.Leg) int { return 2 + leg.CoolDown }
