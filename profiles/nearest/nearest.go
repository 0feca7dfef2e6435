// Package nearest finds the word that somebody probably meant, and says words
// in messages.
package nearest

import (
	"cmp"
	"strings"
)

// Word is the candidate closest to what was written, by edit distance without
// regard to case, or "" where none is close: at most a third of the letters
// may differ, and at least one may. Of several as near it is the one that begins
// alike, and none where that leaves a choice: a hint must not point the wrong way.
func Word(written string, candidates []string) string {
	best, least := "", 2*max(1, len(written)/3)+2
	for _, c := range candidates {
		from, to := strings.ToLower(written), strings.ToLower(c)
		d := 2 * distance(from, to)
		if from[:min(1, len(from))] != to[:min(1, len(to))] {
			d++
		}
		switch {
		case d < least:
			best, least = c, d
		case d == least && !strings.EqualFold(c, best):
			best = ""
		}
	}
	return best
}

// spellings are words of the trade that are written in more than one way.
var spellings = map[string]string{"disc": "rotor", "disk": "rotor", "colour": "color", "tyre": "tire"}

// Same is the one of some known words that was written, whatever its case, its
// hyphens, its number and the side of the ocean; "" where there is none.
func Same(written string, known []string) string {
	for _, form := range []func(string) string{strings.TrimSpace, plain} {
		for _, word := range known {
			if form(word) == form(written) {
				return word
			}
		}
	}
	return ""
}

// plain is what the spellings of a word have in common.
func plain(s string) string {
	words := strings.FieldsFunc(strings.ToLower(s), func(r rune) bool { return strings.ContainsRune(" -_", r) })
	for i, w := range words {
		if w = strings.TrimSuffix(w, "s"); strings.HasSuffix(w, "che") { // catches
			w = w[:len(w)-1]
		}
		words[i] = cmp.Or(spellings[w], w)
	}
	return strings.Join(words, " ")
}

// distance counts the letters to insert, delete, replace or swap with their
// neighbor to get from a to b (optimal string alignment).
func distance(a, b string) int {
	s, t := []rune(a), []rune(b)
	before, above, row := []int(nil), make([]int, len(t)+1), make([]int, len(t)+1)
	for j := range above {
		above[j] = j
	}
	for i := range s {
		row[0] = i + 1
		for j := range t {
			change := above[j]
			if s[i] != t[j] {
				change++
			}
			row[j+1] = min(change, above[j+1]+1, row[j]+1)
			if i > 0 && j > 0 && s[i] == t[j-1] && s[i-1] == t[j] {
				row[j+1] = min(row[j+1], before[j-1]+1)
			}
		}
		before, above, row = above, row, make([]int, len(t)+1)
	}
	return above[len(t)]
}
