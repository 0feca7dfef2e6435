// Package cardsheet sets a plan's card on a sheet 40 characters wide, line by
// line: the words and figures are the card's own.
package cardsheet

import (
	"strings"

	"example.com/tripwear/planner/card"
)

// Widths of the columns, in characters: 40 in all.
var Widths = []float64{16, 6, 6, 6, 6}

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

// Line is a row of the sheet.
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

// list is the card in the making.
type list struct{ lines []Line }

func (l *list) add(t Tone, cells ...Cell) {
	l.lines = append(l.lines, Line{Tone: t, Cells: cells})
}

// text is a line of one text; an empty one is none.
func (l *list) text(t Tone, s string) {
	if s != "" {
		l.add(t, Cell{Text: s, Over: len(Widths)})
	}
}

// section is a heading with what stands at its right.
func (l *list) section(name, right string) {
	if right == "" {
		l.text(Heading, name)
		return
	}
	l.add(Heading, Cell{Text: name, Over: 3}, Cell{Text: right, Over: 2, Right: true})
}

// ticks are things to do, each with a box.
func (l *list) ticks(things []string) {
	for _, s := range things {
		l.lines = append(l.lines, Line{Cells: []Cell{{Text: s, Over: len(Widths) - 1}}, Tick: true})
	}
}

// Lines is the card in the order of the first screen: the verdict, what is done
// before leaving, what is brought, the days with their readings, the way.
func Lines(c *card.Card) []Line {
	var l list
	l.text(Title, c.Kick)
	l.text(Verdict, c.Title)
	l.text(Plain, c.Lead)
	l.before(c)
	l.trunk(c)
	for i, s := range c.Stops {
		if i == 0 {
			l.section("On the way", "")
		}
		l.text(Strong, s.Head)
		l.text(Plain, s.Text)
	}
	l.days(c)
	l.checks(c)
	l.section("Park it if you find", "")
	l.text(Plain, strings.Join(c.Park, "; "))
	l.section("Before each session", "")
	l.text(Plain, strings.Join(c.Sessions, "; "))
	l.section("At each fuel stop", "")
	l.text(Plain, strings.Join(c.Fuel, "; "))
	for i, w := range c.Rain {
		if i == 0 {
			l.section("Rain: floating begins about", "")
		}
		l.add(Plain, Cell{Text: w.Road, Over: 2}, Cell{Text: w.Front + " front, " + w.Rear + " rear", Over: 3, Right: true})
	}
	if c.Weak != "" {
		l.section("Weak spot", "")
		l.text(Plain, c.Weak)
	}
	l.section("Cost", "")
	l.text(Plain, c.Cost)
	l.text(Plain, c.Rests)
	l.text(Strong, "A planning estimate: inspect before every session.")
	return l.lines
}

func (l *list) before(c *card.Card) {
	l.section(c.First, "done")
	if len(c.Do) == 0 {
		l.text(Plain, "Nothing but the checks.")
	}
	l.ticks(c.Do)
	if len(c.Orders) == 0 {
		return
	}
	l.section("Order", c.Ordered)
	for _, o := range c.Orders {
		l.add(Plain, Cell{Text: o.What, Over: 2}, Cell{Text: o.By, Over: 2}, Cell{Text: o.Cost, Over: 1, Right: true})
	}
}

func (l *list) trunk(c *card.Card) {
	if len(c.Trunk) == 0 {
		return
	}
	l.section("Trunk", "")
	l.add(Heads, Cell{Text: "bring", Over: 3}, Cell{Text: c.Units, Over: 1, Right: true}, Cell{Text: c.PadUnits, Over: 1, Right: true})
	for _, t := range c.Trunk {
		l.add(Plain, Cell{Text: t.Name, Over: 3}, Cell{Text: t.Volume, Over: 1, Right: true}, Cell{Text: t.Mass, Over: 1, Right: true})
	}
	l.text(Quiet, c.Room)
	if c.Tools != "" {
		l.text(Quiet, "Tools, with the luggage: "+c.Tools+".")
	}
}

func (l *list) days(c *card.Card) {
	for _, d := range c.Days {
		l.section(d.Head, "")
		l.text(Plain, d.Text)
	}
	for i, d := range c.Circuits {
		if i == 0 {
			l.section("Circuit days change if", "")
		}
		l.text(Plain, d.Day+", "+d.Name+": "+d.If)
	}
}

// checks is a row for every check: what to expect of each reading, below it the
// least that the day takes; at the end where to act and to stop.
func (l *list) checks(c *card.Card) {
	abreast := len(Widths) - 1
	for from := 0; from < len(c.Columns); from += abreast {
		to := min(from+abreast, len(c.Columns))
		row := func(t Tone, name string, of func(i int) string) {
			cells, any := []Cell{{Text: name, Over: 1}}, false
			for i := from; i < to; i++ {
				cells, any = append(cells, Cell{Text: of(i), Over: 1, Right: true}), any || of(i) != ""
			}
			if any {
				l.add(t, cells...)
			}
		}
		l.section("Checks: expected, and the least a day takes", "")
		row(Heads, "", func(i int) string { return called(c.Columns[i]) })
		for _, r := range c.Rows {
			row(Plain, strings.TrimSpace(r.When+" "+r.What), func(i int) string { return r.Cells[i].Expect + r.Cells[i].Star })
			row(Quiet, "  at least", func(i int) string { return r.Cells[i].Least })
		}
		row(Strong, "Act at", func(i int) string { return c.Columns[i].Act })
		row(Strong, "Stop at", func(i int) string { return c.Columns[i].Stop })
	}
	for _, s := range c.Stars {
		l.text(Quiet, s)
	}
}

// called is a point in six letters or so, such as RF out and LR pads.
func called(c card.Column) string {
	place, zone, _ := strings.Cut(c.Where, " ")
	if zone == "" {
		return place + " " + c.Name[strings.LastIndex(c.Name, " ")+1:]
	}
	return place + " " + strings.TrimSuffix(strings.Replace(zone, "middle", "mid", 1), "side")
}
