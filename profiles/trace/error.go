package trace

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// Error is what is wrong with a file, and where.
type Error struct {
	Line, Column int    // 0 where the whole file is meant
	What         string // what is wrong
	Expected     string // completes "expected ..."; may be ""
	Hint         string // what to do about it; may be ""
}

// Error is one line, without the position and the hint.
func (e *Error) Error() string {
	if e.Expected == "" {
		return e.What
	}
	return e.What + ", expected " + e.Expected
}

// number reads a finite number.
func number(s string) (float64, bool) {
	v, err := strconv.ParseFloat(strings.TrimSpace(s), 64)
	return v, err == nil && !math.IsNaN(v) && !math.IsInf(v, 0)
}

// coordinate reads degrees written as a number.
func coordinate(what, s string, most float64) (float64, *Error) {
	v, ok := number(s)
	if !ok {
		return 0, &Error{What: fmt.Sprintf("%s %q is no number", what, short(s)), Expected: "degrees such as 50.1234567"}
	}
	return v, degrees(what, v, most)
}

// Most degrees of latitude and of longitude.
const (
	mostLat = 90
	mostLon = 180
)

// degrees checks a coordinate.
func degrees(what string, v, most float64) *Error {
	if !(math.Abs(v) <= most) {
		return &Error{What: fmt.Sprintf("a %s of %.6g deg", what, v), Expected: fmt.Sprintf("-%g to %g", most, most), Hint: "lat and lon may be exchanged; meters belong in a CSV, under x (m), y (m)"}
	}
	return nil
}

func seconds(s float64) string {
	if s >= 120 {
		return fmt.Sprintf("%.0f min", s/60)
	}
	return fmt.Sprintf("%.3g s", s)
}

// short cuts what is too long to repeat in a message.
func short(s string) string {
	const most = 40
	if r := []rune(s); len(r) > most {
		return string(r[:most-3]) + "..."
	}
	return s
}
