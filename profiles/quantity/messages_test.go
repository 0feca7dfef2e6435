package quantity

import (
	"strings"
	"testing"
)

// What is refused repeats what was written, says what is wrong with it, and
// where something near is meant, what that is. Suggested units are those that
// make the number plausible.
func TestMessages(t *testing.T) {
	tread := lengths.Within(0.001, 0.01)
	const inLengths = "a length in mi, km, m, cm, mm, in or ft"
	long := strings.Repeat("x", 33) // with "1 km " before it 38 characters
	for _, c := range []struct {
		kind       *Kind
		text, want string
	}{
		{lengths, "1/0 in", `"1/0 in" divides by zero, expected ` + inLengths},
		{lengths, "1..5 km", `"1..5 km" is not a number, expected ` + inLengths},
		{lengths, "1..5/2 in", `"1..5/2 in" is not a number, expected ` + inLengths},
		{lengths, "1/2..5 in", `"1/2..5 in" is not a number, expected ` + inLengths},
		{lengths, strings.Repeat("9", 400) + " km", `"` + strings.Repeat("9", 37) + `..." is too large, expected a length in mi, km, m, cm, mm, in or ft`},
		{lengths, "1 kn", `unknown unit "kn" (did you mean "km"?), expected mi, km, m, cm, mm, in or ft`},
		{lengths, "1 parsec", `unknown unit "parsec", expected mi, km, m, cm, mm, in or ft`},
		{lengths, "6./32 in", `unknown unit "/32 in", expected mi, km, m, cm, mm, in or ft`},
		// 40 characters are repeated, of 41 the first 37.
		{lengths, "1 " + long + "1234567", `unknown unit "` + long + `1234567", expected mi, km, m, cm, mm, in or ft`},
		{lengths, "1 " + long + "12345678", `unknown unit "` + long + `1234...", expected mi, km, m, cm, mm, in or ft`},

		{shares, "0.53", "0.53 has no unit: write 53 %"},
		{shares, "53", "53 has no unit: write 53 %"},
		{shares, "1", "1 has no unit: write 1 %"},
		{shares, "x", `"x" is not a number, expected a share in %`},
		{shares.Literal(), "0.05", "0.05 has no unit: write 0.05 %"},
		{energies, "0.05", "0.05 has no unit: write 0.05 MJ/km"},

		{tread, "6", "6 has no unit: write 6 mm"},
		{tread, "1", "1 has no unit: write 1 cm or 1 mm"}, // both ends are plausible
		{tread, "1000", "1000 has no unit: write it with mi, km, m, cm, mm, in or ft"},
		{lengths.Within(1000, 2000), "1", "1 has no unit: write 1 mi or 1 km"},
		{lengths.Within(1000, 1600), "1", "1 has no unit: write 1 km"},
	} {
		if v, _, err := c.kind.Parse(c.text); err == nil || err.Error() != c.want {
			t.Errorf("%q: %g, %v\nwant %s", c.text, v, err, c.want)
		}
	}
}

// The ends of what is possible: a slash with nothing after it, absolute zero, a
// turn of nothing.
func TestEnds(t *testing.T) {
	if v, _, err := lengths.Parse("6/"); err == nil || !strings.HasPrefix(err.Error(), `unknown unit "/"`) {
		t.Errorf("a fraction without its lower half: %g, %v", v, err)
	}
	for text, want := range map[string]Temperature{"-273.15 C": -273.15, "0 K": -273.15} {
		if v, err := Parse[Temperature](text); err != nil || v != want {
			t.Errorf("%s: %g, %v", text, v, err)
		}
	}
	if v, err := Parse[Temperature]("-273.16 C"); err == nil {
		t.Errorf("below absolute zero: %g", v)
	}
	if v, err := ParseTurn("0 deg left"); err != nil || v != 0 {
		t.Errorf("no turn: %g, %v", v, err)
	}
}
