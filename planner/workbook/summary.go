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
	b.warnAll(s)
	verdict, loud := "SAFE AS PLANNED, once the actions below are done.", look{weight: alert}
	if !b.p.Safe {
		verdict, loud = "NOT SAFE AS PLANNED: at least one set may be driven across its limit. Do not leave like this.", look{weight: stop}
	}
	s.add(joined(asPlanned(text(loud, verdict)), len(s.widths))...)
	for _, set := range b.p.Sets {
		for _, found := range set.Stop {
			s.span(look{weight: stop}, "STOP: "+set.Name+", "+found+". What was found comes before any forecast.")
		}
	}
	b.key(s)
	b.todo(s)
	b.groups(s)
	said(s, "Warnings", b.p.Warnings)
	said(s, "Cautions", b.p.Cautions)
	return s
}

// key explains how cells look, on every sheet alike.
func (b *book) key(s *sheet) {
	s.gap()
	entry := func(c cell, what string) {
		s.add(append([]cell{c}, joined(text(look{weight: quiet}, what), len(s.widths)-1)...)...)
	}
	entry(text(look{input: true, across: "center"}, "write here"), "Dashed frame: an input, the only cells to write in. Distances and days on Legs; readings, margins and limits on Car; prices on Shopping list; volumes and weights on Packing; what you measure on Measurements.")
	entry(text(look{weight: strong, across: "center"}, "live"), "Everything else follows from the inputs, except what is marked \"as planned\": that comes from the program's draws and is struck out once an input changes. The sheets are protected without a password.")
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
		s.add(asPlanned(text(look{box: true}, b.due(d))), text(look{weight: strong, box: true}, t.Name),
			asPlanned(text(look{weight: loudness[d.Action], box: true}, b.action(d))), asPlanned(text(look{box: true}, d.Where)),
			asPlanned(b.u.chance.in(look{box: true}, d.PAsIs)), asPlanned(b.u.chance.in(look{box: true}, d.POut)))
	}
	s.span(look{weight: quiet}, "Decided for the trip as planned. Chances in %. Reasons stand on the Decisions sheet, what to buy on the Shopping list.")
}

// groups are the parts of the car as an owner thinks of them.
var groups = []struct {
	name string
	kind profiles.Kind
}{
	{"Tires", profiles.Tire}, {"Pads", profiles.Pads}, {"Rotors", profiles.Rotors},
	{"Hub bearings", profiles.Bearing}, {"Engine oil", profiles.Oil}, {"Brake fluid", profiles.Fluid},
}

// groups gives each group its decision and, live, where it stands at the end.
func (b *book) groups(s *sheet) {
	s.section("State of the car at the end, nothing renewed")
	s.add(left("Group"), left("Live: status"), left("Live: tightest point"), left("Decided, as planned"), right("Live: life left"), center("Set, 5 – 95 %, as planned"))
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
		b.group(s, g.name, g.kind, b.p.Sets[worst].Decision, b.p.Sets[first])
	}
	b.fuelAndBoot(s)
	s.span(look{weight: quiet}, "Life left: share of a new part's life down to the limit, nominal, at the tightest point; for a hub its chance of lasting, for the fluid the least margin to boiling, both as planned.")
}

// group is a row of the state of the car.
func (b *book) group(s *sheet, name string, kind profiles.Kind, d planner.Decision, t planner.Set) {
	box := look{box: true}
	decided := asPlanned(text(look{weight: loudness[d.Action], box: true}, choose(d.Action == planner.Run, "good for the trip", b.action(d))))
	head := text(look{weight: strong, box: true}, name)
	level, around := b.left(t, len(b.p.Legs)-1)
	level.look.box = true
	tight := b.tightest(kind)
	if tight == nil || !tight.banded() {
		s.add(head, text(look{weight: quiet, box: true}, "as planned"), asPlanned(text(box, t.Name)), decided, asPlanned(level), asPlanned(text(look{weight: quiet, box: true, across: "center"}, around)))
		return
	}
	first, last, _ := b.rowsOf(kind)
	in := func(col int) string { return b.car.at(col, first, 0).upTo(b.car.at(col, last, 0), s) }
	words := fmt.Sprintf(`IF(COUNTIF(%[1]s,%[2]s)>0,%[2]s,IF(COUNTIF(%[1]s,%[3]s)>0,%[3]s,%[4]s))`, in(carStatus), quoted(pastLimit), quoted(belowMargin), quoted(good))
	status := good
	for _, w := range b.wear {
		if w.set.Kind == kind && w.last().beyond {
			status = pastLimit
		} else if w.set.Kind == kind && w.last().passed && status == good {
			status = belowMargin
		}
	}
	least := max(0, tight.last().share.v)
	where := fmt.Sprintf("INDEX(%s,MATCH(MIN(%[2]s),%[2]s,0))", in(carSpot), in(carLife))
	n := s.add(head, told(look{box: true, weight: strong}, words, status), told(box, where, b.firstAt(kind, least)), decided,
		live(box, asShare, fmt.Sprintf("MIN(%s)", in(carLife)), least), asPlanned(text(look{weight: quiet, box: true, across: "center"}, around)))
	if kind == profiles.Pads || kind == profiles.Rotors {
		s.heated(s.at(2, n, 0), s.at(len(s.widths)-1, n, 0))
	}
	at := s.at(2, n, 0).in(s)
	s.marks = append(s.marks, mark{at, at + "=" + quoted(pastLimit), out}, mark{at, at + "=" + quoted(belowMargin), low})
}

// firstAt is the first point of a kind whose life left, none at the least, is so little.
func (b *book) firstAt(kind profiles.Kind, least float64) string {
	for _, w := range b.wear {
		if w.set.Kind == kind && max(0, w.last().share.v) <= least {
			return w.spot()
		}
	}
	return ""
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
	u, fuel, tanks := b.u.fuel, b.totals.fuel, b.totals.tanks
	line := func(name, formula, status string) int {
		cells := append([]cell{text(look{weight: strong, box: true}, name)}, joined(told(look{box: true}, formula, status), 3)...)
		return s.add(pad(cells, len(s.widths))...)
	}
	decimals, _ := u.digits()
	line("Fuel", fmt.Sprintf(`"about "&FIXED(%s,%d,TRUE)&%s&FIXED(%s,1,TRUE)&" tanks"`, fuel.in(s), decimals, quoted(" "+u.name+", "), tanks.in(s)),
		fmt.Sprintf("about %s %s, %s tanks", fixed(fuel.v, decimals), u.name, fixed(tanks.v, 1)))
	fits := b.fits.volume.v >= -slack && b.fits.mass.v >= -slack
	const yes, no = "the packing fits", "THE PACKING DOES NOT FIT"
	n := line("Boot", fmt.Sprintf("IF(AND(%s>=-0.000000001,%s>=-0.000000001),%s,%s)", b.fits.volume.in(s), b.fits.mass.in(s), quoted(yes), quoted(no)), choose(fits, yes, no))
	at := s.at(2, n, 0).in(s)
	s.marks = append(s.marks, mark{at, at + "=" + quoted(no), out})
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
