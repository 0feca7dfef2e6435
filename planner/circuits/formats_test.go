package circuits

import (
	"maps"
	"math"
	"os"
	"testing"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
)

// Every format of a recording answers with the same circuit, and so does every
// format of a map: an ellipse of 350 and 167 m, once round to the left in 40 s
// (testdata/trace/formats.py, which shares no code with the readers). Its length
// is Ramanujan's second approximation for the perimeter of an ellipse (1914).
func TestFormats(t *testing.T) {
	const a, b = 0.006 * 111_320 * 1.0024 * 0.52547, 0.0015 * 111_370 // m; cosine of 58.3 degrees
	h := (a - b) * (a - b) / ((a + b) * (a + b))
	meters := math.Pi * (a + b) * (1 + 3*h/(10+math.Sqrt(4-3*h)))
	f, _ := demo(t, "juniper")
	f.Circuits = maps.Clone(f.Circuits)
	for _, file := range []string{
		"lap.gpx", "lap-1-0.gpx", "lap.kml", "lap.tcx", "lap.fit", "lap.nmea", "lap-semicolon.csv", "lap-quoted.csv", "lap-minutes.csv",
		"map.gpx", "map.kml", "map.tcx", "map.fit", "map.geojson", "map.csv", "map-width.csv",
	} {
		c := profiles.Circuit{ID: file, Name: file}
		if file == "map.kml" || file == "map.gpx" {
			c.Line = "1"
		}
		if err := c.ReadTrack(os.DirFS("../../testdata/trace"), file); err != nil {
			t.Error(err)
			continue
		}
		f.Circuits[file] = c
		d := describe(t, f, file, Drive{})
		t.Logf("%-18s %s, left share %.4f +- %.4f, %.0f m, lap %.2f s", file, d.Known, d.LeftShare, d.ShareSD, d.Meters, d.LapTime)
		if d.Direction != Anticlockwise || d.LeftShare < 1-math.Max(2*d.ShareSD, 0.005) {
			t.Errorf("%s: goes %s, left share %.4f +- %.4f, want all to the left", file, d.Direction, d.LeftShare, d.ShareSD)
		}
		// The line of least curvature on a map cuts what the track's width lets it.
		off := math.Abs(d.Meters/meters - 1)
		if c.Map != nil && off > 0.03 || c.Trace != nil && (off > 0.005 || d.Known != plan.ByTrack || math.Abs(d.Track.Laps[0]-40) > 0.1) {
			t.Errorf("%s: %.1f m in %.2f s, want %.1f in 40", file, d.Meters, d.LapTime, meters)
		}
	}
}

// A wrong power in car.yaml moves a recorded lap's braking by about half of its
// error, which is said, and is in the band where the power is assumed.
func TestPower(t *testing.T) {
	f, _ := demo(t, "juniper")
	f.Circuits = maps.Clone(f.Circuits)
	c := profiles.Circuit{ID: "heron", Name: "heron"}
	if err := c.ReadTrack(os.DirFS("../../testdata/trace"), "heron-flats.csv"); err != nil {
		t.Fatal(err)
	}
	f.Circuits["heron"] = c
	own := describe(t, f, "heron", Drive{})
	more := *f
	more.Car.Power *= 1.1
	more.Car.Assumed = append(more.Car.Assumed, "power")
	got := describe(t, &more, "heron", Drive{})
	energy := func(c *plan.Circuit) (sum float64) {
		for _, b := range c.Brakings {
			sum += b.Energy
		}
		return sum
	}
	if by := energy(got)/energy(own) - 1; math.Abs(by-own.ByPower) > 0.01 || math.Abs(by-0.05) > 0.025 {
		t.Errorf("a tenth more power: braking %+.3f, said %+.3f", by, own.ByPower)
	}
	if want := math.Hypot(own.BrakeSD, 0.05); math.Abs(got.BrakeSD-want) > 1e-9 {
		t.Errorf("assumed: +- %.3f, want %.3f", got.BrakeSD, want)
	}
}
