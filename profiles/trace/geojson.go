package trace

import (
	"errors"
	"fmt"
	"io"

	"github.com/go-json-experiment/json/jsontext"
)

// readGeoJSON reads the lines and the rings of a GeoJSON object as a map, named
// by the property name of their feature. GeoJSON has no times. Source of the
// format: RFC 7946; a position is longitude, latitude and, if given, height.
func readGeoJSON(r io.Reader, most bounds) (*File, error) {
	t := &tally{r: most.limit(r, ',')}
	g := geojson{builder: builder{bounds: most}, d: jsontext.NewDecoder(t)}
	t.consumed = g.d.InputOffset
	err := g.object()
	if err == nil {
		if _, err = g.d.ReadToken(); errors.Is(err, io.EOF) {
			return g.done("GeoJSON")
		} else if err == nil {
			err = &Error{What: "a second document", Expected: "one document in a file"}
		}
	}
	var bad *Error
	var syntax *jsontext.SyntacticError
	if errors.As(err, &syntax) {
		t.consumed = func() int64 { return syntax.ByteOffset }
	}
	line, column := t.position()
	switch {
	case errors.As(err, &bad):
		bad.Line, bad.Column = line, column
		return nil, bad
	case g.stopped(err) != nil:
		return nil, g.stopped(err)
	case errors.Is(err, io.ErrUnexpectedEOF):
		return nil, &Error{line, column, "the file ends inside an object or a list", "the whole file", "copy it again from where it came"}
	case syntax != nil:
		return nil, &Error{line, column, "not readable as JSON: " + short(syntax.Err.Error()), "", "the file is damaged: export it again"}
	}
	return nil, &Error{What: "not readable: " + short(err.Error())}
}

type geojson struct {
	builder
	d     *jsontext.Decoder
	depth int // of objects
}

// object reads a GeoJSON object of any type.
func (g *geojson) object() error {
	if g.depth++; g.depth > deepest {
		return &Error{What: "objects nested too deep", Expected: fmt.Sprintf("at most %d levels", deepest)}
	}
	defer func() { g.depth-- }()
	if kind := g.d.PeekKind(); kind != '{' {
		return g.d.SkipValue() // null where a feature has no geometry
	}
	first := len(g.lines)
	var kind, name string
	err := g.members(func(key string) (err error) {
		switch key {
		case "type":
			kind, err = g.text()
		case "features", "geometries":
			err = g.elements(g.object)
		case "geometry":
			err = g.object()
		case "coordinates":
			_, _, err = g.coordinates(0)
		case "properties":
			name, err = g.title()
		default:
			err = g.d.SkipValue()
		}
		return err
	})
	switch {
	case err != nil:
		return err
	case kind == "":
		return &Error{What: "an object without a type", Expected: "a GeoJSON FeatureCollection, Feature or geometry"}
	case kind == "Point" || kind == "MultiPoint":
		g.lines = g.lines[:first] // as many places, which no line joins
	}
	for i := first; i < len(g.lines) && name != ""; i++ {
		g.lines[i].Name = name
	}
	return nil
}

// title is the name among the properties of a feature.
func (g *geojson) title() (name string, err error) {
	if g.d.PeekKind() != '{' {
		return "", g.d.SkipValue()
	}
	err = g.members(func(key string) (err error) {
		if key != "name" {
			return g.d.SkipValue()
		}
		name, err = g.text()
		return err
	})
	return name, err
}

// coordinates reads a position, or lists of them to any depth, and says
// whether it was a position. The list around positions is a line.
func (g *geojson) coordinates(depth int) (p Point, position bool, err error) {
	if kind := g.d.PeekKind(); kind == 0 {
		_, err := g.d.ReadToken() // says why there is none
		return p, false, err
	} else if kind != '[' || depth > 4 {
		return p, false, &Error{What: "coordinates that are no list of positions", Expected: "positions such as [8.1234567, 50.1234567]"}
	}
	var at [2]float64
	numbers, begun := 0, false
	err = g.elements(func() error {
		if g.d.PeekKind() == '0' {
			token, err := g.d.ReadToken()
			if err == nil && numbers < len(at) {
				at[numbers], err = token.Float()
			}
			numbers++
			return err
		}
		inner, position, err := g.coordinates(depth + 1)
		if err != nil || !position {
			return err
		}
		if !begun {
			if bad := g.line("", false); bad != nil {
				return bad
			}
			begun = true
		}
		if bad := g.point(inner); bad != nil {
			return bad
		}
		return nil
	})
	if err != nil || numbers == 0 {
		return p, false, err
	}
	bad := degrees("lon", at[0], mostLon)
	if bad == nil {
		bad = degrees("lat", at[1], mostLat)
	}
	switch {
	case numbers < 2 || begun:
		return p, false, &Error{What: "a position of one number", Expected: "longitude and latitude"}
	case bad != nil:
		bad.Hint = "GeoJSON is in degrees, longitude first"
		return p, false, bad
	}
	return onEarth(at[1], at[0]), true, nil
}

// members reads an object; each reads the value of a key.
func (g *geojson) members(each func(key string) error) error {
	return g.between('}', func() error {
		key, err := g.text()
		if err != nil {
			return err
		}
		return each(key)
	})
}

// elements reads a list; each reads an element.
func (g *geojson) elements(each func() error) error {
	if g.d.PeekKind() != '[' {
		return g.d.SkipValue()
	}
	return g.between(']', each)
}

// between reads from the open bracket in hand to the one that closes it.
func (g *geojson) between(last jsontext.Kind, each func() error) error {
	if _, err := g.d.ReadToken(); err != nil {
		return err
	}
	for g.d.PeekKind() != last {
		if err := each(); err != nil {
			return err
		}
	}
	_, err := g.d.ReadToken()
	return err
}

// text reads a string; another value is none.
func (g *geojson) text() (string, error) {
	if g.d.PeekKind() != '"' {
		return "", g.d.SkipValue()
	}
	token, err := g.d.ReadToken()
	if err != nil {
		return "", err
	}
	return token.String(), nil
}
