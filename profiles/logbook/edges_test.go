package logbook

import (
	"fmt"
	"strings"
	"testing"
)

// The legs of a trip: from 1 to as many as are allowed, the first and the last
// may be the same.
func TestLegs(t *testing.T) {
	for legs, good := range map[string]bool{
		"1": true, "0": false, "2-2": true, "3-2": false,
		fmt.Sprint(mostLegs): true, fmt.Sprint(mostLegs + 1): false,
	} {
		_, faults := Read(strings.NewReader(header + "2027-04-18,143900 mi,trip driven,,,spring " + legs + ",,\n"))
		if (len(faults) == 0) != good {
			t.Errorf("spring %s: %+v", legs, faults)
		}
	}
}

// A line that is not text is named by its number, the last one too, whether
// or not it has an end.
func TestNotText(t *testing.T) {
	const row = "2027-04-18,143900 mi,odometer,,,,,\n"
	for text, line := range map[string]int{
		"\xff" + header:              1,
		header + "\xff\n" + row:      2,
		header + row + "\xff":        3,
		header + row + "\x00\n":      3,
		header + row + row + "é\xff": 4,
	} {
		_, faults := Read(strings.NewReader(text))
		if len(faults) != 1 || faults[0].Line != line || !strings.Contains(faults[0].What, "not UTF-8") {
			t.Errorf("%q: %+v, want line %d", text, faults, line)
		}
	}
}

// The mark between fields is the one the header has most of, a comma where it
// has as many; a byte order mark is remembered.
func TestLayout(t *testing.T) {
	for head, want := range map[string]rune{"a,b;c": ',', "a;b;c,d": ';', "a\tb\tc,d": '\t', "a": ','} {
		if got := separator([]byte(head + "\n")); got != want {
			t.Errorf("%q: %q, want %q", head, got, want)
		}
	}
	for mark, want := range map[string]bool{"": false, "\ufeff": true} {
		if log, _ := Read(strings.NewReader(mark + header)); log.layout.bom != want {
			t.Errorf("%q before the header: remembered %v", mark, log.layout.bom)
		}
	}
}
