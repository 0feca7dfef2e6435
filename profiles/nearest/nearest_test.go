package nearest

import (
	"testing"

	"pgregory.net/rapid"
)

func TestWord(t *testing.T) {
	for _, c := range []struct{ written, want string }{
		{"camper", "camber"},
		{"Toe", "toe"},
		{"ote", "toe"}, // two neighbors swapped
		{"odometr", "odometer"},
		{"tae", "toe"}, // and tie, as near: the first wins
		{"x", ""},
		{"zebra", ""},
		{"", ""},
	} {
		if got := Word(c.written, []string{"camber", "toe", "odometer", "tie"}); got != c.want {
			t.Errorf("%q: got %q, want %q", c.written, got, c.want)
		}
	}
}

func TestDistanceIsAMetricOnItsEnds(t *testing.T) {
	word := rapid.StringMatching(`[a-dé]{0,8}`)
	rapid.Check(t, func(t *rapid.T) {
		a, b := word.Draw(t, "a"), word.Draw(t, "b")
		d := distance(a, b)
		if d != distance(b, a) {
			t.Fatalf("%q to %q is %d one way, %d the other", a, b, d, distance(b, a))
		}
		if (d == 0) != (a == b) {
			t.Fatalf("%q to %q: %d", a, b, d)
		}
		la, lb := len([]rune(a)), len([]rune(b))
		if d > max(la, lb) || d < max(la-lb, lb-la) {
			t.Fatalf("%q to %q: %d letters", a, b, d)
		}
	})
}
