package trip

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
	"example.com/tripwear/profiles/trace"
	"example.com/tripwear/wearmodel/duty"
	survey "example.com/tripwear/wearmodel/duty/trace"
)

// Survey finds the lap of a recorded track, once for each track.
func (m Machine) Survey(t *trace.Trace) (*survey.Lap, error) {
	return m.surveys.of(t, func() (*survey.Lap, error) {
		var recordings [][]survey.Fix
		for _, r := range append([]*trace.Trace{t}, t.More...) {
			fixes := make([]survey.Fix, len(r.Fixes))
			for i, f := range r.Fixes {
				fixes[i] = survey.Fix{Time: f.Time, Lat: f.Lat, Lon: f.Lon, Gap: f.Gap}
			}
			recordings = append(recordings, fixes)
		}
		lap, err := survey.Survey(recordings...)
		if slow := (*survey.RateError)(nil); errors.As(err, &slow) {
			err = fmt.Errorf("%w; give the circuit by its corners or by length, left_share and lap_time instead", err)
		}
		return lap, err
	})
}

// Course is a circuit corner by corner as a leg drives it.
type Course struct {
	Segs    []duty.Segment // none where the circuit is known by its summary
	LapTime float64        // s, that goes with it; 0 if unknown
	Harder  float64        // by what factor it takes more braking than a lap of Segs
	BrakeSD float64        // of ln of its braking energy, one standard deviation
}

// An assumed power is off by a tenth, and what a lap of a given time takes of the
// brakes by half of that. Assumed; the second is measured (TestPower).
const assumedPower, powerOverBraking = 0.1, 0.5

// Course gives the corners of a leg's circuit.
func (m Machine) Course(f *profiles.Folder, leg profiles.Leg) (Course, error) {
	c := f.Circuits[leg.Name]
	out := Course{Segs: Segments(c.Corners), LapTime: float64(c.LapTime), Harder: cmp.Or(float64(c.Braking), 1)}
	switch {
	case c.Trace != nil:
		lap, err := m.Survey(c.Trace)
		if err != nil {
			return Course{}, err
		}
		out.Segs, out.Harder, out.BrakeSD = slices.Clone(lap.Segments), lap.Harder, lap.HarderSD
		if slices.Contains(f.Car.Assumed, "power") {
			out.BrakeSD = math.Hypot(out.BrakeSD, assumedPower*powerOverBraking)
		}
		out.LapTime = cmp.Or(out.LapTime, lap.Seconds)
	case c.Map != nil:
		lap, err := m.Drawn(c)
		if err != nil {
			return Course{}, err
		}
		out.Segs, out.BrakeSD = slices.Clone(lap.Segments), lap.BrakeSD
	}
	if leg.Reverse {
		out.Segs = duty.Reverse(out.Segs)
	}
	return out, nil
}

// OnLeg is the machine on a leg's circuit: a wet one has less grip and does not
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
	return m.duties.of(keyOf(m, leg, pace), func() (duty.Duty, error) {
		d, err := driveCircuit(m, f, leg, pace)
		if m.side != 0 {
			d = d.OneSided(m.side)
		}
		return d, err
	})
}

// driveCircuit works out a duty.
func driveCircuit(m Machine, f *profiles.Folder, leg profiles.Leg, pace float64) (duty.Duty, error) {
	course, err := m.Course(f, leg)
	if err != nil {
		return duty.Duty{}, err
	}
	there := m.OnLeg(leg, f.Model)
	if pace == 0 {
		pace = f.Model.Pace(leg.Pace)
	}
	if len(course.Segs) > 0 {
		if pace == 0 {
			car, lapTime := m.Vehicle, course.LapTime
			if leg.LapTime > 0 {
				car, lapTime = there.Vehicle, float64(leg.LapTime)
			}
			pace, err = duty.FitPace(car, course.Segs, lapTime)
			// A recording by another car still says what the circuit is like.
			if out := (*duty.LapTimeError)(nil); f.Circuits[leg.Name].Trace != nil && leg.LapTime == 0 && errors.As(err, &out) {
				pace, err = out.Pace(), nil
			}
			if err != nil {
				return duty.Duty{}, err
			}
		}
		d, err := duty.Simulate(there.Vehicle, course.Segs, pace)
		return d.Harder(course.Harder), err
	}

	s, _, err := m.Summary(f, leg)
	if err != nil {
		return duty.Duty{}, err
	}
	if pace > 0 {
		s.Pace = pace
	}
	return duty.FromSummary(there.Vehicle, Segments(f.Reference), s.Summary)
}

// Summary is what is known of a leg's circuit without its corners, with the
// pace and the size that lap times tell, and whether a lap time alone had to
// tell both. The circuit's own lap time, a dry one, tells its size, so that
// another pace or another lap time on a leg leaves the circuit as it is.
func (m Machine) Summary(f *profiles.Folder, leg profiles.Leg) (s duty.Timed, alone bool, err error) {
	c := f.Circuits[leg.Name]
	s.Summary = duty.Summary{
		Meters: float64(c.Length), LeftShare: float64(c.LeftShare), HeavyBrakings: c.HeavyBrakings,
		Pace: f.Model.Pace(leg.Pace),
	}
	if leg.Reverse {
		s.LeftShare = 1 - s.LeftShare
	}
	timed := func(v duty.Vehicle, lapTime quantity.Duration, usual duty.Usual) {
		if err == nil && lapTime > 0 {
			s, err = m.timed(s.Summary, v, Segments(f.Reference), float64(lapTime), usual)
		}
	}
	spread := f.Model.Spread
	usual := duty.Usual{Pace: float64(f.Model.Paces["intermediate"]), PaceSD: float64(spread.UsualPace), SpeedSD: float64(spread.SummarySpeed)}
	if own := f.Model.Pace(c.Pace); own > 0 {
		usual = duty.Usual{Pace: own}
	}
	stated := s.Pace
	timed(m.Vehicle, c.LapTime, usual)
	if c.LapTime > 0 {
		alone, usual.PaceSD, usual.SpeedSD = usual.PaceSD > 0, 1, 0
	} else {
		alone = leg.LapTime > 0
	}
	timed(m.OnLeg(leg, f.Model).Vehicle, leg.LapTime, usual)
	if stated > 0 {
		s.Pace, alone = stated, false
	}
	return s, alone, err
}

// Told is what a lap time alone tells of a leg's circuit; nil where more is
// known.
func (m Machine) Told(f *profiles.Folder, leg profiles.Leg) (*plan.Told, error) {
	if !f.Circuits[leg.Name].BySummary() {
		return nil, nil
	}
	s, alone, err := m.Summary(f, leg)
	if err != nil || !alone {
		return nil, err
	}
	lapTime := cmp.Or(leg.LapTime, f.Circuits[leg.Name].LapTime)
	return &plan.Told{LapTime: float64(lapTime), Meters: s.Meters, Pace: s.Pace, Faster: s.Faster, Held: s.Held}, nil
}

// timedKey is all that a lap time's reading depends on, within one folder.
type timedKey struct {
	summary duty.Summary
	vehicle duty.Vehicle
	lapTime float64
	usual   duty.Usual
}

func (m Machine) timed(s duty.Summary, v duty.Vehicle, reference []duty.Segment, lapTime float64, usual duty.Usual) (duty.Timed, error) {
	return m.times.of(timedKey{s, v, lapTime, usual}, func() (duty.Timed, error) { return s.Timed(v, reference, lapTime, usual) })
}

// SlowLaps is the number of a session's laps that are driven slowly: out, in,
// and cooling down.
func SlowLaps(leg profiles.Leg) int { return 2 + leg.CoolDown }
