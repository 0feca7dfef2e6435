package report

import (
	"fmt"
	"io"
	"math"
	"strings"

	"example.com/tripwear/planner/labreport"
	"example.com/tripwear/planner/page"
	"example.com/tripwear/profiles/quantity"
	"example.com/tripwear/wearmodel/oil"
)

// Oil writes the reading of a report on used oil for a terminal.
func Oil(w io.Writer, r labreport.Reading, v View) error {
	out := oilText{newPrinter(w, v), r}
	out.Line("Used oil, sampled %s: %s, %s on the fill", r.Sampled, r.Grade, out.Travel(r.Distance))
	out.Line("%s of equivalent distance", out.Travel(r.Equivalent))
	out.verdict()
	out.figures()
	out.reasons()
	out.trends()
	out.Section("What was assumed", "  - ", r.Assumed)
	out.Section("What it cannot say", "  - ", r.CannotSay)
	return out.Flush()
}

type oilText struct {
	printer
	labreport.Reading
}

// verdict says what the report means for the fill and for the interval.
func (t oilText) verdict() {
	word := map[oil.Verdict]string{oil.Unjudged: "nothing to judge", oil.Fine: "a good fill", oil.Flagged: "flagged", oil.Stop: "stop"}[t.Verdict]
	t.Head("The answer: " + word)
	switch {
	case t.Engine():
		t.Tell("STOP", "coolant in the oil: do not drive the engine before that is put right.")
	case t.Verdict == oil.Stop && t.Current:
		t.Tell("STOP", "do not run on this fill: change it before the car leaves.")
	case t.Verdict == oil.Stop:
		t.Tell("STOP", "that fill should not have been run on; it is no longer in the engine.")
	}
	was, next := t.Travel(t.Interval), t.Travel(t.Next)
	switch {
	case t.Next > t.Interval:
		t.Tell("LONGER", fmt.Sprintf("it supports an interval of %s instead of %s.", next, was))
	case t.Next < t.Interval:
		t.Tell("SHORTER", fmt.Sprintf("it supports an interval of %s, no longer %s: change there.", next, was))
	case t.Next == t.Interval:
		t.Tell("KEEP", fmt.Sprintf("it leaves the interval at %s.", was))
	}
	if t.NextCeiling < t.Ceiling {
		t.Tell("", fmt.Sprintf("Never beyond %s, where it was %s.", t.Travel(t.NextCeiling), t.Travel(t.Ceiling)))
	}
	if !math.IsInf(t.FirstLimit, 0) {
		t.Tell("", fmt.Sprintf("By straight lines from the new oil, %s is the first to its limit, at %s.", t.First, t.Travel(t.FirstLimit)))
	}
	for _, d := range t.Doubts {
		t.Tell("", "Not longer, because "+d+".")
	}
	use := "The plans of this car use it once --keep has put it into its folder."
	if strings.HasPrefix(t.File, "oil/") {
		use = "The plans of this car use the newest report of its folder."
	}
	t.Tell("", "All in equivalent distance. "+use)
}

// figures is the table: a line a figure.
func (t oilText) figures() {
	t.Head("Figures")
	per := "per 1000 " + quantity.Distance[t.Units].Name
	widths := page.Columns{-t.Fit(28), 6, 7, 12, 13, 0}
	table := t.Table(widths, "", "new", "used", "limits", per, "  verdict")
	for _, r := range t.Readings {
		fresh := "-"
		if r.HasNew {
			fresh = amount(r.Figure, r.New)
		}
		used := amount(r.Figure, r.Used)
		if r.Below {
			used = "<" + used
		}
		table.Row("  "+string(r.Figure)+", "+r.Figure.Unit(), fresh, used, bounds(r), t.rate(r), "  "+r.Verdict.String())
	}
	notes := []string{"at 100 C it is in no grade of SAE J300"}
	if len(t.Grades) > 0 {
		notes = []string{"at 100 C it is in grade " + strings.Join(t.Grades, " and ")}
	}
	if !math.IsNaN(t.Index) {
		notes = append(notes, fmt.Sprintf("viscosity index %.0f (ASTM D2270)", t.Index))
	}
	if !math.IsNaN(t.HotViscosity) {
		heat := quantity.Heat[t.Units]
		note := fmt.Sprintf("about %.2g mm2/s at %s %s on circuit", t.HotViscosity, heat.Nearest(t.CircuitTemp, 1), heat.Name)
		if !math.IsNaN(t.NewHotViscosity) {
			note += fmt.Sprintf(", new %.2g", t.NewHotViscosity)
		}
		notes = append(notes, note+" (the line of ASTM D341)")
	}
	t.Fold("  ", strings.Join(notes, "; ")+".")
}

// reasons gives each figure's limit its source.
func (t oilText) reasons() {
	t.Head("What each is judged by")
	for _, r := range t.Readings {
		name, why := string(r.Figure), r.Why
		if method := map[oil.Figure]string{oil.BaseNumber: t.BaseMethod, oil.AcidNumber: t.AcidMethod}[r.Figure]; method != "" {
			name += " by ASTM " + method
		}
		if r.LimitAt > 0 && !math.IsInf(r.LimitAt, 0) {
			why += "; its line gets there at " + t.Travel(r.LimitAt)
		}
		t.Fold("  - ", name+": "+why)
	}
}

// trends compares with the engine's earlier reports.
func (t oilText) trends() {
	t.Head("Against earlier reports of the engine")
	if t.Earlier == 0 {
		t.Note("There is none: the next one will have this to compare with.")
		return
	}
	for _, tr := range t.Trends {
		word := ""
		if tr.Rising {
			word = ": RISING"
		}
		t.Line("  %s%6.1f before, %6.1f now%s", page.Pad(string(tr.Figure), 12), tr.Before*t.thousand(), tr.Now*t.thousand(), word)
	}
	t.Note("ppm per 1000 equivalent %s, from %d earlier.", quantity.Distance[t.Units].Name, t.Earlier)
}

// amount prints a figure at the precision laboratories give.
func amount(f oil.Figure, v float64) string {
	switch f {
	case oil.Fuel:
		return fmt.Sprintf("%.1f", 100*v)
	case oil.Water:
		return fmt.Sprintf("%.2f", 100*v)
	case oil.Glycol:
		if v > 0 {
			return "found"
		}
		return "none"
	case oil.KV40, oil.KV100, oil.BaseNumber, oil.AcidNumber:
		return fmt.Sprintf("%.1f", v)
	}
	return fmt.Sprintf("%.0f", v)
}

// bounds prints a figure's limits.
func bounds(r oil.Reading) string {
	low, high := !math.IsNaN(r.Least), !math.IsNaN(r.Most) && !math.IsInf(r.Most, 0)
	switch {
	case r.Figure == oil.Glycol:
		return "none"
	case low && high:
		return amount(r.Figure, r.Least) + "-" + amount(r.Figure, r.Most)
	case low:
		return "least " + amount(r.Figure, r.Least)
	case high:
		return "most " + amount(r.Figure, r.Most)
	}
	return "-"
}

// rate is a figure's change per 1,000 mi or km.
func (t oilText) rate(r oil.Reading) string {
	if math.IsNaN(r.Rate) || r.Figure == oil.Glycol {
		return "-"
	}
	scale := 1.0
	if r.Figure == oil.Fuel || r.Figure == oil.Water {
		scale = 100
	}
	return fmt.Sprintf("%+.2f", scale*r.Rate*t.thousand())
}

// thousand is 1,000 mi or km in m.
func (t oilText) thousand() float64 { return quantity.Distance[t.Units].SI(1000) }
