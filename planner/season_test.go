package planner

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/projection"
	"example.com/tripwear/planner/randomcar"
	"example.com/tripwear/planner/trip"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
)

// TestSeasonOfOneTrip: a season of one trip is its plan, though one is chosen
// by paths and the other by a knapsack.
func TestSeasonOfOneTrip(t *testing.T) {
	for _, name := range profiles.DemoNames() {
		f, outing := demo(t, name)
		p, err := Make(f, outing, Options{})
		if err != nil {
			t.Fatal(err)
		}
		s, err := Season(f, []profiles.Trip{outing}, Options{})
		if err != nil {
			t.Fatal(err)
		}
		sameAsPlan(t, s, p)
	}
}

// owned is an owner's folder.
func owned(t *rapid.T, o *randomcar.Owner) *profiles.Folder {
	files, err := o.Files()
	if err != nil {
		t.Fatal(err)
	}
	f, err := profiles.Load(files)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

func sameAsPlan(t testing.TB, s *plan.Season, p *plan.Plan) {
	t.Helper()
	if math.Abs(s.Cost-p.Choice.Cost) > 1e-6 || math.Abs(s.InTurn-p.Choice.Cost) > 1e-6 && p.Verdict != plan.No {
		t.Errorf("season %g, in turn %g, plan %g", s.Cost, s.InTurn, p.Choice.Cost)
	}
	for i, set := range s.Calendar[0].Sets {
		for j, point := range set.Points {
			if !slices.Equal(point.After, p.Sets[i].Points[j].After) {
				t.Errorf("%s %s: season %v, plan %v", set.ID, point.Place, point.After, p.Sets[i].Points[j].After)
			}
		}
		got, want := set.Decision, p.Sets[i].Decision
		if (got.Action != want.Action || got.Leg != want.Leg) && math.Abs(got.Cost-want.Cost) <= 1e-6 {
			continue // two stops in a row: either will do
		}
		if got.Action != want.Action || got.Leg != want.Leg || got.Spare != want.Spare || math.Abs(got.POut-want.POut) > 1e-9 || math.Abs(got.PUnsafe-want.PUnsafe) > 1e-9 || math.Abs(got.Cost-want.Cost) > 1e-6 {
			t.Errorf("%s: season %+v, plan %+v", set.ID, got, want)
		}
		if want.Due == nil && got.Reason != want.Reason {
			t.Errorf("%s: season %q, plan %q", set.ID, got.Reason, want.Reason)
		}
	}
}

// TestSeasonIsOneJourney: two trips in turn are one trip of all their legs with
// the days at home between them, number by number, where nothing is replaced.
func TestSeasonIsOneJourney(t *testing.T) {
	f, first := demo(t, "juniper")
	second := first.Clone()
	second.ID, second.Name, second.Depart = "later", "Later", first.Depart.AddDate(0, 2, 3)
	second.Legs = second.Legs[1:]
	second.Legs[0].Date = second.Depart

	m := trip.NewMachine(f)
	before, err := trip.BeforeTrip(m, f)
	if err != nil {
		t.Fatal(err)
	}
	season, stretches, err := before.Season(m, []profiles.Trip{first, second}, 900_000)
	if err != nil {
		t.Fatal(err)
	}
	home := stretches[1].Way.Legs[0]
	days := home.End.Sub(home.Start).Hours() / 24
	if miles := 900_000 * days / 30.436875; math.Abs(home.Meters-miles) > 1 || days < 45 || days > 65 {
		t.Errorf("%g m in %g days at home", home.Meters, days)
	}

	one := first.Clone()
	one.Legs = append(one.Legs, profiles.Leg{Kind: profiles.RoadLeg, Name: home.Name, Surface: "mixed", Ambient: 20, Distance: quantity.Length(home.Meters)})
	one.Legs = append(one.Legs, second.Legs...)
	whole, err := trip.NewJourney(m, f, one)
	if err != nil {
		t.Fatal(err)
	}
	a, b := projection.NewSets(season, projection.Posterior{}), projection.NewSets(whole, projection.Posterior{})
	d := projection.NewDraws(2000, 1)
	for i, s := range a {
		got, want := projection.NewWorker(d, season.Usages).Outcome(s, 0, true), projection.NewWorker(d, whole.Usages).Outcome(b[i], 0, true)
		for j := range want {
			if j != stretches[1].First && got[j] != want[j] { // where the days at home end later
				t.Errorf("%s after %s: %+v, as one trip %+v", s.ID, season.Legs[j].Name, got[j], want[j])
			}
		}
	}
}

// TestSeasonOnRandomCars: planned whole a season never costs more than trip by
// trip, and the first trip by itself is as its plan has it.
func TestSeasonOnRandomCars(t *testing.T) {
	var saved []float64
	allowed := 0
	randomcar.Check(t, 4, func(r *rapid.T) {
		f := owned(r, randomcar.Draw(r, 4))
		first := f.Trips[randomcar.Trip]
		trips := []profiles.Trip{first}
		day := first.Depart
		for k := range rapid.IntRange(1, 2).Draw(r, "more trips") {
			next := first.Clone()
			next.ID, next.Name = string(rune('b'+k)), "trip "+string(rune('B'+k))
			day = day.AddDate(0, 0, 60+rapid.IntRange(0, 90).Draw(r, "days at home"))
			next.Depart = day
			if n := rapid.IntRange(1, len(next.Legs)).Draw(r, "its legs"); n < len(next.Legs) {
				next.Legs = next.Legs[:n]
			}
			trips = append(trips, next)
		}
		f.Car.Usual = quantity.Mileage(rapid.IntRange(0, 2).Draw(r, "usual")) * 600_000
		o := Options{Draws: 300}
		s, err := Season(f, trips, o)
		if err != nil {
			r.Fatal(err)
		}
		if s.Refused > s.RefusedInTurn || s.Refused == s.RefusedInTurn && s.Cost > s.InTurn+1e-6 || math.Abs(s.Cost-s.Bound) > 1e-6 {
			r.Fatalf("%g planned whole, bound %g, %d refused; %g in turn, %d refused", s.Cost, s.Bound, s.Refused, s.InTurn, s.RefusedInTurn)
		}
		if s.Refused < s.RefusedInTurn {
			allowed++
		} else {
			saved = append(saved, s.InTurn-s.Cost)
		}
		p, err := Make(f, first, o)
		if err != nil {
			r.Fatal(err)
		}
		alone, err := Season(f, trips[:1], o)
		if err != nil {
			r.Fatal(err)
		}
		sameAsPlan(t, alone, p)
	})
	slices.Sort(saved)
	n := len(saved)
	if n == 0 {
		return // each takes the car where trip by trip does not
	}
	t.Logf("planned whole, %d of %d seasons take the car where trip by trip does not; of the others half save %.0f or more, a tenth %.0f, the most %.0f", allowed, n+allowed, saved[n/2], saved[n-1-n/10], saved[n-1])
}

// TestSeasonOverlaps: a trip cannot leave before the one before is back.
func TestSeasonOverlaps(t *testing.T) {
	f, first := demo(t, "juniper")
	second := first.Clone()
	second.Name, second.Depart = "Too soon", first.Depart.AddDate(0, 0, 3)
	if _, err := Season(f, []profiles.Trip{first, second}, Options{}); err == nil {
		t.Error("no error")
	}
}

// TestSeasonBudget: what is ordered keeps to the budget, month by month, and a
// smaller one is no cheaper; where none holds, that is said.
func TestSeasonBudget(t *testing.T) {
	f, first := demo(t, "juniper")
	second := first.Clone()
	second.ID, second.Name, second.Depart = "later", "Later", first.Depart.AddDate(0, 3, 0)
	more := 0.0
	for _, budget := range []float64{2000, 550, 450, 50} {
		f.Car.Budget = quantity.Allowance(budget)
		s, err := Season(f, []profiles.Trip{first, second}, Options{Draws: 500})
		if err != nil {
			t.Fatal(err)
		}
		spent, from := make([]float64, 13), s.Budget.From
		for _, o := range s.Orders {
			day := o.Day
			if day.IsZero() {
				day = s.Calendar[o.Of].Depart
			}
			for m := 12*(day.Year()-from.Year()) + int(day.Month()-from.Month()); m < len(spent); m++ {
				spent[m] += o.Price
			}
		}
		takes := 0.0
		for m, sum := range spent {
			takes = max(takes, sum/float64(m+1))
		}
		if math.Abs(takes-s.Budget.Takes) > 1e-6 || s.Budget.Holds != (takes <= budget) || s.Budget.Holds && s.Budget.More < more-1e-6 || s.Refused > 0 {
			t.Errorf("%g a month: the orders take %g, %+v, %g more before, %d refused", budget, takes, s.Budget, more, s.Refused)
		}
		t.Logf("%g a month: takes %.0f, %.0f more than without", budget, takes, s.Budget.More)
		more = s.Budget.More
	}
}
