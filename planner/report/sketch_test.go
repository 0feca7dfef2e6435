package report

import (
	"math"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/google/go-cmp/cmp"

	"example.com/tripwear/planner/plan"
)

func TestHeading(t *testing.T) {
	for _, c := range []struct {
		x, y float64
		want string
	}{{1, 0, ">"}, {1, 1, ">"}, {1, -1, ">"}, {-1, 0, "<"}, {-1, 1, "<"}, {-1, -1, "<"}, {0.5, 1, "^"}, {-0.5, 1, "^"}, {0.5, -1, "v"}, {-0.5, -1, "v"}} {
		if got := arrow(c.x, c.y); got != c.want {
			t.Errorf("%g, %g: %s, want %s", c.x, c.y, got, c.want)
		}
	}
}

// TestDots: the dots of a Braille cell by the Unicode Standard, block Braille
// Patterns: 1, 2, 3, 7 down the left side and 4, 5, 6, 8 down the right one,
// each the bit of its number. What lies outside is not drawn.
func TestDots(t *testing.T) {
	for y, bits := range [4][2]int{{1, 4}, {2, 5}, {3, 6}, {7, 8}} {
		for x, n := range bits {
			for _, cell := range [][2]int{{0, 0}, {2, 0}, {1, 1}, {2, 1}} {
				c := newCanvas(3, 2, false)
				c.dot(2*cell[0]+x, 4*cell[1]+y)
				want := []string{strings.Repeat(" ", cell[0]) + string(rune(0x2800+1<<(n-1)))}
				if cell[1] == 1 {
					want = append([]string{""}, want...)
				}
				if diff := cmp.Diff(want, c.lines()); diff != "" {
					t.Errorf("dot %d in cell %v (-want +got):\n%s", n, cell, diff)
				}
			}
		}
	}
	c := newCanvas(3, 2, false)
	for _, at := range [][2]int{{-1, 0}, {0, -1}, {6, 0}, {0, 8}} {
		c.dot(at[0], at[1])
	}
	if got := c.lines(); len(got) != 0 {
		t.Errorf("drawn outside: %q", got)
	}
	c = newCanvas(3, 2, true)
	for _, at := range [][2]int{{0, 0}, {2, 1}, {3, 0}, {0, 2}} {
		c.dot(at[0], at[1])
	}
	if diff := cmp.Diff([]string{".", "  ."}, c.lines()); diff != "" {
		t.Errorf("plain (-want +got):\n%s", diff)
	}
}

// TestLabels: a label at the edge moves in; one that would cover another is
// left out.
func TestLabels(t *testing.T) {
	c := newCanvas(6, 2, true)
	c.label(0, 0, "S")
	c.label(5, 0, "12")
	c.label(3, 0, "34") // covers the 1
	c.label(2, 1, "56")
	c.label(3, 1, "7")
	if diff := cmp.Diff([]string{"S   12", "  56"}, c.lines()); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

// TestSketchOfASquare: as wide as high on a terminal, whose characters are twice
// as high as wide, with a dot to spare all round; it starts in the south-west,
// to the east; its one turn is numbered where its middle is.
func TestSketchOfASquare(t *testing.T) {
	const side = 400.0
	circuit := &plan.Circuit{Meters: 4 * side, Turns: []plan.Turn{{At: side - 20, Angle: math.Pi / 2, Radius: 80 / math.Pi}}}
	for i := range 80 {
		d := float64(i%20) * side / 20
		p := [4]plan.ViewPoint{{X: d}, {X: side, Y: d}, {X: side - d, Y: side}, {Y: side - d}}[i/20]
		p.X, p.Y = p.X-3000, p.Y-2000 // wherever it lies
		circuit.View.Points = append(circuit.View.Points, p)
	}
	for _, plain := range []bool{true, false} {
		lines := sketch(circuit, sketchWidth, plain)
		wide, top := 0, len(lines)
		for i, l := range lines {
			wide = max(wide, utf8.RuneCountInString(l))
			if l != "" {
				top = min(top, i)
			}
		}
		high := len(lines) - top
		if high < sketchHeight-2 || high > sketchHeight || wide < 2*high-4 || wide > 2*high+3 {
			t.Errorf("plain %v: %d characters wide, %d high\n%s", plain, wide, high, strings.Join(lines, "\n"))
		}
		bottom := lines[len(lines)-1]
		at := func(mark string) int { return utf8.RuneCountInString(bottom[:max(0, strings.Index(bottom, mark))]) }
		if at("S") > 1 || at(">") <= at("S") || at(">") > 8 || at("1") < wide-2 || !strings.Contains(bottom, "1") || !strings.Contains(bottom, "S") {
			t.Errorf("plain %v: bottom %q", plain, bottom)
		}
		for i, l := range lines[top : len(lines)-1] {
			drawn := utf8.RuneCountInString(strings.ReplaceAll(l, " ", ""))
			if i > 0 && drawn != 2 && drawn != 4 || i == 0 && drawn < wide-3 {
				t.Errorf("plain %v: line %d of a square: %q", plain, i, l)
			}
		}
	}
	if got := sketch(&plan.Circuit{View: plan.View{Points: circuit.View.Points[:3]}}, sketchWidth, true); got == nil {
		t.Error("three points are not drawn")
	}
	circuit.View.Points = circuit.View.Points[:2]
	if got := sketch(circuit, sketchWidth, true); got != nil {
		t.Errorf("two points drawn: %q", got)
	}
}

// TestSketchOfALongOne: a circuit much longer than wide fills the width and
// keeps both its ends.
func TestSketchOfALongOne(t *testing.T) {
	const long, wide = 2000.0, 500.0
	circuit := &plan.Circuit{Meters: 2 * (long + wide)}
	for i := range 80 {
		share := float64(i%20) / 20
		circuit.View.Points = append(circuit.View.Points, [4]plan.ViewPoint{
			{X: long * share}, {X: long, Y: wide * share}, {X: long * (1 - share), Y: wide}, {Y: wide * (1 - share)},
		}[i/20])
	}
	for _, plain := range []bool{true, false} {
		lines := sketch(circuit, sketchWidth, plain)
		for i, l := range lines {
			n := utf8.RuneCountInString(l)
			if (i > 0 || l != "") && (n < sketchWidth-2 || n > sketchWidth) { // a dot to spare may be a line
				t.Errorf("plain %v: line %d has %d characters: %q", plain, i, n, l)
			}
		}
		if high := len(lines); high < 7 || high > 9 { // a quarter of 60, on a terminal whose characters are twice as high as wide
			t.Errorf("plain %v: %d lines\n%s", plain, high, strings.Join(lines, "\n"))
		}
	}
}
