package card

import (
	"fmt"
	"html/template"
	"math"
	"slices"
	"strconv"
	"strings"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
)

// Chart is one point's way through the trip, as decided.
type Chart struct {
	Caption string
	Label   string // what it shows, in words
	Shapes  []Shape
	Texts   []Text
}

// Shape is a path with the class that its looks go by.
type Shape struct {
	Class string
	D     template.HTMLAttr
}

// Text is a word on a drawing.
type Text struct {
	X, Y  string
	Class string
	Text  string
}

// Room of a chart, in its own units.
const (
	chartWidth = 300.0
	left       = 24.0
	right      = 290.0
	top        = 26.0
	bottom     = 96.0
	nameRoom   = 84.0 // of a circuit's name
)

// d is a path's attribute, made here of numbers alone.
func d(path string) template.HTMLAttr { return template.HTMLAttr(`d="` + path + `"`) }

func num(x float64) string { return strconv.FormatFloat(math.Round(x*10)/10, 'f', -1, 64) }

func at(x, y float64) string { return num(x) + " " + num(y) }

// charts are those of the columns of the checks, at most three.
func (b builder) charts() []Chart {
	var out []Chart
	for i, w := range b.read() {
		if len(out) < 3 {
			out = append(out, b.chart(w, b.c.Columns[i].Name))
		}
	}
	return out
}

func (b builder) chart(w plan.Course, name string) Chart {
	level := w.Measure.Info().Level[b.u]
	n := len(w.Level) - 1
	most := level.Of(slices.Max(append(slices.Clone(w.High), w.Old)))
	step := math.Max(1, math.Ceil(most/5))
	ceiling := step * math.Ceil(most/step)
	x := func(j int) float64 { return left + float64((right-left)*float64(j)/float64(n)) }
	y := func(si float64) float64 {
		return bottom - float64((bottom-top)*math.Min(level.Of(si), ceiling)/ceiling)
	}
	c := Chart{Caption: fmt.Sprintf("%s, %s, %s", name, point(w.Place, w.Zone, w.Measure), level.Words)}
	c.Label = fmt.Sprintf("%s by leg: %s at the start, %s back home; nine cases in ten end between %s and %s; act at %s, stop at %s.",
		c.Caption, level.Number(w.Level[0]), level.Number(w.Level[n]), level.Number(w.Low[n]), level.Number(w.High[n]), level.Number(w.Act), level.Number(w.Stop))
	named := -nameRoom
	for j, l := range b.Legs {
		if l.Kind == profiles.CircuitLeg {
			c.Shapes = append(c.Shapes, Shape{"cday", d("M" + at(x(j), top) + "H" + num(x(j+1)) + "V" + num(bottom) + "H" + num(x(j)) + "Z")})
			middle := math.Min(math.Max((x(j)+x(j+1))/2, left+nameRoom/2), chartWidth-nameRoom/2)
			if (l.Day == 1 || j == 0) && middle >= named+nameRoom {
				c.Texts, named = append(c.Texts, Text{num(middle), "11", "t m", short(l.Circuit)}), middle
			}
		}
	}
	for v := 0.0; v <= ceiling; v += step {
		tick := bottom - float64((bottom-top)*v/ceiling)
		c.Shapes = append(c.Shapes, Shape{"ax", d("M21 " + num(tick) + "H24")})
		c.Texts = append(c.Texts, Text{"19", num(tick + 3.6), "t e", num(v)})
	}
	for _, run := range runs(w, n) {
		var band, back, line []string
		for j := run[0]; j <= run[1]; j++ {
			mid := w.Level[j]
			if j == run[1] && j == w.New { // the part that comes off
				mid = w.Old
			}
			line = append(line, at(x(j), y(mid)))
			if j < run[1] || j != w.New {
				band = append(band, at(x(j), y(w.High[j])))
				back = append(back, at(x(j), y(w.Low[j])))
			}
		}
		slices.Reverse(back)
		c.Shapes = append(c.Shapes, Shape{"bd", d("M" + strings.Join(append(band, back...), "L") + "Z")}, Shape{"ln", d("M" + strings.Join(line, "L"))})
	}
	c.Shapes = append(c.Shapes, Shape{"la", d("M24 " + num(y(w.Act)) + "H290")}, Shape{"ls", d("M24 " + num(y(w.Stop)) + "H290")},
		Shape{"ax", d("M24 " + num(top) + "V" + num(bottom) + "H290")})
	c.Texts = append(c.Texts,
		Text{"28", num(y(w.Act) - 3), "t", "act " + level.Number(w.Act)}, Text{"28", num(y(w.Stop) + 10), "t", "stop " + level.Number(w.Stop)},
		Text{"27", num(y(w.Level[0]) - 5), "t b", level.Number(w.Level[0])}, Text{"290", num(y(w.Level[n]) - 5), "t b e", level.Number(w.Level[n])})
	if w.New > 0 && w.New <= n {
		c.Texts = append(c.Texts, Text{num(x(w.New) - 4), num(y(w.Level[w.New]) + 3), "t b e", "new " + level.Number(w.Level[w.New])})
	}
	every := (n + 8) / 8
	for j := 0; j <= n; j += every {
		what := fmt.Sprint(j)
		if date := b.date(j); date != "" {
			what = date
		}
		class := "t m"
		if j == n {
			class = "t e"
		}
		c.Texts = append(c.Texts, Text{num(x(j)), "110", class, what})
	}
	return c
}

// date is the day before a leg, or of coming home.
func (b builder) date(j int) string {
	switch {
	case j == len(b.Legs) && !b.Legs[j-1].End.IsZero():
		return b.Legs[j-1].End.Format("Mon")
	case j < len(b.Legs) && !b.Legs[j].Start.IsZero():
		return b.Legs[j].Start.Format("Mon")
	}
	return ""
}

// runs are the legs from where a part is on to where it comes off.
func runs(w plan.Course, n int) [][2]int {
	if w.New <= 0 || w.New > n {
		return [][2]int{{0, n}}
	}
	return [][2]int{{0, w.New}, {w.New, n}}
}

// short cuts a name to what fits over a chart.
func short(name string) string {
	if r := []rune(name); len(r) > 12 {
		return string(r[:11]) + "."
	}
	return name
}
