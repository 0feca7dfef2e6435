package workbook

import (
	"github.com/xuri/excelize/v2"

	"example.com/tripwear/planner/workbook/expr"
)

// chart is a chart with the figures behind it. The figures stand to the right
// of the printed columns, one column a line, so that paper shows them once.
type chart struct {
	title    string
	alt      string // what it shows, for who cannot see it
	x, y     string // axis titles with units
	format   string
	bars     bool
	scatter  bool     // a plan: across against the lines' values
	across   []expr.X // of a scatter, in place of labels
	top      float64  // upper end of the value axis, 0 to leave it to the reader's program
	low      float64  // lower end
	labels   []string
	lines    []line
	at, rows int // first row of the chart, and how many it takes
	row      int // first row of its figures

	nth, abreast int // of charts side by side
}

// line is one series.
type line struct {
	name   string
	values []expr.X
	limit  bool
}

// stroke is how a series is drawn: color, marker and dash each tell it apart.
type stroke struct {
	color, marker string
	dash          excelize.LineDashType
}

// strokes of the places, in the order LF RF LR RR; a fifth line and on start
// over. Circles and squares are the front, the solid line is the left side.
var strokes = []stroke{
	{"1B4F72", "circle", excelize.LineDashSolid},
	{"B35900", "square", excelize.LineDashDash},
	{"2E7D5B", "triangle", excelize.LineDashSolid},
	{"6B3A78", "diamond", excelize.LineDashDash},
}

// A chart is anchored by its corner cells, so its size follows the fonts of
// the machine. The library finds the far corner by counting rows and columns
// at these pixels.
const (
	leastChart  = 10 // rows, to stand under its table
	mostChart   = 16
	barRows     = 3  // of a chart of bars, for each bar; the axis takes two bars more
	chartRow    = 15 // points, the format's default
	rowPixels   = 18
	digitPixels = 8
)

// chart reserves room for charts side by side, as high as the page still allows,
// up to what two such rows leave each, or at the top of the next; and lists their
// figures.
func (s *sheet) chart(abreast ...chart) {
	s.keep((leastChart + 1) * chartRow)
	rows := min(mostChart, int((s.left()-slackPoints)/chartRow)-1)
	if shared := int((s.left()-slackPoints)/chartRow)/(s.toCome+1) - 1; shared >= leastChart {
		rows = min(rows, shared)
	}
	for _, c := range abreast {
		if c.bars {
			rows = min(rows, max(leastChart, barRows*(len(c.labels)+2)))
		}
	}
	s.gap()
	at := s.next()
	for range rows {
		s.addHigh(chartRow)
	}
	for i, c := range abreast {
		c.at, c.rows, c.nth, c.abreast, c.row = at, rows, i, len(abreast), 1
		for _, before := range s.charts {
			c.row += len(before.labels) + 3
		}
		s.charts = append(s.charts, c)
	}
}

// figures gives the cells that a row holds to the right of the printed columns.
func (s *sheet) figures(r int) []cell {
	for _, c := range s.charts {
		i := r - c.row
		if i < 0 || i > len(c.labels)+1 {
			continue
		}
		if i == 0 {
			return []cell{text(look{weight: strong}, "Figures of the chart: "+c.title)}
		}
		if i == 1 {
			out := []cell{text(look{weight: header}, c.x)}
			for _, l := range c.lines {
				out = append(out, text(look{weight: header}, l.name))
			}
			return out
		}
		out := []cell{text(look{}, c.labels[i-2])}
		if c.scatter {
			out[0] = live(look{}, c.format, c.across[i-2])
		}
		for _, l := range c.lines {
			value := blank(look{})
			if finite(l.values[i-2].Value().Num) {
				value = live(look{}, c.format, l.values[i-2])
			}
			out = append(out, value)
		}
		return out
	}
	return nil
}

// lastFigure is the last row that holds figures.
func (s *sheet) lastFigure() int {
	last := 0
	for _, c := range s.charts {
		last = c.row + 1 + len(c.labels)
	}
	return last
}

// figureColumn is the first column of the figures.
func (s *sheet) figureColumn() int { return len(s.widths) + 2 + s.aside }

// draw puts the charts on the sheet.
func (s *sheet) draw(f *excelize.File) error {
	for _, c := range s.charts {
		col, _ := c.columns(s)
		if err := f.AddChart(s.name, s.address(col, c.at), c.drawing(s)); err != nil {
			return err
		}
	}
	return nil
}

func (c chart) drawing(s *sheet) *excelize.Chart {
	col := s.figureColumn()
	first, last := c.row+2, c.row+1+len(c.labels)
	from, to := c.columns(s)
	labels := s.column(col, first, last)
	font := excelize.Font{Family: face, Size: 10, Color: ink}
	heading := func(t string, size float64) excelize.ChartTitle {
		bold := excelize.Font{Family: face, Size: size, Color: ink, Bold: true}
		return excelize.ChartTitle{Paragraph: []excelize.RichTextRun{{Text: t, Font: &bold}}}
	}
	out := &excelize.Chart{
		Type:         excelize.Line,
		Title:        heading(c.title, 11),
		Dimension:    excelize.ChartDimension{Width: uint(pixels(s.widths[from-1:to]) - 2), Height: uint(c.rows*rowPixels - 4)},
		Format:       excelize.GraphicOptions{AltText: c.alt},
		Legend:       excelize.ChartLegend{Position: "right", Font: &font},
		ShowBlanksAs: "gap",
		XAxis:        excelize.ChartAxis{Font: font, Title: heading(c.x, 10)},
		YAxis: excelize.ChartAxis{
			Font: font, Title: heading(c.y, 10), MajorGridLines: true, Minimum: &c.low,
			NumFmt: excelize.ChartNumFmt{CustomNumFmt: c.format},
		},
	}
	if c.top > 0 {
		out.YAxis.Maximum = &c.top
	}
	if c.bars {
		out.Type = excelize.Bar
		out.Legend.Position = "none"
		out.XAxis.ReverseOrder = true // bars list from the bottom up
		out.PlotArea.ShowVal = true
		out.GapWidth = new(uint(60))
	}
	if c.scatter {
		c.plan(out)
	}
	for i, l := range c.lines {
		series := excelize.ChartSeries{
			Name: expr.Formula(s.at(col+1+i, first-1, 0), ""), Categories: labels, Values: s.column(col+1+i, first, last),
		}
		c.dress(&series, i, l.limit)
		out.Series = append(out.Series, series)
	}
	return out
}

// dress gives a series its stroke.
func (c chart) dress(series *excelize.ChartSeries, i int, limit bool) {
	st := strokes[i%len(strokes)]
	if limit {
		st = stroke{alarm, "none", excelize.LineDashSysDot}
	}
	series.Fill = filled(st.color)
	if c.scatter {
		p := plans[i%len(plans)]
		series.Line = excelize.LineOptions{Type: excelize.LineNone}
		series.Marker = excelize.ChartMarker{Symbol: p.marker, Size: p.size, Fill: filled(p.color)}
		return
	}
	if c.bars {
		series.DataLabel.Font = excelize.Font{Family: face, Size: 10, Color: ink}
		return
	}
	series.Line = excelize.LineOptions{Type: excelize.LineSolid, Dash: st.dash, Width: 1.75}
	series.Marker = excelize.ChartMarker{Symbol: st.marker, Size: 7, Fill: series.Fill}
}

// column is the address of rows of one column, for charts.
func (s *sheet) column(col, from, to int) string {
	first := s.at(col, from, 0)
	if from == to {
		return expr.Formula(first, "")
	}
	return expr.Formula(expr.Run{first, s.at(col, to, 0)}, "")
}

// columns are the first and the last that a chart stands over.
func (c chart) columns(s *sheet) (from, to int) {
	edge := func(nth int) int {
		col, share := 0, sum(s.widths)*float64(nth)/float64(c.abreast)
		for col < len(s.widths) && sum(s.widths[:col+1]) <= share+1e-9 {
			col++
		}
		return col
	}
	return edge(c.nth) + 1, edge(c.nth + 1)
}

// pixels is the width of columns as the library counts it.
func pixels(widths []float64) int {
	total := 0
	for _, w := range widths {
		total += int(float64(w*digitPixels) + 0.5)
	}
	return total
}
