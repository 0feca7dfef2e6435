package trip

import (
	"io/fs"
	"testing"
	"testing/fstest"

	"gonum.org/v1/gonum/floats/scalar"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/profiles"
)

// logged is the juniper demo with rows in its logbook.
func logged(t testing.TB, rows string) (*profiles.Folder, profiles.Trip) {
	t.Helper()
	files, err := profiles.Demo("juniper")
	if err != nil {
		t.Fatal(err)
	}
	all := fstest.MapFS{profiles.LogFile: {Data: []byte("date,odometer,what,place,zone,value,confirmed,note\n" + rows)}}
	err = fs.WalkDir(files, ".", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		data, err := fs.ReadFile(files, path)
		all[path] = &fstest.MapFile{Data: data}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	f, err := profiles.Load(all)
	if err != nil {
		t.Fatal(err)
	}
	trip, err := f.FindTrip("")
	if err != nil {
		t.Fatal(err)
	}
	return f, trip
}

// A reading on the way belongs to the legs before it: a trip read in the
// middle takes the same in all as one read at its end.
func TestPastSplits(t *testing.T) {
	f, _ := logged(t, "2026-06-14,146200 mi,trip driven,,,spring,,\n")
	p, err := NewPast(NewMachine(f), f, map[string]Stages{})
	if err != nil {
		t.Fatal(err)
	}
	of := func(w *kind.Wear) float64 { return w.Tread[1][2] }
	start, end := 143200*float64(mile), 146200*float64(mile)
	road, circuit := p.Worn(of, start, end)
	for _, at := range []float64{0.1, 0.35, 0.4, 0.62, 0.9} {
		mid := start + at*(end-start)
		roadA, circuitA := p.Worn(of, start, mid)
		roadB, circuitB := p.Worn(of, mid, end)
		if !scalar.EqualWithinRel(roadA+roadB, road, 1e-12) || !scalar.EqualWithinRel(circuitA+circuitB, circuit, 1e-12) {
			t.Errorf("split at %.2f: road %g + %g, want %g; circuit %g + %g, want %g", at, roadA, roadB, road, circuitA, circuitB, circuit)
		}
	}
	if d := p.Days(start, end); !scalar.EqualWithinAbs(d, 3, 1e-9) {
		t.Errorf("%.3f circuit days, want 3", d)
	}
	if _, before := p.Worn(of, 100*float64(mile), 130000*float64(mile)); before != 0 {
		t.Error("circuits before the first trip")
	}
}
