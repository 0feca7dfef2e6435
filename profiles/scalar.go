package profiles

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

const mostText = 200 // characters of a name or a word

func (d *decoder) scalar(n *yaml.Node, path string, f field) {
	name := title(path)
	if n.Kind != yaml.ScalarNode {
		d.fail(n, fmt.Sprintf("%s is %s", name, form(n)), f.expected(), "")
		return
	}
	if n.Tag == "!!null" { // an item of a list; inspect has reported the others
		d.fail(n, name+" has no value", f.expected(), "")
		return
	}
	if f.unknown != "" && strings.TrimSpace(n.Value) == quantity.UnknownWord {
		f.setUnknown()
		return
	}
	switch v := f.value.Interface().(type) {
	case time.Time:
		d.date(n, name, f)
	case Sessions:
		count, each, err := quantity.ParseSessions(n.Value)
		switch {
		case err != nil:
			d.bad(n, name, err)
		case count > 20 || each < 300 || each > 8*3600:
			d.fail(n, fmt.Sprintf("%s: %s is out of range", name, n.Value), "1 to 20 sessions of 5 min to 8 h", "")
		default:
			f.value.Set(reflect.ValueOf(Sessions{count, each}))
		}
	case toe:
		d.toe(n, name, f)
	case interface{ Kind() *quantity.Kind }:
		d.measure(n, name, f, f.kind(v))
	case bool:
		if n.Value != "true" && n.Value != "false" {
			d.fail(n, fmt.Sprintf("%s: %q is neither", name, nearest.Cut(n.Value)), "true or false", "")
			return
		}
		f.value.SetBool(n.Value == "true")
	case int:
		d.whole(n, name, f)
	default:
		d.text(n, name, f)
	}
}

// setUnknown leaves a field without a value: a measure unknown, a date at zero.
func (f field) setUnknown() {
	if f.value.CanFloat() {
		f.value.SetFloat(quantity.Unknown())
	} else {
		f.value.SetZero()
	}
}

func (d *decoder) bad(n *yaml.Node, name string, err error) {
	if e, ok := err.(*quantity.Error); ok {
		d.fail(n, name+": "+e.What, e.Expected, "")
	}
}

func (f field) kind(v interface{ Kind() *quantity.Kind }) *quantity.Kind {
	switch f.as {
	case "difference":
		return quantity.Difference
	case "signed":
		return quantity.Offset
	}
	return v.Kind()
}

func (d *decoder) measure(n *yaml.Node, name string, f field, kind *quantity.Kind) {
	if f.as == "turn" {
		turn, err := quantity.ParseTurn(n.Value)
		if err != nil {
			d.bad(n, name, err)
		} else if d.inRange(n, name, f, kind, kind.Units[0], float64(turn)) {
			f.value.SetFloat(float64(turn))
		}
		return
	}
	value, read := n.Value, kind
	if f.min != "" {
		lo, hi, _ := f.bounds(kind)
		read = kind.Within(lo, hi)
	}
	if f.as == "bound" { // "<2 %", below what could be measured, counts as 2 %
		value, read = strings.TrimPrefix(strings.TrimSpace(value), "<"), read.Literal()
	}
	v, unit, err := read.Parse(value)
	if err != nil {
		d.bad(n, name, err)
	} else if d.inRange(n, name, f, kind, unit, v) {
		f.value.SetFloat(v)
	}
}

func (d *decoder) inRange(n *yaml.Node, name string, f field, kind *quantity.Kind, unit quantity.Unit, v float64) bool {
	least, most, ok := f.limits(kind, unit, v)
	if !ok {
		d.fail(n, fmt.Sprintf("%s: %s is out of range", name, n.Value), least+" to "+most, "")
	}
	return ok
}

// bounds is the field's range in SI units, and the unit that it is written in.
func (f field) bounds(kind *quantity.Kind) (lo, hi float64, unit quantity.Unit) {
	lo, unit, _ = kind.Parse(f.min) // a test parses every range
	hi, _, _ = kind.Parse(f.max)
	return lo, hi, unit
}

// limits checks a measure against the field's range, which it gives in the
// unit that was written.
func (f field) limits(kind *quantity.Kind, unit quantity.Unit, v float64) (least, most string, ok bool) {
	if f.min == "" {
		return "", "", true
	}
	lo, hi, own := f.bounds(kind)
	if lo <= v && v <= hi || hi <= v && v <= lo { // the range is turned round for L/100km
		return "", "", true
	}
	if unit == own || unit == (quantity.Unit{}) {
		return f.min, f.max, false
	}
	least, most = unit.Format(lo), unit.Format(hi)
	if unit.Of(lo) > unit.Of(hi) {
		least, most = most, least
	}
	return least, most, false
}

func (d *decoder) whole(n *yaml.Node, name string, f field) {
	x, err := strconv.Atoi(n.Value)
	if err != nil {
		d.fail(n, fmt.Sprintf("%s: %q is not a whole number", name, nearest.Cut(n.Value)), "a whole number from "+f.min+" to "+f.max, "")
		return
	}
	least, _ := strconv.Atoi(f.min) // a test parses every range
	most, _ := strconv.Atoi(f.max)
	if x < least || x > most {
		d.fail(n, fmt.Sprintf("%s: %d is out of range", name, x), f.min+" to "+f.max, "")
		return
	}
	f.value.SetInt(int64(x))
}

func (d *decoder) date(n *yaml.Node, name string, f field) {
	t, err := time.Parse(time.DateOnly, n.Value)
	if err != nil || t.Year() < 1950 || t.Year() > 2200 {
		d.fail(n, fmt.Sprintf("%s: %q is not a date", name, nearest.Cut(n.Value)), "year-month-day such as 2026-04-02", "")
		return
	}
	f.value.Set(reflect.ValueOf(t))
}

// idForm is an id: it is also a file's name.
var idForm = regexp.MustCompile(`^[A-Za-z0-9][A-Za-z0-9._-]{0,63}$`)

// gradeForm is an oil's grade as SAE J300 writes it.
var gradeForm = regexp.MustCompile(`^(SAE )?([0-9]{1,2}W(-[0-9]{1,2})?|[0-9]{1,2})$`)

// weekForm is the end of the code on a tire's sidewall: two digits of the week
// and two of the year (49 CFR 574.5, since 2000).
var weekForm = regexp.MustCompile(`^(0[1-9]|[1-4][0-9]|5[0-3])[0-9]{2}$`)

func (d *decoder) text(n *yaml.Node, name string, f field) {
	s := strings.TrimSpace(n.Value)
	switch {
	case s == "":
		d.fail(n, name+" is empty", f.expected(), "")
		return
	case len(s) > mostText || strings.ContainsFunc(s, logbook.Unseen):
		d.fail(n, name+" is too long or has line breaks or control characters", fmt.Sprintf("one line of at most %d characters", mostText), "")
		return
	case len(f.words) > 0 && f.as != "finding" && !slices.Contains(f.words, s):
		d.fail(n, name+": "+nearest.Unknown("word", s, f.words), nearest.OneOf(f.words), "")
		return
	case f.as == "grade" && !gradeForm.MatchString(s):
		d.fail(n, fmt.Sprintf("%s: %q is not a grade", name, nearest.Cut(s)), "an SAE J300 grade such as 5W-40", "")
		return
	case f.as == "week" && !weekForm.MatchString(s):
		d.fail(n, fmt.Sprintf("%s: %q is not a week code", name, nearest.Cut(s)), "the week and the year on the sidewall, such as 2324 for week 23 of 2024", "")
		return
	case f.as == "id" && !idForm.MatchString(s):
		d.fail(n, fmt.Sprintf("%s: %q is not an id", name, nearest.Cut(s)), "letters, digits, dots and dashes, such as tires-rear", "")
		return
	}
	f.value.SetString(s)
}
