package trace

import (
	"fmt"
	"math"
	"slices"
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
// needs neither, and 1+2 are two that make one lap. Its error is an *Error that
// lists the lines.
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
	if l := m.joined(strings.Split(which, "+")); l != nil {
		return l, nil
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
	hint := "choose one by its name or its number: --line 2, or line: 2 in circuits/ID.yaml; --line 1+2 joins two that make one lap"
	if len(m.Lines) > most {
		hint += fmt.Sprintf("; the first %d are listed", most)
	}
	return nil, &Error{What: what, Expected: nearest.OneOf(list), Hint: hint}
}

// joined is one line of several, by their numbers, each driven on from the end of
// the one before that is nearer; nil where they are not numbers of lines.
func (m *Map) joined(numbers []string) *Line {
	whole := &Line{Name: strings.Join(numbers, "+")}
	for i, number := range numbers {
		n, err := strconv.Atoi(strings.TrimSpace(number))
		if err != nil || n < 1 || n > len(m.Lines) || len(numbers) < 2 {
			return nil
		}
		next := m.Lines[n-1]
		if i == 1 && whole.Points[0].nearest(next) < whole.Points[len(whole.Points)-1].nearest(next) {
			whole.turn()
		}
		if i > 0 {
			end := whole.Points[len(whole.Points)-1]
			if end.apart(next.Points[len(next.Points)-1]) < end.apart(next.Points[0]) {
				next.Points = slices.Clone(next.Points)
				next.turn()
			}
		}
		whole.Plane, whole.Points = next.Plane, append(whole.Points, next.Points...)
	}
	return whole
}

// apart is how far two points are from each other, as the map has them.
func (p Point) apart(q Point) float64 { return math.Hypot(p.X-q.X, p.Y-q.Y) }

// nearest is how far a point is from the nearer end of a line.
func (p Point) nearest(l Line) float64 {
	return math.Min(p.apart(l.Points[0]), p.apart(l.Points[len(l.Points)-1]))
}

// turn has the line driven the other way.
func (l *Line) turn() {
	slices.Reverse(l.Points)
	for i := range l.Points {
		l.Points[i].Right, l.Points[i].Left = l.Points[i].Left, l.Points[i].Right
	}
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
	driven := Line{Points: slices.Clone(l.Points)}
	if reverse {
		driven.turn()
	}
	for _, p := range driven.Points {
		fmt.Fprintf(&b, "%s,%s,%s,%s\n", figure(p.X), figure(p.Y), figure(p.Right), figure(p.Left))
	}
	return b.String()
}
