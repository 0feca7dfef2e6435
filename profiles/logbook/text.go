package logbook

import "unicode"

// Unseen says whether a character has no place in a line of text: a control
// character, which could move a terminal's cursor, or a format character,
// which could turn the text round.
func Unseen(r rune) bool {
	return unicode.IsControl(r) || unicode.Is(unicode.Cf, r) || r == '\u2028' || r == '\u2029'
}
