package planner

import (
	"slices"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/trip"
	"example.com/tripwear/profiles"
)

// Ask says what Lasts is asked about.
type Ask struct {
	Sets    string // an id or words, see findSets; "" is every set
	FromLog bool   // in the paddock: by readings of the logbook's last day or the day before
}

// Lasts answers whether sets last a Weekend's days. A set lasts where its chance to come home within its
// limit is at least LastsChance, the chance that it is driven across the limit
// unnoticed is within the safety cap, and nothing was found that forbids
// driving on it. Lead times play no part.
func Lasts(f *profiles.Folder, weekend profiles.Trip, ask Ask, o Options) (*plan.Lasting, error) {
	o = o.orDefault()
	visit := slices.IndexFunc(weekend.Legs, func(l profiles.Leg) bool { return l.Kind == profiles.CircuitLeg })
	asked := weekend.Legs[visit].Days
	counts := []int{1, 2, 3}
	if asked > 3 {
		counts = append(counts, asked)
	}
	machine := trip.NewMachine(f)
	var stays []stay
	for _, n := range counts {
		trip := weekend.Clone()
		trip.Legs[visit].Days = n
		c, _, err := decided(machine, f, trip, o.timeless())
		if err != nil {
			return nil, err
		}
		stays = append(stays, stay{n, c.Legs, c.sets, ask.FromLog})
	}
	at := slices.Index(counts, asked)
	picked, err := findSets(stays[0].sets, ask.Sets)
	if err == nil && ask.FromLog {
		picked, err = withReadings(stays[0].sets, picked, ask.Sets, f.Log)
	}
	if err != nil {
		return nil, err
	}
	curves, err := survival(machine, f, weekend, visit, picked, o)
	if err != nil {
		return nil, err
	}

	day := stays[0].legs[visit]
	out := &plan.Lasting{
		Car: f.Car.Name, Circuit: day.Circuit, Days: asked, Sessions: day.Sessions, SessionTime: day.SessionTime,
		Laps: day.Laps, LapTime: day.LapTime, Pace: day.Pace, BySummary: day.BySummary,
		Counts: counts, Cap: float64(f.Model.Safety.Cap), Least: plan.LastsChance, Lasts: true,
	}
	for _, l := range stays[0].legs {
		if l.Kind == profiles.RoadLeg {
			out.Road += l.Meters
		}
	}
	for k, i := range picked {
		s := stays[at].sets[i]
		r := plan.SetLasting{
			ID: s.ID, Name: s.Name, Kind: s.Kind, Measured: s.Measured, Place: s.Decision.Where,
			Median: lasting(curves[k], 0.5), Sure: lasting(curves[k], plan.LastsChance),
			Lasts: holdsOut(s, out.Cap), Unsafe: s.Unnoticed, Advice: advise(stays, i, asked, out.Cap, lasting(curves[k], plan.LastsChance)),
		}
		for _, st := range stays {
			r.Chance = append(r.Chance, 1-st.sets[i].Decision.PAsIs)
		}
		if ask.FromLog {
			r.Readings = readings(s, f.Log)
		}
		out.Lasts = out.Lasts && r.Lasts
		out.Sets = append(out.Sets, r)
	}
	return out, nil
}
