package trace

import (
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
	"time"
)

// GPX reads the recorded tracks of a GPX 1.1 file (1.0 has the same ones),
// which may hold several tracks and segments; routes and waypoints are no
// recordings. Source of the format: the published schema GPX 1.1, topografix.com/GPX/1/1.
//
// The file is streamed: memory goes with the fixes, not with the text around
// them. A document type, which could define entities that grow, is refused.
func GPX(r io.Reader) (*Trace, error) { return readGPX(r, usual) }

func readGPX(r io.Reader, most bounds) (*Trace, error) {
	d := xml.NewDecoder(&limited{r, most.bytes})
	g := gpxReader{builder: builder{bounds: most}, d: d, line: 1, column: 1}
	for {
		// Raw tokens: what they name is checked here, without name spaces.
		token, err := d.RawToken()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return nil, g.syntax(err)
		}
		if bad := g.token(token); bad != nil {
			if bad.Line == 0 {
				bad.Line, bad.Column = g.line, g.column
			}
			return nil, bad
		}
		g.line, g.column = d.InputPos()
	}
	switch {
	case !g.rooted:
		return nil, &Error{What: "the file holds no XML", Expected: "a GPX file"}
	case len(g.open) > 0:
		return nil, g.at(fmt.Sprintf("the file ends inside <%s>", short(g.open[len(g.open)-1])), "the whole file", "copy it from the recorder again")
	case !g.track && g.route:
		return nil, &Error{What: "the file holds a route and no recorded track", Expected: "a track (trk) with times", Hint: "export the activity as recorded, not the course"}
	}
	return g.done()
}

// deepest is how deep elements may nest; GPX itself needs six.
const deepest = 64

type gpxReader struct {
	builder
	d            *xml.Decoder
	line, column int // of the token in hand
	open         []string
	rooted       bool
	route        bool
	track        bool // a trkpt was read

	inPoint     int // depth of the open trkpt, 0 where none is
	point       Fix
	timed       bool
	pointLine   int
	pointColumn int
	text        []byte
	wanted      bool // the text of the element in hand is wanted
}

func (g *gpxReader) at(what, expected, hint string) *Error {
	return &Error{g.line, g.column, what, expected, hint}
}

func (g *gpxReader) token(token xml.Token) *Error {
	switch t := token.(type) {
	case xml.Directive:
		return g.at("a document type definition", "a plain GPX file", "GPX needs none: delete the <!...> line")
	case xml.StartElement:
		return g.start(t)
	case xml.EndElement:
		return g.end(t.Name.Local)
	case xml.CharData:
		if g.wanted {
			if len(g.text)+len(t) > 200 {
				return g.at("a value of more than 200 characters", "a time or a number", "")
			}
			g.text = append(g.text, t...)
		}
	}
	return nil
}

func (g *gpxReader) start(t xml.StartElement) *Error {
	name := t.Name.Local
	switch {
	case len(g.open) >= deepest:
		return g.at("elements nested too deep", fmt.Sprintf("at most %d levels", deepest), "")
	case len(g.open) == 0 && g.rooted:
		return g.at(fmt.Sprintf("a second document <%s>", short(name)), "one document in a file", "")
	case len(g.open) == 0 && name != "gpx":
		return g.at(fmt.Sprintf("the file is <%s>", short(name)), "<gpx>", "export the track as GPX")
	}
	g.rooted = true
	g.open = append(g.open, name)
	if len(g.open) == 1 {
		for _, a := range t.Attr {
			if a.Name.Local == "version" && a.Name.Space == "" && a.Value != "1.1" && a.Value != "1.0" {
				return g.at(fmt.Sprintf("GPX version %q", short(a.Value)), "1.1", "")
			}
		}
	}
	g.wanted = false
	switch depth := len(g.open); {
	case name == "rtept":
		g.route = true
	case name == "trkseg":
		g.gap = true
	case name == "trkpt":
		if g.inPoint > 0 {
			return g.at("a trkpt inside a trkpt", "one after the other", "")
		}
		return g.startPoint(t)
	case g.inPoint > 0 && depth == g.inPoint+1 && (name == "time" || name == "ele" || name == "speed"):
		g.text, g.wanted = g.text[:0], true
	}
	return nil
}

func (g *gpxReader) startPoint(t xml.StartElement) *Error {
	g.inPoint = len(g.open)
	g.pointLine, g.pointColumn = g.line, g.column
	g.timed = false
	g.point = Fix{Lat: math.NaN(), Lon: math.NaN(), Elevation: math.NaN(), Speed: math.NaN()}
	for _, a := range t.Attr {
		var to *float64
		switch a.Name.Local {
		case "lat":
			to = &g.point.Lat
		case "lon":
			to = &g.point.Lon
		default:
			continue
		}
		v, err := strconv.ParseFloat(strings.TrimSpace(a.Value), 64)
		if err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
			return g.at(fmt.Sprintf("%s %q is no number", a.Name.Local, short(a.Value)), "degrees such as 50.1234567", "")
		}
		*to = v
		most := 180.0
		if a.Name.Local == "lat" {
			most = 90
		}
		if bad := degrees(a.Name.Local, v, most); bad != nil {
			return bad
		}
	}
	if math.IsNaN(g.point.Lat) || math.IsNaN(g.point.Lon) {
		return g.at("a trkpt without lat and lon", `<trkpt lat="..." lon="...">`, "")
	}
	return nil
}

func (g *gpxReader) end(name string) *Error {
	depth := len(g.open)
	if depth == 0 || g.open[depth-1] != name {
		return g.at(fmt.Sprintf("</%s> closes nothing", short(name)), "elements that close in order", "the file is damaged: copy it from the recorder again")
	}
	g.open = g.open[:depth-1]
	if g.wanted {
		g.wanted = false
		return g.value(name, strings.TrimSpace(string(g.text)))
	}
	if depth != g.inPoint {
		return nil
	}
	g.inPoint = 0
	g.track = true
	if !g.timed {
		return &Error{g.pointLine, g.pointColumn, "a trkpt without a time", "<time> in every one", "a planned course has no times, and neither have some exports: export the activity as recorded"}
	}
	if bad := g.add(g.point); bad != nil {
		bad.Line, bad.Column = g.pointLine, g.pointColumn
		return bad
	}
	return nil
}

// value takes the text of an element of a trkpt.
func (g *gpxReader) value(name, text string) *Error {
	if name == "time" {
		at, ok := dateTime(text)
		if !ok {
			return g.at(fmt.Sprintf("time %q", short(text)), "a date and time such as 2027-05-13T09:30:00Z", "")
		}
		g.point.Time, g.timed = at, true
		return nil
	}
	v, err := strconv.ParseFloat(text, 64)
	if err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
		return g.at(fmt.Sprintf("%s %q is no number", name, short(text)), "a number", "")
	}
	switch {
	case name == "ele":
		g.point.Elevation = v
	case v >= 0:
		g.point.Speed = v // GPX 1.0, m/s; some write -1 for none
	}
	return nil
}

// dateTime reads an xsd:dateTime into seconds since 1970; without a zone it is UTC.
func dateTime(s string) (float64, bool) {
	t, err := time.Parse(time.RFC3339Nano, s)
	if err != nil {
		if t, err = time.Parse("2006-01-02T15:04:05.999999999", s); err != nil {
			return 0, false
		}
	}
	if t.Year() < 1980 || t.Year() > 2200 { // before there were satellites, or nonsense
		return 0, false
	}
	return float64(t.Unix()) + float64(t.Nanosecond())/1e9, true
}

// syntax reports what the decoder could not read.
func (g *gpxReader) syntax(err error) *Error {
	line, column := g.d.InputPos()
	var bad *xml.SyntaxError
	switch {
	case errors.Is(err, errLong):
		return g.tooLarge()
	case errors.As(err, &bad) && bad.Msg == "unexpected EOF":
		return &Error{line, column, "the file ends before its elements do", "a whole GPX file", "the file is damaged: copy it from the recorder again"}
	case errors.As(err, &bad):
		return &Error{line, column, "not readable as XML: " + short(bad.Msg), "", "the file is damaged: copy it from the recorder again"}
	case strings.Contains(err.Error(), "encoding"):
		return &Error{line, column, "the file says that it is not in UTF-8", "UTF-8", "save the file in UTF-8 encoding"}
	}
	return &Error{line, column, "not readable: " + short(err.Error()), "", ""}
}
