package answer

import (
	"cmp"
	"slices"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
)

// Of is a plan's answer, once its lists are filled.
func Of(p *plan.Plan) *plan.Answer {
	a := &plan.Answer{Orders: orders(p), Stops: stops(p), Days: days(p), Watch: watch(p), Weak: weak(p)}
	for _, s := range p.Sets {
		for _, what := range s.Stop {
			a.Found = append(a.Found, plan.Found{Set: s.ID, Name: s.Name, What: what})
		}
	}
	a.AtHome = replaced(p)
	for _, c := range p.Checks {
		if c.When == p.First() && c.Short != "" {
			a.AtHome = append(a.AtHome, c.Short)
		}
	}
	return a
}

// replaced is the work on what is replaced before leaving.
func replaced(p *plan.Plan) []string {
	var names []string
	wheels := false
	for _, s := range p.Sets {
		if s.Decision.Action == plan.ReplaceBefore {
			names = append(names, s.Name)
			wheels = wheels || kind.Of(s.Kind).WheelsOff
		}
	}
	if len(names) == 0 {
		return nil
	}
	out := []string{"replace the " + plan.Listed(names)}
	if wheels {
		out = append(out, "wheel torque")
	}
	return out
}

// orders are what is still to be bought, by the last day to order.
func orders(p *plan.Plan) []int {
	var out []int
	for i, it := range p.Shopping {
		if !it.OnShelf && it.Buy != plan.BuyOnTheWay {
			out = append(out, i)
		}
	}
	slices.SortStableFunc(out, func(i, k int) int {
		a, b := p.Shopping[i].OrderBy, p.Shopping[k].OrderBy
		if a.IsZero() != b.IsZero() {
			return map[bool]int{true: 1, false: -1}[a.IsZero()]
		}
		return a.Compare(b)
	})
	return out
}

// stops are the stops with work, and the roads on which something is due.
func stops(p *plan.Plan) []plan.Work {
	var out []plan.Work
	driven := 0.0
	for j, l := range p.Legs {
		w := plan.Work{Leg: j, Name: l.Name, Day: l.End, Meters: driven}
		for _, s := range p.Sets {
			d := s.Decision
			due := d.Due != nil && d.Due.Leg == j
			if due {
				w.Due, w.Meters = true, driven+d.Due.Meters
			}
			if due || d.Action == plan.ReplaceAtStop && d.Leg == j {
				w.Sets = append(w.Sets, s.Name)
				if d.PAsIs > w.Skipped || w.End == "" {
					w.Skipped, w.End = d.PAsIs, endsWith(s)
				}
			}
		}
		for _, e := range p.Budget {
			if e.Leg == j && (e.Kind == plan.ForVisits || e.Kind == plan.ForLabor) {
				w.Cost += e.Amount
			}
		}
		if len(w.Sets) > 0 {
			out = append(out, w)
		}
		driven += l.Meters
	}
	return out
}

// endsWith is what a set ends with, in a verb.
func endsWith(s plan.Set) string { return s.Points[s.First].Measure.Info().End }

// days are the circuit days, each with the reading likeliest to turn it.
func days(p *plan.Plan) []plan.CircuitDay {
	var out []plan.CircuitDay
	for j, l := range p.Legs {
		if l.Kind != profiles.CircuitLeg {
			continue
		}
		day := plan.CircuitDay{Leg: j, Call: plan.DayOn}
		for _, s := range p.Sets {
			d := s.Decision
			if d.On != nil && d.Leg == j {
				day.Fit, day.Call = append(day.Fit, s.Name), plan.DayChanged
			}
			for _, n := range d.Days {
				if n.Leg == j && (day.Turns == nil || nearer(n, day.Turns.Need)) {
					day.Turns = &plan.Turning{Set: s.ID, Name: s.Name, Need: n}
				}
			}
		}
		if p.Verdict == plan.No {
			day.Call, day.Turns = plan.DayOff, nil
		}
		out = append(out, day)
	}
	return out
}

// nearer says whether a reading is likelier to turn its day than another, or of
// the same chance expected nearer to where it turns.
func nearer(a, b plan.Need) bool {
	return cmp.Or(cmp.Compare(a.Chance, b.Chance), cmp.Compare(a.Under/a.Expect, b.Under/b.Expect)) > 0
}

// watch lists what is looked at on the way: each set that is read by a gauge,
// and of what an eye or a hand tells one of a kind, the likeliest to end short.
func watch(p *plan.Plan) []plan.Watched {
	var out []plan.Watched
	seen := map[profiles.Kind]bool{}
	for _, s := range plan.ByChance(p.Sets) {
		d, k := s.Decision, kind.Of(s.Kind)
		checks := plan.Checks(k, p.Legs, s.On, true)
		if k.Look == "" || !d.Watched || len(checks) == 0 {
			continue
		}
		first := s.Points[s.First]
		w := plan.Watched{Set: s.ID, Name: s.Name, Kind: k.ID, Look: k.Look, Where: d.Where, When: plan.Occasions(checks), Before: -1, Chance: d.POut}
		if k.Counted { // its limit says what ends it, not where
			w.Look, w.Where = s.Name, ""
		}
		if checks[0].Reads != "" {
			w.Measure, w.Act, w.Stop = first.Measure, first.Margin, first.Limit
		} else if seen[s.Kind] {
			continue
		}
		seen[s.Kind] = true
		if d.On != nil {
			w.Before = d.Leg
		}
		out = append(out, w)
	}
	return out
}

// weak is the weak spot.
func weak(p *plan.Plan) *plan.Weak {
	s := p.WeakSpot()
	if s == nil {
		return nil
	}
	return &plan.Weak{Set: s.ID, Name: s.Name, Where: s.Decision.Where, Chance: s.Decision.POut, End: endsWith(*s), Most: s.Most}
}
