package logbook

import (
	"unicode"
	"unicode/utf8"
)

// Unseen says whether a character has no place in a line of text: a control
// character, which could move a terminal's cursor, a format character, which
// could turn the text round, or bytes that are no character.
func Unseen(r rune) bool {
	return unicode.IsControl(r) || unicode.Is(unicode.Cf, r) || r == utf8.RuneError || r == '\u2028' || r == '\u2029'
}
