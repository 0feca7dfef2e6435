package profiles

import (
	"errors"
	"fmt"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"pgregory.net/rapid"

	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/quantity"
)

// Of a list of parts that are all wrong, fifty faults are said, and nothing is
// said of parts that were not looked at.
func TestManyFaultyParts(t *testing.T) {
	files := fstest.MapFS{"parts.yaml": {Data: []byte("parts:\n" + strings.Repeat("  - {id: a, class: none}\n", 20_000))}}
	_, err := Load(files)
	var errs Errors
	if !errors.As(err, &errs) {
		t.Fatal(err)
	}
	n := 0
	for _, e := range errs {
		if e.File == "parts.yaml" {
			n++
		}
	}
	if n != MostFaults {
		t.Errorf("%d faults of parts are said, want %d", n, MostFaults)
	}
}

// Of a logbook with a fault in every row, fifty are said.
func TestManyFaultyRows(t *testing.T) {
	_, err := logged(t, strings.Repeat("2027-05-03,143200 mi,renewal,front,,nothing,,\n", 1000))
	var errs Errors
	if !errors.As(err, &errs) || len(errs) != MostFaults {
		t.Errorf("%d faults are said, want %d", len(errs), MostFaults)
	}
}

// Whatever the order of the rows, a row is doubted just where some earlier one
// that is not confirmed goes against it, and the first such row is named; the
// reading before is that of the greatest odometer up to the row's own.
func TestCheckedByEveryRowBefore(t *testing.T) {
	f, err := logged(t, "")
	if err != nil {
		t.Fatal(err)
	}
	rapid.Check(t, func(t *rapid.T) {
		h := f.History()
		h.start.Written, h.nearest = -1, 0 // car.yaml's own readings are another matter
		var rows []logbook.Entry
		for range rapid.IntRange(1, 40).Draw(t, "rows") {
			e := logbook.Entry{
				What: logbook.Pad, Place: "LF", Value: rapid.Float64Range(0, 0.01).Draw(t, "level"),
				Date:      time.Date(2027, 1, rapid.IntRange(1, 9).Draw(t, "day"), 0, 0, 0, 0, time.UTC),
				Odometer:  quantity.Length(rapid.IntRange(1, 9).Draw(t, "odometer")),
				Confirmed: rapid.IntRange(0, 3).Draw(t, "confirmed") == 0,
			}
			e.Mark = fmt.Sprint(len(rows))
			first, level, at, known := "", 0.0, quantity.Length(-1), false
			for _, r := range rows {
				if first == "" && !r.Confirmed && (r.Date.Before(e.Date) && r.Odometer > e.Odometer || r.Date.After(e.Date) && r.Odometer < e.Odometer) {
					first = fmt.Sprintf("a figure that goes with %s on %s", r.Mark, r.Date.Format(time.DateOnly))
				}
				if r.Odometer <= e.Odometer && r.Odometer >= at && !r.Date.After(e.Date) {
					level, at, known = r.Value, r.Odometer, true
				}
			}
			said := ""
			for _, fault := range h.odometer(e) {
				said = fault.Expected
			}
			if said != first {
				t.Fatalf("said %q, want %q", said, first)
			}
			if got, ok := h.before(e, Pads, 0); ok != known || got != level {
				t.Fatalf("the reading before is %v %t, want %v %t", got, ok, level, known)
			}
			h.add(e)
			rows = append(rows, e)
		}
	})
}

// The part that is on at an odometer is the last one put on up to it, in
// whatever order the rows stand.
func TestOnInAnyOrder(t *testing.T) {
	f, err := logged(t, "")
	if err != nil {
		t.Fatal(err)
	}
	h := f.History()
	own, since := h.on(Pads, "LF", 1e9)
	for _, at := range []quantity.Length{3, 1, 2} {
		h.add(logbook.Entry{What: logbook.Replaced, Place: "front", Text: "pads-front", Odometer: since + at})
	}
	for _, c := range []struct{ at, want quantity.Length }{{0, 0}, {1.5, 1}, {2, 2}, {2.9, 2}, {9, 3}} {
		if part, got := h.on(Pads, "LF", since+c.at); part != own || got-since != c.want {
			t.Errorf("at %v: %s since %v, want %s since %v", c.at, part, got-since, own, c.want)
		}
	}
}
