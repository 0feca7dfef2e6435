package profiles

import (
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/quantity"
)

// Three temperatures of one tire at one time are a probe; two are none, nor
// are three of different days or odometers.
func TestHearProbe(t *testing.T) {
	const in, mid, out = "probe,LR,inside,90 C,,\n", "probe,LR,middle,85 C,,\n", "probe,LR,outside,80 C,,\n"
	for _, c := range []struct {
		what, rows string
		counts     bool
	}{
		{"three", "2027-04-18,143900 mi," + in + "2027-04-18,143900 mi," + mid + "2027-04-18,143900 mi," + out, true},
		{"two", "2027-04-18,143900 mi," + in + "2027-04-18,143900 mi," + mid, false},
		{"another day", "2027-04-18,143900 mi," + in + "2027-04-18,143900 mi," + mid + "2027-04-19,143900 mi," + out, false},
		{"another odometer", "2027-04-18,143900 mi," + in + "2027-04-18,143900 mi," + mid + "2027-04-18,143901 mi," + out, false},
		{"another wheel", "2027-04-18,143900 mi," + in + "2027-04-18,143900 mi," + mid + "2027-04-18,143900 mi," + strings.Replace(out, "LR", "RR", 1), false},
	} {
		f, err := logged(t, c.rows)
		if err != nil {
			t.Fatal(err)
		}
		got := on(t, f, Tire, "LR").Probe["LR"]
		var want []quantity.Temperature
		if c.counts {
			want = []quantity.Temperature{90, 85, 80}
		}
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("%s (- wanted, + got):\n%s", c.what, diff)
		}
	}
}

// What car.yaml gives of a part is found, at its place and nowhere else, and
// is not car.yaml's any more once the logbook has given it.
func TestHas(t *testing.T) {
	word := map[string]logbook.Finding{"LF": "x"}
	given := map[logbook.What]Fitted{
		logbook.Tread:      {Tread: map[string][]quantity.Length{"LF": {1, 2, 3}}},
		logbook.Pad:        {Pad: map[string]quantity.Length{"LF": 1}},
		logbook.Thickness:  {Thickness: map[string]quantity.Length{"LF": 1}},
		logbook.Face:       {Face: word},
		logbook.Hub:        {Feel: word},
		logbook.Lining:     {Lining: word},
		logbook.Inspection: {Found: word},
		logbook.Probe:      {Probe: map[string][]quantity.Temperature{"LF": {1, 2, 3}}},
		logbook.Color:      {Color: "dark"},
		logbook.Pedal:      {Pedal: "soft"},
		logbook.Water:      {Water: 0.01},
	}
	for what, e := range given {
		for asked := range given {
			if got := e.Has(logbook.Entry{What: asked, Place: "LF"}); got != (asked == what) {
				t.Errorf("%s given: has %s is %v", what, asked, got)
			}
		}
		fluid := what == logbook.Color || what == logbook.Pedal || what == logbook.Water
		if got := e.Has(logbook.Entry{What: what, Place: "RF"}); got != fluid {
			t.Errorf("%s given at LF: has it at RF is %v", what, got)
		}
		e.Seen = map[string]Seen{SeenKey(what, "LF", ""): {Date: time.Now()}}
		if e.Has(logbook.Entry{What: what, Place: "LF"}) {
			t.Errorf("%s, from the logbook, is taken for car.yaml's", what)
		}
	}
}

// A set that a renewal of one wheel has parted is one again when it is changed
// as a whole.
func TestPartedSetIsOneAgain(t *testing.T) {
	f, err := logged(t, "2027-04-18,143900 mi,renewal,RF,,pads-front,,\n")
	if err != nil {
		t.Fatal(err)
	}
	if f.holder(Pads, "LF") == f.holder(Pads, "RF") {
		t.Fatal("the renewal of one wheel did not part the set")
	}
	before := len(f.Car.Fitted)
	trip := f.Trips["spring"]
	if err := f.Apply(&trip, Change{"fitted.pads-front", "pads-front"}); err != nil {
		t.Fatal(err)
	}
	if f.holder(Pads, "LF") != f.holder(Pads, "RF") || len(f.Car.Fitted) != before-1 {
		t.Errorf("%d entries, before %d: %+v", len(f.Car.Fitted), before, f.Car.Fitted)
	}
	seen := map[string]int{}
	for _, e := range f.Car.Fitted {
		for _, at := range e.At {
			seen[string(f.Parts[e.Part].Kind)+" "+at]++
		}
	}
	for place, n := range seen {
		if n != 1 {
			t.Errorf("%s is there %d times", place, n)
		}
	}
}

// A value where places belong, and a word that is empty.
func TestChangeOfForm(t *testing.T) {
	for change, want := range map[Change]string{
		{"fitted.pads-front.pad", "5 mm"}:   "expected a mapping with the keys LF, RF",
		{"parts.pads-front.tools", "[a, ]"}: "is empty",
	} {
		f, trip := juniper(t)
		if err := f.Apply(&trip, change); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%v: %v, want one that says %q", change, err, want)
		}
	}
}

// An item of a list that has no value is said by its place.
func TestItemWithoutValue(t *testing.T) {
	files := plain(t)
	parts := string(files["parts.yaml"].Data)
	files["parts.yaml"].Data = []byte(strings.Replace(parts, "  - id: tires\n", "  - id: tires\n    tools: [jack, ~]\n", 1))
	if _, err := Load(files); err == nil || !strings.Contains(err.Error(), "tools[1] has no value") {
		t.Error(err)
	}
}

// The fluid's color is read under the key that older car folders have, and
// under one key only.
func TestEarlierKey(t *testing.T) {
	const entry = "    since: {date: 2027-01-10, odometer: 89000 mi}\nshelf:"
	files := plain(t)
	car := string(files["car.yaml"].Data)
	for keys, want := range map[string]string{
		"color: dark":                   "",
		"colour: dark":                  "",
		"color: dark\n    colour: dark": `car.yaml:43:5: key "colour" beside "color", expected one of them`,
	} {
		files["car.yaml"].Data = []byte(strings.Replace(car, entry, "    "+keys+"\n"+entry, 1))
		if want != "" {
			if got := refused(t, files); got != want {
				t.Errorf("%s: %s, want %s", keys, got, want)
			}
			continue
		}
		if _, on := loaded(t, files).On(Fluid, "system"); on.Color != "dark" {
			t.Errorf("%s: read as %q", keys, on.Color)
		}
	}
}
