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

		{tread, "5/32", "5/32 has no unit: write 5/32 in"},
		{tread, "7,4", `"7,4" has a comma or underscore in its number, expected a decimal point and no separators: write 7.4 mm`},
		{tread, "6,5/32 in", `"6,5/32 in" has a comma or underscore in its number, expected a decimal point and no separators: write 6.5/32 in`},
		{lengths, "146,000 mi", `"146,000 mi" has a comma or underscore in its number, expected a decimal point and no separators: write 146000 mi or 146.000 mi`},
		{lengths, "1,234,567 mi", `"1,234,567 mi" has a comma or underscore in its number, expected a decimal point and no separators: write 1234567 mi`},
		{lengths, "1.234,5 km", `"1.234,5 km" has a comma or underscore in its number, expected a decimal point and no separators: write 1234.5 km`},
		{lengths, "0,125 in", `"0,125 in" has a comma or underscore in its number, expected a decimal point and no separators: write 0.125 in`},
		{lengths, "1_000 m", `"1_000 m" has a comma or underscore in its number, expected a decimal point and no separators: write 1000 m`},
		{lengths, "1,,5 m", `"1,,5 m" has a comma or underscore in its number, expected a decimal point and no separators, such as 1234.5`},
		{moneys, "49,90", `"49,90" has a comma or underscore in its number, expected a decimal point and no separators: write 49.90`},

		{tread, "6", "6 has no unit: write 6 mm"},
		{tread, "1", "1 has no unit: write 1 cm or 1 mm"}, // both ends are plausible
		{tread, "1000", "1000 has no unit: write 1000 with mi, km, m, cm, mm, in or ft"},
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

// A day in another form is asked back with every day it could be, and none that
// there is not.
func TestDays(t *testing.T) {
	for text, want := range map[string]string{
		"05/13/2027": "2027-05-13, if that is the day", "13.5.2027": "2027-05-13, if that is the day", "2027/05/13": "2027-05-13, if that is the day",
		"2027-5-3": "2027-05-03, if that is the day", "13-05-27": "2027-05-13, if that is the day", "May 13, 2027": "2027-05-13, if that is the day",
		"13. May 2027": "2027-05-13, if that is the day", "05/05/2027": "2027-05-05, if that is the day", "29/02/2028": "2028-02-29, if that is the day",
		"05/13/2027 10:30": "2027-05-13, if that is the day",
		"05/06/2027":       "year-month-day: 2027-05-06 or 2027-06-05, whichever is the day",
		"5.6.27":           "year-month-day: 2027-05-06 or 2027-06-05, whichever is the day",
		"29/02/2027":       "year-month-day such as 2027-04-18",
		"2027-02-30":       "year-month-day such as 2027-04-18",
		"13/13/2027":       "year-month-day such as 2027-04-18",
		"05/13/1027":       "year-month-day such as 2027-04-18",
		"1949-12-31":       "year-month-day such as 2027-04-18",
		"2201-01-01":       "year-month-day such as 2027-04-18",
		"the 13th of May":  "year-month-day such as 2027-04-18",
		"":                 "year-month-day such as 2027-04-18",
	} {
		if day, err := ParseDay(text); err == nil || err.Expected != want {
			t.Errorf("%q: %v, %v, want %q", text, day, err, want)
		}
	}
	for _, text := range []string{"1950-01-01", " 2028-02-29 ", "2200-12-31"} {
		if day, err := ParseDay(text); err != nil || day.Format("2006-01-02") != strings.TrimSpace(text) {
			t.Errorf("%q: %v, %v", text, day, err)
		}
	}
}
