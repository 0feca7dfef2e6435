package planner

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"example.com/tripwear/planner/decision"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/projection"
	"example.com/tripwear/planner/trip"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
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
			Lasts: holdsOut(s, out.Cap), Unsafe: unnoticed(s), Advice: advise(stays, i, asked, out.Cap, lasting(curves[k], plan.LastsChance)),
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

// orDefault fills in what is not given.
func (o Options) orDefault() Options {
	if o.Draws <= 0 {
		o.Draws = DefaultDraws
	}
	if o.Seed == 0 {
		o.Seed = DefaultSeed
	}
	return o
}

// timeless leaves order dates out of the choice.
func (o Options) timeless() Options {
	o.Today = time.Time{}
	return o
}

// stay is the weekend with a number of days, decided.
type stay struct {
	days int
	legs []plan.Leg
	sets []*projection.Set

	paddock bool // the car is there already
}

// unnoticed is the chance of driving across the limit as the set stands.
func unnoticed(s *projection.Set) float64 {
	if !s.Critical {
		return 0
	}
	return s.Decision.PAsIs * (1 - s.Caught)
}

// holdsOut is the rule of Lasts.
func holdsOut(s *projection.Set, safety float64) bool {
	return len(s.Stop) == 0 && 1-s.Decision.PAsIs >= plan.LastsChance && unnoticed(s) <= safety
}

// survival is the chance that a set lasts 0 to MostDays days with all its
// roads: the roads come first, so that one projection tells of every number
// of days.
func survival(m trip.Machine, f *profiles.Folder, weekend profiles.Trip, visit int, picked []int, o Options) ([][]float64, error) {
	trip := weekend.Clone()
	days := trip.Legs[visit]
	days.Days = plan.MostDays
	trip.Legs = append(slices.Delete(trip.Legs, visit, visit+1), days)
	roads := len(trip.Legs) - 1
	c, err := undecided(m, f, trip, o)
	if err != nil {
		return nil, err
	}
	out := make([][]float64, len(picked))
	d := projection.NewDraws(o.Draws, o.Seed)
	projection.Parallel(len(picked), func() func(int) {
		w := projection.NewWorker(d, c.Usages)
		return func(k int) {
			for _, band := range w.Outcome(c.sets[picked[k]], 0, false)[roads-1:] {
				out[k] = append(out[k], 1-band.PLimit)
			}
		}
	})
	return out, nil
}

// lasting is how many days a share of the draws lasts, between whole days by
// straight lines.
func lasting(curve []float64, share float64) float64 {
	for k, c := range curve {
		switch {
		case c >= share:
		case k == 0:
			return 0
		default:
			before := curve[k-1]
			return float64(k-1) + (before-share)/(before-c)
		}
	}
	return float64(len(curve) - 1)
}

// advise puts in a sentence how many days a set is enough for, and what to do
// for the first number of days that it is not, and for those asked.
func advise(stays []stay, i, asked int, safety, sure float64) string {
	enough, fails := 0, -1
	for k, st := range stays {
		if !holdsOut(st.sets[i], safety) {
			fails = k
			break
		}
		enough = st.days
	}
	if fails < 0 {
		if sure >= plan.MostDays {
			return fmt.Sprintf("enough for %s, and 90 %% of cases last more than %d", dayCount(enough), plan.MostDays)
		}
		return fmt.Sprintf("enough for %s; 90 %% of cases last about %.1f days", dayCount(enough), sure)
	}
	st := stays[fails]
	s := st.sets[i]
	if len(s.Stop) > 0 {
		return "not to be driven on: " + strings.Join(s.Stop, "; ")
	}
	first := st.remedy(i)
	odds := fmt.Sprintf("(chance to %s %s", decision.EndsWith(s), quantity.Chance(s.Decision.PAsIs))
	if len(s.Levels) > 1 {
		odds += ", " + s.Decision.Where + " first"
	}
	odds += ")"
	text := fmt.Sprintf("enough for %s; for %s %s %s", dayCount(enough), number(st.days), first, odds)
	if enough == 0 {
		text = fmt.Sprintf("not enough for one day: %s %s", first, odds)
	}
	for _, later := range stays[fails+1:] {
		if then := later.remedy(i); later.days == asked && then != first {
			text += fmt.Sprintf("; for %s %s (%s)", number(asked), then, quantity.Chance(later.sets[i].Decision.PAsIs))
		}
	}
	return text
}

// remedy is what the plan for those days does about a set, in words.
func (st stay) remedy(i int) string {
	s := st.sets[i]
	spare, before := "pack a ", "renew before leaving"
	if st.paddock {
		spare, before = "have ready a ", "change it before going out"
	}
	spare += s.Spec.Spare
	switch d := s.Decision; d.Action {
	case plan.Bring:
		if d.Leg >= 0 {
			return spare + ", to be on before " + st.legs[d.Leg].Name
		}
		return spare
	case plan.ReplaceBefore:
		if d.Spare {
			return before + " and " + spare
		}
		return before
	case plan.DoNotTake:
		return "nothing makes it safe"
	default:
		return cmp.Or(s.Spec.Watching, "look before each session")
	}
}

func dayCount(n int) string {
	if n == 1 {
		return "one day"
	}
	return number(n) + " days"
}

// number is a small number in words.
func number(n int) string {
	words := strings.Fields("no one two three four five six seven eight nine ten")
	if n < len(words) {
		return words[n]
	}
	return fmt.Sprint(n)
}
