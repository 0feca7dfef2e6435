package nearest

import (
	"fmt"
	"strings"
	"testing"
)

// Sixty characters are repeated, of one more the first 57.
func TestCut(t *testing.T) {
	whole := strings.Repeat("ä", 60)
	if Cut(whole) != whole || Cut(whole+"x") != strings.Repeat("ä", 57)+"..." {
		t.Errorf("%q, %q", Cut(whole), Cut(whole+"x"))
	}
}

func TestOneOf(t *testing.T) {
	for want, words := range map[string][]string{"a": {"a"}, "a or b": {"a", "b"}, "a, b or c": {"a", "b", "c"}} {
		if got := OneOf(words); got != want {
			t.Errorf("%v: %q, want %q", words, got, want)
		}
	}
}

// A message names sixty of ten thousand words.
func TestOneOfMany(t *testing.T) {
	words := make([]string, 10_000)
	for i := range words {
		words[i] = fmt.Sprint(i)
	}
	if got := OneOf(words); !strings.HasPrefix(got, "0, 1, ") || !strings.HasSuffix(got, ", 59 or another 9940") {
		t.Error(got)
	}
	if got := OneOf(words[:mostNamed]); !strings.HasSuffix(got, ", 58 or 59") {
		t.Error(got)
	}
}
