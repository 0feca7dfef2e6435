package quantity

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
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
