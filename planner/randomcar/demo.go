package randomcar

import (
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/faulty"
	"example.com/tripwear/profiles/quantity"
	"example.com/tripwear/profiles/trace"
)

// Demo loads a fresh copy of a demo folder and its trip, to be changed.
func Demo(t testing.TB, name string) (*profiles.Folder, profiles.Trip) {
	t.Helper()
	files, err := profiles.Demo(name)
	if err != nil {
		t.Fatal(err)
	}
	return load(t, files, "")
}

// Logged is the juniper demo with rows in its logbook.
func Logged(t testing.TB, rows string) (*profiles.Folder, profiles.Trip) {
	t.Helper()
	return Edited(t, map[string]string{profiles.LogFile: "date,odometer,what,place,zone,value,confirmed,note\n" + rows})
}

// Edited is the juniper demo with text added to the end of its files, or put in
// front of a line: the key is the file, or the file and the line.
func Edited(t testing.TB, added map[string]string) (*profiles.Folder, profiles.Trip) {
	t.Helper()
	all := Files(t, "juniper")
	for where, text := range added {
		path, line, _ := strings.Cut(where, " ")
		if all[path] == nil {
			all[path] = &fstest.MapFile{}
		}
		before, after := string(all[path].Data), ""
		if line != "" {
			i := strings.Index(before, "\n"+line+"\n")
			if i < 0 {
				t.Fatalf("%s has no line %q", path, line)
			}
			before, after = before[:i+1], before[i+1:]
		}
		all[path].Data = []byte(before + text + after)
	}
	return load(t, all, "spring")
}

func load(t testing.TB, files fs.FS, id string) (*profiles.Folder, profiles.Trip) {
	t.Helper()
	f, err := profiles.Load(files)
	if err != nil {
		t.Fatal(err)
	}
	trip, err := f.FindTrip(id)
	if err != nil {
		t.Fatal(err)
	}
	return f, trip
}

// Sampled is a folder's report, changed.
func Sampled(t testing.TB, f *profiles.Folder, change func(*profiles.OilReport)) profiles.OilReport {
	t.Helper()
	r := f.OilReports[0]
	r.Sources = maps.Clone(r.Sources)
	change(&r)
	return r
}

// FitNew replaces the measurements of a fitted part: as new, no days, no miles.
func FitNew(f *profiles.Folder, part string) {
	for i := range f.Car.Fitted {
		e := &f.Car.Fitted[i]
		if e.Part == part {
			*e = profiles.Fitted{Part: e.Part, At: e.At, Since: e.Since}
			e.Since.Odometer = f.Car.Odometer
		}
	}
}

// Road is a highway leg.
func Road(miles float64) profiles.Leg {
	return profiles.Leg{Kind: profiles.RoadLeg, Name: "a road", Distance: quantity.Length(miles) * 1609.344, Surface: "highway", Ambient: 20}
}

// Days are circuit days with five sessions each.
func Days(circuit string, n int, pace string) profiles.Leg {
	return profiles.Leg{
		Kind: profiles.CircuitLeg, Name: circuit, Days: n, Pace: pace, Ambient: 24,
		Sessions: profiles.Sessions{Count: 5, Each: 1200},
	}
}

// WithTrack is the demo folder with its circuit once more, as a recorded track
// of the tests' data.
func WithTrack(t testing.TB, testdata string) *profiles.Folder {
	t.Helper()
	f, _ := Demo(t, "juniper")
	file, err := os.Open(filepath.Join(testdata, "trace/heron-flats.gpx"))
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	tr, err := trace.Read(file)
	if err != nil {
		t.Fatal(err)
	}
	f.Circuits["heron-track"] = profiles.Circuit{ID: "heron-track", Name: "Heron by track", Trace: tr.Trace}
	return f
}

// Files are a demo's files, in a folder that a test may change: those named, or
// all.
func Files(t testing.TB, name string, only ...string) fstest.MapFS {
	t.Helper()
	demo, err := profiles.Demo(name)
	if err != nil {
		t.Fatal(err)
	}
	files := faulty.Copy(t, demo)
	if len(only) > 0 {
		maps.DeleteFunc(files, func(path string, _ *fstest.MapFile) bool { return !slices.Contains(only, path) })
	}
	return files
}
