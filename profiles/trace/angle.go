package trace

import (
	"fmt"
	"strings"
)

const likeAngle = `degrees such as 50.1234567, 50°07.407'N or N 50 07.407`

// angle reads a latitude or a longitude: degrees, degrees and minutes, degrees,
// minutes and seconds, or the ddmm.mmmm of NMEA 0183, which needs its letter;
// letters are those of plus and minus, "NS" or "EW".
func angle(what, s, letters string, most float64) (float64, *Error) {
	if v, ok := number(s); ok {
		return v, degrees(what, v, most)
	}
	if n := len(s) - 1; n > 0 {
		if way := strings.IndexByte(letters, s[n]); way >= 0 {
			if v, ok := ddmm(strings.TrimSpace(s[:n])); ok {
				v *= float64(1 - 2*way)
				return v, degrees(what, v, most)
			}
		}
	}
	bad := &Error{What: fmt.Sprintf("%s %q is no number", what, short(s)), Expected: likeAngle}
	text := marks.Replace(strings.ToUpper(strings.TrimSpace(latin1(s))))
	lettered, sign := false, 1.0
	for i, way := range letters {
		cut := strings.TrimSuffix(strings.TrimPrefix(text, string(way)), string(way))
		if len(cut) == len(text)-1 && !lettered {
			text, lettered = cut, true
			sign -= float64(2 * i)
		}
	}
	parts := strings.Fields(text)
	if len(parts) == 0 || len(parts) > 3 {
		return 0, bad
	}
	if !lettered && strings.HasPrefix(parts[0], "-") {
		sign, parts[0] = -1, parts[0][1:]
	}
	sum, worth := 0.0, 1.0
	for i, part := range parts {
		v, ok := number(part)
		if !ok || v < 0 || strings.ContainsAny(part, "+-EXP") || i > 0 && v >= 60 {
			return 0, bad
		}
		sum += float64(v * worth)
		worth /= 60
	}
	return sign * sum, degrees(what, sign*sum, most)
}

// ddmm reads degrees and two digits of minutes written as one number.
func ddmm(s string) (deg float64, ok bool) {
	whole := strings.IndexByte(s, '.')
	if whole < 0 {
		whole = len(s)
	}
	if whole < 4 || whole > 5 || s[0] < '0' || s[0] > '9' || s[whole-2] == '-' {
		return 0, false
	}
	deg, first := number(s[:whole-2])
	minutes, last := number(s[whole-2:])
	return deg + float64(minutes/60), first && last && minutes < 60
}

var marks = strings.NewReplacer("°", " ", "º", " ", "′", " ", "'", " ", "’", " ", "″", " ", `"`, " ", "”", " ", ":", " ", ",", ".")
