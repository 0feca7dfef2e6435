package trace

import (
	"regexp"
	"strings"
	"time"
)

// dateTime reads an xsd:dateTime into seconds since 1970; without a zone it is UTC.
func dateTime(s string) (float64, bool) {
	t, err := time.Parse(time.RFC3339Nano, s)
	if err != nil {
		if t, err = time.Parse("2006-01-02T15:04:05.999999999", s); err != nil {
			return 0, false
		}
	}
	if !satellites(t) {
		return 0, false
	}
	return since1970(t), true
}

// satellites says whether a date is neither before there were satellites nor nonsense.
func satellites(t time.Time) bool { return t.Year() >= 1980 && t.Year() <= 2200 }

func since1970(t time.Time) float64 {
	return float64(t.Unix()) + float64(t.Nanosecond())/1e9
}

var (
	clockTime = regexp.MustCompile(`^(?:(\d{1,2}):)?(\d{1,2}):(\d{2}(?:[.,]\d+)?)(?: ?([AaPp])[Mm])?$`)
	dateText  = regexp.MustCompile(`^\d{1,4}[./-]\d{1,2}[./-]\d{1,4}\.?$`)
)

// clockSeconds reads a clock time or a running time, 09:30:00.5, 9:30:00 PM or
// 12:05.25, into seconds.
func clockSeconds(s string) (float64, bool) {
	m := clockTime.FindStringSubmatch(s)
	if m == nil {
		return 0, false
	}
	h, _ := number("0" + m[1]) // the pattern leaves digits only
	minutes, _ := number(m[2])
	sec, _ := number(strings.Replace(m[3], ",", ".", 1))
	if m[4] != "" {
		if m[1] == "" || h < 1 || h > 12 {
			return 0, false
		}
		if h == 12 {
			h = 0
		}
		if strings.EqualFold(m[4], "p") {
			h += 12
		}
	}
	return ofDay(h, minutes, sec)
}

// ofDay is the time of day in seconds, a leap second included.
func ofDay(h, minutes, sec float64) (float64, bool) {
	if h >= 24 || minutes >= 60 || sec >= 61 {
		return 0, false
	}
	return float64(3600*h) + float64(60*minutes) + sec, true
}

// dateAndClock takes apart a date in any country's order, which stays text,
// and the clock time after it.
func dateAndClock(s string) (date string, sec float64, ok bool) {
	at := strings.IndexAny(s, " T")
	if at < 0 || !dateText.MatchString(strings.TrimSuffix(s[:at], ",")) {
		return "", 0, false
	}
	sec, ok = clockSeconds(strings.TrimSpace(s[at+1:]))
	return s[:at], sec, ok
}
