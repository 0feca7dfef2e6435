package trace

import (
	"fmt"
	"math"
	"strings"
)

// take takes the row in hand.
func (c *csvReader) take() *Error {
	if c.places() == plane {
		return c.flat()
	}
	switch c.cell(latColumn) {
	case c.columns[latColumn].title: // the header once more, of the next session
		c.gap = true
		return nil
	case "":
		return c.blank()
	}
	if c.cell(lonColumn) == "" {
		return c.blank()
	}
	f := Fix{Elevation: math.NaN(), Speed: math.NaN()}
	if bad := c.degrees(latColumn, northSouth, "NS", mostLat, &f.Lat); bad != nil {
		return bad
	}
	if bad := c.degrees(lonColumn, eastWest, "EW", mostLon, &f.Lon); bad != nil {
		return bad
	}
	if !c.has(timeColumn) {
		p := onEarth(f.Lat, f.Lon)
		if bad := c.widths(&p); bad != nil {
			return bad
		}
		return c.point(p)
	}
	if bad := c.values(into{speedColumn, &f.Speed}, into{heightColumn, &f.Elevation}); bad != nil {
		return bad
	}
	if bad := c.time(&f); bad != nil {
		return bad
	}
	return c.add(f)
}

// blank takes a row without a place.
func (c *csvReader) blank() *Error {
	c.blanks++
	c.gap = true
	return nil
}

// degrees reads a coordinate, whose letter may stand in a column of its own.
func (c *csvReader) degrees(k, letter kind, letters string, most float64, to *float64) *Error {
	text := decimal(c.cell(k))
	if way := c.cell(letter); way != "" {
		text += " " + way
	}
	scale := c.columns[k].scale
	v, bad := angle(k.String(), text, letters, most/scale)
	if bad != nil {
		at := c.bad(k, bad.What, bad.Expected)
		at.Hint = bad.Hint
		return at
	}
	*to = v * scale
	return nil
}

// flat takes a point of a plane.
func (c *csvReader) flat() *Error {
	p := Point{math.NaN(), math.NaN(), math.NaN(), math.NaN()}
	if bad := c.values(into{xColumn, &p.X}, into{yColumn, &p.Y}); bad != nil {
		return bad
	}
	const most = 1e8 // m: no grid of the earth goes so far
	switch {
	case math.IsNaN(p.X) || math.IsNaN(p.Y):
		return c.bad(xColumn, "a point without x and y", "a number in both")
	case math.Abs(p.X) > most || math.Abs(p.Y) > most:
		return c.bad(xColumn, fmt.Sprintf("a point at %.6g, %.6g m", p.X, p.Y), "meters")
	}
	if bad := c.widths(&p); bad != nil {
		return bad
	}
	return c.point(p)
}

// widths reads the width of the tarmac at a point.
func (c *csvReader) widths(p *Point) *Error {
	whole := math.NaN()
	all := []into{{widthColumn, &whole}, {rightColumn, &p.Right}, {leftColumn, &p.Left}}
	if bad := c.values(all...); bad != nil {
		return bad
	}
	for _, v := range all {
		if *v.to < 0 || *v.to > 500 {
			return c.bad(v.kind, fmt.Sprintf("%s of %.6g m", v.kind, *v.to), "0 to 500 m")
		}
	}
	if !math.IsNaN(whole) && math.IsNaN(p.Right) && math.IsNaN(p.Left) {
		p.Right, p.Left = whole/2, whole/2
	}
	return nil
}

// cell is the text of the row in a column of a kind, "" where it has none.
func (c *csvReader) cell(k kind) string {
	if at := c.columns[k].at; at >= 0 && at < len(c.row) {
		return strings.TrimSpace(c.row[at])
	}
	return ""
}

// into is a value of the row and where it goes.
type into struct {
	kind kind
	to   *float64
}

// values reads numbers in SI; an empty cell leaves its own as it is.
func (c *csvReader) values(all ...into) *Error {
	for _, v := range all {
		text := c.cell(v.kind)
		if text == "" {
			continue
		}
		x, ok := number(decimal(text))
		if !ok {
			return c.bad(v.kind, fmt.Sprintf("%s %q is no number", v.kind, short(text)), "a number")
		}
		*v.to = x * c.columns[v.kind].scale
	}
	return nil
}

// decimal turns the decimal comma of a number into a point.
func decimal(s string) string {
	if strings.Count(s, ",") == 1 && !strings.Contains(s, ".") {
		return strings.Replace(s, ",", ".", 1)
	}
	return s
}
