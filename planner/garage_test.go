package planner

import (
	"bytes"
	"io/fs"
	"regexp"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"example.com/tripwear/planner/randomcar"
	"example.com/tripwear/planner/report"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/garage"
)

// where is the place of a finding or reading in what an owner keeps.
var where = regexp.MustCompile(` \((?:[a-z.]+ line [0-9]+|garage\.xlsx: [A-Za-z ]+![A-Z]+[0-9]+)(?:, [0-9-]+)?\)`)

// planOf is the plan of a trip, as JSON, but for the places in files or cells.
func planOf(t interface{ Fatal(...any) }, files fs.FS, trip string) string {
	f, err := profiles.Load(files)
	if err != nil {
		t.Fatal(err)
	}
	outing, err := f.FindTrip(trip)
	if err != nil {
		t.Fatal(err)
	}
	p, err := Make(f, outing, Options{Draws: 200, Seed: 1})
	if err != nil {
		t.Fatal(err)
	}
	var text bytes.Buffer
	if err := report.JSON(&text, p); err != nil {
		t.Fatal(err)
	}
	return where.ReplaceAllString(text.String(), "")
}

// inGarage is a folder as a workbook.
func inGarage(t interface{ Fatal(...any) }, files fs.FS) *garage.Book {
	var data bytes.Buffer
	left, err := garage.Write(&data, files)
	if err != nil || len(left) > 0 {
		t.Fatal(left, err)
	}
	book, err := garage.Open(fstest.MapFS{"garage.xlsx": {Data: data.Bytes()}}, "garage.xlsx")
	if err != nil {
		t.Fatal(err)
	}
	return book
}

// comesBack fails unless a folder, the workbook made of it and the folder made
// of that have the same plan.
func comesBack(t interface {
	Fatal(...any)
	Errorf(string, ...any)
}, files fs.FS, trip string) {
	want, book := planOf(t, files, trip), inGarage(t, files)
	if got := planOf(t, book, trip); got != want {
		t.Errorf("the workbook has another plan: %s", cmp.Diff(strings.Split(want, "\n"), strings.Split(got, "\n")))
	}
	back, err := book.Folder()
	if err != nil {
		t.Fatal(err)
	}
	if got := planOf(t, back, trip); got != want {
		t.Errorf("the folder made of the workbook has another plan: %s", cmp.Diff(strings.Split(want, "\n"), strings.Split(got, "\n")))
	}
}

func TestGarageOfDemos(t *testing.T) {
	for _, name := range profiles.DemoNames() {
		files, err := profiles.Demo(name)
		if err != nil {
			t.Fatal(err)
		}
		comesBack(t, files, "")
	}
}

// TestGarageOfAnyCar: TRIPWEAR_CASES=200 for more of them.
func TestGarageOfAnyCar(t *testing.T) {
	randomcar.Check(t, 12, func(t *rapid.T) {
		files, err := randomcar.Draw(t, 6).Files()
		if err != nil {
			t.Fatal(err)
		}
		comesBack(t, files, randomcar.Trip)
	})
}
