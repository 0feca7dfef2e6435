package quantity

import (
	"fmt"
	"strings"
)

// Days is a number of days in words.
func Days(n int) string {
	if n == 1 {
		return "one day"
	}
	return InWords(n) + " days"
}

// InWords is a small number in words.
func InWords(n int) string {
	words := strings.Fields("no one two three four five six seven eight nine ten")
	if n < len(words) {
		return words[n]
	}
	return fmt.Sprint(n)
}
