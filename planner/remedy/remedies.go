package remedy

import (
	"cmp"
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"
	"time"

	"example.com/tripwear/planner/decision"
	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
)

// candidates lists what may make a plan safe, in turn for every set in trouble,
// what costs least first.
func (s *search) candidates() []remedy {
	turns := [][]remedy{s.emptier()}
	for _, set := range s.plan.Sets {
		if !slices.Contains(s.bad, set.ID) {
			continue
		}
		own, less := slices.Concat(s.wearAside(set), s.leaveLater(set), s.replaceFirst(set), s.stopFor(set), s.otherPart(set)), s.lessCircuit(set)
		if len(s.bad) > 2 { // what helps all of them comes first
			own = slices.Concat(less, own)
		} else {
			own = slices.Concat(own, less)
		}
		turns = append(turns, own)
	}
	var out []remedy
	seen := map[string]bool{}
	for k := 0; ; k++ {
		more := false
		for _, own := range turns {
			if k >= len(own) {
				continue
			}
			more = true
			if what := own[k].steps[0].What; !seen[what] {
				seen[what] = true
				out = append(out, own[k])
			}
		}
		if !more {
			return out
		}
	}
}

func single(c plan.Change, apply func(*profiles.Folder, *profiles.Trip) error) []remedy {
	return []remedy{{steps: []step{{Change: c, apply: apply}}}}
}

// order is when a part that goes on before leaving is to be ordered for a departure.
func (s *search) order(part string, depart time.Time) decision.Order {
	return decision.OrderFor(depart, kind.Filled(s.folder, s.folder.Parts[part]), plan.BuyBefore)
}

// mostWait is how many days a departure is moved at most.
const mostWait = 60

// leaveLater moves the departure to when a set ordered today is on.
func (s *search) leaveLater(set plan.Set) []remedy {
	if set.Decision.Bind != plan.BindLate || s.outing.Under != nil {
		return nil
	}
	n, day := 0, s.outing.Depart
	if late := s.today.Sub(day); late > 0 {
		n = int(late.Hours() / 24)
		day = day.AddDate(0, 0, n)
	}
	for s.order(set.Part, day).Late(s.today) {
		n, day = n+1, day.AddDate(0, 0, 1)
	}
	if n == 0 || n > mostWait && !s.outing.Depart.Before(s.today) {
		return nil
	}
	what := fmt.Sprintf("leave %d %s later, on %s, when a set ordered today is there %s", n, plan.Plural(n, "day"), day.Format("Mon 2 Jan 2006"), s.order(set.Part, day).For)
	return single(plan.Change{What: what, Days: float64(n), Date: day}, func(_ *profiles.Folder, t *profiles.Trip) error {
		t.Depart = day
		return nil
	})
}

// replaceFirst puts a new set of the same part on before leaving.
func (s *search) replaceFirst(set plan.Set) []remedy {
	if len(set.Stop) == 0 || set.Decision.Action != plan.ReplaceBefore {
		return nil
	}
	return s.fit(set, set.Part, s.plan.Now("replace the "+set.Name+" before leaving"))
}

// otherPart puts on another part that is there in time: the owner's own first,
// then the one that lasts longest.
func (s *search) otherPart(set plan.Set) []remedy {
	const most = 2
	better := kind.Of(set.Kind).Lasts
	side := ""
	for _, axle := range []string{"-front", "-rear"} {
		if strings.HasSuffix(set.ID, axle) {
			side = axle
		}
	}
	var parts []profiles.Part
	for _, id := range slices.Sorted(maps.Keys(s.folder.Parts)) {
		p := s.folder.Parts[id]
		other := strings.HasSuffix(p.Class, "-front") && side == "-rear" || strings.HasSuffix(p.Class, "-rear") && side == "-front"
		if p.Kind == set.Kind && id != set.Part && !other && better(p) > better(s.folder.Parts[set.Part]) {
			parts = append(parts, p)
		}
	}
	stock := func(p profiles.Part) int {
		if p.ID == p.Class {
			return 1
		}
		return 0
	}
	slices.SortStableFunc(parts, func(a, b profiles.Part) int {
		return cmp.Or(cmp.Compare(stock(a), stock(b)), cmp.Compare(better(b), better(a)))
	})
	var out []remedy
	for _, p := range parts {
		if len(out) < most {
			out = append(out, s.fit(set, p.ID, s.plan.Now(fmt.Sprintf("fit %s as %s before leaving", p.Name, set.Name)))...)
		}
	}
	return out
}

// fit puts a part on before leaving where it can be there in time.
func (s *search) fit(set plan.Set, id, what string) []remedy {
	change := profiles.Change{Key: "fitted." + set.ID, Value: id}
	if s.folder.Clone().Apply(new(s.outing.Clone()), change) != nil {
		return nil // a stock part that lacks what only its owner knows
	}
	part := s.folder.Parts[id]
	shelf := slices.ContainsFunc(s.folder.Car.Shelf, func(sp profiles.Spare) bool { return sp.Part == id && sp.Quantity >= 1 })
	if s.outing.Under != nil && (!shelf || !slices.ContainsFunc(s.outing.Under.Can, func(place string) bool { return slices.Contains(part.Fit, place) })) {
		return nil
	}
	c := plan.Change{What: what}
	if o := s.order(id, s.outing.Depart); !shelf && o.For != "" && !s.outing.Depart.IsZero() {
		if o.Late(s.today) {
			return nil
		}
		c.Date = o.By
	}
	if !shelf {
		c.Cost = float64(part.Price)
	}
	if !slices.Contains(part.Fit, "home") {
		c.Cost += float64(float64(part.Hours) / 3600 * float64(s.folder.Car.Costs.Shop))
	}
	if set.Decision.Action == plan.ReplaceBefore { // the plan spends it already: it is told in full
		for _, it := range s.plan.Shopping {
			if it.Set == set.ID {
				c.Cost += it.ToPay()
			}
		}
		if set.Decision.Shop {
			c.Cost += set.Decision.Labor
		}
	}
	return single(c, func(f *profiles.Folder, t *profiles.Trip) error { return f.Apply(t, change) })
}

// roadTo is the road on which a set could still be replaced in time: where it
// is due, otherwise the last one before the leg that most likely takes it past
// its limit, or that leg itself, half way.
func (s *search) roadTo(set plan.Set) (at plan.Due, ok bool) {
	if set.Decision.Due != nil {
		return *set.Decision.Due, true
	}
	most, worst := 0.0, 0
	before := 0.0
	for j, b := range set.After {
		if step := b.PLimit - before; step > most {
			most, worst = step, j
		}
		before = b.PLimit
	}
	if l := s.plan.Legs[worst]; l.Kind == profiles.RoadLeg {
		return plan.Due{Leg: worst, Meters: l.Meters / 2}, true
	}
	for j := worst - 1; j >= 0; j-- {
		if l := s.plan.Legs[j]; l.Kind == profiles.RoadLeg {
			return plan.Due{Leg: j, Meters: l.Meters}, true
		}
	}
	return at, false
}

// leastStay is how long, s, a stop for work takes at least.
const leastStay = 2 * 3600

// stopFor has a set replaced on the way: at a stop of the trip that is told to
// have the parts, otherwise at one put in where it is still in time.
func (s *search) stopFor(set plan.Set) []remedy {
	at, ok := s.roadTo(set)
	if !ok || len(set.Stop) > 0 { // what was found is not driven to a stop
		return nil
	}
	part := s.folder.Parts[set.Part]
	var out []remedy
	for j, l := range s.plan.Legs[:at.Leg+1] {
		if l.Kind == profiles.StopLeg && !slices.Contains(l.Can, "parts") && slices.ContainsFunc(l.Can, func(can string) bool { return slices.Contains(part.Fit, can) }) {
			leg := s.leg(j)
			what := fmt.Sprintf("have %s waiting at %s, and buy and fit it there", part.Name, l.Name)
			out = append(out, single(plan.Change{What: what}, func(_ *profiles.Folder, t *profiles.Trip) error {
				t.Legs[leg].Can = append(slices.Clone(t.Legs[leg].Can), "parts")
				return nil
			})...)
		}
	}
	leg, road := s.leg(at.Leg), s.plan.Legs[at.Leg]
	what := fmt.Sprintf("put in a stop on %s, at a shop that has the part, to replace the %s", road.Name, set.Name)
	stop := profiles.Leg{
		Kind: profiles.StopLeg, Name: "shop on " + road.Name, Can: []string{"shop", "parts"}, Ambient: s.outing.Legs[leg].Ambient,
		Stay: max(leastStay, part.Hours),
	}
	return append(out, single(plan.Change{What: what, At: &at}, func(_ *profiles.Folder, t *profiles.Trip) error {
		first, rest := t.Legs[leg], t.Legs[leg]
		first.Distance = min(first.Distance, quantity.Length(at.Meters))
		rest.Distance -= first.Distance
		rest.Name, rest.Fee = "on from the shop on "+road.Name, 0
		legs := []profiles.Leg{first, stop}
		if rest.Distance > 0 {
			legs = append(legs, rest)
		}
		t.Legs = slices.Concat(t.Legs[:leg], legs, t.Legs[leg+1:])
		return nil
	})...)
}

// leg is the trip's leg that a leg of the plan is of: a visit of several days is
// one leg a day there.
func (s *search) leg(of int) int {
	i, days := 0, 0
	for j := range of {
		if l := s.plan.Legs[j]; l.Kind == profiles.CircuitLeg {
			if days++; days < l.Days {
				continue
			}
		}
		i, days = i+1, 0
	}
	return i
}

// less lists numbers below n to try, the largest first.
func less(n int) []int {
	var out []int
	for _, k := range []int{n - 1, (n + 1) / 2, 1} {
		if k >= 1 && k < n && !slices.Contains(out, k) {
			out = append(out, k)
		}
	}
	return out
}

// lessCircuit asks less of the circuit that takes most of a set: fewer
// sessions, a shorter one where there is one a day, a lower pace, fewer days.
func (s *search) lessCircuit(set plan.Set) []remedy {
	if len(set.Stop) > 0 || len(set.Used) == 0 {
		return nil
	}
	at := -1
	for j, l := range s.plan.Legs {
		if l.Kind == profiles.CircuitLeg && (at < 0 || set.Used[j] > set.Used[at]) {
			at = j
		}
	}
	if at < 0 {
		return nil
	}
	name, visit := s.plan.Legs[at].Circuit, s.outing.Legs[s.leg(at)]
	on := func(change func(*profiles.Leg)) func(*profiles.Folder, *profiles.Trip) error {
		return func(_ *profiles.Folder, t *profiles.Trip) error {
			for i := range t.Legs {
				if l := &t.Legs[i]; l.Kind == profiles.CircuitLeg && l.Name == visit.Name {
					change(l)
				}
			}
			return nil
		}
	}
	n, each := s.plan.Legs[at].Sessions, s.plan.Legs[at].SessionTime
	fees := 0.0
	for _, l := range s.outing.Legs {
		if l.Name == visit.Name && l.Kind == profiles.CircuitLeg {
			fees += float64(l.Fee)
		}
	}
	of := func(r *remedy, left float64, what string, change func(*profiles.Leg)) {
		r.steps = append(r.steps, step{plan.Change{What: what}, on(change), fees * (1 - left)})
	}
	var shorter, fewer, slower remedy
	for _, k := range less(visit.Days) {
		of(&shorter, float64(k)/float64(visit.Days), fmt.Sprintf("%d %s at %s in place of %d", k, plan.Plural(k, "day"), name, visit.Days),
			func(l *profiles.Leg) { l.Days = min(k, l.Days) })
	}
	for _, k := range less(n) {
		of(&fewer, float64(k)/float64(n), fmt.Sprintf("%d %s a day at %s in place of %d", k, plan.Plural(k, "session"), name, n),
			func(l *profiles.Leg) { l.Sessions = profiles.Sessions{Count: k, Each: quantity.Duration(each)} })
	}
	if half := math.Round(each / 2 / 60); n == 1 {
		of(&fewer, 0.5, fmt.Sprintf("a session of %.0f min at %s in place of %.0f", half, name, each/60),
			func(l *profiles.Leg) { l.Sessions = profiles.Sessions{Count: 1, Each: quantity.Duration(half * 60)} })
	}
	model := s.folder.Model
	words := slices.SortedFunc(maps.Keys(model.Paces), func(a, b string) int { return cmp.Compare(model.Paces[b], model.Paces[a]) })
	for _, w := range words {
		if visit.Pace != "" && float64(model.Paces[w]) < model.Pace(visit.Pace) {
			of(&slower, 1, fmt.Sprintf("the pace %s at %s in place of %s", w, name, visit.Pace), func(l *profiles.Leg) { l.Pace = w })
		}
	}
	var out []remedy
	for _, r := range []remedy{fewer, slower, shorter} {
		if len(r.steps) > 0 {
			out = append(out, r)
		}
	}
	return out
}
