package report

import (
	"strings"
	"testing"
	"unicode/utf8"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/page"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles/quantity"
)

// TestTrade: from half a percent on a change is worth a word.
func TestTrade(t *testing.T) {
	for _, c := range []struct {
		lasts, even, mean [2]float64
		want              string
	}{
		{[2]float64{10, 10}, [2]float64{0.8, 0.8}, [2]float64{1, 1}, "B lasts as long, wears as evenly and takes as much rubber in all"},
		{[2]float64{10, 10.04}, [2]float64{0.8, 0.804}, [2]float64{1, 0.996}, "B lasts as long, wears as evenly and takes as much rubber in all"},
		{[2]float64{10, 12}, [2]float64{0.8, 0.9}, [2]float64{1, 0.75}, "B lasts 20 % longer, wears more evenly (90 % for 80 %) and takes 25 % less rubber in all"},
		{[2]float64{10, 8}, [2]float64{0.8, 0.7}, [2]float64{1, 1.25}, "B lasts 20 % less, wears less evenly (70 % for 80 %) and takes 25 % more rubber in all"},
		{[2]float64{0, 8}, [2]float64{0.8, 0.8}, [2]float64{0, 1.25}, "B lasts as long, wears as evenly and takes as much rubber in all"},
	} {
		if got := trade(plan.WheelAcross{Lasts: c.lasts[:], Even: c.even[:], Mean: c.mean[:]}); got != c.want {
			t.Errorf("%+v:\n%s, want\n%s", c, got, c.want)
		}
	}
	for _, c := range []struct {
		was, is float64
		want    string
	}{{0, 5, "new"}, {4, 5, "+25 %"}, {4, 3, "-25 %"}, {4, 4, "+0 %"}} {
		if got := more(c.was, c.is); got != c.want {
			t.Errorf("from %g to %g: %s, want %s", c.was, c.is, got, c.want)
		}
	}
}

// TestCompareShows: of many points that change, 16 are shown and the rest are
// counted; a kind of expense is shown from half a unit of money on; four ways
// still fit the terminal.
func TestCompareShows(t *testing.T) {
	said := func(ways, points int, change, fees float64) string {
		c := &plan.Comparison{Ways: make([]plan.Outcome, ways)}
		for k := range c.Ways {
			c.Ways[k].Spend = make([]float64, len(plan.ExpenseKinds))
			c.Ways[k].Spend[1] = fees
		}
		for range points {
			none := make([]float64, ways)
			c.Wear = append(c.Wear, plan.PointAcross{Place: "LF", Measure: kind.PadLining, Taken: none, PLimit: none, Change: change})
		}
		var out strings.Builder
		if err := Compare(&out, c, View{Units: quantity.Metric}); err != nil {
			t.Fatal(err)
		}
		for line := range strings.Lines(out.String()) {
			if n := utf8.RuneCountInString(line); n > page.Usual+1 {
				t.Errorf("%d ways: %d characters: %s", ways, n-1, line)
			}
		}
		return out.String()
	}
	for _, c := range []struct {
		ways, points int
		change, fees float64
		shown        int
		says, not    string
	}{
		{2, 16, 0.01, 0.5, 16, "  fees", "not shown"},
		{2, 17, 0.01, 0.4, 16, "not shown: 1.", "  fees"},
		{2, 3, 0.005, 0, 3, "limit A", "nothing that would show"},
		{2, 3, 0.0049, 0, 0, "nothing that would show", "limit A"},
		{3, 20, 0.01, 1, 16, "not shown: 4.", "lim A"},
		{4, 1, 0.01, 1, 1, "lim A  lim B  lim C  lim D", "limit A"},
	} {
		got := said(c.ways, c.points, c.change, c.fees)
		if n := strings.Count(got, "LF pad, mm"); n != c.shown || !strings.Contains(got, c.says) || strings.Contains(got, c.not) {
			t.Errorf("%+v: %d shown in\n%s", c, n, got)
		}
		if strings.Contains(got, "change\n") != (c.ways == 2) {
			t.Errorf("%d ways, and a column of the change\n%s", c.ways, got)
		}
	}
}

// TestTreadTable: a wheel is shown from half a percent of change on, in its
// worst or in its best zone; a tire that lasts no such trip has a dash, more
// than 99 trips are not told apart.
func TestTreadTable(t *testing.T) {
	wheel := func(place string, most, least, lasts float64) plan.WheelAcross {
		return plan.WheelAcross{
			Place: place, Worst: []string{"inside", "middle"}, Best: []string{"outside", "inside"},
			Most: []float64{0.004, most}, Least: []float64{0.002, least}, Mean: []float64{0.003, 0.0032}, Even: []float64{0.5, 0.625}, Lasts: []float64{0, lasts},
		}
	}
	c := &plan.Comparison{Ways: make([]plan.Outcome, 2), Tread: []plan.WheelAcross{
		wheel("LF", 0.00403, 0.002, 0.04), wheel("RF", 0.00401, 0.002005, 2), wheel("LR", 0.004, 0.00202, 120), wheel("RR", 0.0036, 0.002, 99),
	}}
	got := said(quantity.Metric, func(p printer) { comparison{p, c}.tread() })
	for _, want := range []string{
		"LF A inside 4.0 outside 2.0 3.0 50 % - B middle 4.0 inside 2.0 3.2 62 % 0.0 ", "LR A", "3.2 62 % 99.0 B", "RR A", "B middle 3.6 inside 2.0 3.2 62 % 99.0",
	} {
		if !strings.Contains(got, want) {
			t.Errorf("no %q in %s", want, got)
		}
	}
	if strings.Contains(got, "RF A") {
		t.Errorf("a wheel that hardly changes is shown: %s", got)
	}
	c.Tread = c.Tread[1:2]
	if got := said(quantity.Metric, func(p printer) { comparison{p, c}.tread() }); got != "" {
		t.Errorf("a table of nothing: %s", got)
	}
}
