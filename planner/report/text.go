package report

import (
	"fmt"
	"io"
	"math"
	"strings"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
)

// Options choose how a plan is printed.
type Options struct {
	Units quantity.System
	All   bool // every assumption, not only their number
}

// Text writes the plan for a terminal.
func Text(w io.Writer, p *plan.Plan, o Options) error {
	out := text{newPrinter(w), p, o.Units}
	out.title()
	out.answer()
	out.corner()
	out.scrub()
	out.probes()
	out.legs()
	out.daysAndMoney()
	out.rain()
	out.groups()
	out.cooling()
	out.checks()
	out.assumptions(o.All)
	out.cautions()
	return out.Flush()
}

type text struct {
	printer
	*plan.Plan
	units quantity.System
}

func (t text) title() {
	when := "no date given"
	if !t.Depart.IsZero() {
		when = "leaves " + t.Depart.Format("Mon 2 Jan 2006")
	}
	var road, laps, days float64
	for _, l := range t.Legs {
		switch l.Kind {
		case profiles.RoadLeg:
			road += l.Meters
		case profiles.CircuitLeg:
			laps += float64(l.Laps)
			days++
		}
	}
	t.line("%s: %s, %s", t.Car, t.Trip, when)
	t.line("%s of road, %.0f circuit days (%.0f hot laps), %d days in all", quantity.Distance[t.units].Text(road), days, laps, len(t.Days))
}

// answer says what to do, in the order in which it is done.
func (t text) answer() {
	verdict := "SAFE AS PLANNED, with what follows"
	if !t.Safe {
		verdict = "NOT SAFE AS PLANNED"
	}
	t.head("The answer: " + verdict)
	t.stops()
	t.actions()
	t.heard()
	t.boot()
	t.leftOut()
	t.order()
	for _, w := range t.Warnings {
		t.fold("  Note: ", w)
	}
}

// stops says first what was found that forbids to drive.
func (t text) stops() {
	for _, s := range t.Sets {
		for _, found := range s.Stop {
			t.fold("  STOP   ", s.Name+", "+found+". What was found comes before any forecast: the car does not leave like this.")
		}
	}
}

// leftOut says what the boot has no room for.
func (t text) leftOut() {
	for _, l := range t.Choice.LeftOut {
		for _, s := range t.Sets {
			if s.ID == l.Set {
				t.fold("  LEFT   ", fmt.Sprintf("%s: to %s would save about %s, but it takes %s and %s, and the boot has no room.",
					s.Name, act(l.Action, "", false), t.money(l.Saving), quantity.Boot[t.units].Text(l.Volume), quantity.Weight[t.units].Text(l.Mass)))
			}
		}
	}
}

// otherwise says what the next best action would be, and what would change
// the answer.
func (t text) otherwise(d plan.Decision) string {
	var parts []string
	if n := d.Next; n != nil {
		parts = append(parts, fmt.Sprintf("%s (expected to cost %s more, chance of being stopped short %s)",
			act(n.Action, t.stopName(n.Leg), n.Spare), t.money(n.Extra), quantity.Chance(n.POut)))
	}
	if f := d.Flip; f != nil {
		side, leg := "above", t.Legs[f.Leg]
		if f.Less {
			side = "below"
		}
		usage := fmt.Sprintf("about %d laps at %s", f.Laps, leg.Circuit)
		if leg.Kind == profiles.RoadLeg {
			usage = "about " + quantity.Distance[t.units].Text(f.Meters) + " on " + leg.Name
		}
		parts = append(parts, fmt.Sprintf("%s %s, %s", side, usage, act(f.Action, "", false)))
	}
	return strings.Join(parts, "; ")
}

// money is an amount to two significant figures: expected costs are no surer.
func (t text) money(x float64) string {
	step := math.Pow(10, math.Max(0, math.Floor(math.Log10(math.Max(1, math.Abs(x))))-1))
	return strings.TrimSpace(fmt.Sprintf("%.0f %s", math.Round(x/step)*step, t.Currency))
}

// corner says which corner of the car suffers and why.
func (t text) corner() {
	if t.Suffers == "" {
		return
	}
	t.head("Which corner suffers")
	t.fold("  "+t.Suffers+"  ", t.SuffersWhy+".")
	for _, c := range t.Corners {
		t.line("  %s  tread lost %s at its %s zone, hub life used %.2f of L10", c.Place, quantity.Tread[t.units].Text(c.Worst), c.Zone, c.Hub)
	}
	t.fold("  ", "Nominal figures, to compare the corners; what is left has its bands below.")
}

func (t text) legs() {
	t.head("Legs")
	t.line("      %s%s", pad("", 25), "distance   by     lap   left  rotors F/R  fuel")
	for j, l := range t.Legs {
		lap, left, rotors, fuel := "", "", "", ""
		if l.Kind == profiles.CircuitLeg {
			lap = quantity.Lap(l.LapTime)
			left = fmt.Sprintf("%.0f %%", 100*l.LeftShare)
			rotors = fmt.Sprintf("%s/%s", t.degrees(l.RotorPeak[0]), t.degrees(l.RotorPeak[1]))
		}
		if l.FuelUsed > 0 {
			fuel = quantity.Fuel[t.units].Text(l.FuelUsed)
		}
		distance := ""
		if l.Meters > 0 {
			distance = quantity.Distance[t.units].Text(l.Meters)
		}
		t.line("  %2d  %s%s%s %s %s %s %s", j+1, pad(cut(l.Name, 25), 25), padLeft(distance, 8), padLeft(by(l), 7),
			padLeft(lap, 7), padLeft(left, 5), padLeft(rotors, 9), padLeft(fuel, 8))
	}
	t.fold("  ", "Rotors: hottest after a braking, "+quantity.Heat[t.units].Name+". Left: share of cornering load taken in left turns. Laps, rotors and fuel are nominal, at the pace given.")
}

// by is the day on which a leg ends.
func by(l plan.Leg) string {
	if l.End.IsZero() {
		return fmt.Sprintf("day %d", int(l.EndDay)+1)
	}
	return l.End.Format("2 Jan")
}

// degrees is a rotor temperature to the nearest ten.
func (t text) degrees(c float64) string {
	return quantity.Heat[t.units].Nearest(c, 10)
}

func (t text) assumptions(all bool) {
	t.head("What the figures lean on")
	t.fold("  ", fmt.Sprintf("%d draws, seed %d. Bands are 5-95 %%: the parts' rates, your pace and your gauge are uncertain, and so is every figure here. Starting points:", t.Draws, t.Seed))
	for _, s := range t.Sets {
		if s.Measured != "" {
			said := append([]string{s.Name + ": " + s.Measured + t.age(s)}, s.Seen...)
			if l := s.Learned; l.Road.Taught || l.Circuit.Taught {
				said = append(said, "by the logbook they "+taught(s.Kind, l))
			}
			t.fold("  - ", strings.Join(said, "; "))
		}
	}
	if !all {
		t.fold("  ", fmt.Sprintf("%d values come from the stock profiles: --assumptions lists each with its source and how to replace it by a measurement; the workbook has them too.", len(t.Assumptions)))
		return
	}
	for _, a := range t.Assumptions {
		t.fold("  - ", fmt.Sprintf("%s: %s [%s] %s; %s", a.What, a.Value, a.Tag, a.Source, a.Replace))
	}
}

func (t text) cautions() {
	t.head("Cautions")
	for _, c := range t.Cautions {
		t.fold("  ! ", c)
	}
}
