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
	out := text{newPrinter(w, o.Units), p}
	out.title()
	out.standing()
	out.answer()
	out.corner()
	out.scrub()
	out.probes()
	out.legs()
	out.daysAndMoney()
	out.rain()
	out.groups(false)
	out.cooling()
	out.groups(true)
	out.checks()
	out.assumptions(o.All)
	out.section("Cautions", "  ! ", p.Cautions)
	return out.Flush()
}

type text struct {
	printer
	*plan.Plan
}

func (t text) title() {
	when := "no date given"
	if !t.Depart.IsZero() {
		when = map[bool]string{true: "leaves ", false: "goes on "}[t.Standing == nil] + t.Depart.Format("Mon 2 Jan 2006")
	}
	road, days, laps := t.Driven()
	t.line("%s: %s, %s", t.Car, t.Trip, when)
	t.line("%s of road, %d circuit days (%.0f hot laps), %d days in all", t.distance(road), days, laps, len(t.Days))
}

// answer says what to do, in the order in which it is done.
func (t text) answer() {
	t.head("The answer: " + t.Headline())
	t.say("WHY", sentence(t.Why))
	t.restsOn(t.Sets)
	t.readings(t.Readings)
	for _, s := range t.Sets {
		for _, found := range s.Stop {
			t.say("STOP", s.Name+", "+found+". What was found comes before any forecast: do not drive the car like this.")
		}
	}
	if !t.Safe && t.Tried > 0 && len(t.Safer) == 0 {
		t.say("SAFER", "no change was found that makes all of it safe: "+count(t.Tried, "plan")+" with later days, other parts, stops, and fewer days, sessions or a lower pace were tried.")
	}
	for i, c := range t.Safer {
		t.say([]string{"SAFER", ""}[min(i, 1)], []string{"the smallest change that makes all of it safe: ", "Or: "}[min(i, 1)]+t.change(c)+".")
	}
	t.actions()
	t.learned()
	t.trunk()
	t.leftOut()
	t.order()
	t.list("  Note: ", t.Warnings)
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
	t.note("Nominal figures, to compare the corners; what is left has its bands below.")
}

func (t text) legs() {
	t.head("Legs")
	widths := columns{4, -t.fit(27), 8, 7, 8, 6, 11, 9}
	t.row(widths, "", "", "distance", "by", "lap", "left", "rotors F/R", "fuel")
	heat := quantity.Heat[t.units]
	var flashes []string
	for j, l := range t.Legs {
		distance, lap, left, rotors, fuel := "", "", "", "", ""
		if l.Meters > 0 {
			distance = t.distance(l.Meters)
		}
		if l.Kind == profiles.CircuitLeg {
			lap, left = quantity.Lap(l.LapTime), percent(l.LeftShare)
			rotors = frontAndRear(heat, l.RotorBulk)
			if l.Day == 1 {
				flashes = append(flashes, l.Circuit+" "+frontAndRear(heat, l.RotorFace))
			}
		}
		if l.FuelUsed > 0 {
			fuel = quantity.Fuel[t.units].Text(l.FuelUsed)
		}
		t.row(widths, fmt.Sprint(j+1), "  "+l.Name, distance, by(l), lap, left, rotors, fuel)
	}
	note := "Laps and fuel are nominal, at the pace given."
	if len(flashes) > 0 {
		note = fmt.Sprintf("Rotors: their bulk over the hottest session, %s, as paint or a gun shows it; their faces flash at a braking, at %s. Left: share of cornering load taken in left turns. Laps, rotors and fuel are nominal, at the pace given.",
			heat.Name, strings.Join(flashes, ", "))
	}
	t.note("%s", note)
}

// frontAndRear is a pair of temperatures.
func frontAndRear(heat quantity.Display, t [2]float64) string {
	return heat.Nearest(t[0], 10) + "/" + heat.Nearest(t[1], 10)
}

// by is the day on which a leg ends.
func by(l plan.Leg) string {
	if l.End.IsZero() {
		return fmt.Sprintf("day %d", int(l.EndDay)+1)
	}
	return l.End.Format("2 Jan")
}

func (t text) assumptions(all bool) {
	t.head("What the figures rest on")
	t.note("%d draws, seed %d. Bands are 5-95 %%: the parts' rates, your pace and your gauge are uncertain, and so is every figure here. Starting points:", t.Draws, t.Seed)
	for _, s := range t.Sets {
		if s.Measured == "" {
			continue
		}
		known := append([]string{s.Name + ": " + s.Measured + t.age(s)}, s.Seen...)
		if learned(s.Learned) {
			known = append(known, "by the logbook they "+rates(s.Kind, s.Learned))
		}
		t.fold("  - ", strings.Join(known, "; "))
	}
	if !all {
		t.note("%d values come from the stock profiles: --assumptions lists each with its source and how to replace it by a measurement; the workbook has them too.", len(t.Assumptions))
		return
	}
	t.leanings()
	for _, a := range t.Assumptions {
		t.fold("  - ", fmt.Sprintf("%s: %s [%s] %s; %s", a.What, a.Value, a.Tag, a.Source, a.Replace))
	}
}

// age is how old the oldest reading of a set is, where it is not of today.
func (t text) age(s plan.Set) string {
	if s.Driven < 1 && s.MeasuredOn.IsZero() {
		return ""
	}
	day := ""
	if !s.MeasuredOn.IsZero() {
		day = s.MeasuredOn.Format(" 2 Jan 2006")
	}
	return day + ", " + t.distance(s.Driven) + " ago"
}
