package trace_test

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"strings"
	"testing"

	"example.com/tripwear/profiles/trace"
)

func sample(t testing.TB, name string) []byte {
	t.Helper()
	data, err := os.ReadFile("../../testdata/trace/" + name)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// read reads a sample of formats.py.
func read(t testing.TB, name string) *trace.File {
	t.Helper()
	f, err := trace.Read(bytes.NewReader(sample(t, name)))
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	return f
}

// at is the ellipse of formats.py.
func at(i int) (lat, lon, height, speed float64) {
	sin, cos := math.Sincos(float64(i) * math.Pi / 20)
	north, east := 0.0015*cos*111_370, 0.006*sin*111_320*math.Cos(58.3*math.Pi/180)*1.0024
	return 58.3 + 0.0015*sin, 8.1 + 0.006*cos, 12 + 2*sin, math.Pi / 20 * math.Hypot(north, east)
}

// Every format gives the same laps, past midnight, within what its digits can
// say: half of the last one.
func TestRecordings(t *testing.T) {
	const none = -1
	for _, tt := range []struct {
		file, format        string
		degrees, speed, ele float64 // tolerances, none where the format has none
		first               float64 // time of the first fix
		notes               string
	}{
		{"lap.gpx", "GPX", 0.6e-7, none, 0.06, 1_810_252_780, ""},
		{"lap-1-0.gpx", "GPX", 0.6e-7, 0.006, 0.06, 1_810_252_780, ""},
		{"lap.kml", "KML", 0.6e-7, none, 0.06, 1_810_252_780, ""},
		{"lap.tcx", "TCX", 0.6e-7, 0.006, 0.06, 1_810_252_780, ""},
		{"lap.fit", "FIT", 0.5e-7, 0.0006, 0.11, 1_810_252_780, ""},
		{"lap.nmea", "NMEA 0183", 0.9e-7, 0.003, 0.06, 1_810_252_780, ""},
		{"lap-semicolon.csv", "CSV", 0.6e-7, 0.0015, 0.06, 86_380, `line 4: 1 column of speed without a unit, "Geschwindigkeit (GPS)": left out`},
		{"lap-quoted.csv", "CSV", 0.6e-7, 0.0003, 0.002, 0, `line 3: 2 columns of speed without a unit, "Speed", "Velocity": left out`},
		{"lap-minutes.csv", "CSV", 0.9e-7, 0.006, 0.06, 86_380, ""},
	} {
		if !trace.Is(strings.ToUpper(tt.file)) {
			t.Errorf("%s is no name of a track", tt.file)
		}
		f := read(t, tt.file)
		if f.Format != tt.format || f.Trace == nil || len(f.Trace.Fixes) != 131 {
			t.Errorf("%s: %s, %+v", tt.file, f.Format, f)
			continue
		}
		if got := noted(f); got != tt.notes {
			t.Errorf("%s: notes %q, want %q", tt.file, got, tt.notes)
		}
		for i, g := range f.Trace.Fixes {
			lat, lon, ele, speed := at(i)
			if g.Time != tt.first+float64(i) || math.Abs(g.Lat-lat) > tt.degrees || math.Abs(g.Lon-lon) > tt.degrees ||
				math.IsNaN(g.Speed) != (tt.speed == none) || math.Abs(g.Speed-speed) > tt.speed || !(math.Abs(g.Elevation-ele) <= tt.ele) ||
				g.Gap && i > 0 {
				t.Errorf("%s: fix %d is %+v, want %g, %.8f, %.8f, %.2f m, %.3f m/s", tt.file, i, g, tt.first+float64(i), lat, lon, ele, speed)
				break
			}
		}
	}
}

// Every format of a map gives the same line, and lists what else it holds.
func TestMaps(t *testing.T) {
	for _, tt := range []struct{ file, format, lines string }{
		{"map.gpx", "GPX", "full course 41, full course 2 41"},
		{"map.kml", "KML", "full course 41, pit lane 3"},
		{"map.tcx", "TCX", "full course 41"},
		{"map.fit", "FIT", "full course 41"},
		{"map.geojson", "GeoJSON", "full course 41"},
		{"map.csv", "CSV", "line 41"},
		{"map-width.csv", "CSV", "line 41"},
	} {
		if !trace.Is(strings.ToUpper(tt.file)) {
			t.Errorf("%s is no name of a track", tt.file)
		}
		f := read(t, tt.file)
		if f.Format != tt.format || f.Map == nil {
			t.Errorf("%s: %+v", tt.file, f)
			continue
		}
		var lines []string
		for _, l := range f.Map.Lines {
			lines = append(lines, fmt.Sprintf("%s %d", l.Name, len(l.Points)))
		}
		if got := strings.Join(lines, ", "); got != tt.lines {
			t.Errorf("%s: %s, want %s", tt.file, got, tt.lines)
		}
		line := f.Map.Lines[0]
		for i, p := range line.Points {
			lat, lon, _, _ := at(i)
			right, left := math.NaN(), math.NaN()
			tolerance := 1e-7
			switch tt.file {
			case "map.csv":
				lat, lon, tolerance = 167*(lat-58.3)/0.0015, 350*(lon-8.1)/0.006, 6e-4
				right, left = 6, 5.5
			case "map-width.csv":
				right, left = 5.75, 5.75
			}
			if line.Plane != (tt.file == "map.csv") || math.Abs(p.Y-lat) > tolerance || math.Abs(p.X-lon) > tolerance || !same(p.Right, right) || !same(p.Left, left) {
				t.Errorf("%s: point %d is %+v, want %.8f, %.8f, widths %g and %g", tt.file, i, p, lon, lat, right, left)
				break
			}
		}
	}
}

// Chained files of FIT are one recording, whose times rise.
func TestChainedFIT(t *testing.T) {
	first := sample(t, "lap.fit")
	_, err := trace.Read(bytes.NewReader(append(bytes.Clone(first), first...)))
	if err == nil || !strings.Contains(err.Error(), "record 132: this fix is 2 min before") {
		t.Errorf("laps twice: %v", err)
	}
}

func same(a, b float64) bool { return a == b || math.IsNaN(a) && math.IsNaN(b) }

func noted(f *trace.File) string {
	var out []string
	for _, n := range f.Notes {
		out = append(out, n.String())
	}
	return strings.Join(out, "; ")
}
