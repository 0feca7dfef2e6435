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

// demo loads a fresh copy of a demo folder and its trip.
var demo = randomcar.Demo

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

// fit replaces the measurements of a fitted part: as new, no days, no miles.
func fitNew(f *profiles.Folder, part string) {
	for i := range f.Car.Fitted {
		e := &f.Car.Fitted[i]
		if e.Part == part {
			*e = profiles.Fitted{Part: e.Part, At: e.At, Since: e.Since}
			e.Since.Odometer = f.Car.Odometer
		}
	}
}

func road(miles float64) profiles.Leg {
	return profiles.Leg{Kind: profiles.RoadLeg, Name: "a road", Distance: quantity.Length(miles) * mile, Surface: "highway", Ambient: 20}
}

func days(circuit string, n int, pace string) profiles.Leg {
	return profiles.Leg{
		Kind: profiles.CircuitLeg, Name: circuit, Days: n, Pace: pace, Ambient: 24,
		Sessions: profiles.Sessions{Count: 5, Each: 1200},
	}
}
