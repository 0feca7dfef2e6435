package report

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/page"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles/quantity"
)

const (
	leastChange = 0.005 // share of life, or chance, below which a difference is not shown
	mostChanges = 16    // points shown
	shortLabel  = 26
)

// Compare writes plans side by side.
func Compare(w io.Writer, c *plan.Comparison, v View) error {
	out := comparison{newPrinter(w, v), c}
	out.Fold("", fmt.Sprintf("%s, %d ways", c.Car, len(c.Ways)))
	for k, way := range c.Ways {
		out.Fold("  "+letter(k)+"  ", way.Label)
		out.Fold("     ", way.Answer())
	}
	for k, way := range c.Ways {
		for _, found := range way.Found {
			out.Tell("STOP", letter(k)+": "+found+stopped(found, ". Do not drive the car like this."))
		}
	}
	if slices.ContainsFunc(c.Ways, func(o plan.Outcome) bool { return o.Trip != c.Ways[0].Trip }) {
		how := "Each trip starts from today's car; --in-turn plans them one after another."
		if c.InTurn {
			how = "Each trip starts from what the one before it leaves, as decided for all of them together."
		}
		out.Note("%s", how)
	}
	out.inShort()
	out.decisions()
	out.wear()
	out.tread()
	out.Line("")
	out.Fold("", "Differences are as good as the model; levels on its spreads too. "+page.Estimate)
	return out.Flush()
}

type comparison struct {
	printer
	*plan.Comparison
}

// two is whether a change from one way to the other can be shown.
func (c comparison) two() bool { return len(c.Ways) == 2 }

func letter(k int) string { return string(rune('A' + k)) }

// each is a cell a way.
func (c comparison) each(cell func(k int) string) []string {
	var out []string
	for k := range c.Ways {
		out = append(out, cell(k))
	}
	return out
}

// inShort is the trips' figures and money, and for two ways their change.
func (c comparison) inShort() {
	c.Head("In short")
	widths := slices.Concat(page.Columns{-c.Fit(shortLabel)}, slices.Repeat(page.Columns{11}, len(c.Ways)), page.Columns{9})
	cells := func(label, change string, cell func(k int) string) []string {
		return slices.Concat([]string{label}, c.each(cell), []string{change})
	}
	change := ""
	if len(c.Ways) <= 2 {
		change = "change"
	}
	table := c.Table(widths, cells("", change, letter)...)
	line := func(label, change string, cell func(k int) string) { table.Row(cells(label, change, cell)...) }
	measure := func(label string, text func(float64) string, of func(plan.Outcome) float64) {
		line("  "+label, c.difference(of, text), func(k int) string { return text(of(c.Ways[k])) })
	}
	whole := func(x float64) string { return fmt.Sprintf("%.0f", math.Round(x)+0) } // +0 rids a zero of its sign
	measure("road", c.Travel, func(o plan.Outcome) float64 { return o.Road })
	measure("circuit days", whole, func(o plan.Outcome) float64 { return float64(o.Days) })
	measure("hot laps", whole, func(o plan.Outcome) float64 { return o.Laps })
	measure("nights away", whole, func(o plan.Outcome) float64 { return float64(o.Nights) })
	for i, kind := range plan.ExpenseKinds {
		of := func(o plan.Outcome) float64 { return o.Spend[i] }
		if slices.ContainsFunc(c.Ways, func(o plan.Outcome) bool { return of(o) >= 0.5 }) {
			measure(kind, whole, of)
		}
	}
	measure(strings.TrimSpace("out of pocket, "+c.Currency), whole, func(o plan.Outcome) float64 { return o.Purse })
	if unpriced := func(o plan.Outcome) float64 { return float64(o.Unpriced) }; slices.ContainsFunc(c.Ways, func(o plan.Outcome) bool { return o.Unpriced > 0 }) {
		measure("prices unknown, not in it", whole, unpriced)
	}
	measure("beside that, expected", whole, func(o plan.Outcome) float64 { return o.Apart })
	measure("life worn off the parts", whole, func(o plan.Outcome) float64 { return o.Life })
	c.Note("Beside that: your own labor, and being stopped short, chance times cost. Life worn off: the share of each part's life that the trip takes, as the car stands, at its price.")
}

// difference is how much more the second of two ways is.
func (c comparison) difference(of func(plan.Outcome) float64, text func(float64) string) string {
	if !c.two() {
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
	c.Head("Decisions that differ")
	var same []string
	for _, s := range c.Decisions {
		if !s.Differs {
			same = append(same, s.Name)
			continue
		}
		c.Line("  %s", s.Name)
		for k := range c.Ways {
			if s.Absent[k] {
				c.Fold("    "+letter(k)+"  ", "stays at home")
				continue
			}
			part := ""
			if slices.Max(s.Parts) != slices.Min(s.Parts) {
				part = s.Parts[k] + ": "
			}
			c.Fold("    "+letter(k)+"  ", fmt.Sprintf("%s%s; as it stands %s chance to reach its limit, as decided %s of being stopped short; expected to cost %.0f", part, act(s.Actions[k], s.Stops[k], s.Spares[k]), quantity.Chance(s.PAsIs[k]), quantity.Chance(s.POut[k]), s.Cost[k]))
		}
	}
	switch {
	case len(same) == len(c.Decisions):
		c.Line("  none: the same is done about every set")
	case len(same) > 0:
		c.Fold("  The same in all: ", strings.Join(same, ", ")+".")
	}
}

// wear lists what the trip takes from the points, biggest changes first.
func (c comparison) wear() {
	c.Head("What the trip takes, biggest changes first")
	shown := c.Wear
	if k := slices.IndexFunc(shown, func(p plan.PointAcross) bool { return p.Change < leastChange }); k >= 0 {
		shown = shown[:k]
	}
	if len(shown) == 0 {
		c.Line("  nothing that would show: neither wear nor chances change by half a percent")
		return
	}
	rest := max(0, len(shown)-mostChanges)
	shown = shown[:len(shown)-rest]
	limit, chance := "limit ", 9
	if len(c.Ways) > 3 {
		limit, chance = "lim ", 7
	}
	change := page.Columns{}
	if c.two() {
		change = page.Columns{8}
	}
	widths := slices.Concat(page.Columns{-c.Fit(shortLabel)}, slices.Repeat(page.Columns{6}, len(c.Ways)), change, slices.Repeat(page.Columns{chance}, len(c.Ways)))
	cells := func(label, relative string, taken, limits func(k int) string) []string {
		return slices.Concat([]string{label}, c.each(taken), slices.Repeat([]string{relative}, len(change)), c.each(limits))
	}
	table := c.Table(widths, cells("  taken by the whole trip", "change", letter, func(k int) string { return limit + letter(k) })...)
	for _, p := range shown {
		as, relative := p.Measure.Info(), ""
		if c.two() {
			relative = more(p.Taken[0], p.Taken[1])
		}
		table.Row(cells("  "+of(as.Named(p.Place, p.Zone, c.Units), p.Part), relative,
			func(k int) string { return as.Taken[c.Units].Number(p.Taken[k]) }, func(k int) string { return short(p.PLimit[k]) })...)
	}
	note := "Limit: chance that it is reached by the end if nothing is replaced."
	if rest > 0 {
		note += fmt.Sprintf(" Changing less, not shown: %d.", rest)
	}
	c.Fold("  ", note)
}

// stopped is what follows what was found, where that forbids more than circuits.
func stopped(found, then string) string {
	if kind.CircuitOnly(found) {
		return "."
	}
	return then
}

// of names the part of a set that swaps.
func of(what, part string) string {
	if part == "" {
		return what
	}
	return what + " (" + part + ")"
}

// more is a change as a share of what was.
func more(was, is float64) string {
	switch {
	case was <= 0 && is <= 0:
		return "-"
	case was <= 0:
		return "new"
	}
	return fmt.Sprintf("%+.0f %%", 100*(is/was-1))
}

// tread shows the trade of tread life against evenness at the wheels where it
// changes.
func (c comparison) tread() {
	differs := func(of []float64) bool { return slices.Max(of) > slices.Min(of)*(1+leastChange) }
	unit := quantity.Tread[c.Units]
	var table *page.Table
	for _, w := range c.Tread {
		if !differs(w.Most) && !differs(w.Least) {
			continue
		}
		if table == nil {
			c.Head("Tread: life against evenness")
			table = c.Table(page.Columns{-17, 15, 15, 8, 8, 14}, "  taken, "+unit.Name, "worst zone", "best zone", "mean", "even", "such trips")
		}
		label := "  " + w.Place
		if w.Part != "" {
			c.Line("  of %s", w.Part)
		}
		for k := range c.Ways {
			trips := "-"
			if w.Lasts[k] > 0 {
				trips = fmt.Sprintf("%.1f", math.Min(w.Lasts[k], 99))
			}
			table.Row(page.Pad(label, 6)+letter(k), w.Worst[k]+" "+unit.Number(w.Most[k]), w.Best[k]+" "+unit.Number(w.Least[k]), unit.Number(w.Mean[k]), page.Percent(w.Even[k]), trips)
			label = ""
		}
		if c.two() {
			c.Fold("       ", trade(w)+".")
		}
	}
	if table != nil {
		c.Note("Even: best zone over worst, 100 %% is even wear. Such trips: how many a new tire lasts, by its worst zone.")
	}
}

// trade puts in words what the second way does to a wheel's tread.
func trade(w plan.WheelAcross) string {
	life := against(w.Lasts, "%.0f %% longer", "%.0f %% less", "as long")
	rubber := against(w.Mean, "%.0f %% more rubber in all", "%.0f %% less rubber in all", "as much rubber in all")
	even := "as evenly"
	if d := w.Even[1] - w.Even[0]; math.Abs(d) >= 0.005 {
		even = "more evenly"
		if d < 0 {
			even = "less evenly"
		}
		even += fmt.Sprintf(" (%s for %s)", page.Percent(w.Even[1]), page.Percent(w.Even[0]))
	}
	return fmt.Sprintf("B lasts %s, wears %s and takes %s", life, even, rubber)
}

// against says how the second of two figures compares with the first.
func against(of []float64, more, less, same string) string {
	d := of[1]/of[0] - 1
	switch {
	case of[0] <= 0 || math.Abs(d) < 0.005:
		return same
	case d < 0:
		return fmt.Sprintf(less, -100*d)
	}
	return fmt.Sprintf(more, 100*d)
}
