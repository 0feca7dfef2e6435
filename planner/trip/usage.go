package trip

import (
	"cmp"
	"fmt"
	"math"
	"sync"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
	"example.com/tripwear/wearmodel/brake"
	"example.com/tripwear/wearmodel/duty"
)

// Loss is what one leg takes from a point: at the three paces on a circuit,
// the same figure three times on the road.
type Loss [3]float64

// Slope is how the log of a loss grows with the pace, per spread of pace.
func (l Loss) Slope() float64 {
	if l[0] <= 0 || l[2] <= 0 {
		return 0
	}
	return math.Log(l[2]/l[0]) / 2
}

// Usage is what one leg does to the car: a single figure on the road, three
// on a circuit, for the pace one spread below, at, and one spread above the plan.
type Usage struct {
	Circuit bool
	Summary bool   // circuit known by its summary alone
	Name    string // of the circuit
	Visit   int    // which of the trip's
	At      [3]kind.Wear
}

// Nominal is the middle of the three paces, or the road.
func (u *Usage) Nominal() *kind.Wear { return &u.At[1] }

// RoadUsage works out a road leg.
func RoadUsage(m Machine, model profiles.Model, leg profiles.Leg) (Usage, plan.Leg) {
	surface := model.Surfaces[leg.Surface]
	meters := float64(leg.Distance)
	d := m.Vehicle.Road(duty.Surface{Speed: float64(surface.Speed), BrakeEnergy: float64(surface.Brakes) * 1000})
	w := kind.OnRoad(kind.RoadAsk{Machine: m.Machine, Model: model, Surface: surface, Duty: d, Meters: meters})
	return Usage{At: [3]kind.Wear{w, w, w}}, plan.Leg{
		Kind: leg.Kind, Name: leg.Name, Surface: leg.Surface,
		Meters: meters, Ambient: float64(leg.Ambient), Rain: float64(leg.Rain),
		Hours: meters / float64(surface.Speed) / 3600,
	}
}

// circuitUsage works out one day of a circuit leg at the three paces. All days
// of a visit are the same, since the car stands cold overnight. The number of
// laps is the plan's at all three paces, so that the effect of pace is smooth.
func circuitUsage(m Machine, f *profiles.Folder, leg profiles.Leg) (Usage, plan.Leg, error) {
	name := f.Circuits[leg.Name].Name
	d, slow, laps, err := PlannedLaps(m, f, leg)
	if err != nil {
		return Usage{}, plan.Leg{}, fmt.Errorf("%s: %w", name, err)
	}
	told, err := m.Told(f, leg)
	if err != nil {
		return Usage{}, plan.Leg{}, fmt.Errorf("%s: %w", name, err)
	}
	unsure := 0.0
	if told != nil {
		unsure = float64(f.Model.Spread.TimedPace)
	}
	apart := math.Hypot(float64(f.Model.Spread.Pace), unsure)
	course, err := m.Course(f, leg)
	if err != nil {
		return Usage{}, plan.Leg{}, fmt.Errorf("%s: %w", name, err)
	}
	apart = math.Hypot(apart, course.BrakeSD/paceOverBraking)
	u := Usage{Circuit: true, Summary: f.Circuits[leg.Name].BySummary(), Name: name}
	u.At, err = m.days.of(dayKey{keyOf(m, leg, 0), leg.Sessions, leg.CoolDown, leg.Ambient}, func() ([3]kind.Wear, error) {
		return dayAtPaces(m, f, leg, unsure, apart, d, slow, laps)
	})
	if err != nil {
		return Usage{}, plan.Leg{}, fmt.Errorf("%s: %w", name, err)
	}

	all, warm := lapsADay(leg, laps)
	l := plan.Leg{
		Kind: leg.Kind, Name: name, Ambient: float64(leg.Ambient), Rain: float64(leg.Rain),
		Circuit: name, Day: 1, Days: leg.Gone + leg.Days + leg.After, Reverse: leg.Reverse, WetCircuit: leg.Wet,
		Sessions: leg.Sessions.Count, SessionTime: float64(leg.Sessions.Each),
		Laps: all, LapTime: d.Seconds, Pace: d.Pace,
		Meters:        (all + warm) * d.Meters,
		Hours:         float64(leg.Sessions.Count) * float64(leg.Sessions.Each) / 3600,
		LeftShare:     duty.LeftShare(d),
		HeavyBrakings: len(d.Brakings),
		BySummary:     u.Summary,
		Told:          told,
		TopSpeed:      d.TopSpeed,
		RotorPeak:     u.Nominal().Peak,
		RotorFace:     u.Nominal().Face,
		RotorBulk:     u.Nominal().Bulk,
		PadsTooHot:    u.Nominal().TooHot,
	}
	there := m.OnLeg(leg, f.Model)
	for _, s := range d.States {
		if there.Vehicle.Lifts(s) {
			l.WheelLifts = true
			break
		}
	}
	l.FuelUsed = float64(all*fuelPerLap(d)) + float64(warm*fuelPerLap(slow))
	return u, l, nil
}

// dayKey is all that a circuit day's wear depends on, within one folder.
type dayKey struct {
	dutyKey
	sessions profiles.Sessions
	coolDown int
	ambient  quantity.Temperature
}

// dayAtPaces is the wear of a circuit day at three paces, apart by one spread,
// with what of it comes from a lap time alone.
func dayAtPaces(m Machine, f *profiles.Folder, leg profiles.Leg, unsure, apart float64, d, slow duty.Duty, laps float64) (at [3]kind.Wear, err error) {
	there := m.OnLeg(leg, f.Model)
	var wg sync.WaitGroup
	var errs [3]error
	for i := range at {
		if m.nominal && i != 1 {
			continue
		}
		wg.Go(func() {
			hot, warm := d, slow
			if i != 1 {
				pace := d.Pace * math.Exp(float64(i-1)*apart)
				if hot, errs[i] = CircuitDuty(m, f, leg, pace); errs[i] != nil {
					return
				}
				if warm, errs[i] = CircuitDuty(m, f, leg, warmLap*hot.Pace); errs[i] != nil {
					return
				}
			}
			ask := CircuitAsk(there, f.Model, leg, hot, warm, laps)
			ask.PaceSD = unsure
			at[i] = kind.OnCircuit(ask)
		})
	}
	wg.Wait()
	if m.nominal {
		at[0], at[2] = at[1], at[1]
	}
	return at, cmp.Or(errs[:]...) // one is enough: both ends of the paces fail alike
}

// paceOverBraking turns what is not known of a circuit's braking energy into as
// much of pace: pads go with about the fourth power of pace, and with the square
// of the braking energy at one pace. Engineering choice.
const paceOverBraking = 2

// warmLap is the share of the pace driven on an out lap, an in lap and a lap to
// cool down, which heat no brakes. Engineering choice.
const warmLap = 0.6

// PlannedLaps are a leg's hot lap and its slow one at the pace of the plan, and
// how many hot laps a session holds.
func PlannedLaps(m Machine, f *profiles.Folder, leg profiles.Leg) (hot, slow duty.Duty, laps float64, err error) {
	if hot, err = CircuitDuty(m, f, leg, 0); err != nil {
		return hot, slow, 0, err
	}
	if laps = duty.HotLaps(float64(leg.Sessions.Each), hot.Seconds, SlowLaps(leg)); laps == 0 {
		return hot, slow, 0, fmt.Errorf("a session of %.0f min leaves no time for a hot lap of %.0f s between its out lap and its in lap; give longer sessions", float64(leg.Sessions.Each)/60, hot.Seconds)
	}
	slow, err = CircuitDuty(m, f, leg, warmLap*hot.Pace)
	return hot, slow, laps, err
}

// lapsADay is how many hot and how many slow laps a circuit day has.
func lapsADay(leg profiles.Leg, laps float64) (all, warm float64) {
	return float64(laps * float64(leg.Sessions.Count)), float64(SlowLaps(leg) * leg.Sessions.Count)
}

// CircuitAsk is what a circuit day asks of the car: hot laps of one duty, and
// the slow laps of every session of another.
func CircuitAsk(m Machine, model profiles.Model, leg profiles.Leg, d, slow duty.Duty, laps float64) kind.CircuitAsk {
	sessions := make([]brake.Session, leg.Sessions.Count)
	for i := range sessions {
		sessions[i] = brake.Session{Laps: laps, Rest: float64(model.Session.Rest)}
	}
	all, warm := lapsADay(leg, laps)
	return kind.CircuitAsk{
		Machine: m.Machine, Model: model, Hot: d, Slow: slow, HotLaps: all, SlowLaps: warm, Sessions: sessions,
		Seconds: float64(len(sessions)) * float64(leg.Sessions.Each), Ambient: float64(leg.Ambient),
	}
}
