// Package cardsheet sets a plan's card on a sheet in two strips of 40 characters,
// line by line: the words and figures are the card's own.
package cardsheet

import (
	"strings"

	"example.com/tripwear/planner/card"
)

// Widths of a strip's columns, in characters: 40 in all.
var Widths = []float64{16, 6, 6, 6, 6}

const strip = 5 // columns

// Tone is how loud a line is.
type Tone int

// The tones.
const (
	Plain Tone = iota
	Title
	Verdict
	Heading
	Heads // of a table's columns
	Strong
	Quiet
)

// Line is a row of a strip.
type Line struct {
	Tone  Tone
	Cells []Cell // side by side, over all columns together
	Tick  bool   // its last column is a box to tick
}

// Cell is a text over so many columns.
type Cell struct {
	Text  string
	Over  int
	Right bool
}

// list is a strip in the making.
type list struct{ lines []Line }

// add appends a row; what its first cell has no room for goes on below.
func (l *list) add(line Line) {
	room := 0.0
	for _, w := range Widths[:line.Cells[0].Over] {
		room += w
	}
	texts := wrapped(line.Cells[0].Text, int(room))
	line.Cells[0].Text = texts[0]
	l.lines = append(l.lines, line)
	for _, t := range texts[1:] {
		l.lines = append(l.lines, Line{Tone: line.Tone, Cells: []Cell{{Text: t, Over: strip}}})
	}
}

// wrapped breaks a text between words.
func wrapped(s string, room int) []string {
	var out []string
	line := ""
	for _, word := range strings.Fields(s) {
		if line != "" && len([]rune(line+" "+word)) > room {
			out, line = append(out, line), ""
		}
		line = strings.TrimSpace(line + " " + word)
	}
	return append(out, line)
}

func (l *list) row(t Tone, cells ...Cell) { l.add(Line{Tone: t, Cells: cells}) }

// text is a line of one text; an empty one is none.
func (l *list) text(t Tone, s string) {
	if s != "" {
		l.row(t, Cell{Text: s, Over: strip})
	}
}

// section is a heading with its texts.
func (l *list) section(name string, texts ...string) {
	all := strings.Join(texts, "; ")
	if all != "" {
		l.text(Heading, name)
		l.text(Plain, all)
	}
}

// Lines is the card in the order of the first screen: the first strip has the
// verdict, what is done before leaving, what is brought, the stops and the days;
// the second what is read, looked at and kept in mind on the way.
func Lines(c *card.Card) (first, second []Line) {
	var a, b list
	a.text(Title, c.Kick)
	a.text(Verdict, c.Title)
	a.text(Plain, c.Lead)
	a.before(c)
	a.trunk(c)
	for i, s := range c.Stops {
		if i == 0 {
			a.text(Heading, "On the way")
		}
		a.text(Strong, s.Head)
		a.text(Plain, s.Text)
	}
	for i, d := range c.Circuits {
		if i == 0 {
			a.text(Heading, "Circuit days change if")
		}
		a.text(Plain, d.Day+", "+d.Name+": "+d.If)
	}
	a.section("Cost, nominal", c.Cost)
	a.text(Plain, c.Rests)
	a.text(Strong, "A planning estimate: inspect before every session.")

	b.checks(c)
	b.section("Park it if you find", c.Park...)
	b.section("Before each session", c.Sessions...)
	b.section("At each fuel stop", c.Fuel...)
	for i, w := range c.Rain {
		if i == 0 {
			b.text(Heading, "Rain: floating begins about")
		}
		b.text(Plain, w.Road+": "+w.Front+" front, "+w.Rear+" rear")
	}
	b.section("Weak spot", c.Weak)
	return a.lines, b.lines
}

func (l *list) before(c *card.Card) {
	l.row(Heading, Cell{Text: c.First, Over: 3}, Cell{Text: "done", Over: 2, Right: true})
	if len(c.Do) == 0 {
		l.text(Plain, "Nothing but the checks.")
	}
	for _, s := range c.Do {
		l.add(Line{Cells: []Cell{{Text: s, Over: strip - 1}}, Tick: true})
	}
	if len(c.Orders) == 0 {
		return
	}
	l.row(Heading, Cell{Text: "Order", Over: 3}, Cell{Text: c.Ordered, Over: 2, Right: true})
	for _, o := range c.Orders {
		l.text(Plain, o.What)
		l.row(Plain, Cell{Text: strings.Replace("by "+o.By, "by any", "any", 1), Over: 3}, Cell{Text: o.Cost, Over: 2, Right: true})
	}
}

func (l *list) trunk(c *card.Card) {
	if len(c.Trunk) == 0 {
		return
	}
	l.row(Heading, Cell{Text: "Bring", Over: 3}, Cell{Text: c.Units, Over: 1, Right: true}, Cell{Text: c.PadUnits, Over: 1, Right: true})
	for _, t := range c.Trunk {
		l.row(Plain, Cell{Text: t.Name, Over: 3}, Cell{Text: t.Volume, Over: 1, Right: true}, Cell{Text: t.Mass, Over: 1, Right: true})
	}
	l.text(Quiet, c.Room)
}

// checks is a row for every check: what to expect of each reading, below it the
// least that the day takes; at the end where to act and to stop.
func (l *list) checks(c *card.Card) {
	const abreast = strip - 1
	for from := 0; from < len(c.Columns); from += abreast {
		to := min(from+abreast, len(c.Columns))
		row := func(t Tone, name string, of func(i int) string) {
			cells, any := []Cell{{Text: name, Over: 1}}, false
			for i := from; i < to; i++ {
				cells, any = append(cells, Cell{Text: of(i), Over: 1, Right: true}), any || of(i) != ""
			}
			if any {
				l.row(t, cells...)
			}
		}
		l.text(Heading, "Checks, and the least to go out")
		row(Heads, "", func(i int) string { place, _ := called(c.Columns[i]); return place })
		row(Heads, "", func(i int) string { _, what := called(c.Columns[i]); return what })
		for _, r := range c.Rows {
			l.text(Strong, strings.TrimSpace(r.When+" "+r.What))
			row(Plain, "  expect", func(i int) string { return r.Cells[i].Expect + r.Cells[i].Star })
			row(Quiet, "  at least", func(i int) string { return r.Cells[i].Least })
		}
		row(Strong, "Act at", func(i int) string { return c.Columns[i].Act })
		row(Strong, "Stop at", func(i int) string { return c.Columns[i].Stop })
	}
	for _, s := range c.Stars {
		l.text(Quiet, s)
	}
}

// called is a point in few letters, such as RF, out and LR, pads.
func called(c card.Column) (place, what string) {
	place, zone, _ := strings.Cut(c.Where, " ")
	if zone == "" {
		return place, c.Name[strings.LastIndex(c.Name, " ")+1:]
	}
	return place, strings.TrimSuffix(strings.Replace(zone, "middle", "mid", 1), "side")
}
