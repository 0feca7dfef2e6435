package decode

import (
	"fmt"
	"reflect"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"

	"go.yaml.in/yaml/v4"

	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/nearest"
	"example.com/tripwear/profiles/quantity"
)

// Scalar is a type, other than quantity's, that is written as one value.
type Scalar interface {
	Like() string // how it is written, to complete "expected ..."
	Read(text string, f Field) *quantity.Error
}

const mostText = 200 // characters of a name or a word

func (d *Decoder) scalar(n *yaml.Node, path string, f Field) {
	name, word := title(path), strings.TrimSpace(n.Value)
	_, own := f.Value.Addr().Interface().(Scalar)
	text := f.Value.Kind() == reflect.String && !own
	switch {
	case n.Kind != yaml.ScalarNode:
		d.Fail(n, fmt.Sprintf("%s is %s", name, Form(n)), f.Like(), "")
	case Empty(n): // an item of a list; Document has reported the others
		d.Fail(n, name+" has no value", f.Like(), "")
	case f.Unknown != "" && word == quantity.UnknownWord:
		f.SetUnknown()
	case text && word == "":
		d.Fail(n, name+" is empty", f.Like(), "")
	case text && (len(word) > mostText || strings.ContainsFunc(word, logbook.Unseen)):
		d.Fail(n, name+" is too long or has line breaks or control characters", fmt.Sprintf("one line of at most %d characters", mostText), "")
	default:
		if wrong := f.read(n.Value); wrong != nil {
			d.Fail(n, name+": "+wrong.What, wrong.Expected, "")
		}
	}
}

// read sets the field from what is written, or says what is wrong with it.
func (f Field) read(text string) *quantity.Error {
	if own, ok := f.Value.Addr().Interface().(Scalar); ok {
		return own.Read(text, f)
	}
	switch v := f.Value.Interface().(type) {
	case time.Time:
		return f.date(text)
	case interface{ Kind() *quantity.Kind }:
		return f.measure(text, f.Kind(v.Kind()))
	case bool:
		if text != "true" && text != "false" {
			return &quantity.Error{What: fmt.Sprintf("%q is neither", nearest.Cut(text)), Expected: "true or false"}
		}
		f.Value.SetBool(text == "true")
		return nil
	case int:
		return f.whole(text)
	default:
		return f.text(strings.TrimSpace(text))
	}
}

// SetUnknown leaves a field without a value: a measure unknown, a date at zero.
func (f Field) SetUnknown() {
	if f.Value.CanFloat() {
		f.Value.SetFloat(quantity.Unknown())
	} else {
		f.Value.SetZero()
	}
}

// Kind is the kind of measure that a field of some kind of its own is written in.
func (f Field) Kind(own *quantity.Kind) *quantity.Kind {
	switch f.As {
	case "difference":
		return quantity.Difference
	case "signed":
		return quantity.Offset
	}
	return own
}

func (f Field) measure(text string, kind *quantity.Kind) *quantity.Error {
	if f.As == "turn" {
		turn, err := quantity.ParseTurn(text)
		if err != nil {
			return err
		}
		return f.set(text, kind, kind.Units[0], float64(turn))
	}
	value, read := text, kind
	if f.Min != "" {
		lo, hi, _ := f.bounds(kind)
		read = kind.Within(lo, hi)
	}
	if f.As == "bound" { // "<2 %", below what could be measured, counts as 2 %
		value, read = strings.TrimPrefix(strings.TrimSpace(value), "<"), read.Literal()
	}
	v, unit, err := read.Parse(value)
	if err != nil {
		return err
	}
	return f.set(text, kind, unit, v)
}

func (f Field) set(text string, kind *quantity.Kind, unit quantity.Unit, v float64) *quantity.Error {
	wrong := f.InRange(text, kind, unit, v)
	if wrong == nil {
		f.Value.SetFloat(v)
	}
	return wrong
}

// bounds is the field's range in SI units, and the unit that it is written in.
func (f Field) bounds(kind *quantity.Kind) (lo, hi float64, unit quantity.Unit) {
	lo, unit, _ = kind.Parse(f.Min) // a test parses every range
	hi, _, _ = kind.Parse(f.Max)
	return lo, hi, unit
}

// InRange says what is wrong with a measure beyond the field's range, which it
// gives in the unit that was written.
func (f Field) InRange(text string, kind *quantity.Kind, unit quantity.Unit, v float64) *quantity.Error {
	if f.Min == "" {
		return nil
	}
	lo, hi, own := f.bounds(kind)
	if lo <= v && v <= hi || hi <= v && v <= lo { // the range is turned round for L/100km
		return nil
	}
	least, most := f.Min, f.Max
	if unit != own && unit != (quantity.Unit{}) {
		least, most = unit.Format(lo), unit.Format(hi)
		if unit.Of(lo) > unit.Of(hi) {
			least, most = most, least
		}
	}
	wrong := outOfRange(text, least+" to "+most)
	switch {
	case f.Safe == "less" && v > max(lo, hi):
		wrong.Expected += "; what is safe rests on it, so it may be lowered, not raised"
	case f.Safe == "more" && v < min(lo, hi):
		wrong.Expected += "; what is safe rests on it, so it may be raised, not lowered"
	}
	return wrong
}

func outOfRange(text, expected string) *quantity.Error {
	return &quantity.Error{What: text + " is out of range", Expected: expected}
}

func (f Field) whole(text string) *quantity.Error {
	x, err := strconv.Atoi(text)
	if err != nil {
		return &quantity.Error{What: fmt.Sprintf("%q is not a whole number", nearest.Cut(text)), Expected: "a whole number from " + f.Min + " to " + f.Max}
	}
	least, _ := strconv.Atoi(f.Min) // a test parses every range
	most, _ := strconv.Atoi(f.Max)
	if x < least || x > most {
		return outOfRange(strconv.Itoa(x), f.Min+" to "+f.Max)
	}
	f.Value.SetInt(int64(x))
	return nil
}

func (f Field) date(text string) *quantity.Error {
	day, wrong := quantity.ParseDay(text)
	if wrong == nil {
		f.Value.Set(reflect.ValueOf(day))
	}
	return wrong
}

// forms are the ways to write a text of one kind, by the word of the tag "as".
var forms = map[string]struct {
	like           *regexp.Regexp
	name, expected string
}{
	"id":   {logbook.IDForm, "an id", "letters, digits, dots and dashes, such as tires-rear"},
	"mark": {regexp.MustCompile(`^[0-9a-f]{8}$`), "a car's mark", "eight digits from 0 to f, as tripwear learn --share writes them"},
	// SAE J300.
	"grade": {regexp.MustCompile(`^(SAE )?([0-9]{1,2}W(-[0-9]{1,2})?|[0-9]{1,2})$`), "a grade", "an SAE J300 grade such as 5W-40"},
	// ISO 4000-1's designation of a metric tire, with or without what follows it.
	"size": {
		regexp.MustCompile(`^P?[0-9]{3}/[0-9]{2} ?Z?R ?[0-9]{2}( .{1,20})?$`), "the size of a tire",
		"the size on the sidewall, such as 205/50R16",
	},
	// The end of the code on a tire's sidewall: two digits of the week and two
	// of the year (49 CFR 574.5, since 2000).
	"week": {
		regexp.MustCompile(`^(0[1-9]|[1-4][0-9]|5[0-3])[0-9]{2}$`), "a week code",
		"the week and the year on the sidewall, such as 2324 for week 23 of 2024",
	},
}

func (f Field) text(s string) *quantity.Error {
	if word := logbook.OneOf(f.Words, s); word != "" {
		s = word
	} else if len(f.Words) > 0 && f.As != "finding" {
		what := nearest.Unknown("word", s, f.Words)
		if wheels := map[string]string{"front": "LF, RF", "rear": "LR, RR"}[s]; wheels != "" && slices.Contains(f.Words, "LF") {
			what += fmt.Sprintf(" (its wheels are %s)", wheels)
		}
		return &quantity.Error{What: what, Expected: nearest.OneOf(f.Words)}
	}
	if form, ok := forms[f.As]; ok && !form.like.MatchString(s) {
		return &quantity.Error{What: fmt.Sprintf("%q is not %s", nearest.Cut(s), form.name), Expected: form.expected}
	}
	f.Value.SetString(s)
	return nil
}
