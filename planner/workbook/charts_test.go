package workbook

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"example.com/tripwear/planner/workbook/expr"
	"example.com/tripwear/profiles/quantity"
)

// drawnFrom is what a part of a chart refers to: a sheet, a column, its rows.
var drawnFrom = regexp.MustCompile(`<(?:c:)?f>(?:'|&#39;|&apos;)([^'&]+)(?:'|&#39;|&apos;)!\$([A-Z]+)\$(\d+)(?::\$[A-Z]+\$(\d+))?</`)

// TestChartsDrawTheirFigures follows what each line of a chart refers to, its
// name, labels and values: the name stands right above the values, the labels
// in the rows of the values, the words that announce them above the labels,
// and nothing of them is left below.
func TestChartsDrawTheirFigures(t *testing.T) {
	p := juniper(t)
	f := reopened(t, p, quantity.US)
	charts := 0
	for part, text := range parts(t, written(t, p, quantity.US)) {
		if !strings.HasPrefix(part, "xl/charts/") {
			continue
		}
		charts++
		refs := drawnFrom.FindAllStringSubmatch(text, -1)
		if len(refs) == 0 || len(refs)%3 != 0 {
			t.Errorf("%s has %d references, want a name, labels and values for each line", part, len(refs))
			continue
		}
		for ; len(refs) > 0; refs = refs[3:] {
			name, labels, values := refs[0], refs[1], refs[2]
			sheet, from, to := values[1], rowOf(t, values[3]), rowOf(t, values[4])
			at := func(column string, r int) string {
				got, err := f.GetCellValue(sheet, fmt.Sprint(column, r))
				if err != nil {
					t.Fatal(err)
				}
				return got
			}
			if name[1] != sheet || labels[1] != sheet || name[2] != values[2] || rowOf(t, name[3]) != from-1 || name[4] != "" || at(name[2], from-1) == "" {
				t.Errorf("%s: values %s are named by %s, %q", part, values[0], name[0], at(name[2], from-1))
			}
			if labels[3] != values[3] || labels[4] != values[4] || labels[2] >= values[2] {
				t.Errorf("%s: values %s have the labels %s", part, values[0], labels[0])
			}
			if !strings.HasPrefix(at(labels[2], from-2), "Figures of the chart") || at(labels[2], to) == "" || at(labels[2], to+1) != "" {
				t.Errorf("%s: labels %s begin below %q, end with %q before %q", part, labels[0], at(labels[2], from-2), at(labels[2], to), at(labels[2], to+1))
			}
		}
	}
	if charts != 6 {
		t.Errorf("%d charts", charts)
	}
}

func rowOf(t *testing.T, digits string) int {
	t.Helper()
	n, err := strconv.Atoi(digits)
	if err != nil {
		t.Fatal(err)
	}
	return n
}

// TestSquare by hand: a plan of 100 by 50 on a plot of 200 by 100 pixels is
// drawn at half a unit a pixel and 1.3 for room, so 130 by 65; a third of 65
// has room for steps of 20, and the axes begin at a whole step. On a plot half
// as high the height decides, 260 by 65; on a narrow one the width, 130 by 520.
func TestSquare(t *testing.T) {
	gap := expr.Num(math.NaN())
	plan := chart{across: []expr.X{expr.Num(0), expr.Num(100), expr.Num(40)}, lines: []line{
		{values: []expr.X{expr.Num(50), gap, gap}}, {values: []expr.X{gap, expr.Num(0), expr.Num(25)}}, {values: []expr.X{gap, gap, gap}},
	}}
	for _, c := range []struct {
		width, height float64
		x, y          [2]float64
		step          float64
	}{
		{200, 100, [2]float64{-20, 110}, [2]float64{-20, 50}, 20},
		{200, 50, [2]float64{-80, 180}, [2]float64{-20, 50}, 20},
		{50, 200, [2]float64{-100, 100}, [2]float64{-300, 220}, 100},
	} {
		if x, y, step := plan.square(c.width, c.height); x != c.x || y != c.y || step != c.step {
			t.Errorf("%g by %g pixels: %v by %v in steps of %g", c.width, c.height, x, y, step)
		}
	}
}

// A plan of one point, or of none, has axes nevertheless.
func TestSquareOfNothing(t *testing.T) {
	for _, c := range []chart{{}, {across: []expr.X{expr.Num(3)}, lines: []line{{values: []expr.X{expr.Num(4)}}}}} {
		if x, y, step := c.square(200, 100); x != [2]float64{0, 1} || y != x || step != 1 {
			t.Errorf("%v: %v by %v in steps of %g", c.across, x, y, step)
		}
	}
}

// TestBottom: the axis of chances begins at the tenth below the lowest; a
// lowest that is a tenth itself gets one more.
func TestBottom(t *testing.T) {
	for lowest, want := range map[float64]float64{0.97: 0.9, 0.905: 0.9, 0.9: 0.8, 0.55: 0.5, 0.05: 0, 0: 0, 1: 0.9} {
		c := chart{lines: []line{{values: []expr.X{expr.Num(1), expr.Num(math.NaN())}}, {values: []expr.X{expr.Num(1), expr.Num(lowest), expr.Num(0.99)}}}}
		if c.bottom(); c.low != want {
			t.Errorf("lowest %g: the axis begins at %g, want %g", lowest, c.low, want)
		}
	}
	var empty chart
	if empty.bottom(); empty.low != 0.9 {
		t.Errorf("without values it begins at %g", empty.low)
	}
}
