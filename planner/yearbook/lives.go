package yearbook

import (
	"math"
	"time"

	"github.com/xuri/excelize/v2"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
)

// lives is the share of life left of each set that wears, over the year, with a
// chart: a step up is a replacement.
func (b *book) lives() {
	const name = "Life"
	var heads []string
	heads = append(heads, "day")
	var sets []int
	for i, s := range b.Calendar[0].Sets {
		if k := kind.Of(s.Kind); !k.Apart && !k.Lifetime {
			sets, heads = append(sets, i), append(heads, s.Name)
		}
	}
	rows := [][]any{}
	row := func(day time.Time, left func(i int) float64) {
		out := []any{day}
		for _, i := range sets {
			out = append(out, share(left(i)))
		}
		rows = append(rows, out)
	}
	now := map[int]float64{}
	for _, i := range sets {
		now[i] = left(b.Calendar[0].Sets[i])
	}
	left := func(i int) float64 { return now[i] }
	for _, t := range b.Calendar {
		row(t.Depart, left)
		changed := false
		for _, i := range sets {
			if t.Sets[i].Decision.Action == plan.ReplaceBefore {
				now[i], changed = 1, true
			}
		}
		if changed {
			row(t.Depart, left)
		}
		for _, i := range sets {
			now[i] = math.Max(0, t.Sets[i].Decision.LifeEnd)
		}
		row(t.Back, left)
	}
	widths := []float64{12}
	for range sets {
		widths = append(widths, 12)
	}
	b.sheet(name, heads, widths, rows)
	chart := &excelize.Chart{
		Type: excelize.Scatter, Title: title("Life left, median, as decided"), Legend: excelize.ChartLegend{Position: "bottom"},
		Dimension: excelize.ChartDimension{Width: 960, Height: 420},
		XAxis:     excelize.ChartAxis{NumFmt: excelize.ChartNumFmt{CustomNumFmt: "mmm yyyy"}},
		YAxis:     excelize.ChartAxis{NumFmt: excelize.ChartNumFmt{CustomNumFmt: "0 %"}, MajorGridLines: true},
	}
	for n := range sets {
		chart.Series = append(chart.Series, excelize.ChartSeries{
			Name: name + "!" + cell(n+2, 1), Categories: name + "!$A$2:" + cell(1, len(rows)+1),
			Values: name + "!" + cell(n+2, 2) + ":" + cell(n+2, len(rows)+1),
			Line:   excelize.LineOptions{Type: excelize.LineSolid, Width: 1.5}, Marker: excelize.ChartMarker{Symbol: "circle", Size: 4},
		})
	}
	b.did(b.AddChart(name, cell(1, len(rows)+4), chart))
}

// left is the share of a set's life that is left as it stands.
func left(s plan.Set) float64 {
	least := 1.0
	for _, p := range s.Points {
		least = math.Min(least, (p.Start-p.Limit)/(p.New-p.Limit))
	}
	return math.Max(0, least)
}
