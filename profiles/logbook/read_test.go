package logbook

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
)

const header = "date,odometer,what,place,zone,value,confirmed,note\n"

// read reads a logbook that must be free of faults.
func read(t testing.TB, text string) Log {
	t.Helper()
	log, faults := Read(strings.NewReader(text))
	if len(faults) > 0 {
		t.Fatalf("%q: %+v", text, faults)
	}
	return log
}

func TestReadRow(t *testing.T) {
	got := read(t, header+"2027-04-18,143900 mi,tread,RR,inside,5/32 in,,\n").Entries
	want := []Entry{{
		Line: 2, Number: 1, Date: time.Date(2027, 4, 18, 0, 0, 0, 0, time.UTC), Odometer: 143900 * 1609.344, Mark: "143900 mi",
		What: Tread, Place: "RR", Zone: "inside", Value: 5.0 / 32 * 0.0254, Written: "5/32 in",
	}}
	if diff := cmp.Diff(want, got, cmp.Comparer(func(a, b float64) bool { return a-b < 1e-12 && b-a < 1e-12 })); diff != "" {
		t.Error(diff)
	}
}

// What spreadsheets and people do to a file leaves the rows the same.
func TestReadTolerates(t *testing.T) {
	plain := "2027-04-18,143900 mi,pad,RF,,6.8 mm,,worn even\n2027-05-24,146100 mi,trip driven,,,spring 1-3,yes,\n"
	want := read(t, header+plain).Entries
	if len(want) != 2 || want[1].Text != "spring" || want[1].First != 1 || want[1].Last != 3 || !want[1].Confirmed {
		t.Fatalf("%+v", want)
	}
	for name, text := range map[string]string{
		"byte order mark":     "\ufeff" + header + plain,
		"carriage returns":    strings.ReplaceAll(header+plain, "\n", "\r\n"),
		"no last line break":  strings.TrimSuffix(header+plain, "\n"),
		"semicolons":          strings.ReplaceAll(header+plain, ",", ";"),
		"tabs":                strings.ReplaceAll(header+plain, ",", "\t"),
		"quotes":              header + `"2027-04-18","143900 mi","pad","RF","","6.8 mm","","worn even"` + "\n" + strings.SplitN(plain, "\n", 2)[1],
		"capitals and spaces": header + " 2027-04-18 ,143900 mi, Pad ,rf,, 6.8 mm ,,worn even\n" + strings.SplitN(plain, "\n", 2)[1],
		"column order":        "note,value,zone,place,what,odometer,date,confirmed\nworn even,6.8 mm,,RF,pad,143900 mi,2027-04-18,\n,spring 1-3,,,trip driven,146100 mi,2027-05-24,yes\n",
		"short rows":          header + "2027-04-18,143900 mi,pad,RF,,6.8 mm,,worn even\n2027-05-24,146100 mi,trip driven,,,spring 1-3,yes\n",
		"columns without a name": "date,odometer,what,place,zone,value,confirmed,note,,\n" +
			"2027-04-18,143900 mi,pad,RF,,6.8 mm,,worn even,,\n2027-05-24,146100 mi,trip driven,,,spring 1-3,yes,,,\n",
	} {
		got := read(t, text).Entries
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("%s: %s", name, diff)
		}
	}
	spaced := read(t, header+"\n,,,,,,,\n"+plain+",,,,,,,\n").Entries
	if len(spaced) != 2 || spaced[0].Line != 4 {
		t.Errorf("empty rows: %+v", spaced)
	}
	if len(read(t, "").Entries) != 0 || len(read(t, header).Entries) != 0 {
		t.Error("an empty file holds rows")
	}
}

// Every fault with its place, what is wrong, what is expected and a hint.
func TestFaults(t *testing.T) {
	for _, c := range []struct{ row, want string }{
		{"18.04.2027,1 mi,odometer,,,", `2:1 date: "18.04.2027" is not year-month-day`},
		{"4/8/2027,1 mi,odometer,,,", `2:1 date: "4/8/2027" can be read two ways`},
		{"soon,1 mi,odometer,,,", `2:1 date: "soon" is not a date`},
		{",1 mi,odometer,,,", `2:1 the date is missing`},
		{"2027-04-18,,odometer,,,", `2:12 the odometer is missing`},
		{"2027-04-18,143900,odometer,,,", `2:12 odometer: 143900 has no unit: write 143900 mi or 143900 km`},
		{"2027-04-18,9000000 mi,odometer,,,", `2:12 odometer: 9000000 mi is out of range`},
		{`2027-04-18,1 mi,pad,RF,,"6,8 mm"`, `2:25 value: "6,8 mm" has a comma or underscore in its number`},
		{"2027-04-18,1 mi,pad,RF,,6,8 mm,,", `2:25 the value is cut in two at a decimal comma: "6,8 mm"`},
		{"2027-04-18,1 mi,pad,RF,,6.8", `2:25 value: 6.8 has no unit: write 6.8 mm`},
		{"2027-04-18,1 mi,pad,RF,,68 mm", `2:25 value: 68 mm is out of range`},
		{"2027-04-18,1 mi,pad,RF,,-6.8 mm", `2:25 value: -6.8 mm is negative`},
		{"2027-04-18,1 mi,pad,RF,,", `2:25 pad: no reading given`},
		{"2027-04-18,1 mi,padd,RF,,6 mm", `2:17 unknown word "padd" (did you mean "pad"?)`},
		{"2027-04-18,1 mi,,RF,,6 mm", `2:17 the row does not say what it is about`},
		{"2027-04-18,1 mi,pad,engine,,6 mm", `2:21 pad cannot be at "engine"`},
		{"2027-04-18,1 mi,pad,,,6 mm", `2:21 pad: no place given`},
		{"2027-04-18,1 mi,odometer,RF,,", `2:26 a row odometer takes no place: "RF"`},
		{"2027-04-18,1 mi,tread,RF,,6/32 in", `2:26 tread: no zone given`},
		{"2027-04-18,1 mi,tread,RF,insde,6/32 in", `2:26 unknown zone "insde" (did you mean "inside"?)`},
		{"2027-04-18,1 mi,pad,RF,inside,6 mm", `2:24 a row pad takes no zone: "inside"`},
		{"2027-04-18,1 mi,rotor face,RF,,cracked", `2:32 unknown word "cracked"`},
		{"2027-04-18,1 mi,odometer,,,5 mm", `2:28 a row odometer takes no value: "5 mm"`},
		{"2027-04-18,1 mi,renewal,front,,new pads", `2:32 "new pads" is not a part's id`},
		{"2027-04-18,1 mi,renewal,front,,", `2:32 replaced: no part named`},
		{"2027-04-18,1 mi,fix,RF,,", `2:25 repair: no part named`},
		{"2027-04-18,1 mi,trip driven,,,spring 3-1", `2:31 legs 3-1 are no part of a trip`},
		{"2027-04-18,1 mi,trip driven,,,../x", `2:31 "../x" is not a trip`},
		{"2027-04-18,1 mi,odometer,,,,maybe,", `2:29 confirmed: "maybe" is neither yes nor empty`},
		{"2027-04-18,1 mi,odometer,,,,,,,extra", `2:32 the row has 10 fields, the header 8`},
		{"2027-04-18,1 mi,odometer,,,,,a \"b\" c", `2:32 not readable as CSV: bare " in non-quoted-field`},
		{"2027-04-18,1 mi,odometer,,,,,caf\xe9", `2:1 the line is not UTF-8 text`},
	} {
		_, faults := Read(strings.NewReader(header + c.row + "\n"))
		if len(faults) != 1 {
			t.Errorf("%s: %d faults: %+v", c.row, len(faults), faults)
			continue
		}
		f := faults[0]
		if got := fmt.Sprintf("%d:%d %s", f.Line, f.Column, f.What); got != c.want {
			t.Errorf("%s:\n got %s\nwant %s", c.row, got, c.want)
		}
		if (strings.Contains(c.row, "6,8 mm\"") || strings.HasPrefix(c.row, "4/8")) && !strings.Contains(f.Hint, "spreadsheet") {
			t.Errorf("%s: hint %q", c.row, f.Hint)
		}
	}
	for head, want := range map[string]string{
		"date,odometer,what,place,zone\n":                  `column "value" is missing`,
		"date,odometer,what,place,zon,value\n":             `unknown column "zon" (did you mean "zone"?)`,
		"date,odometer,what,place,zone,value,value,note\n": `column "value" is there twice`,
	} {
		if _, faults := Read(strings.NewReader(head)); len(faults) != 1 || faults[0].What != want {
			t.Errorf("%q: %+v", head, faults)
		}
	}
	_, all := Read(strings.NewReader(header + "x,y,z,,,\n2027-04-18,1 mi,pad,XX,in,q,maybe,\n"))
	if len(all) != 7 {
		t.Errorf("not all faults at once: %+v", all)
	}
}

// A row that was cut off is known as such; one that only lacks the line break
// at the end is a row.
func TestTorn(t *testing.T) {
	whole := header + "2027-04-18,143900 mi,pad,RF,,6.8 mm,,\n"
	second := "2027-05-24,146100 mi,odometer,,,,,done"
	for n := 1; n <= len(second); n++ {
		log := read(t, whole+second[:n])
		torn := n < strings.LastIndexByte(second, ',')+1
		if torn != (log.Torn != "") || len(log.Entries) != map[bool]int{true: 1, false: 2}[torn] {
			t.Errorf("cut after %q: torn %q, %d rows", second[:n], log.Torn, len(log.Entries))
		}
	}
	if log := read(t, whole+`2027-05-24,146100 mi,odometer,,,,,"do`); log.Torn == "" || len(log.Entries) != 1 {
		t.Errorf("cut within quotes: %+v", log)
	}
	if log := read(t, "date,odome"); log.Torn != "date,odome" {
		t.Errorf("cut within the header: %+v", log)
	}
	// A stray quote in the middle is a fault and not a torn end of the file.
	if log, faults := Read(strings.NewReader(header + "2027-04-18,1 mi,odometer,,,,,\"oops\n2027-04-19,2 mi,odometer,,,,,")); log.Torn != "" || len(faults) == 0 {
		t.Errorf("a stray quote: %+v, %+v", log, faults)
	}
}

func FuzzRead(f *testing.F) {
	f.Add([]byte(header + "2027-04-18,143900 mi,tread,RR,inside,5/32 in,,\n"))
	f.Add([]byte("\ufeffdate;odometer;what;place;zone;value\r\n2027-04-18;231 km;fluid water;;;1.2 %\r\n"))
	f.Add([]byte(header + "2027-04-18,1 mi,trip driven,,,spring 1-3,yes,\"a, \"\"b\"\"\"\n2027-04"))
	f.Add([]byte("date,od"))
	f.Add([]byte(header + "2027-04-18,1 mi,odometer,,,,,\n2027-04-19,1 mi,taken back,,,1,,\n2027-04-20,1 mi,taken back,,,2,,\n"))
	f.Add([]byte(header + "2027-04-19,1 mi,taken back,,,2,,\n2027-04-18,1 mi,odometer,,,,,\n"))
	dir := f.TempDir()
	f.Fuzz(func(t *testing.T, data []byte) {
		log, faults := Read(bytes.NewReader(data))
		for _, fault := range faults {
			if broken := strings.Contains(fault.What, "%!") && !bytes.Contains(data, []byte("%!")); fault.What == "" || broken {
				t.Errorf("a fault that says nothing: %+v", fault)
			}
		}
		if len(faults) > 0 {
			return
		}
		// What was read can be added to, and reads the same afterwards.
		path := filepath.Join(dir, "logbook.csv")
		if err := os.WriteFile(path, data, 0o600); err != nil {
			t.Fatal(err)
		}
		added, _ := Parse(Row{"date": "2027-04-18", "odometer": "5 km", "what": "odometer"})
		torn, err := Append(path, []Entry{added}, anyway)
		if err != nil || torn != log.Torn {
			t.Fatalf("torn %q, was %q: %v", torn, log.Torn, err)
		}
		after, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		again, faults := Read(bytes.NewReader(after))
		if len(faults) > 0 || again.Torn != "" || len(again.Entries) != len(log.Entries)+1 {
			t.Fatalf("%d rows, then %d, torn %q: %+v", len(log.Entries), len(again.Entries), again.Torn, faults)
		}
		if diff := cmp.Diff(log.Entries, again.Entries[:len(log.Entries)], cmpopts.EquateEmpty()); diff != "" {
			t.Error(diff)
		}
	})
}

// The words of older logbooks are read as those of today; the file keeps them,
// and new rows have today's.
func TestEarlierWords(t *testing.T) {
	path := filepath.Join(t.TempDir(), "logbook.csv")
	old := header + "2027-04-18,1 mi,renewal,front,,pads-front\n2027-04-18,1 mi,fix,RF,,bearing\n2027-04-18,1 mi,Fluid Colour,,,dark\n"
	if err := os.WriteFile(path, []byte(old), 0o600); err != nil {
		t.Fatal(err)
	}
	log, faults := Read(strings.NewReader(old))
	if len(faults) > 0 || len(log.Entries) != 3 {
		t.Fatalf("%d rows, faults %v", len(log.Entries), faults)
	}
	for i, want := range []What{Replaced, Repair, Color} {
		if got := log.Entries[i].What; got != want {
			t.Errorf("row %d is %q, want %q", i+2, got, want)
		}
	}
	if _, err := Append(path, log.Entries, func([]Entry) bool { return true }); err != nil {
		t.Fatal(err)
	}
	want := old + "2027-04-18,1 mi,replaced,front,,pads-front,,\n2027-04-18,1 mi,repair,RF,,bearing,,\n2027-04-18,1 mi,fluid color,system,,dark,,\n"
	if got, err := os.ReadFile(path); err != nil || string(got) != want {
		t.Errorf("%v, the file holds\n%swant\n%s", err, got, want)
	}
}

// What is typed after "log add" begins with a word of today or of before.
func TestSplitWhat(t *testing.T) {
	for text, want := range map[string][2]string{
		"pad 5.9 mm":          {"pad", "5.9 mm"},
		"pad wear taper":      {"pad wear", "taper"},
		"renewal pads-front":  {"replaced", "pads-front"},
		"FIX bearing":         {"repair", "bearing"},
		"fluid colour amber":  {"fluid color", "amber"},
		"discs  21.6mm":       {"rotor thickness", "21.6mm"},
		"Disk face smooth":    {"rotor face", "smooth"},
		"brake pads 6 mm":     {"pad", "6 mm"},
		"tire tread 5/32\"":   {"tread", "5/32\""},
		"replaced":            {"replaced", ""},
		"renewals pads-front": {"replaced", "pads-front"},
	} {
		if what, value := SplitWhat(text); what != want[0] || value != want[1] {
			t.Errorf("%q: %q and %q, want %q", text, what, value, want)
		}
	}
}

// Places as people say them; what could be two wheels is none.
func TestPlaces(t *testing.T) {
	for place, written := range map[string]string{
		"LF": "LF lf FL left-front front_left", "RF": "RF FR right-front Front-Right", "LR": "LR RL left-rear rear-left",
		"RR": "RR rr right-rear rear-right", "front": "front Front", "engine": "ENGINE", "": "L R F left driver-side FF LL RFR",
	} {
		for _, w := range strings.Fields(written) {
			for _, w := range []string{w, strings.ReplaceAll(w, "-", " ")} {
				if got := OneOf(Places(Replaced), w); got != place {
					t.Errorf("%q is %q, want %q", w, got, place)
				}
			}
		}
	}
}
