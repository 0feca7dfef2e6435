// Package nearest finds the word that somebody probably meant, and says words
// in messages.
package nearest

import (
	"strings"
)

// Word is the candidate closest to what was written, by edit distance without
// regard to case, or "" where none is close: at most a third of the letters
// may differ, and at least one may. The first of several equals wins.
func Word(written string, candidates []string) string {
	best, least := "", max(1, len(written)/3)+1
	for _, c := range candidates {
		if d := distance(strings.ToLower(written), strings.ToLower(c)); d < least {
			best, least = c, d
		}
	}
	return best
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
