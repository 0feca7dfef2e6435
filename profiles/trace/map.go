package trace

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"example.com/tripwear/profiles/nearest"
)

// Map is a circuit as drawn: lines without times, in the order of the file.
type Map struct {
	Lines []Line
}

// Line is one line of a map, driven in the order of its points.
type Line struct {
	Name   string // no other line of the map has it
	Plane  bool   // the points are in a plane, m; else on the earth, deg
	Points []Point
}

// Point is a point of a line.
type Point struct {
	X, Y        float64 // m where the line is in a plane; else longitude and latitude, deg, WGS84
	Right, Left float64 // m from the line to the edges of the tarmac, NaN where the file has none
}

// Line finds a line by its name or its number, the first being 1; the only one
// needs neither. Its error is an *Error that lists the lines.
func (m *Map) Line(which string) (*Line, error) {
	if which == "" && len(m.Lines) == 1 {
		return &m.Lines[0], nil
	}
	for i := range m.Lines {
		if strings.EqualFold(m.Lines[i].Name, which) {
			return &m.Lines[i], nil
		}
	}
	if n, err := strconv.Atoi(which); err == nil && n >= 1 && n <= len(m.Lines) {
		return &m.Lines[n-1], nil
	}
	what := fmt.Sprintf("no line %q", short(which))
	if which == "" {
		what = fmt.Sprintf("the map holds %d lines", len(m.Lines))
	}
	const most = 12
	var list []string
	for i, l := range m.Lines[:min(most, len(m.Lines))] {
		list = append(list, fmt.Sprintf("%d %q (%d points)", i+1, short(l.Name), len(l.Points)))
	}
	hint := "choose one by its name or its number: --line 2, or line: 2 in circuits/ID.yaml"
	if len(m.Lines) > most {
		hint += fmt.Sprintf("; the first %d are listed", most)
	}
	return nil, &Error{What: what, Expected: nearest.OneOf(list), Hint: hint}
}

// named gives every line a name of its own.
func named(lines []Line) {
	taken := map[string]bool{}
	for i := range lines {
		name := strings.Join(strings.Fields(lines[i].Name), " ")
		if name == "" {
			name = "line"
		}
		full := name
		for n := 2; taken[strings.ToLower(full)]; n++ {
			full = fmt.Sprintf("%s %d", name, n)
		}
		taken[strings.ToLower(full)] = true
		lines[i].Name = full
	}
}

// CSV is the line as a map of its own, driven the other way where reverse is
// set.
func (l *Line) CSV(reverse bool) string {
	x, y := "x (m)", "y (m)"
	if !l.Plane {
		x, y = "lon", "lat"
	}
	figure := func(v float64) string {
		if math.IsNaN(v) {
			return ""
		}
		return strconv.FormatFloat(v, 'f', -1, 64)
	}
	var b strings.Builder
	fmt.Fprintf(&b, "%s,%s,right (m),left (m)\n", x, y)
	for i := range l.Points {
		p := l.Points[i]
		if reverse {
			p = l.Points[len(l.Points)-1-i]
			p.Right, p.Left = p.Left, p.Right
		}
		fmt.Fprintf(&b, "%s,%s,%s,%s\n", figure(p.X), figure(p.Y), figure(p.Right), figure(p.Left))
	}
	return b.String()
}
