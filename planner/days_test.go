package planner

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/randomcar"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
)

// TestDayTurns: a trip of its own that begins with a circuit day and has the roads
// home, its tread read a little more or less than the plan says the day needs,
// goes on as they are, or does not where no new ones are to be had.
func TestDayTurns(t *testing.T) {
	f, outing := demo(t, "juniper")
	p := planned(t, f, outing)
	tried := 0
	for _, id := range []string{"tires-front", "pads-rear"} {
		s := setOf(p, t, id)
		for _, n := range s.Decision.Days {
			rest := outing.Clone()
			rest.Legs = restFrom(outing, p, n.Leg)
			for _, more := range []float64{0.25e-3, -0.25e-3} {
				g := f.Clone()
				on := entryOf(g, s.Part)
				for _, pt := range s.Points {
					level := pt.Start - n.Expect + n.Under + more
					for _, lost := range pt.Loss[:n.Leg] {
						level -= lost
					}
					switch zone := slices.Index([]string{"inside", "middle", "outside"}, pt.Zone); {
					case zone >= 0:
						on.Tread[pt.Place][zone] = quantity.Length(level)
					default:
						on.Pad[pt.Place] = quantity.Length(level)
					}
				}
				whole, err := Make(g, rest, Options{Draws: 2000, Today: rest.Depart}) // nothing can be had in time
				if err != nil {
					t.Fatal(err)
				}
				then := setOf(whole, t, id).Decision
				goes := then.Action == plan.Run || then.Action == plan.Watch
				atMargin := n.Under <= s.Points[0].Margin // which the owner's act line sets, not the cap
				if goes != (more > 0) && !(atMargin && goes) {
					t.Errorf("%s before %s, %.2f mm where %.2f is needed: %s, %.3f unnoticed", id, p.Legs[n.Leg].Name, 1e3*(n.Under+more), 1e3*n.Under, then.Action, then.PUnsafe)
				}
				tried++
			}
		}
	}
	if tried < 10 {
		t.Errorf("only %d readings tried", tried)
	}
}

// restFrom is the legs of a trip from a circuit day on, that day and the roads.
func restFrom(outing profiles.Trip, p *plan.Plan, day int) []profiles.Leg {
	var out []profiles.Leg
	j := 0
	for _, l := range outing.Legs {
		days := 1
		if l.Kind == profiles.CircuitLeg {
			days = max(1, l.Days)
		}
		for range days {
			switch here := l; {
			case j == day:
				here.Days = 1
				out = append(out, here)
			case j > day && l.Kind == profiles.RoadLeg:
				out = append(out, here)
			}
			j++
		}
	}
	return out
}

// TestAnswer: of random owners the answer holds what the plan decided: each
// circuit day once, a reading only under what is expected, as the weak spot the
// highest chance.
func TestAnswer(t *testing.T) {
	turns, all := 0, 0
	randomcar.Check(t, 25, func(t *rapid.T) {
		o := randomcar.Draw(t, 0)
		f := loaded(t, o)
		p, err := Make(f, f.Trips[randomcar.Trip], Options{Draws: pairDraws, Today: o.Depart.AddDate(0, 0, -10)})
		if err != nil {
			t.Fatal(err)
		}
		var days []int
		for _, d := range p.Answer.Days {
			days = append(days, d.Leg)
			if n := d.Turns; n != nil {
				turns++
				if n.Under >= n.Expect || n.Under <= 0 || n.Chance > 0.5 || d.Call == plan.DayOff {
					t.Errorf("%+v", *n)
				}
			}
		}
		var circuits []int
		for j, l := range p.Legs {
			if l.Kind == profiles.CircuitLeg {
				circuits = append(circuits, j)
			}
		}
		all += len(circuits)
		if !slices.Equal(days, circuits) {
			t.Errorf("days %v of %v", days, circuits)
		}
		for _, s := range p.Sets {
			if s.Decision.POut > p.Answer.Weak.Chance {
				t.Errorf("%s is weaker than %s", s.Name, p.Answer.Weak.Name)
			}
		}
	})
	if 12*(turns+1) < all {
		t.Errorf("only %d days of %d turn", turns, all)
	}
	t.Logf("%d days of %d turn", turns, all)
}
