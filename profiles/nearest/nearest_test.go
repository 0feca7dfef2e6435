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
		{"tae", ""},    // toe or tie
		{"xie", "tie"}, // nothing else is as near
		{"caber", "camber"},
		{"x", ""},
		{"zebra", ""},
		{"", ""},
	} {
		if got := Word(c.written, []string{"camber", "toe", "odometer", "tie"}); got != c.want {
			t.Errorf("%q: got %q, want %q", c.written, got, c.want)
		}
	}
}

// What is said in more than one way, and what only looks like it.
func TestSame(t *testing.T) {
	known := []string{"rotor thickness", "rotors", "fluid color", "tire", "LF", "gas", "catches"}
	for written, want := range map[string]string{
		"rotors": "rotors", "Rotor": "rotors", "discs": "rotors", "disk": "rotors", "disc thickness": "rotor thickness",
		"disk-thickness": "rotor thickness", "Rotor_Thickness ": "rotor thickness", "fluid colour": "fluid color",
		"tyres": "tire", "lf": "LF", "gas": "gas", "": "", "FL": "", "thickness": "", "rotor thick": "", "discos": "", "catch": "catches", "Catche": "catches",
	} {
		if got := Same(written, known); got != want {
			t.Errorf("%q: %q, want %q", written, got, want)
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
