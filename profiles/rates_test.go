package profiles

import (
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/google/go-cmp/cmp"
)

// TestRatesGoRound: what is written is read again as it was, without anything of
// the car, and a later file of the same car goes over it but over nothing else.
func TestRatesGoRound(t *testing.T) {
	file := filepath.Join(t.TempDir(), "rates.yaml")
	r := Rates{Mark: "01e45678", Sets: []SetRates{
		{Class: "tire-200", Axle: "front", Readings: 9, Visits: 4, Distance: 5200e3, Road: Rate{Times: 1.1, Spread: 0.12, Before: 0.2}, Circuit: Rate{Times: 0.9, Spread: 0.1, Before: 0.25}},
		{Class: "pads-track-rear", Axle: "rear", Readings: 1, Distance: 900e3, Road: Rate{Times: 1, Spread: 0.24, Before: 0.24}, Circuit: Rate{Times: 2.25, Spread: 0.2, Before: 0.3}},
	}}
	for range 2 {
		if err := r.Write(file); err != nil {
			t.Fatal(err)
		}
		r.Sets[0].Readings++
	}
	r.Sets[0].Readings--
	var f Folder
	if err := f.AddRates(os.DirFS(filepath.Dir(file)), "rates.yaml"); err != nil {
		t.Fatal(err)
	}
	r.File = "rates.yaml"
	if d := cmp.Diff([]Rates{r}, f.Rates); d != "" {
		t.Errorf("(-written +read)\n%s", d)
	}
	r.Mark = "01e45679"
	before, _ := os.ReadFile(file)
	if err := r.Write(file); err == nil || !strings.Contains(err.Error(), "is there already") {
		t.Errorf("over another car's: %v", err)
	}
	if after, _ := os.ReadFile(file); string(after) != string(before) {
		t.Errorf("it now holds %s", after)
	}
}

// TestOwnRates: a car's own file does not count again, whatever was logged since; a
// row taken back does not make it another car's.
func TestOwnRates(t *testing.T) {
	files, err := Demo("juniper")
	if err != nil {
		t.Fatal(err)
	}
	own := fstest.MapFS{}
	read := func(rows string) *Folder {
		for _, name := range []string{"car.yaml", "parts.yaml"} {
			data, err := fs.ReadFile(files, name)
			if err != nil {
				t.Fatal(err)
			}
			own[name] = &fstest.MapFile{Data: data}
		}
		own[LogFile] = &fstest.MapFile{Data: []byte("date,odometer,what,place,zone,value,confirmed,note\n" + rows)}
		f, err := Load(own)
		if err != nil {
			t.Fatal(err)
		}
		return f
	}
	const first, second = "2026-09-06,143300 mi,pad,RF,,6.7 mm,,\n", "2026-10-06,144000 mi,pad,RF,,6.4 mm,,\n"
	mark := read(first).Mark()
	if len(mark) != 8 {
		t.Fatalf("mark %q", mark)
	}
	for _, rows := range []string{first + second, first + second + "2026-10-07,143300 mi,taken back,,,1,,\n"} {
		f := read(rows)
		if f.Mark() != mark {
			t.Errorf("with %q the mark is %s, was %s", rows, f.Mark(), mark)
		}
		text := Rates{Mark: mark, Sets: []SetRates{{Class: "tire-200", Axle: "front", Readings: 1, Road: Rate{Times: 1, Spread: 0.1, Before: 0.2}, Circuit: Rate{Times: 1, Spread: 0.1, Before: 0.2}}}}.text()
		err := f.AddRates(fstest.MapFS{"x.yaml": {Data: []byte(text)}}, "x.yaml")
		if want := "x.yaml:3:8: this car's own rates, expected those of other cars"; err == nil || !strings.HasPrefix(err.Error(), want) || len(f.Rates) > 0 {
			t.Errorf("%v, want %s", err, want)
		}
	}
	if other := read("2026-09-06,143300 mi,pad,RF,,6.8 mm,,\n").Mark(); other == mark {
		t.Errorf("another logbook has the mark %s too", other)
	}
}
