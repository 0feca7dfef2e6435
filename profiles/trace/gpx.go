package trace

import (
	"encoding/xml"
	"fmt"
)

// gpx reads GPX 1.0 and 1.1. Tracks with times are a recording; tracks without
// and routes are lines of a map; waypoints are neither. Source of the format:
// the published schemas, topografix.com/GPX/1/0 and topografix.com/GPX/1/1;
// speed, in m/s, is of 1.0 alone.
type gpx struct {
	node
	dated bool   // a point of the track had a time
	bare  *Error // the first of its points that had none
}

func (g *gpx) name() string { return "GPX" }

func (g *gpx) start(w *walker, t xml.StartElement) *Error {
	switch name := t.Name.Local; {
	case len(w.open) == 0:
		for _, a := range t.Attr {
			if a.Name.Local == "version" && a.Name.Space == "" && a.Value != "1.1" && a.Value != "1.0" {
				return w.at(fmt.Sprintf("GPX version %q", short(a.Value)), "1.1", "")
			}
		}
	case name == "trkpt" || name == "rtept":
		return g.place(w, t)
	case g.inside > 0:
		if len(w.open) == g.inside && (name == "time" || name == "ele" || name == "speed") {
			w.want(value, false)
		}
	case name == "trk" || name == "rte":
		*g = gpx{node: node{fresh: true}}
	case name == "trkseg":
		w.gap, g.fresh = true, true
	case name == "name" && (w.parent() == "trk" || w.parent() == "rte"):
		w.want(value, true)
	}
	return nil
}

// place opens a point with its attributes.
func (g *gpx) place(w *walker, t xml.StartElement) *Error {
	name := t.Name.Local
	if bad := g.begin(w, name); bad != nil {
		return bad
	}
	for _, a := range t.Attr {
		if a.Name.Local == "lat" || a.Name.Local == "lon" {
			if bad := g.value(a.Name.Local, a.Value); bad != nil {
				return bad
			}
		}
	}
	if g.placeless() {
		return w.at(fmt.Sprintf("a %s without lat and lon", name), fmt.Sprintf(`<%s lat="..." lon="...">`, name), "")
	}
	return nil
}

func (g *gpx) end(w *walker, name, text string, asked bool) *Error {
	switch {
	case asked && g.inside == 0:
		g.title = text
	case asked:
		return g.value(name, text)
	case g.ends(w):
		return g.take(w, name == "trkpt")
	}
	return nil
}

// take takes a whole point: into the recording where it has a time, else into
// a line. A track has times at every point or at none.
func (g *gpx) take(w *walker, recorded bool) *Error {
	if !recorded {
		return g.draw(w)
	}
	switch {
	case g.timed && g.bare != nil:
		return g.bare
	case g.timed:
		g.dated = true
		return g.record(w)
	case g.dated:
		return g.mixed()
	case g.bare == nil:
		g.bare = g.mixed()
	}
	return g.draw(w)
}

func (g *gpx) mixed() *Error {
	return g.placed(&Error{What: "a trkpt without a time", Expected: "<time> in every one", Hint: "a planned course has no times, and neither have some exports: export the activity as recorded"})
}
