package trace

import (
	"encoding/xml"
	"fmt"
	"math"
	"strings"
	"unicode"
)

// kml reads KML 2.2 and 2.3: line strings and rings are lines of a map, named
// by their placemark; a Track (of 2.3, or of the gx extension) is a recording.
// Source of the format: OGC 12-007r2 (KML 2.3), 10.7 to 10.15; coordinates are
// longitude, latitude and, if given, height.
type kml struct {
	title string
	whens []float64 // of the open Track, those without a coord yet
}

func (k *kml) name() string { return "KML" }

func (k *kml) start(w *walker, t xml.StartElement) *Error {
	parent := w.parent()
	switch name := t.Name.Local; {
	case name == "Placemark":
		k.title = ""
	case name == "name" && parent == "Placemark":
		w.want(value, true)
	case name == "coordinates" && (parent == "LineString" || parent == "LinearRing"):
		w.want(int(w.piece), false)
	case name == "Track":
		k.whens, w.gap = k.whens[:0], true
	case (name == "when" || name == "coord") && parent == "Track":
		w.want(value, false)
	}
	return nil
}

func (k *kml) end(w *walker, name, text string, asked bool) *Error {
	switch {
	case name == "Track" && len(k.whens) > 0:
		return w.at(fmt.Sprintf("a Track with %s more than places", count(len(k.whens), "time")), "a <coord> for every <when>", "")
	case !asked:
	case name == "name":
		k.title = text
	case name == "when":
		at, ok := dateTime(text)
		if !ok {
			return w.at(fmt.Sprintf("time %q", short(text)), "a date and time such as 2027-05-13T09:30:00Z", "")
		}
		if len(k.whens) >= w.fixes {
			return w.at(fmt.Sprintf("more than %d fixes", w.fixes), "a day at a circuit", "")
		}
		k.whens = append(k.whens, at)
	case name == "coord":
		return k.coord(w, text)
	case name == "coordinates":
		return k.coordinates(w)
	}
	return nil
}

// coord is the place of the first when that has none yet; an empty one is a
// lost fix.
func (k *kml) coord(w *walker, text string) *Error {
	if len(k.whens) == 0 {
		return w.at("a coord without a time", "a <when> before it for every <coord>", "")
	}
	at := k.whens[0]
	k.whens = k.whens[1:]
	if text == "" {
		w.gap = true
		return nil
	}
	f := Fix{Time: at, Elevation: math.NaN(), Speed: math.NaN()}
	parts := strings.Fields(text)
	bad := lonLat(parts, text, "8.1234567 50.1234567 12", &f.Lon, &f.Lat)
	if bad != nil {
		return bad
	}
	if v, ok := 0.0, false; len(parts) == 3 {
		if v, ok = number(parts[2]); ok {
			f.Elevation = v
		}
	}
	return w.add(f)
}

// lonLat reads a longitude and a latitude, with or without a height.
func lonLat(parts []string, text, like string, lon, lat *float64) (bad *Error) {
	if len(parts) != 2 && len(parts) != 3 {
		return &Error{What: fmt.Sprintf("coordinates %q", short(text)), Expected: "longitude, latitude and perhaps height, such as " + like}
	}
	if *lon, bad = coordinate("lon", parts[0], mostLon); bad != nil {
		return bad
	}
	*lat, bad = coordinate("lat", parts[1], mostLat)
	return bad
}

// coordinates reads a line: tuples set apart by blanks.
func (k *kml) coordinates(w *walker) *Error {
	if bad := w.builder.line(k.title, false); bad != nil {
		return bad
	}
	line, column, from := w.began.line, w.began.column, -1
	text := string(w.text) + " "
	for i, r := range text {
		switch {
		case !unicode.IsSpace(r) && from < 0:
			from = i
		case unicode.IsSpace(r) && from >= 0:
			var p Point
			bad := lonLat(strings.Split(text[from:i], ","), text[from:i], "8.1234567,50.1234567,12, without blanks inside", &p.X, &p.Y)
			if bad == nil {
				bad = w.point(onEarth(p.Y, p.X))
			}
			if bad != nil {
				bad.Line, bad.Column = line, column-(i-from)
				return bad
			}
			from = -1
		}
		column++
		if r == '\n' {
			line, column = line+1, 1
		}
	}
	return nil
}
