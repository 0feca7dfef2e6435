package profiles

import (
	"errors"
	"os"
	"strings"
	"testing"
	"testing/fstest"
)

func TestCircuitByTrack(t *testing.T) {
	for key, file := range map[string]string{"gpx": "heron-flats.gpx", "csv": "heron-flats.csv", "track": "heron-flats.log"} {
		data, err := os.ReadFile("../testdata/trace/" + strings.Replace(file, ".log", ".gpx", 1))
		if err != nil {
			t.Fatal(err)
		}
		files := plain(t)
		files["traces/"+file] = &fstest.MapFile{Data: data}
		files["circuits/heron.yaml"] = &fstest.MapFile{Data: []byte("name: Heron Flats\n" + key + ": traces/" + file + "\n")}
		edit(t, files, "trips/there.yaml\n-   - {circuit: hill, pace: novice}\n+   - {circuit: heron, reverse: true, wet: true, cool_down: 1}\n")
		f := loaded(t, files)
		c := f.Circuits["heron"]
		if c.Trace == nil || c.Notes != nil || len(c.Trace.Fixes) < 600 || c.BySummary() {
			t.Fatalf("%s: no track: %+v", key, c)
		}
		leg := f.Trips["there"].Legs[3]
		if !leg.Reverse || !leg.Wet || leg.CoolDown != 1 || leg.Rain != 1 {
			t.Errorf("leg %+v, want reverse, wet and all of it in rain", leg)
		}
	}
	if c := loaded(t, plain(t)).Circuits["hill"]; !c.BySummary() {
		t.Errorf("hill is known by its summary")
	}
}

// What was left out is told with the file and the line; of several lines
// of a map one is named, and of several files none is chosen.
func TestTrackNotes(t *testing.T) {
	table := "time (s),lat,lon,speed\n1,50,8,30\n2,50,8,30\n"
	for _, tt := range []struct{ circuit, notes, err string }{
		{"track: a.txt", `a.txt:1:1: 1 column of speed without a unit, "speed": left out`, ""},
		{"track: map.kml", "", `map.kml: the map holds 2 lines, expected 1 "full course" (41 points) or 2 "pit lane" (3 points)`},
		{"track: map.kml\nline: Full course", "", ""},
		{"track: a.txt\nline: 1", "", "circuits/heron.yaml:3:7: line beside a recorded track, expected line with a map alone"},
		{"track: a.txt\ngpx: b.gpx", "", "circuits/heron.yaml:2:8: gpx and track, expected one file with a recorded track or a map"},
		{"track: ../a.txt", "", `circuits/heron.yaml:2:8: track: "../a.txt" is no path inside the car folder, expected a path such as traces/heron.gpx`},
		{"track: b.fit", "", `circuits/heron.yaml:2:8: track: no file "b.fit" in the car folder, expected a recorded track or a map`},
		{"track: zip", "", "zip: the file is a zip archive, such as KMZ or a workbook, expected GPX, KML, TCX, GeoJSON, FIT, NMEA 0183 or CSV"},
	} {
		files := plain(t)
		files["a.txt"] = &fstest.MapFile{Data: []byte(table)}
		files["zip"] = &fstest.MapFile{Data: []byte("PK\x03\x04")}
		data, err := os.ReadFile("../testdata/trace/map.kml")
		if err != nil {
			t.Fatal(err)
		}
		files["map.kml"] = &fstest.MapFile{Data: data}
		files["circuits/heron.yaml"] = &fstest.MapFile{Data: []byte("name: Heron Flats\n" + tt.circuit + "\n")}
		f, err := Load(files)
		var bad Errors
		switch {
		case errors.As(err, &bad):
			if got := bad.Error(); got != tt.err {
				t.Errorf("%s:\n got %s\nwant %s", tt.circuit, got, tt.err)
			}
		case tt.err != "" || err != nil:
			t.Errorf("%s: error %v, want %s", tt.circuit, err, tt.err)
		case strings.Join(f.Circuits["heron"].Notes, "; ") != tt.notes:
			t.Errorf("%s: notes %q", tt.circuit, f.Circuits["heron"].Notes)
		}
	}
}
