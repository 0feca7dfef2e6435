package trace

import (
	"fmt"
	"math"
)

// node is the point in hand of a format that writes one as an element.
type node struct {
	title  string // of the line it is on
	fresh  bool   // the next point of a line begins one
	inside int    // depth of the open point, 0 where none is
	fix    Fix
	timed  bool
	at     Error // where the point stands
}

// begin opens a point.
func (n *node) begin(w *walker, name string) *Error {
	if n.inside > 0 {
		return w.at(fmt.Sprintf("a %s inside a %s", name, w.open[n.inside-1]), "one after the other", "")
	}
	n.inside, n.timed = len(w.open)+1, false
	n.at = Error{Line: w.line, Column: w.column}
	n.fix = Fix{Lat: math.NaN(), Lon: math.NaN(), Elevation: math.NaN(), Speed: math.NaN()}
	return nil
}

// ends says whether the element that ends is the open point, and closes it.
func (n *node) ends(w *walker) bool {
	if n.inside == 0 || len(w.open)+1 != n.inside {
		return false
	}
	n.inside = 0
	return true
}

func (n *node) placeless() bool { return math.IsNaN(n.fix.Lat) || math.IsNaN(n.fix.Lon) }

// value takes one of a point's values: time, lat, lon, ele or speed.
func (n *node) value(what, text string) (bad *Error) {
	switch what {
	case "time":
		if n.fix.Time, n.timed = dateTime(text); !n.timed {
			return &Error{What: fmt.Sprintf("time %q", short(text)), Expected: "a date and time such as 2027-05-13T09:30:00Z"}
		}
	case "lat":
		n.fix.Lat, bad = coordinate(what, text, mostLat)
	case "lon":
		n.fix.Lon, bad = coordinate(what, text, mostLon)
	default:
		v, ok := number(text)
		if !ok {
			return &Error{What: fmt.Sprintf("%s %q is no number", what, short(text)), Expected: "a number"}
		}
		if what == "ele" {
			n.fix.Elevation = v
		} else if v >= 0 {
			n.fix.Speed = v // some write -1 for none
		}
	}
	return bad
}

// record adds the point to the recording.
func (n *node) record(w *walker) *Error { return n.placed(w.add(n.fix)) }

// draw adds the point to its line.
func (n *node) draw(w *walker) *Error {
	if n.fresh {
		n.fresh = false
		if bad := w.builder.line(n.title, false); bad != nil {
			return bad
		}
	}
	return n.placed(w.point(onEarth(n.fix.Lat, n.fix.Lon)))
}

// placed says that an error is the point's.
func (n *node) placed(bad *Error) *Error {
	if bad != nil && bad.Line == 0 {
		bad.Line, bad.Column = n.at.Line, n.at.Column
	}
	return bad
}

// onEarth is a point of a line without widths.
func onEarth(lat, lon float64) Point { return Point{lon, lat, math.NaN(), math.NaN()} }
