package planner

import (
	"testing"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/randomcar"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
)

const (
	mile      = quantity.Length(1609.344)
	thirtyTwo = 0.0254 / 32 // m
)

var (
	demo    = randomcar.Demo
	fitNew  = randomcar.FitNew
	road    = randomcar.Road
	days    = randomcar.Days
	logged  = randomcar.Logged
	sampled = randomcar.Sampled
)

// planned makes a plan with few draws.
func planned(t testing.TB, f *profiles.Folder, trip profiles.Trip) *plan.Plan {
	t.Helper()
	p, err := Make(f, trip, Options{Draws: 2000})
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func setOf(p *plan.Plan, t testing.TB, id string) plan.Set {
	t.Helper()
	for _, s := range p.Sets {
		if s.ID == id {
			return s
		}
	}
	t.Fatalf("no set %s", id)
	return plan.Set{}
}

// lost is what the whole trip takes from a set's point, nominal.
func lost(s plan.Set, t testing.TB, place, zone string) float64 {
	t.Helper()
	for _, p := range s.Points {
		if p.Place == place && p.Zone == zone {
			sum := 0.0
			for _, l := range p.Loss {
				sum += l
			}
			return sum
		}
	}
	t.Fatalf("%s has no point %s %s", s.ID, place, zone)
	return 0
}
