package report

import (
	"cmp"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/page"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
)

// Options choose how a plan is printed.
type Options struct {
	View
	All  bool     // every assumption, not only their number
	Show []string // sections, by Sections; all of them where it is nil
}

// Sections are the parts of a plan at length, as --show takes them.
func Sections() []string {
	var out []string
	for _, s := range (text{}).sections(false) {
		out = append(out, s.name)
	}
	return out
}

// section is a part of a plan at length.
type section struct {
	name  string
	print func()
}

// sections are all of them, in their order.
func (t text) sections(all bool) []section {
	out := []section{
		{"why", t.answer}, {"corner", func() { t.corner(); t.scrub(); t.probes() }},
		{"legs", t.legs}, {"money", t.daysAndMoney}, {"rain", t.rain},
	}
	for _, shared := range []bool{false, true} {
		done := map[string]bool{}
		for _, k := range kind.All {
			for _, m := range k.Measures {
				if name := cmp.Or(k.Table, k.ID.Info().Plural); m.Note != "" && (k.Table != "") == shared && !done[name] {
					done[name] = true
					out = append(out, section{lastWord(name), func() { t.group(k, m) }})
				}
			}
		}
		if !shared {
			out = append(out, section{"cooling", t.cooling})
		}
	}
	return append(out, section{"checks", t.checks}, section{"assumptions", func() { t.assumptions(all) }},
		section{"cautions", func() { t.Section("Cautions", "  ! ", t.Cautions) }})
}

// lastWord is the word by which a table is asked for.
func lastWord(name string) string { return name[strings.LastIndex(name, " ")+1:] }

// Text writes the plan for a terminal.
func Text(w io.Writer, p *plan.Plan, o Options) error {
	out := text{newPrinter(w, o.View), p}
	out.title()
	out.standing()
	for _, s := range out.sections(o.All) {
		if o.Show == nil || slices.Contains(o.Show, s.name) {
			s.print()
		}
	}
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
	t.Line("%s: %s, %s", t.Car, t.Trip, when)
	t.Line("%s of road, %d circuit days (%.0f hot laps), %d days in all", t.Travel(road), days, laps, len(t.Days))
}

// answer says what to do, in the order in which it is done.
func (t text) answer() {
	t.Head("The answer: " + t.Headline())
	t.Tell("WHY", sentence(t.Why))
	t.restsOn(t.Sets)
	t.readings(t.Readings)
	for _, s := range t.Sets {
		for _, found := range s.Stop {
			t.Tell("STOP", s.Name+", "+found+". What was found comes before any forecast"+stopped(found, ": do not drive the car like this."))
		}
	}
	if !t.Safe && t.Tried > 0 && len(t.Safer) == 0 {
		t.Tell("SAFER", "no change was found that makes all of it safe: "+page.Count(t.Tried, "plan")+" with later days, other parts, stops, and fewer days, sessions or a lower pace were tried.")
	}
	for i, c := range t.Safer {
		t.Tell([]string{"SAFER", ""}[min(i, 1)], []string{"the smallest change that makes all of it safe: ", "Or: "}[min(i, 1)]+t.change(c)+".")
	}
	for _, c := range t.Own {
		t.Tell("OWN", t.change(c)+".")
	}
	t.actions()
	t.swaps()
	t.learned()
	t.trunk()
	t.leftOut()
	t.order()
	t.List("  Note: ", t.Warnings)
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
	t.Head("Which corner suffers")
	t.Fold("  "+t.Suffers+"  ", t.SuffersWhy+".")
	for _, c := range t.Corners {
		t.Line("  %s  tread lost %s at its %s zone, hub life used %.2f of L10", c.Place, quantity.Tread[t.Units].Text(c.Worst), c.Zone, c.Hub)
	}
	t.Note("Nominal figures, to compare the corners; what is left has its bands below.")
}

func (t text) legs() {
	t.Head("Legs")
	widths := page.Columns{4, -t.Fit(27), 8, 7, 8, 6, 11, 9}
	table := t.Table(widths, "", "", "distance", "by", "lap", "left", "rotors F/R", "fuel")
	heat := quantity.Heat[t.Units]
	var flashes []string
	for j, l := range t.Legs {
		distance, lap, left, rotors, fuel := "", "", "", "", ""
		if l.Meters > 0 {
			distance = t.Travel(l.Meters)
		}
		if l.Kind == profiles.CircuitLeg {
			lap, left = quantity.Lap(l.LapTime), page.Percent(l.LeftShare)
			rotors = frontAndRear(heat, l.RotorBulk)
			if l.Day == 1 {
				flashes = append(flashes, l.Circuit+" "+frontAndRear(heat, l.RotorFace))
			}
		}
		if l.FuelUsed > 0 {
			fuel = quantity.Fuel[t.Units].Text(l.FuelUsed)
		}
		table.Row(fmt.Sprint(j+1), "  "+l.Name, distance, by(l), lap, left, rotors, fuel)
	}
	note := "Laps and fuel are nominal, at the pace given."
	if len(flashes) > 0 {
		note = fmt.Sprintf("Rotors: their bulk over the hottest session, %s, as paint or a gun shows it; their faces flash at a braking, at %s. Left: share of cornering load taken in left turns. Laps, rotors and fuel are nominal, at the pace given.",
			heat.Name, strings.Join(flashes, ", "))
	}
	t.Note("%s", note)
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
	t.Head("What the figures rest on")
	t.Note("%d draws, seed %d. Bands are 5-95 %%: the parts' rates, your pace and your gauge are uncertain, and so is every figure here. Starting points:", t.Draws, t.Seed)
	for _, s := range t.Sets {
		if s.Measured == "" {
			continue
		}
		known := append([]string{s.Name + ": " + s.Measured + t.age(s)}, s.Seen...)
		if learned(s.Learned) {
			known = append(known, "by the logbook they "+rates(s.Kind, s.Learned))
		}
		t.Fold("  - ", strings.Join(known, "; "))
	}
	if !all {
		t.Note("%d values come from the stock profiles: --assumptions lists each with its source and how to replace it by a measurement; the workbook has them too.", len(t.Assumptions))
		return
	}
	t.leanings()
	for _, a := range t.Assumptions {
		t.Fold("  - ", fmt.Sprintf("%s: %s [%s] %s; %s", a.What, a.Value, a.Tag, a.Source, a.Replace))
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
	return day + ", " + t.Travel(s.Driven) + " ago"
}
