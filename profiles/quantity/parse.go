package quantity

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"example.com/tripwear/profiles/nearest"
)

// Error says what was wrong with a written measure. Expected completes
// "expected ...", and may be empty where What says it all.
type Error struct {
	What, Expected string
}

func (e *Error) Error() string {
	if e.Expected == "" {
		return e.What
	}
	return e.What + ", expected " + e.Expected
}

// Parse reads a measure in SI, or in degrees Celsius for a temperature.
func Parse[T Measured](s string) (T, error) {
	var zero T
	v, _, err := zero.Kind().Parse(s)
	if err != nil {
		return 0, err
	}
	return T(v), nil
}

// Parse reads a measure of the kind and tells the unit it was written in. The
// unit of a plain number, and of a duration written m:ss, is the zero Unit.
func (k *Kind) Parse(s string) (float64, Unit, *Error) {
	s = strings.TrimSpace(s)
	if k.clock && strings.Contains(s, ":") {
		v, err := clock(s)
		return v, Unit{}, err
	}
	digits, name := split(s)
	x, err := k.number(s, digits, name)
	if err != nil {
		return 0, Unit{}, err
	}
	unit, err := k.unit(digits, name, x)
	if err != nil {
		return 0, Unit{}, err
	}
	if strings.Contains(digits, "/") && !k.fractions {
		return 0, Unit{}, &Error{fmt.Sprintf("%q is a fraction", s), "a decimal number (fractions are for lengths, such as 6/32 in)"}
	}
	if x < 0 && !k.Signed {
		return 0, Unit{}, &Error{fmt.Sprintf("%s is negative", s), k.a() + " of 0 or more"}
	}
	v := x
	if unit.scale != 0 {
		if unit.inverse && x == 0 {
			return 0, Unit{}, &Error{fmt.Sprintf("%s is not possible", s), "more than 0 " + unit.Name}
		}
		v = unit.SI(x)
	}
	if math.IsInf(v, 0) {
		return 0, Unit{}, &Error{fmt.Sprintf("%s is too large", s), k.Like()}
	}
	if k.absolute && v < absoluteZero {
		return 0, Unit{}, &Error{fmt.Sprintf("%s is below absolute zero", s), "-273.15 C or more"}
	}
	return v, unit, nil
}

// split parts the number from the unit. A slash belongs to the number only
// between two digits.
func split(s string) (digits, unit string) {
	i := 0
	for i < len(s) {
		c := s[i]
		slash := c == '/' && i > 0 && isDigit(s[i-1]) && i+1 < len(s) && isDigit(s[i+1])
		if !isDigit(c) && !strings.ContainsRune("+-.,_", rune(c)) && !slash {
			break
		}
		i++
	}
	return s[:i], strings.TrimSpace(s[i:])
}

func isDigit(c byte) bool { return '0' <= c && c <= '9' }

// number reads the number of a measure; s is the whole, for messages.
func (k *Kind) number(s, digits, unit string) (float64, *Error) {
	switch {
	case s == "":
		return 0, &Error{"the value is empty", k.Like()}
	case digits == "":
		return 0, &Error{fmt.Sprintf("%q is not a number", s), k.Like()}
	case strings.ContainsAny(digits, ",_"):
		return 0, &Error{fmt.Sprintf("%q has a comma or underscore in its number", short(s)), "a decimal point and no separators" + k.pointed(digits, unit)}
	case len(unit) > 1 && strings.ContainsRune("eExXpPoObB", rune(unit[0])) && (isDigit(unit[1]) || len(unit) > 2 && strings.ContainsRune("+-", rune(unit[1])) && isDigit(unit[2])):
		return 0, &Error{fmt.Sprintf("%q is not a plain decimal number", s), k.Like()}
	}
	over, under, fraction := strings.Cut(digits, "/")
	x, err := decimal(over)
	if err == nil && fraction {
		var d float64
		if d, err = decimal(under); err == nil && d == 0 {
			return 0, &Error{fmt.Sprintf("%q divides by zero", s), k.Like()}
		}
		x /= d
	}
	if err != nil {
		if e, ok := err.(*strconv.NumError); ok && e.Err == strconv.ErrRange {
			return 0, &Error{fmt.Sprintf("%q is too large", short(s)), k.Like()}
		}
		return 0, &Error{fmt.Sprintf("%q is not a number", s), k.Like()}
	}
	return x, nil
}

// short cuts a value that is too long to repeat.
func short(s string) string {
	if len(s) > 40 {
		return s[:37] + "..."
	}
	return s
}

// decimal is strconv.ParseFloat for digits that split let through, which
// leaves out exponents, hexadecimals, NaN and Inf.
func decimal(s string) (float64, error) { return strconv.ParseFloat(s, 64) }

// unit finds the unit of a number by its name.
func (k *Kind) unit(digits, name string, x float64) (Unit, *Error) {
	if len(k.Units) == 0 {
		if name != "" {
			return Unit{}, &Error{fmt.Sprintf("%q has a unit", digits+" "+name), k.a() + " without a unit, such as " + strings.TrimSuffix(digits, ".")}
		}
		return Unit{}, nil
	}
	if name == "" {
		return Unit{}, &Error{fmt.Sprintf("%s has no unit: write %s", digits, k.suggestion(digits, x)), ""}
	}
	if i := slices.IndexFunc(k.Units, func(u Unit) bool { return u.Name == name }); i >= 0 {
		return k.Units[i], nil
	}
	if i := slices.IndexFunc(k.Units, func(u Unit) bool { return u.named(name) }); i >= 0 {
		return k.Units[i], nil
	}
	names := k.names()
	return Unit{}, &Error{fmt.Sprintf("unknown unit %q", short(name)) + nearest.Meant(name, names), nearest.OneOf(names)}
}

// Thousands set apart, and a decimal comma: some numbers may be either.
var (
	thousands    = regexp.MustCompile(`^[+-]?[1-9]\d{0,2}([,_]\d{3})+(\.\d+)?$`)
	decimalComma = regexp.MustCompile(`^[+-]?(\d+|\d{1,3}(\.\d{3})+),\d+(/\d+)?$`)
)

// pointed ends a message with what a number with separators may be, once it is
// written with a point: ": write 7.4 mm".
func (k *Kind) pointed(digits, unit string) string {
	var may []string
	if thousands.MatchString(digits) {
		may = append(may, strings.NewReplacer(",", "", "_", "").Replace(digits))
	}
	if decimalComma.MatchString(digits) {
		may = append(may, strings.NewReplacer(",", ".", ".", "").Replace(digits))
	}
	for i, number := range may {
		may[i] = strings.TrimSpace(number + " " + unit)
		if x, err := decimal(number); err == nil && unit == "" && len(k.Units) > 0 {
			may[i] = k.suggestion(number, x)
		}
	}
	if len(may) == 0 {
		return ", such as 1234.5"
	}
	return ": write " + strings.Join(may, " or ")
}

func (k *Kind) suggestion(digits string, x float64) string {
	if k.fractions && strings.Contains(digits, "/") {
		return digits + " in"
	}
	if k.Name == shares.Name && !k.literal && x > 0 && x < 1 {
		return strconv.FormatFloat(100*x, 'g', 4, 64) + " %"
	}
	first := func(u Unit) bool { return slices.Contains(k.suggest, u.Name) }
	second := func(u Unit) bool { return k.most != 0 && !first(u) }
	for _, eligible := range []func(Unit) bool{first, second} {
		var all []string
		for _, u := range k.Units {
			v := u.SI(x)
			if eligible(u) && (k.least == 0 && k.most == 0 || k.least <= v && v <= k.most) {
				all = append(all, digits+" "+u.Name)
			}
		}
		if len(all) > 0 {
			return strings.Join(all, " or ")
		}
	}
	return digits + " with " + nearest.OneOf(k.names())
}

func (k *Kind) names() []string {
	names := make([]string, len(k.Units))
	for i, u := range k.Units {
		names[i] = u.Name
	}
	return names
}

// Like says what the kind looks like, for messages: "a mass in kg, lb, g or t".
func (k *Kind) Like() string {
	if len(k.Units) == 0 {
		return "a plain number"
	}
	return k.a() + " in " + nearest.OneOf(k.names())
}

// a is the kind's name with its article: "a mass", "an area".
func (k *Kind) a() string {
	if strings.ContainsRune("aeiou", rune(k.Name[0])) {
		return "an " + k.Name
	}
	return "a " + k.Name
}
