package planner

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
)

// TestEventsByTryingAll: of four events, two of them on one weekend, the two that
// are picked are those whose season costs least by the hour, of all pairs.
func TestEventsByTryingAll(t *testing.T) {
	f, first := demo(t, "juniper")
	var trips []profiles.Trip
	for k, days := range []int{0, 40, 43, 100} {
		next := first.Clone()
		next.ID, next.Name, next.Depart = fmt.Sprint("event-", k), fmt.Sprint("Event ", k), first.Depart.AddDate(0, 0, days)
		next.Legs = next.Legs[:2]
		next.Legs[1].Sessions.Count = 2 + k
		next.Legs[1].Fee = next.Legs[1].Fee / 2 * 1.5
		trips = append(trips, next)
	}
	o := Options{Draws: 300}
	ask := plan.Events{Weekends: 2}
	got, err := Events(f, trips, ask, o)
	if err != nil {
		t.Fatal(err)
	}
	least, want := math.Inf(1), []string{}
	for a := range trips {
		for b := range a {
			if a == 2 && b == 1 {
				continue // back after the other has left
			}
			s, err := Season(f, []profiles.Trip{trips[b], trips[a]}, o)
			if err != nil {
				t.Fatal(err)
			}
			hours, cost := 0.0, s.Cost
			for _, c := range s.Calendar {
				if c.AtHome {
					continue
				}
				cost += c.Life
				for _, l := range c.Plan.Legs {
					hours += float64(l.Sessions) * l.SessionTime / 3600
					cost += l.Fee
				}
				for _, e := range c.Plan.Budget {
					if e.Kind == plan.ForFuel || e.Kind == plan.ForNights {
						cost += e.Amount
					}
				}
			}
			if s.Safe && cost/hours < least {
				least, want = cost/hours, []string{trips[b].ID, trips[a].ID}
			}
		}
	}
	var picked []string
	for _, c := range got.Candidates {
		if c.Picked {
			picked = append(picked, c.TripID)
		}
	}
	if !got.Proved || !slices.Equal(picked, want) {
		t.Errorf("picked %v, proved %t; by trying all %v at %.2f an hour", picked, got.Proved, want, least)
	}

	// What a purse is good for: by trying all sets none within it has more hours.
	ask = plan.Events{Spend: 2500}
	if got, err = Events(f, trips, ask, o); err != nil || got.Season == nil || !got.Proved {
		t.Fatal(got, err)
	}
	purse := func(s *plan.Season) (sum float64) {
		for _, m := range s.Months {
			sum += m.Amount
		}
		return sum
	}
	most, hours := 0.0, 0.0
	for set := 1; set < 16; set++ {
		var chosen []profiles.Trip
		sum := 0.0
		for e, c := range got.Candidates {
			if set>>e&1 == 1 {
				chosen, sum = append(chosen, trips[e]), sum+c.Hours
			}
		}
		if set&6 == 6 {
			continue
		}
		s, err := Season(f, chosen, o)
		if err != nil {
			t.Fatal(err)
		}
		if s.Safe && purse(s) <= ask.Spend {
			most = max(most, sum)
		}
	}
	for _, c := range got.Candidates {
		if c.Picked {
			hours += c.Hours
		}
	}
	if purse(got.Season) > ask.Spend || hours != most || most == 0 {
		t.Errorf("%.0f of %.0f for %.2f hours; by trying all %.2f", purse(got.Season), ask.Spend, hours, most)
	}

	// A purse for nothing: that is proved, and said.
	if got, err = Events(f, trips, plan.Events{Spend: 5}, o); err != nil || got.Season != nil || !got.Proved {
		t.Fatal(got, err)
	}
}
