package planner

import (
	"fmt"
	"slices"
	"strings"

	"example.com/tripwear/profiles"
)

// When a check is made, beside the stops with work.
const (
	CheckBefore  = "before leaving"
	CheckFuel    = "at each fuel stop"
	CheckSession = "before each session"
	CheckNight   = "after each circuit day"
	CheckHome    = "back home"
)

// retorque is when fasteners are gone over after a wheel was off. Common
// practice, no source.
const retorque = "wheel fasteners to the maker's torque, and again within the first hour on the road"

// nearlyDone is the life left at which a set is ordered for the next trip;
// assumed.
const nearlyDone = 0.25

// checklist gathers the checks of a plan.
type checklist struct {
	p   *Plan
	f   *profiles.Folder
	out []Check
}

func checks(p *Plan, f *profiles.Folder) []Check {
	l := &checklist{p: p, f: f}
	l.before()
	l.fuel()
	if slices.ContainsFunc(p.Legs, isCircuit) {
		l.session()
		l.night()
	}
	l.stops()
	l.home()
	return l.out
}

func isCircuit(l Leg) bool { return l.Kind == profiles.CircuitLeg }

func (l *checklist) add(when, format string, a ...any) {
	l.out = append(l.out, Check{When: when, What: fmt.Sprintf(format, a...)})
}

// about adds a check of one set.
func (l *checklist) about(s Set, when, format string, a ...any) {
	l.out = append(l.out, Check{When: when, What: fmt.Sprintf(format, a...), Set: s.ID})
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
			l.add(CheckBefore, "order the %s now, or have it come faster: by the usual lead time it is late", it.Name)
		}
	}
	for _, s := range l.p.Sets {
		if s.Decision.Action != RenewBefore {
			continue
		}
		what := "renew the " + s.Name
		if wheelsOff(s.Kind) {
			what += "; " + retorque
		}
		l.about(s, CheckBefore, "%s", what)
	}
	l.add(CheckBefore, "measure tread, pads and rotors and read the rotor faces; write the readings in the Measurements sheet")
	var pack []string
	for _, it := range l.p.Packing {
		pack = append(pack, it.Name)
	}
	if len(pack) > 0 {
		l.add(CheckBefore, "pack %s, and the tools", strings.Join(pack, ", "))
	}
	if l.p.TopUp > 0 {
		l.add(CheckBefore, "oil at the upper mark")
	}
}

// fuel is the list at each fuel stop.
func (l *checklist) fuel() {
	for _, s := range l.p.Sets {
		if s.Kind != profiles.Tire {
			continue
		}
		p, way := closest(s, Tread)
		c := Check{When: CheckFuel, What: fmt.Sprintf("%s: cuts and cords, pressure when cold; depth at %s %s", s.Name, p.Place, p.Zone)}
		l.out = append(l.out, c.read(l.p.Legs, s, p, way, func(leg Leg) bool { return leg.Kind == profiles.RoadLeg && leg.Refuels > 0 }))
	}
	for _, leg := range l.p.Legs {
		for _, w := range leg.Wet {
			c := w.inRain(leg.Name)
			c.When = CheckFuel
			l.out = append(l.out, c)
		}
	}
	if n := l.fuelStops(); l.p.TopUp > 0 && n > 0 {
		l.add(CheckFuel, "oil level: expect to add about %.1f L in all, %.1f L a fuel stop", l.p.TopUp/litre, l.p.TopUp/litre/float64(n))
	} else {
		l.add(CheckFuel, "oil level")
	}
}

// session is the list before each session: what the decisions count on.
func (l *checklist) session() {
	for _, s := range l.p.Sets {
		if !watched(s.Decision) {
			continue
		}
		switch s.Kind {
		case profiles.Tire:
			p, way := closest(s, Tread)
			c := Check{When: CheckSession, What: fmt.Sprintf("%s: depth at %s %s", s.Name, p.Place, p.Zone)}
			l.out = append(l.out, c.read(l.p.Legs, s, p, way, isCircuit))
		case profiles.Pads:
			p, way := closest(s, PadLining)
			c := Check{When: CheckSession, What: fmt.Sprintf("%s: thickness at the thinnest end, %s%s", s.Name, p.Place, spare(s.Decision))}
			l.out = append(l.out, c.read(l.p.Legs, s, p, way, isCircuit))
		case profiles.Rotors:
			p, way := closest(s, Crack)
			l.about(s, CheckSession, "%s: run a fingernail over the faces, %s first; %s of life expected back home; stop at a crack that catches the nail or reaches the edge%s",
				s.Name, p.Place, Life(way[len(way)-1]), spare(s.Decision))
		}
	}
	if s, ok := l.weakestHub(); ok {
		why := "it is the likeliest to fail"
		if s.Most >= 0 {
			why = "most of its life goes " + "on " + l.p.Legs[s.Most].Name
		}
		l.about(s, CheckSession, "shake each wheel at 12 and 6 o'clock, %s above all: %s chance to fail on this trip; %s", s.Points[0].Place, Chance(s.Decision.POut), why)
	}
	l.add(CheckSession, "oil level at full, fluid level, firm pedal, wheel fasteners to the maker's torque when cold")
}

// watched says whether a decision counts on checks on the way.
func watched(d Decision) bool { return d.Action == Watch || d.Action == Carry || d.Spare }

// spare says what to do where a spare is along.
func spare(d Decision) string {
	if d.Action == Carry || d.Spare {
		return "; the spare is in the boot: once it is on, " + retorque
	}
	return ""
}

// weakestHub is the hub bearing likeliest to fail, as decided.
func (l *checklist) weakestHub() (Set, bool) {
	worst, found := Set{}, false
	for _, s := range l.p.Sets {
		if s.Kind == profiles.Bearing && (!found || s.Decision.POut > worst.Decision.POut) {
			worst, found = s, true
		}
	}
	return worst, found
}

// night is the list after each circuit day: whether the next one is on.
func (l *checklist) night() {
	for _, s := range l.p.Sets {
		switch s.Kind {
		case profiles.Tire:
			if watched(s.Decision) {
				p, way := closest(s, Tread)
				l.out = append(l.out, Check{When: CheckNight, What: fmt.Sprintf("%s: depth at %s %s", s.Name, p.Place, p.Zone)}.tonight(l.p.Legs, s, p, way))
			}
		case profiles.Pads:
			p, way := closest(s, PadLining)
			l.out = append(l.out, Check{When: CheckNight, What: fmt.Sprintf("%s: thickness at the thinnest end, %s", s.Name, p.Place)}.tonight(l.p.Legs, s, p, way))
		case profiles.Rotors:
			if !watched(s.Decision) {
				l.about(s, CheckNight, "%s: look for heat checks and a crack at the edge", s.Name)
			}
		}
	}
}

// stops is a list for each stop with work.
func (l *checklist) stops() {
	for j, leg := range l.p.Legs {
		for _, s := range l.p.Sets {
			if s.Decision.Action != RenewAtStop || s.Decision.Leg != j {
				continue
			}
			what := "renew the " + s.Name
			if wheelsOff(s.Kind) {
				what += "; " + retorque
			}
			if s.Kind == profiles.Oil {
				what += "; look at the level again after ten minutes' rest at the first fuel stop"
			}
			l.about(s, "at "+leg.Name, "%s", what)
		}
	}
}

// home is the list back home.
func (l *checklist) home() {
	l.add(CheckHome, "measure tread, pads and rotors again: the readings are worth more than the model")
	for _, s := range l.p.Sets {
		d := s.Decision
		switch {
		case s.Kind == profiles.Oil && d.Action == Watch:
			l.about(s, CheckHome, "change the engine oil and send a sample")
		case s.Kind != profiles.Bearing && s.Kind != profiles.Fluid && d.LifeEnd < nearlyDone:
			l.about(s, CheckHome, "order %s before the next trip: about %s of life is left", s.Name, Life(d.LifeEnd))
		}
	}
}
