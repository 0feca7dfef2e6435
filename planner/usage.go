package planner

import (
	"fmt"
	"math"
	"sync"

	"example.com/tripwear/profiles"
	"example.com/tripwear/wearmodel/bearing"
	"example.com/tripwear/wearmodel/brake"
	"example.com/tripwear/wearmodel/duty"
	"example.com/tripwear/wearmodel/oil"
	"example.com/tripwear/wearmodel/tire"
)

// wear is what a leg takes from every point, nominal, at one pace.
type wear struct {
	tread     [4][3]float64 // m: inside, middle, outside
	pad       [4][2]float64 // m: mean, thinnest
	crack     [4]float64    // share of life
	thickness [4]float64    // m
	hub       [4]float64    // L10 lives
	oil       float64       // equivalent m
	peak      [2]float64    // C, rotors front and rear after a braking
	bulk      [2]float64    // C, their mean over the hottest session
	tooHot    [2]bool       // for the pads
}

// usage is what one leg does to the car: a single figure on the road, three
// on a circuit, for the pace one spread below, at, and one spread above the plan.
type usage struct {
	circuit bool
	summary bool // circuit known by its summary alone
	at      [3]wear
}

// nominal is the middle of the three paces, or the road.
func (u usage) nominal() wear { return u.at[1] }

// roadUsage works out a road leg.
func roadUsage(m machine, model profiles.Model, leg profiles.Leg) (usage, Leg) {
	surface := model.Surfaces[leg.Surface]
	metres := float64(leg.Distance)
	d := m.vehicle.Road(duty.Surface{Speed: float64(surface.Speed), BrakeEnergy: float64(surface.Brakes) * 1000})
	km := metres / 1000

	var w wear
	for p, rate := range tire.Road(m.vehicle, m.tires, d, float64(surface.Tread)) {
		for z := range rate.Zones {
			w.tread[p][z] = rate.Zones[z] * km
		}
	}
	for i, a := range m.axles {
		out := brake.Road(m.vehicle, a, d, metres)
		w.setAxle(i, out)
	}
	for _, p := range duty.Places {
		w.hub[p] = bearing.Road(m.hubs[p], metres)
	}
	w.oil = oil.RoadEquivalent(metres, float64(surface.Oil), float64(model.Oil.RoadTemp))
	return usage{at: [3]wear{w, w, w}}, Leg{
		Kind: leg.Kind, Name: leg.Name, Surface: leg.Surface,
		Metres: metres, Ambient: float64(leg.Ambient), Rain: float64(leg.Rain),
		Hours: metres / float64(surface.Speed) / 3600,
	}
}

func (w *wear) setAxle(i int, out brake.Outcome) {
	for _, p := range []int{2 * i, 2*i + 1} {
		w.pad[p] = [2]float64{out.PadMean, out.PadThinnest}
		w.crack[p] = out.Crack
		w.thickness[p] = out.Thickness
	}
	w.peak[i], w.bulk[i] = out.Peak, out.Bulk
}

// circuitUsage works out one day of a circuit leg at the three paces; every
// day of a visit is alike, since the car stands cold overnight. The number of
// laps is the plan's at all three paces, so that the effect of pace stays
// smooth.
func circuitUsage(m machine, f *profiles.Folder, leg profiles.Leg) (usage, Leg, error) {
	name := f.Circuits[leg.Name].Name
	d, slow, laps, err := plannedLaps(m, f, leg)
	if err != nil {
		return usage{}, Leg{}, fmt.Errorf("%s: %w", name, err)
	}
	there := m.on(leg, f.Model)
	u := usage{circuit: true, summary: f.Circuits[leg.Name].BySummary()}
	var wg sync.WaitGroup
	var errs [3]error
	for i := range u.at {
		wg.Go(func() {
			hot, warm := d, slow
			if i != 1 {
				pace := d.Pace * math.Exp(float64(i-1)*float64(f.Model.Spread.Pace))
				if hot, errs[i] = circuitDuty(m, f, leg, pace); errs[i] != nil {
					return
				}
				if warm, errs[i] = circuitDuty(m, f, leg, warmLap*hot.Pace); errs[i] != nil {
					return
				}
			}
			u.at[i] = circuitWear(there, sump(f), leg, hot, warm, laps)
		})
	}
	wg.Wait()
	for _, err := range errs {
		if err != nil {
			return usage{}, Leg{}, fmt.Errorf("%s: %w", name, err)
		}
	}

	all, warm := lapsADay(leg, laps)
	l := Leg{
		Kind: leg.Kind, Name: name, Ambient: float64(leg.Ambient), Rain: float64(leg.Rain),
		Circuit: name, Day: 1, Days: leg.Days, Reverse: leg.Reverse, WetCircuit: leg.Wet,
		Sessions: leg.Sessions.Count, SessionTime: float64(leg.Sessions.Each),
		Laps: int(all), LapTime: d.Seconds, Pace: d.Pace,
		Metres:        (all + warm) * d.Metres,
		Hours:         float64(leg.Sessions.Count) * float64(leg.Sessions.Each) / 3600,
		LeftShare:     duty.LeftShare(d),
		HeavyBrakings: len(d.Brakings),
		BySummary:     u.summary,
		TopSpeed:      d.TopSpeed,
		RotorPeak:     u.nominal().peak,
		RotorBulk:     u.nominal().bulk,
		PadsTooHot:    u.nominal().tooHot,
	}
	for _, s := range d.States {
		if there.vehicle.Lifts(s) {
			l.WheelLifts = true
			break
		}
	}
	l.FuelUsed = float64(all*fuelPerLap(d)) + float64(warm*fuelPerLap(slow))
	return u, l, nil
}

// warmLap is the share of the pace driven on an out lap, an in lap and a lap to
// cool down, which heat no brakes. Engineering choice.
const warmLap = 0.6

// plannedLaps are a leg's hot lap and its slow one at the pace of the plan, and
// how many hot laps a session holds, which is one at least.
func plannedLaps(m machine, f *profiles.Folder, leg profiles.Leg) (hot, slow duty.Duty, laps int, err error) {
	if hot, err = circuitDuty(m, f, leg, 0); err != nil {
		return hot, slow, 0, err
	}
	if laps = duty.HotLaps(float64(leg.Sessions.Each), hot.Seconds, slowLaps(leg)); laps == 0 {
		return hot, slow, 0, fmt.Errorf("a session of %.0f min holds no hot lap of %.0f s between its out lap and its in lap; give longer sessions", float64(leg.Sessions.Each)/60, hot.Seconds)
	}
	slow, err = circuitDuty(m, f, leg, warmLap*hot.Pace)
	return hot, slow, laps, err
}

// lapsADay is how many hot and how many slow laps a circuit day has.
func lapsADay(leg profiles.Leg, laps int) (all, warm float64) {
	return float64(laps * leg.Sessions.Count), float64(slowLaps(leg) * leg.Sessions.Count)
}

// circuitWear is a circuit day's wear: hot laps of one duty, and an out and an
// in lap of another in every session.
func circuitWear(m machine, model profiles.Model, leg profiles.Leg, d, slow duty.Duty, laps int) wear {
	sessions := make([]brake.Session, leg.Sessions.Count)
	for i := range sessions {
		sessions[i] = brake.Session{Laps: laps, Rest: float64(model.Session.Rest)}
	}
	all, warm := lapsADay(leg, laps)
	w := wear{tread: circuitTread(m, d, slow, all, warm)}
	for i, a := range m.axles {
		out := brake.Run(m.vehicle, a, d, sessions, float64(leg.Ambient))
		w.setAxle(i, out)
		w.tooHot[i] = a.Pad.TooHot(out)
	}
	easy := bearing.Circuit(m.vehicle, m.hubs, m.radius, slow)
	for p, perLap := range bearing.Circuit(m.vehicle, m.hubs, m.radius, d) {
		w.hub[p] = float64(perLap*all) + float64(easy[p]*warm)
	}
	w.oil = oil.CircuitEquivalent(float64(len(sessions))*float64(leg.Sessions.Each), float64(model.Oil.CircuitTemp))
	return w
}

// circuitTread is what so many hot laps of one duty and slow laps of another
// take from the treads.
func circuitTread(m machine, d, slow duty.Duty, all, warm float64) (tread [4][3]float64) {
	gentle := tire.Circuit(m.vehicle, m.tires, slow)
	for p, rate := range tire.Circuit(m.vehicle, m.tires, d) {
		for z := range rate.Zones {
			tread[p][z] = float64(rate.Zones[z]*all) + float64(gentle[p].Zones[z]*warm)
		}
	}
	return tread
}
