package garage

import (
	"bytes"
	"fmt"
	"io/fs"
	"maps"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/google/go-cmp/cmp"

	"example.com/tripwear/profiles"
)

// packed is a folder as a garage.
func packed(t testing.TB, folder fs.FS) []byte {
	t.Helper()
	var out bytes.Buffer
	if _, err := Write(&out, folder); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

func opened(t testing.TB, data []byte) *Book {
	t.Helper()
	b, err := Open(fstest.MapFS{"garage.xlsx": {Data: data}}, "garage.xlsx")
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func loaded(t testing.TB, folder fs.FS) *profiles.Folder {
	t.Helper()
	f, err := profiles.Load(folder)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// A demo that goes into a workbook and comes back is the car that it was.
func TestDemosComeBack(t *testing.T) {
	for _, name := range profiles.DemoNames() {
		demo, err := profiles.Demo(name)
		if err != nil {
			t.Fatal(err)
		}
		data := packed(t, demo)
		if again := packed(t, demo); !bytes.Equal(data, again) {
			t.Errorf("%s: other bytes the second time", name)
		}
		b := opened(t, data)
		back, err := b.Folder()
		if err != nil {
			t.Fatal(err)
		}
		want := loaded(t, demo).Car.Odometer
		for _, got := range []fs.FS{b, back} {
			if diff := cmp.Diff(want, loaded(t, got).Car.Odometer); diff != "" {
				t.Error(diff)
			}
		}
	}
}

// figures are what a folder says of the car, of its circuits and trips, without
// where it stands.
func figures(f *profiles.Folder) string {
	var b strings.Builder
	car := f.Car
	car.Fitted = nil
	fmt.Fprintf(&b, "%+v\n", car)
	for _, e := range f.Car.Fitted {
		for _, at := range e.At {
			fmt.Fprintf(&b, "%s %s since %v %v, %v days, tread %v pad %v thickness %v used %v\n", e.Part, at, e.Since.Date, e.Since.Odometer, e.CircuitDays, e.Tread[at], e.Pad[at], e.Thickness[at], e.Used[at])
		}
	}
	for _, id := range slices.Sorted(maps.Keys(f.Circuits)) {
		c := f.Circuits[id]
		fmt.Fprintf(&b, "%s %v %v %v %v %v\n", id, c.Length, c.LapTime, c.LeftShare, c.HeavyBrakings, c.Corners)
	}
	for _, id := range slices.Sorted(maps.Keys(f.Trips)) {
		for _, leg := range f.Trips[id].Legs {
			leg.At = profiles.Position{}
			fmt.Fprintf(&b, "%s %+v\n", id, leg)
		}
	}
	for _, id := range slices.Sorted(maps.Keys(f.Parts)) {
		p := f.Parts[id]
		if p.Class != p.ID {
			fmt.Fprintf(&b, "%s %v %v %v %v %v %v %v\n", id, p.Class, p.Name, p.Price, p.Volume, p.LeadTime, p.Fit, p.Hours)
		}
	}
	for _, e := range f.Log {
		e.Line = 0
		fmt.Fprintf(&b, "%+v\n", e)
	}
	return b.String()
}
