package workbook

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"example.com/tripwear/planner"
	"example.com/tripwear/profiles"
)

// summary is the page to read first: the answer, then the state of each group
// of parts, then what was said with the plan.
func (b *book) summary() *sheet {
	s := &sheet{name: "Summary", widths: []float64{17, 18, 21, 22, 11, 11}}
	s.title(b.p.Car+": "+b.p.Trip, b.journey())
	s.gap()
	verdict, loud := "SAFE AS PLANNED, once the actions below are done.", look{weight: alert}
	if !b.p.Safe {
		verdict, loud = "NOT SAFE AS PLANNED: at least one set may be driven across its limit. Do not leave like this.", look{weight: stop}
	}
	s.span(loud, verdict)
	for _, set := range b.p.Sets {
		for _, found := range set.Stop {
			s.span(look{weight: stop}, "STOP: "+set.Name+", "+found+". What was found comes before any forecast.")
		}
	}
	b.todo(s)
	b.groups(s)
	said(s, "Warnings", b.p.Warnings)
	said(s, "Cautions", b.p.Cautions)
	return s
}

// journey is the trip in one line.
func (b *book) journey() string {
	road, days := 0.0, 0
	for _, l := range b.p.Legs {
		switch l.Kind {
		case profiles.RoadLeg:
			road += l.Metres
		case profiles.CircuitLeg:
			days++
		}
	}
	d := b.u.distance
	out := []string{sentenceCase(b.leaves())}
	if !b.p.Depart.IsZero() {
		out = append(out, "home about "+b.at(len(b.p.Legs)-1).Format("2 Jan 2006"))
	}
	out = append(out, fmt.Sprintf("%.0f %s of road, %d circuit %s", d.of(road), d.name, days, plural(days, "day", "days")),
		fmt.Sprintf("odometer %.0f %s", d.of(b.p.Odometer), d.name))
	return strings.Join(out, "; ")
}

// at is the day a leg ends.
func (b *book) at(j int) time.Time {
	hours := b.p.Legs[j].EndDay * 24
	return b.p.Depart.Add(time.Duration(hours * float64(time.Hour)))
}

func plural(n int, one, many string) string {
	if n == 1 {
		return one
	}
	return many
}

// loudness of an action: which comes first, and how it looks.
var loudness = map[planner.Action]weight{
	planner.Run: calm, planner.Watch: alert, planner.Carry: alert,
	planner.RenewBefore: act, planner.RenewAtStop: act, planner.DoNotTake: stop,
}

// turns orders the actions by when they are due.
var turns = []planner.Action{planner.DoNotTake, planner.RenewBefore, planner.Carry, planner.RenewAtStop, planner.Watch, planner.Run}

// due says when an action is due.
func (b *book) due(d planner.Decision) string {
	switch d.Action {
	case planner.DoNotTake:
		return "do not leave"
	case planner.RenewBefore:
		return "before leaving"
	case planner.Carry:
		return "pack"
	case planner.RenewAtStop:
		return "on the way"
	default:
		return "at each check"
	}
}

// action is what is done, with the stop or the spare.
func (b *book) action(d planner.Decision) string {
	switch {
	case d.Action == planner.RenewAtStop && b.has(d.Leg):
		return "renew at " + b.p.Legs[d.Leg].Name
	case d.Action == planner.Carry:
		return "carry a spare"
	case d.Spare:
		return string(d.Action) + ", and carry a spare"
	}
	return string(d.Action)
}

func (b *book) has(leg int) bool { return leg >= 0 && leg < len(b.p.Legs) }

// todo has a row for every set that needs something, the first due on top.
func (b *book) todo(s *sheet) {
	s.section("What to do")
	sets := slices.Clone(b.p.Sets)
	sets = slices.DeleteFunc(sets, func(t planner.Set) bool { return t.Decision.Action == planner.Run })
	if len(sets) == 0 {
		s.span(look{}, "Nothing: every set runs the whole trip. Check as the Decisions sheet says.")
		return
	}
	slices.SortStableFunc(sets, func(a, c planner.Set) int {
		return slices.Index(turns, a.Decision.Action) - slices.Index(turns, c.Decision.Action)
	})
	s.add(left("When"), left("Set"), left("Action"), left("Where"), right("Limit crossed if nothing is done"), right("Stopped short as decided"))
	for _, t := range sets {
		d := t.Decision
		s.add(text(look{box: true}, b.due(d)), text(look{weight: strong, box: true}, t.Name),
			text(look{weight: loudness[d.Action], box: true}, b.action(d)), text(look{box: true}, d.Where),
			b.u.chance.in(look{box: true}, d.PAsIs), b.u.chance.in(look{box: true}, d.POut))
	}
	s.span(look{weight: quiet}, "Chances in %. Reasons stand on the Decisions sheet, what to buy on the Shopping list.")
}

// groups are the parts of the car as an owner thinks of them.
var groups = []struct {
	name string
	kind profiles.Kind
}{
	{"Tires", profiles.Tire}, {"Pads", profiles.Pads}, {"Rotors", profiles.Rotors},
	{"Hub bearings", profiles.Bearing}, {"Engine oil", profiles.Oil}, {"Brake fluid", profiles.Fluid},
}

// groups gives each group one status in words, and its tightest set.
func (b *book) groups(s *sheet) {
	s.section("State of the car")
	s.add(left("Group"), left("Status"), left(""), left("Tightest set"), right("Left at the end"), center("5 – 95 %"))
	last := len(b.p.Legs) - 1
	for _, g := range groups {
		worst, first := -1, -1
		for i, t := range b.p.Sets {
			if t.Kind != g.kind {
				continue
			}
			if worst < 0 || slices.Index(turns, t.Decision.Action) < slices.Index(turns, b.p.Sets[worst].Decision.Action) {
				worst = i
			}
			if first < 0 || t.After[last].PLimit > b.p.Sets[first].After[last].PLimit {
				first = i
			}
		}
		if worst < 0 {
			continue
		}
		d, t := b.p.Sets[worst].Decision, b.p.Sets[first]
		l := look{weight: loudness[d.Action], box: true}
		status := b.action(d)
		if d.Action == planner.Run {
			status = "good for the trip"
		}
		level, around := b.left(t, last)
		level.look.box = true
		cells := append([]cell{text(look{weight: strong, box: true}, g.name)}, joined(text(l, status), 2)...)
		s.add(append(cells, text(look{box: true}, t.Name), level, text(look{weight: quiet, box: true, across: "center"}, around))...)
	}
	b.fuelAndBoot(s)
	s.span(look{weight: quiet}, "Left at the end: share of life of the set as it stands today, nothing renewed, at its worst place; for a hub its chance of lasting, for the fluid the least margin to boiling.")
}

// left is what a set has left after leg j, with its band: a share of life; for
// a hub its chance of lasting, for the fluid the margin to boiling.
func (b *book) left(t planner.Set, j int) (level cell, around string) {
	a := t.After[j]
	switch t.Kind {
	case profiles.Bearing:
		return number(look{}, `[>0.995]"lasts >99 %";"lasts "0 %`, 1-a.PLimit), ""
	case profiles.Fluid:
		if len(t.Points) == 0 || !b.beenOnCircuit(j) {
			return number(look{}, asWhole, math.NaN()), ""
		}
		u, p := b.u.warmth, t.Points[0]
		return number(look{}, asWhole+`" `+u.name+`"`, u.of(p.After[j].P50)), band(u, p.After[j])
	}
	return b.u.share.in(look{}, a.P50), band(b.u.share, a)
}

// beenOnCircuit says whether a circuit is among the legs up to j: before one
// the fluid has no peak to speak of.
func (b *book) beenOnCircuit(j int) bool {
	return slices.ContainsFunc(b.p.Legs[:j+1], func(l planner.Leg) bool { return l.Kind == profiles.CircuitLeg })
}

// fuelAndBoot are the two groups that do not wear.
func (b *book) fuelAndBoot(s *sheet) {
	fuel, tanks := 0.0, 0.0
	for _, l := range b.p.Legs {
		fuel += l.FuelUsed
		tanks += l.Tanks
	}
	u := b.u.fuel
	line := func(name string, l look, status string) {
		cells := append([]cell{text(look{weight: strong, box: true}, name)}, joined(text(l, status), 2)...)
		s.add(append(cells, blank(look{box: true}), blank(look{box: true}), blank(look{box: true}))...)
	}
	line("Fuel", look{weight: calm, box: true}, fmt.Sprintf("about %.0f %s, %.1f tanks", u.of(fuel), u.name, tanks))
	if b.p.Boot.Fits {
		line("Boot", look{weight: calm, box: true}, "the packing fits")
		return
	}
	line("Boot", look{weight: act, box: true}, "the packing does not fit")
}

func said(s *sheet, heading string, lines []string) {
	if len(lines) == 0 {
		return
	}
	s.section(heading)
	for _, l := range lines {
		s.span(look{}, "– "+l)
	}
}
