package planner

import (
	"slices"
	"strings"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/projection"
	"example.com/tripwear/planner/trip"
	"example.com/tripwear/profiles"
)

// Ask says what Lasts is asked about.
type Ask struct {
	Sets    string // an id or words, see projection.Find; "" is every set
	FromLog bool   // in the paddock: the way out is done
}

// Lasts answers whether sets last a Weekend's days. A set lasts where its
// chance to come home within its limit is at least LastsChance, the chance that
// it is driven across the limit unnoticed is within the safety cap, and nothing
// was found that forbids driving on it. The first is asked here alone, since
// lasts replaces and brings nothing. Lead times play no part. A set that nobody
// read and whose reading could turn the answer makes it CAN'T SAY YET.
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
		stays = append(stays, stay{n, c, ask.FromLog})
	}
	at := slices.Index(counts, asked)
	picked, err := projection.Find(stays[0].sets, ask.Sets)
	if err != nil {
		return nil, err
	}
	curves, err := survival(machine, f, weekend, visit, picked, o)
	if err != nil {
		return nil, err
	}
	rest, err := restOfTrip(machine, f, picked, o)
	if err != nil {
		return nil, err
	}

	day := stays[0].Legs[visit]
	out := &plan.Lasting{
		Car: f.Car.Name, Circuit: day.Circuit, Days: asked, Sessions: day.Sessions, SessionTime: day.SessionTime,
		Laps: day.Laps, LapTime: day.LapTime, Pace: day.Pace, BySummary: day.BySummary,
		Counts: counts, Cap: float64(f.Model.Safety.Cap), Least: plan.LastsChance, Rest: rest.name,
	}
	for _, l := range stays[0].Legs {
		if l.Kind == profiles.RoadLeg {
			out.Road += l.Meters
		}
	}
	for k, i := range picked {
		s := stays[at].sets[i]
		r := plan.SetLasting{
			ID: s.ID, Name: s.Name, Kind: s.Kind, Read: s.Read, Stop: s.Stop, Measured: s.Measured, Place: s.Decision.Where,
			Median: projection.Lasting(curves[k], 0.5), Sure: projection.Lasting(curves[k], plan.LastsChance),
			Lasts: holdsOut(s, out.Cap), Unsafe: s.Unnoticed, Advice: advise(stays, i, asked, out.Cap, projection.Lasting(curves[k], plan.LastsChance)),
		}
		if s.Spec.Counted { // what it was not asked about
			r.Advice = strings.Join(append([]string{r.Advice}, s.Seen...), "; ")
		}
		for _, st := range stays {
			r.Chance = append(r.Chance, 1-st.sets[i].Decision.PAsIs)
		}
		if rest.name != "" {
			r.Rest = &rest.chance[k]
		}
		if ask.FromLog {
			r.Readings = readings(s, f)
		}
		out.Sets = append(out.Sets, r)
	}
	out.Readings = stays[at].readings(func(s *projection.Set, w *projection.Worker) string {
		s.Decision.PAsIs = w.OutcomeAtEnd(s, 0).PLimit
		if holdsOut(s, out.Cap) {
			return "it lasts"
		}
		return "it does not last"
	})
	out.Readings = slices.DeleteFunc(out.Readings, func(r plan.Deciding) bool {
		return !slices.ContainsFunc(out.Sets, func(s plan.SetLasting) bool { return s.ID == r.Set })
	})
	answerLasts(out)
	return out, nil
}

// rest is what lies before the car of a trip that the logbook has begun.
type rest struct {
	name   string    // "" where it has begun none
	chance []float64 // by set, to come home within its limit with nothing replaced
}

// restOfTrip looks at the trip under way.
func restOfTrip(m trip.Machine, f *profiles.Folder, picked []int, o Options) (rest, error) {
	b, err := trip.Under(m, f, o.Today)
	if b == nil || err != nil {
		return rest{}, err
	}
	c, err := undecided(m, f, b.Rest(f, o.Today), o)
	if err != nil {
		return rest{}, err
	}
	out := rest{name: b.Trip.Name + " from " + c.Legs[0].Name + " on", chance: make([]float64, len(picked))}
	d := projection.NewDraws(o.Draws, o.Seed)
	projection.Parallel(len(picked), func() func(int) {
		w := projection.NewWorker(d, c.Usages)
		return func(k int) { out.chance[k] = 1 - w.OutcomeAtEnd(c.sets[picked[k]], 0).PLimit }
	})
	return out, nil
}
