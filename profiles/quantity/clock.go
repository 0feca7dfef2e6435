package quantity

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"

	"example.com/tripwear/profiles/nearest"
)

// clock reads a duration in minutes and seconds, as lap times are written:
// "1:51" or "1:51.4".
var clockForm = regexp.MustCompile(`^(\d{1,4}):([0-5]\d(?:\.\d{1,6})?)$`)

func clock(s string) (float64, *Error) {
	m := clockForm.FindStringSubmatch(s)
	if m == nil {
		return 0, &Error{fmt.Sprintf("%q is not a time", short(s)), "minutes and seconds, such as 1:51 or 1:51.4"}
	}
	minutes, _ := strconv.ParseFloat(m[1], 64) // the pattern leaves digits only
	seconds, _ := strconv.ParseFloat(m[2], 64)
	return float64(60*minutes) + seconds, nil
}

// Years that a day may be in.
const (
	leastYear = 1950
	mostYear  = 2200
)

// dayForms are the ways that people write a day, in America and in Europe, with
// a slash for whatever parts them.
var dayForms = []string{
	"2006/1/2", "1/2/2006", "2/1/2006", "1/2/06", "2/1/06",
	"Jan/2/2006", "January/2/2006", "2/Jan/2006", "2/January/2006", "20060102",
}

// ParseDay reads a day, year-month-day. One that is written otherwise is asked
// back, with the days it could be, and never guessed.
func ParseDay(s string) (time.Time, *Error) {
	const form = "year-month-day such as 2027-04-18"
	s = strings.TrimSpace(s)
	if day, err := time.Parse(time.DateOnly, s); err == nil && possible(day) {
		return day, nil
	}
	parts := strings.FieldsFunc(s, func(r rune) bool { return strings.ContainsRune(" ,./-", r) })
	written := strings.Join(parts[:min(len(parts), 3)], "/") // a time of day may follow
	var meant []string
	for _, form := range dayForms {
		day, err := time.Parse(form, written)
		if iso := day.Format(time.DateOnly); err == nil && possible(day) && !slices.Contains(meant, iso) {
			meant = append(meant, iso)
		}
	}
	switch len(meant) {
	case 0:
		return time.Time{}, &Error{fmt.Sprintf("%q is not a date", short(s)), form}
	case 1:
		return time.Time{}, &Error{fmt.Sprintf("%q is not year-month-day", short(s)), meant[0] + ", if that is the day"}
	}
	return time.Time{}, &Error{fmt.Sprintf("%q can be read two ways", short(s)), "year-month-day: " + nearest.OneOf(meant) + ", whichever is the day"}
}

func possible(day time.Time) bool { return leastYear <= day.Year() && day.Year() <= mostYear }

// ParseTurn reads the angle of a corner with its direction, "90 deg left".
// Left is positive.
func ParseTurn(s string) (Angle, *Error) {
	const expected = "an angle and a direction, such as 90 deg left"
	s = strings.TrimSpace(s)
	sign := 1.0
	rest, ok := strings.CutSuffix(s, "left")
	if !ok {
		if rest, ok = strings.CutSuffix(s, "right"); !ok {
			if _, _, err := angles.Parse(s); err != nil {
				return 0, &Error{err.What, expected}
			}
			return 0, &Error{fmt.Sprintf("%s has no direction: write %s left or %s right", s, s, s), ""}
		}
		sign = -1
	}
	v, _, err := angles.Parse(rest)
	if err != nil {
		return 0, &Error{err.What, expected}
	}
	if v < 0 {
		return 0, &Error{fmt.Sprintf("%s is negative", s), expected}
	}
	return Angle(sign * v), nil
}

var sessionsForm = regexp.MustCompile(`^(\d{1,3}) *x *(\S.*)$`)

// ParseSessions reads a circuit day's running, "5 x 20 min".
func ParseSessions(s string) (count int, each Duration, err *Error) {
	const expected = "a number of sessions and their length, such as 5 x 20 min"
	m := sessionsForm.FindStringSubmatch(strings.TrimSpace(s))
	if m == nil {
		return 0, 0, &Error{fmt.Sprintf("%q does not say the sessions", short(s)), expected}
	}
	if count, _ = strconv.Atoi(m[1]); count == 0 {
		return 0, 0, &Error{fmt.Sprintf("%q has no session", s), expected}
	}
	v, _, e := durations.Parse(m[2])
	if e != nil {
		return 0, 0, e
	}
	return count, Duration(v), nil
}
