package logbook

import (
	"cmp"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"example.com/tripwear/profiles/nearest"
	"example.com/tripwear/profiles/quantity"
)

// Columns are the columns of a new logbook, in their order. What a torn write
// could cut without notice stands last.
var Columns = []string{"date", "odometer", "what", "place", "zone", "value", "confirmed", "note"}

const (
	mostText     = 200           // characters of a value or a note
	mostOdometer = 3_218_688_000 // m, two million miles
	mostLegs     = 10_000        // of a trip
)

// Row is a row's fields by column.
type Row map[string]string

// Parse reads a row's fields.
func Parse(row Row) (Entry, []Fault) {
	p := parser{row: row}
	e := Entry{Note: strings.TrimSpace(strings.Join(strings.Fields(row["note"]), " "))}
	switch {
	case len(e.Note) > mostText:
		p.fault("note", "the note is too long", fmt.Sprintf("at most %d characters", mostText), "")
	case strings.ContainsFunc(e.Note, Unseen):
		p.fault("note", "the note has control characters", "text", "")
	}
	p.date(&e)
	p.odometer(&e)
	p.confirmed(&e)
	s, ok := p.what(&e)
	if !ok {
		return e, p.faults
	}
	p.place(&e, s)
	p.zone(&e, s)
	p.value(&e, s)
	return e, p.faults
}

type parser struct {
	row    Row
	faults []Fault
}

func (p *parser) fault(field, what, expected, hint string) {
	p.faults = append(p.faults, Fault{Field: field, What: what, Expected: expected, Hint: hint})
}

func (p *parser) get(field string) string { return strings.TrimSpace(p.row[field]) }

func (p *parser) date(e *Entry) {
	day, err := quantity.ParseDay(p.get("date"))
	switch {
	case p.get("date") == "":
		p.fault("date", "the date is missing", err.Expected, "")
	case err != nil:
		p.quantity("date", err)
	}
	e.Date = day
}

func (p *parser) odometer(e *Entry) {
	e.Mark = p.get("odometer")
	v, _, err := quantity.Length(0).Kind().Parse(e.Mark)
	switch {
	case e.Mark == "":
		p.fault("odometer", "the odometer is missing", "a distance such as 143900 mi", "")
	case err != nil:
		p.quantity("odometer", err)
	case v > mostOdometer:
		p.fault("odometer", fmt.Sprintf("odometer: %s is out of range", e.Mark), "0 mi to 2000000 mi", "")
	default:
		e.Odometer = quantity.Length(v)
	}
}

func (p *parser) quantity(field string, err *quantity.Error) {
	p.fault(field, field+": "+err.What, err.Expected, "")
}

func (p *parser) confirmed(e *Entry) {
	switch s := strings.ToLower(p.get("confirmed")); s {
	case "", "no":
	case "yes":
		e.Confirmed = true
	default:
		p.fault("confirmed", fmt.Sprintf("confirmed: %q is neither yes nor empty", nearest.Cut(s)), "yes, or nothing", "")
	}
}

func (p *parser) what(e *Entry) (spec, bool) {
	written := strings.ToLower(p.get("what"))
	w, ok := WordOf(written)
	switch {
	case written == "":
		p.fault("what", "the row does not say what it is about", nearest.OneOf(Words()), "")
	case !ok:
		p.fault("what", nearest.Unknown("word", written, Words()), nearest.OneOf(Words()), "")
	}
	s, _ := specOf(w)
	e.What = s.what
	return s, ok
}

// of parts a place from the part that lies aside for it.
const of = " of "

func (p *parser) place(e *Entry, s spec) {
	at, part, aside := strings.Cut(" "+p.get("place"), of)
	at = strings.TrimSpace(at)
	e.Place, e.Part = OneOf(s.places, at), strings.TrimSpace(part)
	switch {
	case aside && !s.bench:
		p.fault("place", fmt.Sprintf("a row %s is of what is on the car, not of %q", s.what, nearest.Cut(e.Part)), "a place alone", "")
	case aside && !IDForm.MatchString(e.Part):
		p.fault("place", fmt.Sprintf("%q is not a part's id", nearest.Cut(e.Part)), "a place and the part that lies aside for it, such as RF of pads-track", "")
	case aside && at == "":
		p.fault("place", fmt.Sprintf("%s of %s: no place given", s.what, e.Part), nearest.OneOf(s.places), "")
	case s.places == nil && at != "":
		p.fault("place", fmt.Sprintf("a row %s takes no place: %q", s.what, nearest.Cut(at)), "none", "")
	case at == "" && len(s.places) == 1:
		e.Place = s.places[0]
	case s.places == nil || at == "" && s.what == Inspection || e.Place != "":
	case at == "":
		p.fault("place", fmt.Sprintf("%s: no place given", s.what), nearest.OneOf(s.places), "")
	default:
		p.fault("place", fmt.Sprintf("%s cannot be at %q", s.what, nearest.Cut(at)), nearest.OneOf(s.places), "")
	}
}

func (p *parser) zone(e *Entry, s spec) {
	z := p.get("zone")
	switch known := OneOf(Zones, z); {
	case !s.zones && z != "":
		p.fault("zone", fmt.Sprintf("a row %s takes no zone: %q", s.what, nearest.Cut(z)), "none", "")
	case s.zones && z == "":
		p.fault("zone", fmt.Sprintf("%s: no zone given", s.what), nearest.OneOf(Zones), "")
	case s.zones && known == "":
		p.fault("zone", nearest.Unknown("zone", z, Zones), nearest.OneOf(Zones), "")
	case s.zones:
		e.Zone = known
	}
}

// tripForm is a trip's id, the legs of it that were driven, and how: so many
// sessions a circuit day, in the wet.
var tripForm = regexp.MustCompile(`^([A-Za-z0-9][A-Za-z0-9._-]{0,63})(?:\s+(?:legs?\s+)?(\d{1,5})(?:\s*-\s*(\d{1,5}))?)?(?:,?\s+(\d{1,2})\s+sessions?)?(,?\s+wet)?$`)

// tripLike is what a trip's row looks like.
const tripLike = "a trip's id such as spring, some of its legs such as spring 1-3, and where it went otherwise, such as spring 2, 3 sessions, wet"

// IDForm is an id: it is also a file's name.
var IDForm = regexp.MustCompile(`^[A-Za-z0-9][A-Za-z0-9._-]{0,63}$`)

func (p *parser) value(e *Entry, s spec) {
	v := p.get("value")
	e.Written = strings.Join(strings.Fields(v), " ")
	switch {
	case len(v) > mostText:
		p.fault("value", "the value is too long", fmt.Sprintf("at most %d characters", mostText), "")
	case strings.ContainsFunc(e.Written, Unseen):
		p.fault("value", "the value has control characters", "text", "")
	case v == "" && (s.what == Fitted || s.what == Replaced && e.Place != "" && !slices.Contains(Fills, e.Place)):
		p.fault("value", string(s.what)+": no part named", "its id in parts.yaml, such as pads-front", "")
	case v == "" && s.form != name && s.form != none:
		p.fault("value", fmt.Sprintf("%s: %s", s.what, s.missing()), s.expected(), "")
	case s.form == none && v != "":
		p.fault("value", fmt.Sprintf("a row %s takes no value: %q", s.what, nearest.Cut(v)), "none", "write what there is to say in the note")
	case s.form == measure:
		x, unit, err := s.kind.Within(s.least, s.most).Parse(v)
		switch {
		case err != nil:
			p.quantity("value", err)
		case x < s.least || x > s.most:
			p.fault("value", fmt.Sprintf("value: %s is out of range", e.Written), unit.Format(s.least)+" to "+unit.Format(s.most), "")
		default:
			e.Value = x
		}
	case s.form == word:
		if e.Text = OneOf(s.words, e.Written); e.Text == "" {
			near := s.words
			if len(s.finds) > 0 { // the word that looks alike may be the milder one
				near = nil
			}
			p.fault("value", nearest.Unknown("word", v, near), nearest.OneOf(s.words), "")
		}
	case s.form == name && v != "" && !IDForm.MatchString(v):
		p.fault("value", fmt.Sprintf("%q is not a part's id", nearest.Cut(v)), "its id in parts.yaml, or nothing for the same part again", "")
	case s.form == trip:
		p.trip(e)
	case s.form == number:
		n, err := strconv.Atoi(v)
		if err != nil || n < 1 || n > mostRows {
			p.fault("value", fmt.Sprintf("%q is not the number of a row", nearest.Cut(e.Written)), "a number that tripwear log show prints", "")
		}
		e.Value = float64(n)
	default:
		p.found(e, s.finds)
	}
}

// found takes what an inspection found: one of the words that mean something to
// a plan, or free text that has none of them. A cut told in a sentence would
// be kept and not heard.
func (p *parser) found(e *Entry, finds []Finding) {
	var words []string
	for _, f := range finds {
		words = append(words, string(f))
	}
	if e.Text = OneOf(words, e.Written); e.Text != "" || len(words) == 0 {
		e.Text = cmp.Or(e.Text, e.Written)
		return
	}
	e.Text = e.Written
	said := strings.Fields(e.Written)
	for _, word := range said {
		means := OneOf(words, strings.Trim(word, ",.;:!()"))
		if len(said) == 1 {
			means = cmp.Or(means, nearest.Word(word, words))
		}
		if means != "" {
			p.fault("value", fmt.Sprintf("%q speaks of %s, which is heard as a word alone", nearest.Cut(e.Written), means), nearest.OneOf(words), "the rest belongs in the note")
			return
		}
	}
}

func (p *parser) trip(e *Entry) {
	m := tripForm.FindStringSubmatch(e.Written)
	if m == nil {
		p.fault("value", fmt.Sprintf("%q is not a trip", nearest.Cut(e.Written)), tripLike, "")
		return
	}
	e.Text = m[1]
	e.First, _ = strconv.Atoi(m[2]) // no number is no leg
	e.Last = e.First
	if m[3] != "" {
		e.Last, _ = strconv.Atoi(m[3]) // five digits at most
	}
	e.Sessions, _ = strconv.Atoi(m[4])
	if e.Wet = m[5] != ""; m[4] != "" && e.Sessions == 0 {
		p.fault("value", "no session was driven", "at least one, or only the legs driven", "")
	}
	if m[2] != "" && (e.First < 1 || e.Last < e.First || e.Last > mostLegs) {
		p.fault("value", fmt.Sprintf("legs %d-%d are no part of a trip", e.First, e.Last), "the first and the last leg driven, counted from 1 as the plan does", "")
	}
}

// missing says what a row without a value leaves out.
func (s spec) missing() string {
	switch {
	case s.form == measure:
		return "no reading given"
	case s.form == trip:
		return "no trip named"
	case s.what == Repair:
		return "no part named"
	case s.form == number:
		return "no row named"
	}
	return "no finding given"
}

func (s spec) expected() string {
	switch s.form {
	case measure:
		return s.kind.Like() + ", such as " + s.like
	case word:
		return nearest.OneOf(s.words)
	case trip:
		return tripLike
	case number:
		return "a number that tripwear log show prints"
	default:
		return "what was found, in words"
	}
}

// Unseen says whether a character has no place in a line of text: a control
// character, which could move a terminal's cursor, a format character, which
// could turn the text round, or bytes that are no character.
func Unseen(r rune) bool {
	return unicode.IsControl(r) || unicode.Is(unicode.Cf, r) || r == utf8.RuneError || r == '\u2028' || r == '\u2029'
}
