package page

import (
	"strconv"
	"strings"
	"unicode"
)

// MostRunes is how much of a line is printed: what comes in from outside may
// be of any length.
const MostRunes = 600

// Plainly is a line that a terminal only shows: what would move its cursor,
// turn its text or ring is written out, and what is too long is cut.
func Plainly(s string) string {
	var b strings.Builder
	n := 0
	for _, r := range s {
		if n++; n > MostRunes {
			return b.String() + "..."
		}
		if unicode.IsPrint(r) {
			b.WriteRune(r)
		} else {
			b.WriteString(strings.Trim(strconv.QuoteRune(r), "'"))
		}
	}
	return b.String()
}
