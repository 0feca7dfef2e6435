package lists

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
)

// retorque is when fasteners are gone over after a wheel was off. Common
// practice, no source.
const retorque = "wheel fasteners to the maker's torque, and again within the first hour on the road"

// nearlyDone is the life left at which a set is ordered for the next trip;
// assumed.
const nearlyDone = 0.25

// checklist gathers the checks of a plan.
type checklist struct {
	p   *plan.Plan
	f   *profiles.Folder
	out []plan.Check
}

func Checks(p *plan.Plan, f *profiles.Folder) []plan.Check {
	l := &checklist{p: p, f: f}
	l.before()
	l.fuel()
	if slices.ContainsFunc(p.Legs, isCircuit) {
		l.session()
		l.sets(kind.Night)
	}
	l.swaps()
	l.stops()
	l.home()
	return l.out
}

func isCircuit(l plan.Leg) bool { return l.Kind == profiles.CircuitLeg }

func (l *checklist) add(when, format string, a ...any) {
	l.out = append(l.out, plan.Check{When: when, What: fmt.Sprintf(format, a...)})
}

// short tells the check that was just added in a few words.
func (l *checklist) short(words string) { l.out[len(l.out)-1].Short = words }

// about adds a check of one set.
func (l *checklist) about(s plan.Set, when, format string, a ...any) {
	l.out = append(l.out, plan.Check{When: when, What: fmt.Sprintf(format, a...), Set: s.ID})
}

func (l *checklist) fuelStops() int {
	n := 0
	for _, leg := range l.p.Legs {
		n += leg.Refuels
	}
	return n
}

// before is the list before leaving.
func (l *checklist) before() {
	for _, it := range l.p.Shopping {
		if it.Late {
			l.add(kind.Before, "order the %s now, or have it come faster: by the usual lead time it is late", it.Name)
		}
	}
	for _, s := range l.p.Sets {
		if s.Decision.Action != plan.ReplaceBefore {
			continue
		}
		what := "replace the " + s.Name
		if kind.Of(s.Kind).WheelsOff {
			what += "; " + retorque
		}
		l.about(s, l.p.First(), "%s", what)
	}
	l.measure()
	var pack []string
	for _, it := range l.p.Packing {
		pack = append(pack, it.Name)
	}
	if len(pack) > 0 && l.p.Standing == nil {
		l.add(kind.Before, "pack %s, and the tools", strings.Join(pack, ", "))
	}
	if l.p.TopUp > 0 {
		l.add(l.p.First(), "oil at the upper mark")
		l.short("oil to the upper mark")
	}
}

// measure has read before leaving what wears and is not new.
func (l *checklist) measure() {
	var worn []string
	for _, k := range []struct {
		kind profiles.Kind
		what string
	}{{profiles.Tire, "tread"}, {profiles.Pads, "pads"}, {profiles.Rotors, "rotors, with their faces"}} {
		if slices.ContainsFunc(l.p.Sets, func(s plan.Set) bool { return s.Kind == k.kind && !fresh(s) }) {
			worn = append(worn, k.what)
		}
	}
	const hubs = "shake each wheel at 12 and 6 o'clock"
	if len(worn) == 0 {
		l.add(l.p.First(), hubs)
		l.short("shake the wheels")
		return
	}
	write := "write the readings in the Readings sheet"
	if l.p.Standing != nil {
		write = "tripwear log walk asks for them in turn"
	}
	l.add(l.p.First(), "measure %s; %s; %s", strings.Join(worn, ", "), hubs, write)
	l.short("measure")
}

// fresh is a set that leaves new.
func fresh(s plan.Set) bool {
	return s.Decision.Action == plan.ReplaceBefore || !slices.ContainsFunc(s.Points, func(p plan.Point) bool { return p.Start < p.New })
}

// fuel is the list at each fuel stop.
func (l *checklist) fuel() {
	l.sets(kind.Fuel)
	for _, leg := range l.p.Legs {
		for _, w := range leg.Wet {
			c := inRain(w, leg.Name)
			c.When = kind.Fuel
			l.out = append(l.out, c)
		}
	}
	level := plan.Check{When: kind.Fuel, What: "oil level"}
	if n := l.fuelStops(); n > 0 {
		level.Oil, level.OilEach = l.p.TopUp, l.p.TopUp/float64(n)
	}
	l.out = append(l.out, level)
}

// session is the list before each session: what the decisions count on.
func (l *checklist) session() {
	l.sets(kind.Session)
	l.add(kind.Session, "oil level at full, fluid level, firm pedal, wheel fasteners to the maker's torque when cold")
}

// sets adds the checks that are ordered at one time; they are the ones that the
// decisions count on.
func (l *checklist) sets(when string) {
	for i, s := range l.p.Sets {
		for _, c := range plan.Checks(kind.Of(s.Kind), l.p.Legs, s.On, s.Decision.Watched) {
			if c.When == when && (c.Who != kind.AtOnce || l.weakest(s.Kind) == i) {
				l.out = append(l.out, l.of(c, s))
			}
		}
	}
}

// of is one check of a set, with what to expect of it.
func (l *checklist) of(c plan.Ordered, s plan.Set) plan.Check {
	out := plan.Check{When: c.When, Set: s.ID, Looks: c.By, Before: c.Legs()}
	say := kind.Looked{Set: s.Name, Part: l.f.Parts[s.Part], Place: s.Points[0].Place, Fail: quantity.Chance(s.Decision.POut), Why: "it is the likeliest to fail"}
	if s.Most >= 0 {
		say.Why = "most of its life goes on " + l.p.Legs[s.Most].Name
	}
	if c.When == kind.Session {
		say.Spare = spare(s.Decision)
	}
	if m := cmp.Or(c.Reads, c.Looks); m != "" {
		p, way := closest(s, m)
		say.Place, say.Zone, say.Life = p.Place, p.Zone, quantity.Life(way[len(way)-1])
		if on := spareCourse(s, p); on[len(on)-1] > 0 {
			say.Life += fmt.Sprintf(" (%s on the spare)", quantity.Life(on[len(on)-1]))
		}
		if c.Reads != "" {
			out = reads(out, l.p.Legs, s, p, way)
		}
	}
	out.What = c.Say(say)
	return out
}

// spare says what to do where a spare is along.
func spare(d plan.Decision) string {
	if d.Action == plan.Bring || d.Spare {
		return "; the spare is in the trunk: once it is on, " + retorque
	}
	return ""
}

// weakest is which set of a kind is likeliest to fail, as decided.
func (l *checklist) weakest(k profiles.Kind) int {
	worst := -1
	for i, s := range l.p.Sets {
		if s.Kind == k && (worst < 0 || s.Decision.POut > l.p.Sets[worst].Decision.POut) {
			worst = i
		}
	}
	return worst
}

// swaps is a list for each place where sets are swapped.
func (l *checklist) swaps() {
	for _, s := range l.p.Swaps {
		when, k := "in the paddock before "+l.p.Legs[s.Leg].Name, kind.Of(l.f.Parts[s.On].Kind)
		switch {
		case s.Leg == 0:
			when = l.p.First()
		case l.p.Legs[s.Leg-1].Kind == profiles.StopLeg:
			when = "at " + l.p.Legs[s.Leg-1].Name
		}
		what := fmt.Sprintf("swap the %s: %s on, %s off and kept; look at both", s.Name, s.OnName, s.Off)
		if k.Beds {
			what += "; the rotors carry the other pads' film: some firm stops, then cool, before they are worked hard"
		}
		if k.WheelsOff {
			what += "; " + retorque
		}
		l.out = append(l.out, plan.Check{When: when, What: what, Set: s.Set})
	}
}

// stops is a list for each stop with work.
func (l *checklist) stops() {
	for j, leg := range l.p.Legs {
		for _, s := range l.p.Sets {
			if s.Decision.Action != plan.ReplaceAtStop || s.Decision.Leg != j {
				continue
			}
			what := "replace the " + s.Name
			if kind.Of(s.Kind).WheelsOff {
				what += "; " + retorque
			}
			if then := kind.Of(s.Kind).AtStop; then != "" {
				what += "; " + then
			}
			l.about(s, "at "+leg.Name, "%s", what)
		}
	}
}

// home is the list back home.
func (l *checklist) home() {
	l.add(kind.Home, "measure tread, pads and rotors again: the readings are worth more than the model")
	for _, s := range l.p.Sets {
		k, d := kind.Of(s.Kind), s.Decision
		switch {
		case k.AtHome != "" && d.Action == plan.Watch:
			l.about(s, kind.Home, "%s", k.AtHome)
		case k.Order && d.LifeEnd < nearlyDone:
			l.about(s, kind.Home, "order %s before the next trip: about %s of life is left", s.Name, quantity.Life(d.LifeEnd))
		}
	}
}
