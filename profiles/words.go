package profiles

import (
	"fmt"
	"strings"

	"example.com/tripwear/profiles/nearest"
)

// unknown says that a word is not one of those known, with the one that was
// probably meant: `unknown key "camper" (did you mean "camber"?)`.
func unknown(what, word string, known []string) string {
	s := fmt.Sprintf("unknown %s %q", what, cut(word))
	if meant := nearest.Word(word, known); meant != "" {
		s += fmt.Sprintf(" (did you mean %q?)", meant)
	}
	return s
}

// mostNamed is how many words a message lists at most.
const mostNamed = 60

// oneOf lists words: "a, b or c".
func oneOf(words []string) string {
	switch n := len(words); {
	case n == 0:
		return "none"
	case n == 1:
		return words[0]
	case n > mostNamed:
		return fmt.Sprintf("%s or another %d", strings.Join(words[:mostNamed], ", "), n-mostNamed)
	}
	return strings.Join(words[:len(words)-1], ", ") + " or " + words[len(words)-1]
}

// list lists words: "a, b and c".
func list(words []string) string {
	if len(words) < 2 {
		return oneOf(words)
	}
	return strings.Join(words[:len(words)-1], ", ") + " and " + words[len(words)-1]
}

// cut shortens what is too long to repeat in a message.
func cut(s string) string {
	const most = 60
	if r := []rune(s); len(r) > most {
		return string(r[:most-3]) + "..."
	}
	return s
}
