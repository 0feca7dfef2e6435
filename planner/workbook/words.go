package workbook

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// sentenceCase gives a clause its capital.
func sentenceCase(t string) string {
	r, n := utf8.DecodeRuneInString(t)
	if n == 0 {
		return ""
	}
	return string(unicode.ToUpper(r)) + t[n:]
}

// sentence gives a clause its capital and its full stop.
func sentence(t string) string {
	t = sentenceCase(strings.TrimSpace(t))
	if t == "" {
		return ""
	}
	if strings.ContainsAny(t[len(t)-1:], ".!?") {
		return t
	}
	return t + "."
}

// clip keeps a text to so many characters.
func clip(t string, most int) string {
	if r := []rune(t); len(r) > most {
		return string(r[:most-1]) + "…"
	}
	return t
}
