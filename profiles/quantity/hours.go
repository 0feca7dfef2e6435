package quantity

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"time"
)

// Span is a time of day on some days of the week: from and to in hours since
// midnight.
type Span struct {
	Days     [7]bool // by time.Weekday
	From, To float64
}

// span is a time of day and the days it holds on: "8:00-17:30 mon-fri".
var span = regexp.MustCompile(`^(\d{1,2})(?::([0-5]\d))?\s*-\s*(\d{1,2})(?::([0-5]\d))?(?:\s+([a-z]+)(?:\s*-\s*([a-z]+))?)?$`)

// HoursLike is how opening hours are written.
const HoursLike = "opening hours such as 8:00-17:30 mon-fri, 9-12 sat"

// ParseHours reads opening hours: spans with a comma between them, each with its
// days, or without for every day.
func ParseHours(text string) ([]Span, *Error) {
	var out []Span
	for one := range strings.SplitSeq(strings.ToLower(text), ",") {
		m := span.FindStringSubmatch(strings.TrimSpace(one))
		if m == nil {
			return nil, &Error{What: fmt.Sprintf("%q is not opening hours", text), Expected: HoursLike}
		}
		s := Span{From: oclock(m[1], m[2]), To: oclock(m[3], m[4])}
		first, okFirst := weekday(m[5])
		last, okLast := weekday(m[6])
		switch {
		case s.From >= s.To || s.To > 24:
			return nil, &Error{What: fmt.Sprintf("%q ends before it begins, or after midnight", strings.TrimSpace(one)), Expected: HoursLike}
		case m[5] != "" && !okFirst || m[6] != "" && !okLast:
			return nil, &Error{What: fmt.Sprintf("%q has a day that is none of mon tue wed thu fri sat sun", strings.TrimSpace(one)), Expected: HoursLike}
		case m[5] == "":
			first, last = time.Sunday, time.Saturday
		case m[6] == "":
			last = first
		}
		for day := first; ; day = (day + 1) % 7 {
			s.Days[day] = true
			if day == last {
				break
			}
		}
		out = append(out, s)
	}
	return out, nil
}

// oclock is a time of day in hours, of digits.
func oclock(hours, minutes string) float64 {
	h, _ := strconv.Atoi(hours)
	m, _ := strconv.Atoi(minutes)
	return float64(h) + float64(m)/60
}

// weekday is the day that a word begins with the letters of.
func weekday(word string) (time.Weekday, bool) {
	for day := time.Sunday; day <= time.Saturday; day++ {
		if name := strings.ToLower(day.String()); len(word) >= 3 && strings.HasPrefix(name, word) {
			return day, true
		}
	}
	return 0, false
}
