package profiles

import (
	"errors"
	"io/fs"
	"math"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/quantity"
)

const logHead = "date,odometer,what,place,zone,value,confirmed,note\n"

// logged is the juniper demo with a logbook.
func logged(t *testing.T, rows string) (*Folder, error) {
	t.Helper()
	return Load(withLog(t, rows))
}

func withLog(t *testing.T, rows string) fstest.MapFS {
	t.Helper()
	demo, err := Demo("juniper")
	if err != nil {
		t.Fatal(err)
	}
	files := fstest.MapFS{}
	for _, name := range []string{"car.yaml", "parts.yaml", "trips/spring.yaml", "circuits/heron-flats.yaml", "circuits/quarry-ridge.yaml"} {
		f, err := fs.ReadFile(demo, name)
		if err != nil {
			t.Fatal(err)
		}
		files[name] = &fstest.MapFile{Data: f}
	}
	files[LogFile] = &fstest.MapFile{Data: []byte(logHead + rows)}
	return files
}

// on is the entry that holds a kind of part at a place.
func on(t *testing.T, f *Folder, k Kind, at string) Fitted {
	t.Helper()
	i := f.holder(k, at)
	if i < 0 {
		t.Fatalf("no %s at %s", k, at)
	}
	return f.Car.Fitted[i]
}

func near(a quantity.Length, mm float64) bool { return math.Abs(float64(a)*1000-mm) < 1e-6 }

// Later readings win over car.yaml, earlier ones are history, a renewal
// resets its place and no other.
func TestHear(t *testing.T) {
	f, err := logged(t, `2026-10-01,141000 mi,pad,LF,,8.5 mm,,
2027-04-18,143900 mi,pad,RF,,5.9 mm,,
2027-04-18,143900 mi,tread,RR,inside,2.5/32 in,,
2027-04-18,143900 mi,hub,RF,,play,,
2027-04-18,143900 mi,rotor face,LF,,checks,,
2027-04-18,143900 mi,fluid water,,,1.1 %,,
2027-04-18,143900 mi,inspection,LR,,cut,,
2027-04-20,143950 mi,renewal,RF,,hub-front,,
2027-04-20,143950 mi,renewal,rear,,tires-rear,,
2027-04-21,143960 mi,tread,LR,outside,8/32 in,,
2027-04-22,143970 mi,oil change,,,,,
`)
	if err != nil {
		t.Fatal(err)
	}
	if f.Car.Odometer != 143970*1609.344 || f.Car.Written != 143200*1609.344 {
		t.Errorf("odometer %v, written %v", f.Car.Odometer, f.Car.Written)
	}
	pads := on(t, f, Pads, "RF")
	if !near(pads.Pad["LF"], 6.9) || !near(pads.Pad["RF"], 5.9) {
		t.Errorf("pads %v: the older reading is history, the later one wins", pads.Pad)
	}
	if s := pads.Seen[SeenKey(logbook.Pad, "RF", "")]; s.Odometer != 143900*1609.344 || s.Date.Format("2006-01-02") != "2027-04-18" {
		t.Errorf("seen %+v", s)
	}
	if hub := on(t, f, Bearing, "RF"); !hub.Logged || hub.Part != "hub-front" || hub.Feel["RF"] != "" || hub.Since.Odometer != 143950*1609.344 {
		t.Errorf("the new hub %+v", hub)
	}
	if hub := on(t, f, Bearing, "LF"); hub.Logged || hub.CircuitDays != 8 {
		t.Errorf("the hub beside it %+v", hub)
	}
	for _, at := range []string{"LR", "RR"} {
		if tires := on(t, f, Tire, at); !tires.Logged || tires.CircuitDays != 0 || tires.Found[at] != "" || len(tires.Tread["RR"]) != 0 {
			t.Errorf("new tires at %s %+v", at, tires)
		}
	}
	tires := on(t, f, Tire, "LR")
	if d := tires.Tread["LR"]; len(d) != 3 || !near(d[2], 8*0.79375) || !tires.Seen["tread LR inside"].New || tires.Seen["tread LR outside"].New {
		t.Errorf("a zone of a new tire: %v %+v", d, tires.Seen)
	}
	if oil := on(t, f, Oil, "engine"); oil.Part != "oil" || oil.Since.Date.Format("2006-01-02") != "2027-04-22" {
		t.Errorf("oil %+v", oil)
	}
	if on(t, f, Rotors, "LF").Face["LF"] != "checks" || math.Abs(float64(on(t, f, Fluid, "system").Water)-0.011) > 1e-12 {
		t.Error("face or water not taken up")
	}
}

// A renewal that car.yaml has already is not made twice.
func TestHearOldRenewal(t *testing.T) {
	f, err := logged(t, "2026-08-30,139500 mi,renewal,front,,pads-front,,\n2026-09-12,139700 mi,renewal,front,,tires-front,,\n")
	if err != nil {
		t.Fatal(err)
	}
	if pads := on(t, f, Pads, "LF"); pads.Logged || !near(pads.Pad["LF"], 6.9) {
		t.Errorf("%+v", pads)
	}
}

// A logbook that a spreadsheet has sorted, the newest row first, says the same.
func TestNewestFirst(t *testing.T) {
	rows := []string{
		"2027-04-18,143900 mi,pad,RF,,4 mm,,", "2027-04-18,143910 mi,renewal,front,,pads-front,,",
		"2027-05-20,144500 mi,pad,RF,,9.5 mm,,", "2027-06-30,145300 mi,renewal,front,,pads-front,,", "2027-08-01,146000 mi,pad,RF,,10.5 mm,,",
	}
	want, err := logged(t, strings.Join(rows, "\n")+"\n")
	if err != nil {
		t.Fatal(err)
	}
	slices.Reverse(rows)
	got, err := logged(t, strings.Join(rows, "\n")+"\n")
	if err != nil {
		t.Fatal(err)
	}
	if a, b := on(t, want, Pads, "RF"), on(t, got, Pads, "RF"); a.Since != b.Since || a.Pad["RF"] != b.Pad["RF"] || !near(b.Pad["RF"], 10.5) {
		t.Errorf("oldest first %+v, newest first %+v", a, b)
	}
}

// What is wrong, and what is odd until the owner says it is right.
func TestCheck(t *testing.T) {
	for _, c := range []struct{ rows, want string }{
		{"2027-04-18,143900 mi,trip driven,,,sprng,,\n", `logbook.csv:2:1: unknown trip "sprng" (did you mean "spring"?)`},
		{"2027-04-18,143900 mi,trip driven,,,spring 9,,\n", `logbook.csv:2:1: trip spring has no leg 9, expected 1 to 8`},
		{"2027-04-18,143900 mi,renewal,front,,pads-frnt,,\n", `logbook.csv:2:1: unknown part "pads-frnt" (did you mean "pads-front"?)`},
		{"2027-04-18,143900 mi,renewal,engine,,pads-front,,\n", `logbook.csv:2:1: part "pads-front" of kind pads cannot be at engine`},
		{"2027-04-18,143900 mi,renewal,LF,,pads-rear,,\n", `logbook.csv:2:1: part "pads-rear" at LF alone, beside pads-front at RF`},
		{"2027-04-18,143900 mi,oil change,,,fluid,,\n", `logbook.csv:2:1: part "fluid" of kind fluid cannot be at engine`},
		{"2027-04-18,143900 mi,pad,RF,,5 mm,,\n2027-04-19,143800 mi,odometer,,,,,\n", `logbook.csv:3:1: the odometer goes back: 143800 mi on 2027-04-19, expected a figure that goes with 143900 mi on 2027-04-18`},
		{"2027-04-18,1439000 mi,odometer,,,,,\n", `logbook.csv:2:1: the odometer jumps to 1439000 mi`},
		{"2027-04-18,14390 mi,odometer,,,,,\n", `logbook.csv:2:1: the odometer drops to 14390 mi, expected at most 20000 mi less than known so far`},
		{"2027-04-18,143900 mi,pad,RF,,8.5 mm,,\n", `logbook.csv:2:1: pad at RF grows to 8.5 mm, expected at most the 6.80 mm`},
		{"2027-04-18,143900 mi,pad,RF,,12.5 mm,,\n", `logbook.csv:2:1: pad at RF is 12.5 mm, more than new, expected at most 11.00 mm`},
		{"2027-04-18,143900 mi,tread,RR,inside,4/32 in,,\n", `logbook.csv:2:1: tread at RR inside grows to 4/32 in`},
		{"2027-04-18,143900 mi,rotor thickness,LF,,22.1 mm,,\n", `logbook.csv:2:1: rotor thickness at LF is 22.1 mm, more than new`},
		{"2027-04-18,143900 mi,odometer,,,,,\n2027-04-18,143900 mi,odometer,,,,,again\n", `logbook.csv:3:1: the row is there already: 2027-04-18 at 143900 mi: odometer`},
		{"2027-04-18,143900 mi,odometer,,,,,\n2027-04-10,143300 mi,trip driven,,,spring 2,,\n2027-04-19,143950 mi,trip driven,,,spring 1,,\n", `logbook.csv:4:1: trip spring 1 has 1010 mi of road, more than was driven since the trip before, at 143300 mi`},
		{"2027-04-18,143900 mi,pad,RF,,5 mm\n2027-04-19,1 m", ""}, // torn, said elsewhere
	} {
		_, err := logged(t, c.rows)
		var errs Errors
		switch {
		case c.want == "" && err != nil:
			t.Errorf("%q: %v", c.rows, err)
		case c.want == "":
		case !errors.As(err, &errs) || len(errs) != 1 || !strings.HasPrefix(errs[0].Error(), c.want):
			t.Errorf("%q:\n got %v\nwant %s", c.rows, err, c.want)
		case !strings.Contains(errs[0].What, "unknown") && !strings.Contains(errs[0].What, "cannot") && !strings.Contains(errs[0].What, "alone") && !strings.Contains(errs[0].What, "no leg"):
			// An odd row that the owner has confirmed is taken.
			rows := strings.Split(strings.TrimSuffix(c.rows, "\n"), "\n")
			fields := strings.Split(rows[len(rows)-1], ",")
			fields[6] = "yes"
			rows[len(rows)-1] = strings.Join(fields, ",")
			if _, err := logged(t, strings.Join(rows, "\n")+"\n"); err != nil {
				t.Errorf("%q, confirmed: %v", c.rows, err)
			}
		}
	}
	// New pads may be thicker than the old ones.
	if _, err := logged(t, "2027-04-18,143900 mi,renewal,front,,pads-front,,\n2027-04-18,143900 mi,pad,RF,,11 mm,,\n"); err != nil {
		t.Error(err)
	}
}

// Rows to be added are judged by the log and by one another.
func judge(f *Folder, rows ...logbook.Entry) ([]string, error) {
	j, err := f.Judge(rows, time.Date(2027, 6, 1, 0, 0, 0, 0, time.UTC))
	return j.Questions, err
}

func TestJudge(t *testing.T) {
	f, err := logged(t, "2027-04-18,143900 mi,pad,RF,,5.5 mm,,\n")
	if err != nil {
		t.Fatal(err)
	}
	entry := func(fields logbook.Row) logbook.Entry {
		e, faults := logbook.Parse(fields)
		if len(faults) > 0 {
			t.Fatalf("%+v", faults)
		}
		return e
	}
	fine := entry(logbook.Row{"date": "2027-04-20", "odometer": "144000 mi", "what": "pad", "place": "RF", "value": "5.4 mm"})
	if doubts, err := judge(f, fine); len(doubts) > 0 || err != nil {
		t.Errorf("%v, %v", doubts, err)
	}
	if doubts, err := judge(f, fine, fine); len(doubts) != 1 || err != nil {
		t.Errorf("twice: %v, %v", doubts, err)
	}
	grown := entry(logbook.Row{"date": "2027-04-20", "odometer": "144000 mi", "what": "pad", "place": "RF", "value": "6.7 mm"})
	if doubts, err := judge(f, grown); len(doubts) != 1 || !strings.Contains(doubts[0], "grows") || err != nil {
		t.Errorf("grown: %v, %v", doubts, err)
	}
	lost := entry(logbook.Row{"date": "2027-04-20", "odometer": "144000 mi", "what": "trip driven", "value": "nowhere"})
	if _, err := judge(f, lost); err == nil {
		t.Error("a trip that is not there was taken")
	}
}

func TestTornIsKept(t *testing.T) {
	f, err := logged(t, "2027-04-18,143900 mi,pad,RF,,5.5 mm,,\n2027-04-19,143")
	if err != nil || f.Torn != "2027-04-19,143" || len(f.Log) != 1 {
		t.Errorf("%v, %+v", err, f)
	}
}

// Every row that car.yaml's own reading of later miles overrides is named, not
// the last one alone; what came after it counts.
func TestOverriddenRowsAreNamed(t *testing.T) {
	f, err := logged(t, `2026-10-01,141000 mi,pad,LF,,8.5 mm,yes,
2026-10-02,141200 mi,pad,LF,,8.2 mm,yes,
2026-10-03,141400 mi,pad,LF,,8.0 mm,yes,
2026-10-03,141400 mi,rotor face,LF,,smooth,yes,
2027-04-18,143900 mi,pad,LF,,5.9 mm,yes,
`)
	if err != nil {
		t.Fatal(err)
	}
	want := []Effect{NotUsed, NotUsed, NotUsed, Counts, Counts}
	for i, e := range f.Evidence {
		if e.Effect != want[i] || e.Effect == NotUsed && !strings.Contains(e.Why, "car.yaml has a reading of later miles") {
			t.Errorf("%s: %s, %q; want %s", e.Entry, e.Effect, e.Why, want[i])
		}
	}
	if got := on(t, f, Pads, "LF").Pad["LF"]; !near(got, 5.9) {
		t.Errorf("LF has %v", got)
	}
}
