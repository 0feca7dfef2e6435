package report

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles/quantity"
)

const (
	leastChange = 0.005 // share of life, or chance, below which a difference is not shown
	mostChanges = 16    // points shown
	shortLabel  = 26
)

// Compare writes plans side by side.
func Compare(w io.Writer, c *plan.Comparison, units quantity.System) error {
	out := comparison{newPrinter(w), c, units}
	out.fold("", fmt.Sprintf("%s, %d ways", c.Car, len(c.Ways)))
	for k, way := range c.Ways {
		out.fold("  "+letter(k)+"  ", way.Label)
	}
	out.stops()
	out.inShort()
	out.decisions()
	out.wear()
	out.tread()
	out.line("")
	out.fold("", "Differences are as good as the model; levels lean on its spreads. This is a planning estimate: inspect before every session, whatever it says.")
	return out.Flush()
}

// CompareJSON writes the same as one object, as JSON does a plan.
func CompareJSON(w io.Writer, c *plan.Comparison) error { return encode(w, c) }

// stops says first what was found that forbids to drive, whichever way.
func (c comparison) stops() {
	for k, way := range c.Ways {
		for _, found := range way.Found {
			c.fold("  STOP   ", letter(k)+": "+found+". The car does not leave like this.")
		}
	}
}

type comparison struct {
	printer
	*plan.Comparison
	units quantity.System
}

func letter(k int) string { return string(rune('A' + k)) }

// cells writes a label and a cell a way, and for two ways the change.
func (c comparison) cells(label string, width int, text func(k int) string, change string) {
	line := pad(cut(label, shortLabel), shortLabel)
	for k := range c.Ways {
		line += padLeft(text(k), width)
	}
	c.line("%s", line+padLeft(change, 9))
}

// inShort is the trips' figures and money.
func (c comparison) inShort() {
	const width = 11
	c.head("In short")
	header := "change"
	if len(c.Ways) > 2 {
		header = ""
	}
	c.cells("", width, letter, header)
	row := func(label string, of func(plan.Outcome) float64, text func(float64) string) {
		c.cells("  "+label, width, func(k int) string { return text(of(c.Ways[k])) }, c.difference(of, text))
	}
	c.cells("  safe as planned", width, func(k int) string {
		if c.Ways[k].Safe {
			return "yes"
		}
		return "NO"
	}, "")
	whole := func(x float64) string { return fmt.Sprintf("%.0f", math.Round(x)+0) } // +0 rids a zero of its sign
	row("road", func(o plan.Outcome) float64 { return o.Road }, func(x float64) string { return quantity.Distance[c.units].Text(x) })
	row("circuit days", func(o plan.Outcome) float64 { return float64(o.Days) }, whole)
	row("hot laps", func(o plan.Outcome) float64 { return float64(o.Laps) }, whole)
	row("nights away", func(o plan.Outcome) float64 { return float64(o.Nights) }, whole)
	for i, kind := range plan.ExpenseKinds {
		of := func(o plan.Outcome) float64 { return o.Spend[i] }
		if slices.ContainsFunc(c.Ways, func(o plan.Outcome) bool { return of(o) >= 0.5 }) {
			row(kind, of, whole)
		}
	}
	row(strings.TrimSpace("out of the purse, "+c.Currency), func(o plan.Outcome) float64 { return o.Purse }, whole)
	row("beside that, expected", func(o plan.Outcome) float64 { return o.Apart }, whole)
	row("life worn off the parts", func(o plan.Outcome) float64 { return o.Life }, whole)
	c.fold("  ", "Beside that: own work, and being stopped short, chance times cost. Life worn off: the share of each part's life that the trip takes, as the car stands, at its price.")
}

// difference is how much more the second of two ways is.
func (c comparison) difference(of func(plan.Outcome) float64, text func(float64) string) string {
	if len(c.Ways) != 2 {
		return ""
	}
	d := text(of(c.Ways[1]) - of(c.Ways[0]))
	switch {
	case d == text(0):
		return "-"
	case !strings.HasPrefix(d, "-"):
		return "+" + d
	}
	return d
}

// decisions lists the sets about which the ways differ.
func (c comparison) decisions() {
	c.head("Decisions that differ")
	var same []string
	for _, s := range c.Decisions {
		if !s.Differs {
			same = append(same, s.Name)
			continue
		}
		c.line("  %s", s.Name)
		for k := range c.Ways {
			part := ""
			if slices.Max(s.Parts) != slices.Min(s.Parts) {
				part = s.Parts[k] + ": "
			}
			c.fold("    "+letter(k)+"  ", fmt.Sprintf("%s%s; left alone %s chance of its limit, as decided %s of being stopped short; expected to cost %.0f", part, act(s.Actions[k], s.Stops[k], s.Spares[k]), quantity.Chance(s.PAsIs[k]), quantity.Chance(s.POut[k]), s.Cost[k]))
		}
	}
	if len(same) == len(c.Decisions) {
		c.line("  none: the same is done about every set")
		return
	}
	if len(same) > 0 {
		c.fold("  The same in all: ", strings.Join(same, ", ")+".")
	}
}

// wear lists what the trip takes from the points, biggest changes first.
func (c comparison) wear() {
	c.head("What the trip takes, biggest changes first")
	shown, rest := c.Wear, 0
	if k := slices.IndexFunc(c.Wear, func(p plan.PointAcross) bool { return p.Change < leastChange }); k >= 0 {
		shown = c.Wear[:k]
	}
	if len(shown) == 0 {
		c.line("  nothing that would show: neither wear nor chances change by half a percent")
		return
	}
	if len(shown) > mostChanges {
		rest = len(shown) - mostChanges
		shown = shown[:mostChanges]
	}
	const taken = 6
	limit, chance := "limit ", 9
	if len(c.Ways) > 3 {
		limit, chance = "lim ", 7
	}
	head := pad("  taken by the whole trip", shortLabel)
	for k := range c.Ways {
		head += padLeft(letter(k), taken)
	}
	if len(c.Ways) == 2 {
		head += padLeft("change", 8)
	}
	for k := range c.Ways {
		head += padLeft(limit+letter(k), chance)
	}
	c.line("%s", head)
	for _, p := range shown {
		as := how(p.Measure)
		line := pad(cut("  "+as.named(p.Place, p.Zone, c.units), shortLabel), shortLabel)
		for k := range c.Ways {
			line += padLeft(as.taken[c.units].Number(p.Taken[k]), taken)
		}
		if len(c.Ways) == 2 {
			line += padLeft(relative(p.Taken[0], p.Taken[1]), 8)
		}
		for k := range c.Ways {
			line += padLeft(short(p.PLimit[k]), chance)
		}
		c.line("%s", line)
	}
	note := "Limit: chance that it is reached by the end if nothing is renewed."
	if rest > 0 {
		note += fmt.Sprintf(" Changing less, not shown: %d.", rest)
	}
	c.fold("  ", note)
}

// relative is a change as a share of what was.
func relative(was, is float64) string {
	if was <= 0 {
		return "new"
	}
	return fmt.Sprintf("%+.0f %%", 100*(is/was-1))
}

// tread shows the trade of tread life against evenness at the wheels where it
// changes.
func (c comparison) tread() {
	var changed []plan.WheelAcross
	for _, w := range c.Tread {
		for _, figures := range [][]float64{w.Most, w.Least} {
			if least, most := slices.Min(figures), slices.Max(figures); most > least*(1+leastChange) {
				changed = append(changed, w)
				break
			}
		}
	}
	if len(changed) == 0 {
		return
	}
	c.head("Tread: life against evenness")
	number := quantity.Tread[c.units].Number
	c.line("  taken, %s%s%s%s%s%s", pad(quantity.Tread[c.units].Name, 7), padLeft("worst zone", 15), padLeft("best zone", 15), padLeft("mean", 8), padLeft("even", 8), padLeft("such trips", 14))
	for _, w := range changed {
		for k := range c.Ways {
			label := ""
			if k == 0 {
				label = w.Place
			}
			trips := "-"
			if w.Lasts[k] > 0 {
				trips = fmt.Sprintf("%.1f", math.Min(w.Lasts[k], 99))
			}
			c.line("  %s%s%s%s%s%s%s", pad(label, 4), pad(letter(k), 11), padLeft(w.Worst[k]+" "+number(w.Most[k]), 15), padLeft(w.Best[k]+" "+number(w.Least[k]), 15),
				padLeft(number(w.Mean[k]), 8), padLeft(fmt.Sprintf("%.0f %%", 100*w.Even[k]), 8), padLeft(trips, 14))
		}
		if len(c.Ways) == 2 {
			c.fold("       ", trade(w)+".")
		}
	}
	c.fold("  ", "Even: best zone over worst, 100 % is even wear. Such trips: how many a new tire lasts, by its worst zone.")
}

// trade puts in words what the second way does to a wheel's tread.
func trade(w plan.WheelAcross) string {
	life := "as long"
	if d := w.Lasts[1]/w.Lasts[0] - 1; w.Lasts[0] > 0 && math.Abs(d) >= 0.005 {
		life = fmt.Sprintf("%.0f %% longer", 100*d)
		if d < 0 {
			life = fmt.Sprintf("%.0f %% less", -100*d)
		}
	}
	even := "as evenly"
	switch d := w.Even[1] - w.Even[0]; {
	case d >= 0.005:
		even = fmt.Sprintf("more evenly (%.0f %% for %.0f %%)", 100*w.Even[1], 100*w.Even[0])
	case d <= -0.005:
		even = fmt.Sprintf("less evenly (%.0f %% for %.0f %%)", 100*w.Even[1], 100*w.Even[0])
	}
	rubber := "as much rubber in all"
	if d := w.Mean[1]/w.Mean[0] - 1; w.Mean[0] > 0 && math.Abs(d) >= 0.005 {
		rubber = fmt.Sprintf("%.0f %% more rubber in all", 100*d)
		if d < 0 {
			rubber = fmt.Sprintf("%.0f %% less rubber in all", -100*d)
		}
	}
	return fmt.Sprintf("B lasts %s, wears %s and takes %s", life, even, rubber)
}
