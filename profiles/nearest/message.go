package nearest

import (
	"fmt"
	"strings"
)

// Unknown says that a word is not one of those known, with the one that was
// probably meant: `unknown key "camper" (did you mean "camber"?)`.
func Unknown(what, word string, known []string) string {
	return fmt.Sprintf("unknown %s %q", what, Cut(word)) + Meant(word, known)
}

// Meant ends a message with the word that was probably meant, if any:
// ` (did you mean "camber"?)`.
func Meant(word string, known []string) string {
	if meant := Word(word, known); meant != "" {
		return fmt.Sprintf(" (did you mean %q?)", meant)
	}
	return ""
}

// mostNamed is how many words a message lists at most.
const mostNamed = 60

// OneOf lists words: "a, b or c".
func OneOf(words []string) string {
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

// List lists words: "a, b and c".
func List(words []string) string {
	if len(words) < 2 {
		return OneOf(words)
	}
	return strings.Join(words[:len(words)-1], ", ") + " and " + words[len(words)-1]
}

// Cut shortens what is too long to repeat in a message.
func Cut(s string) string {
	const most = 60
	if r := []rune(s); len(r) > most {
		return string(r[:most-3]) + "..."
	}
	return s
}
