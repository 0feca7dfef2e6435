package trace

import (
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"strings"
)

// xmlForm is a format written in XML: it is told of the elements as they come,
// and of the text of those it asked for.
type xmlForm interface {
	name() string
	start(w *walker, t xml.StartElement) *Error
	end(w *walker, name, text string, asked bool) *Error
}

// roots are the formats by their outermost element.
var roots = map[string]func() xmlForm{
	"gpx":                    func() xmlForm { return &gpx{} },
	"kml":                    func() xmlForm { return &kml{} },
	"TrainingCenterDatabase": func() xmlForm { return &tcx{} },
}

// walker streams XML: memory goes with the fixes, not with the text around
// them. A document type, which could define entities that grow, is refused.
type walker struct {
	builder
	d            *xml.Decoder
	form         xmlForm
	line, column int // of the token in hand
	open         []string
	text         []byte
	wanted       int  // most characters of the text of the element in hand, 0 where it is not wanted
	cut          bool // what is longer may be cut
	began        struct{ line, column int }
}

// deepest is how deep elements may nest; the formats themselves need a dozen.
const deepest = 64

func readXML(r io.Reader, most bounds) (*File, error) {
	d := xml.NewDecoder(most.limit(r, '<'))
	w := walker{builder: builder{bounds: most}, d: d, line: 1, column: 1}
	for {
		// Raw tokens: what they name is checked here, without name spaces.
		token, err := d.RawToken()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return nil, w.syntax(err)
		}
		if bad := w.token(token); bad != nil {
			if bad.Line == 0 {
				bad.Line, bad.Column = w.line, w.column
			}
			return nil, bad
		}
		w.line, w.column = d.InputPos()
	}
	switch {
	case w.form == nil:
		return nil, unknown("the file holds no XML")
	case len(w.open) > 0:
		return nil, w.at(fmt.Sprintf("the file ends inside <%s>", short(w.parent())), "the whole file", "copy it from the recorder again")
	}
	return w.done(w.form.name())
}

// want asks for the text of the element that starts; value is what fits one,
// and a name may be cut.
func (w *walker) want(most int, cut bool) { w.text, w.wanted, w.cut = w.text[:0], most, cut }

const value = 200

// parent is the innermost open element, "" where none is.
func (w *walker) parent() string { return w.above(1) }

// above is the open element so many levels up.
func (w *walker) above(levels int) string {
	if n := len(w.open) - levels; n >= 0 {
		return w.open[n]
	}
	return ""
}

func (w *walker) at(what, expected, hint string) *Error {
	return &Error{w.line, w.column, what, expected, hint}
}

func (w *walker) token(token xml.Token) *Error {
	switch t := token.(type) {
	case xml.Directive:
		return w.at("a document type definition", "a plain GPX, KML or TCX file", "they need none: delete the <!...> line")
	case xml.StartElement:
		return w.start(t)
	case xml.EndElement:
		return w.end(t.Name.Local)
	case xml.CharData:
		if w.wanted == 0 {
			return nil
		}
		if len(w.text) == 0 {
			w.began.line, w.began.column = w.line, w.column
		}
		if room := w.wanted - len(w.text); len(t) > room {
			if !w.cut {
				return w.at(fmt.Sprintf("a value of more than %d characters", w.wanted), "a time or a number", "")
			}
			t = t[:room]
		}
		w.text = append(w.text, t...)
	}
	return nil
}

func (w *walker) start(t xml.StartElement) *Error {
	name := t.Name.Local
	switch {
	case len(w.open) >= deepest:
		return w.at("elements nested too deep", fmt.Sprintf("at most %d levels", deepest), "")
	case len(w.open) == 0 && w.form != nil:
		return w.at(fmt.Sprintf("a second document <%s>", short(name)), "one document in a file", "")
	case len(w.open) == 0 && roots[name] == nil:
		return w.at(fmt.Sprintf("the file is <%s>", short(name)), "<gpx>, <kml> or <TrainingCenterDatabase>", "export the track or the map as GPX, KML or TCX")
	case len(w.open) == 0:
		w.form = roots[name]()
	}
	w.wanted = 0
	if bad := w.form.start(w, t); bad != nil {
		return bad
	}
	w.open = append(w.open, name)
	return nil
}

func (w *walker) end(name string) *Error {
	if w.parent() != name || name == "" {
		return w.at(fmt.Sprintf("</%s> closes nothing", short(name)), "elements that close in order", "the file is damaged: copy it from the recorder again")
	}
	w.open = w.open[:len(w.open)-1]
	if w.wanted == 0 {
		return w.form.end(w, name, "", false)
	}
	w.wanted = 0
	return w.form.end(w, name, strings.TrimSpace(string(w.text)), true)
}

// syntax reports what the decoder could not read.
func (w *walker) syntax(err error) *Error {
	if bad := w.stopped(err); bad != nil {
		return bad
	}
	const damaged = "the file is damaged: copy it from the recorder again"
	line, column := w.d.InputPos()
	var bad *xml.SyntaxError
	switch {
	case errors.As(err, &bad) && bad.Msg == "unexpected EOF":
		return &Error{line, column, "the file ends before its elements do", "the whole file", damaged}
	case errors.As(err, &bad):
		return &Error{line, column, "not readable as XML: " + short(bad.Msg), "", damaged}
	case strings.Contains(err.Error(), "encoding"):
		return &Error{line, column, "the file says that it is not in UTF-8", "UTF-8", "save the file in UTF-8 encoding"}
	}
	return &Error{line, column, "not readable: " + short(err.Error()), "", ""}
}
