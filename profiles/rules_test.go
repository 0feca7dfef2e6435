package profiles

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/quantity"
)

// Of a file with many bad lines the first twenty are told.
func TestManyBadLines(t *testing.T) {
	for _, bad := range []int{1, 3, 20, 25} {
		files := plain(t)
		files["car.yaml"].Data = []byte("name: Plain\n" + strings.Repeat("\tmass: 1\n", bad))
		_, err := Load(files)
		var errs Errors
		errors.As(err, &errs)
		told := 0
		for _, e := range errs {
			if e.File == "car.yaml" && e.What == "a tab in the indentation" && e.Line == told+2 {
				told++
			}
		}
		if told != min(bad, 20) {
			t.Errorf("%d bad lines: %d told in %v", bad, told, err)
		}
	}
}

// A difference of 8 mm over 400 mm is asin(8/400) = 1.146 degrees, inside the
// 2 degrees a wheel; 15 mm are 2.149 degrees, beyond them. Trigonometry.
func TestToeRange(t *testing.T) {
	f, err := aligned(t, "  LF: {toe: 8 mm, toe_diameter: 400 mm}\n")
	if err != nil {
		t.Fatal(err)
	}
	if got := float64(f.Car.Alignment["LF"].Toe) * 180 / math.Pi; math.Abs(got-1.146) > 5e-4 {
		t.Errorf("%.4f deg, want 1.146", got)
	}
	if _, err := aligned(t, "  LF: {toe: 15 mm, toe_diameter: 400 mm}\n"); err == nil || !strings.Contains(err.Error(), "at most 2 deg a wheel") {
		t.Errorf("2.149 deg: %v", err)
	}
}

// Rows that are in order: the last leg of a trip, an odometer that stands
// still whichever row comes first, a leap of just what is allowed, an oil
// change that names an oil.
func TestCheckTakes(t *testing.T) {
	for _, rows := range []string{
		"2027-04-18,145000 mi,trip driven,,,spring 8,,\n",
		"2027-04-18,143900 mi,odometer,,,,,\n2027-04-19,143900 mi,pad,RF,,5 mm,,\n",
		"2027-04-19,143900 mi,odometer,,,,,\n2027-04-18,143900 mi,pad,RF,,5 mm,,\n",
		"2027-04-18,163200 mi,odometer,,,,,\n",
		"2027-04-18,143900 mi,oil change,,,oil,,\n",
		// 6.8 mm were read; two readings of 0.3 mm differ by up to 2 sqrt(2) 0.3 = 0.85 mm by chance.
		"2027-04-18,143900 mi,pad,RF,,7.6 mm,,\n",
		"2027-04-18,143900 mi,pad,RF,,5 mm,,\n2027-04-18,143900 mi,pad,RF,,5.8 mm,,\n2027-04-18,143900 mi,pad,RF,,6.6 mm,,\n",
		"2027-04-10,143300 mi,trip driven,,,spring 2,,\n2027-04-19,144400 mi,trip driven,,,spring 1,,\n", // 1010 mi of road
		"2027-04-18,143900 mi,renewal,front,,tires-rear,,\n2027-04-18,143900 mi,renewal,front,,tires-front,,\n2027-04-18,143900 mi,renewal,LF,,tires-front,,again\n",
		"2027-04-18,143900 mi,renewal,front,,tires-rear,,\n2027-04-18,143900 mi,renewal,LF,,tires-rear,,again\n",
	} {
		if _, err := logged(t, rows); err != nil {
			t.Errorf("%q: %v", rows, err)
		}
	}
}

// Rows that are doubted at one odometer: of two readings the later one, on the
// day of car.yaml's own too, after a renewal on the spot, and two trips that
// end where they began.
func TestCheckDoubts(t *testing.T) {
	for _, c := range []struct{ rows, want string }{
		{"2027-04-18,143900 mi,pad,RF,,7.7 mm,,\n", "pad at RF grows to 7.7 mm"},
		{"2027-04-18,143200 mi,pad,RF,,8.5 mm,,\n", "pad at RF grows to 8.5 mm"},
		{"2027-04-18,143900 mi,pad,RF,,5 mm,,\n2027-04-19,143900 mi,pad,RF,,6.7 mm,,\n", "pad at RF grows to 6.7 mm"},
		{"2027-04-18,143900 mi,renewal,front,,pads-front,,\n2027-04-18,143900 mi,pad,RF,,10 mm,,\n2027-04-19,143950 mi,pad,RF,,11 mm,,\n", "pad at RF grows to 11 mm"},
		{"2027-04-18,144300 mi,trip driven,,,spring 1,,\n2027-04-18,144300 mi,trip driven,,,spring 2,,\n2027-04-18,144300 mi,trip driven,,,spring 8,,\n", "more than was driven since the trip before"},
	} {
		if _, err := logged(t, c.rows); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%q:\n got %v\nwant %s", c.rows, err, c.want)
		}
	}
}

// Another part on one wheel only, for each of the kinds that come in pairs,
// and held against what the logbook has put on the other wheel.
func TestCheckPairs(t *testing.T) {
	for _, c := range []struct{ rows, want string }{
		{"2027-04-18,143900 mi,renewal,LF,,tires-rear,,\n", `part "tires-rear" at LF alone, beside tires-front at RF`},
		{"2027-04-18,143900 mi,renewal,LF,,rotors-rear,,\n", `part "rotors-rear" at LF alone, beside rotors-front at RF`},
		{"2027-04-18,143900 mi,renewal,front,,tires-rear,,\n2027-04-19,143950 mi,renewal,LF,,tires-front,,\n", `part "tires-front" at LF alone, beside tires-rear at RF`},
	} {
		if _, err := logged(t, c.rows); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%q:\n got %v\nwant %s", c.rows, err, c.want)
		}
	}
}

// At one odometer the later row counts: new pads read on the spot, and a
// second renewal.
func TestHearAtOneOdometer(t *testing.T) {
	f, err := logged(t, `2027-04-18,143900 mi,renewal,front,,pads-front,,
2027-04-18,143900 mi,pad,RF,,11 mm,,
2027-04-20,143950 mi,renewal,RF,,hub-front,,
2027-04-21,143950 mi,renewal,RF,,hub-front,,
`)
	if err != nil {
		t.Fatal(err)
	}
	if pads := on(t, f, Pads, "RF"); !near(pads.Pad["RF"], 11) {
		t.Errorf("pads read when new: %v", pads.Pad)
	}
	if hub := on(t, f, Bearing, "RF"); hub.Since.Date.Format("2006-01-02") != "2027-04-21" {
		t.Errorf("the second hub: %+v", hub.Since)
	}
}

// A reading of the first set of the list counts like any other, and one at
// the odometer of car.yaml wins over it.
func TestHearFirst(t *testing.T) {
	f, err := logged(t, `2027-04-18,143200 mi,pad,RF,,6.5 mm,,
2027-04-18,143900 mi,tread,LF,outside,6/32 in,,
`)
	if err != nil {
		t.Fatal(err)
	}
	if pads := on(t, f, Pads, "RF"); !near(pads.Pad["RF"], 6.5) {
		t.Errorf("pads %v", pads.Pad)
	}
	if tires := on(t, f, Tire, "LF"); !near(tires.Tread["LF"][2], 6*25.4/32) {
		t.Errorf("tread %v", tires.Tread["LF"])
	}
}

// A reading that was written anew is dated to the departure, by zone where it
// has zones.
func TestRereadDates(t *testing.T) {
	for change, keys := range map[string][]string{
		"fitted.pads-front.pad.LF=5.8mm": {SeenKey(logbook.Pad, "LF", "")},
		"fitted.tires-rear.tread.LR=[2/32 in, 3/32 in, 3/32 in]": {
			SeenKey(logbook.Tread, "LR", "inside"), SeenKey(logbook.Tread, "LR", "middle"), SeenKey(logbook.Tread, "LR", "outside"),
		},
	} {
		f, trip := juniper(t)
		c, err := ParseChange(change)
		if err != nil {
			t.Fatal(err)
		}
		if err := f.Apply(&trip, c); err != nil {
			t.Fatal(err)
		}
		dated, named := 0, 0
		for _, e := range f.Car.Fitted {
			for _, s := range e.Seen {
				if s.Date.Equal(trip.Depart) && s.Odometer == f.Car.Odometer {
					dated++
				}
			}
			for _, k := range keys {
				if s, ok := e.Seen[k]; ok && s.Date.Equal(trip.Depart) {
					named++
				}
			}
		}
		if dated != len(keys) || named != len(keys) {
			t.Errorf("%s: %d readings dated, %d of them of %v", change, dated, named, keys)
		}
	}
}

// A number on the shelf is the part's number, not one entry more, and touches
// no other part's.
func TestShelfIsReplaced(t *testing.T) {
	f, trip := juniper(t)
	if err := f.Apply(&trip, Change{"shelf.oil", "3"}); err != nil {
		t.Fatal(err)
	}
	got := map[string]quantity.Number{}
	for _, s := range f.Car.Shelf {
		got[s.Part] += s.Quantity
	}
	if len(f.Car.Shelf) != 2 || got["oil"] != 3 || got["pads-front"] != 1 {
		t.Errorf("shelf %v", f.Car.Shelf)
	}
}

// What fits a kind of part is taken, the first set of the list too.
func TestApplyTakes(t *testing.T) {
	for _, change := range []string{
		"fitted.tires-front=tires-front", "fitted.rotors-front.used.LF=30%", "fitted.hub-LF.used.LF=30%", "fitted.fluid.pedal=soft",
	} {
		f, trip := juniper(t)
		c, err := ParseChange(change)
		if err != nil {
			t.Fatal(err)
		}
		if err := f.Apply(&trip, c); err != nil {
			t.Errorf("%s: %v", change, err)
		}
	}
}

// The parts that are suggested for a set are of its kind and lack nothing.
func TestSuggestedParts(t *testing.T) {
	f, trip := juniper(t)
	err := f.Apply(&trip, Change{"fitted.pads-front", "tires-rear"})
	if err == nil {
		t.Fatal("tires were taken for pads")
	}
	_, ids, _ := strings.Cut(err.Error(), "a part of kind pads: ")
	for id, p := range f.Parts {
		named := false
		for _, word := range strings.FieldsFunc(ids, func(r rune) bool { return r == ',' || r == ' ' || r == '\n' }) {
			named = named || word == id
		}
		if want := p.Kind == Pads && len(p.Lacks()) == 0; named != want {
			t.Errorf("%s: %s", fmt.Sprintf("%s, kind %s, lacks %v", id, p.Kind, p.Lacks()), err)
		}
	}
}
