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
	bad := &Error{What: fmt.Sprintf("%s %q is no number", what, short(s)), Expected: likeAngle}
	text := marks.Replace(strings.ToUpper(strings.TrimSpace(s)))
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
	if whole := strings.IndexByte(parts[0]+".", '.'); lettered && len(parts) == 1 && whole >= 4 {
		parts = []string{parts[0][:whole-2], parts[0][whole-2:]}
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

var marks = strings.NewReplacer("°", " ", "º", " ", "′", " ", "'", " ", "’", " ", "″", " ", `"`, " ", "”", " ", ":", " ", ",", ".")
