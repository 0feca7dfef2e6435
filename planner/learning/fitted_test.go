package learning

import (
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/tripwear/planner/trip"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/quantity"
)

// The pads at RF, one after another: a replacement ends what car.yaml says was
// fitted at 1,000 km, and one before that date is another part's. A row of the
// logbook belongs to the part that was on the car then, the replacement to neither.
// The one at 1,000 km itself is the part that car.yaml has.
func TestLives(t *testing.T) {
	row := func(what logbook.What, km float64, text string) logbook.Entry {
		return logbook.Entry{What: what, Odometer: quantity.Length(1000 * km), Place: "RF", Text: text}
	}
	pad, replaced := func(km float64) logbook.Entry { return row(logbook.Pad, km, "") }, func(km float64, part string) logbook.Entry { return row(logbook.Replaced, km, part) }
	type want struct {
		part        string
		from, to    float64 // km
		first, last int
		logged      bool
	}
	end := math.Inf(1)
	for _, c := range []struct {
		what string
		log  []logbook.Entry
		want []want
	}{
		{"no row", nil, []want{{"pads-front", 1000, end, 0, 0, false}}},
		{"readings alone", []logbook.Entry{pad(1100), pad(1200)}, []want{{"pads-front", 1000, end, 0, 2, false}}},
		{"replaced twice", []logbook.Entry{pad(1100), replaced(1200, "pads-race"), pad(1300), replaced(1400, "pads-front"), pad(1500)},
			[]want{{"pads-front", 1000, 1200, 0, 1, false}, {"pads-race", 1200, 1400, 2, 3, true}, {"pads-front", 1400, end, 4, 5, true}}},
		{"one before", []logbook.Entry{replaced(800, "pads-race"), pad(900), pad(1100)},
			[]want{{"pads-race", 800, 1000, 1, 2, true}, {"pads-front", 1000, end, 2, 3, false}}},
		{"one before, no row since", []logbook.Entry{replaced(800, "pads-race"), pad(900)},
			[]want{{"pads-race", 800, 1000, 1, 2, true}, {"pads-front", 1000, end, 2, 2, false}}},
		{"the replacement that car.yaml has", []logbook.Entry{pad(900), replaced(1000, "pads-front"), pad(1100)}, []want{{"pads-front", 1000, end, 2, 3, false}}},
	} {
		f, _ := demo(t, "juniper")
		fitted(f, profiles.Pads, "RF").Since.Odometer = 1000e3
		f.Parts["pads-race"] = f.Parts["pads-front"]
		f.Log = c.log
		var got []want
		for _, l := range fittedParts(f, profiles.Pads, "RF") {
			got = append(got, want{l.Part, l.From / 1000, l.To / 1000, l.First, l.Last, l.Logged})
		}
		if diff := cmp.Diff(c.want, got, cmp.AllowUnexported(want{})); diff != "" {
			t.Errorf("%s (-want +got):\n%s", c.what, diff)
		}
	}
}

// A part's own circuit days and those that the logbook tells of since it was
// new agree where they differ by less than half a day, of a logbook that was
// kept then; what the logbook put on is known in any case.
func TestAccounted(t *testing.T) {
	p := &trip.Past{Drives: []trip.Drive{{From: 100, To: 200, Visit: 0}, {From: 200, To: 300, Visit: 1}}}
	f := &profiles.Folder{Log: []logbook.Entry{{Odometer: 50}}}
	f.Car.Odometer = 300
	for days, want := range map[float64]bool{0: false, 1: false, 1.5: false, 1.6: true, 2: true, 2.4: true, 2.5: false, 3: false} {
		entry := &profiles.Fitted{CircuitDays: quantity.Number(days)}
		if got := (fittedPart{Stint: profiles.Stint{From: 50, Entry: entry}}).accounted(f, p, nil); got != want {
			t.Errorf("%g days said, 2 in the logbook: accounted %v", days, got)
		}
	}
	for from, want := range map[float64]bool{300: true, 301: true, 299: false} {
		if got := (fittedPart{Stint: profiles.Stint{From: from, Entry: &profiles.Fitted{}}}).accounted(&profiles.Folder{Log: []logbook.Entry{{Odometer: 300}}}, p, nil); got != want {
			t.Errorf("no days, on at %g, a logbook from 300 on: accounted %v", from, got)
		}
	}
	if !(fittedPart{Stint: profiles.Stint{Logged: true}}).accounted(f, p, nil) {
		t.Error("a part that the logbook put on is not accounted for")
	}
}
