// Package realcircuits reads the circuits of testdata/circuits for tests. Their
// source, and that of the figures, stands in README.md there.
package realcircuits

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"example.com/tripwear/wearmodel/duty"
	"example.com/tripwear/wearmodel/duty/trace/synthetic"
)

// Circuit is a real one, and what an independent program finds its line asks of
// Car at Pace.
type Circuit struct {
	Name   string
	Middle []Place // of the track
	X, Y   []float64

	Meters, Turning           float64 // m, degrees
	ShareByAngle, ShareByLoad float64
	Lap, Megajoule, Impulse   float64 // s, MJ on the brakes, kN s/km
	Brakings                  float64
}

// Place is one of the middle of a track, with the widths to either side, m.
type Place struct{ X, Y, Right, Left float64 }

// Car and Pace are those of the figures.
var Car = duty.Vehicle{
	Mass: 1385, FrontShare: 0.53, Wheelbase: 2.51, TrackFront: 1.49, TrackRear: 1.50, CGHeight: 0.48,
	Drive: duty.RearDrive, Power: 172 * 745.7, DragArea: 0.66, RollFront: 0.58, Friction: 1,
	Rolling: 0.013, AirDensity: 1.20, Driveline: 0.87, Rotating: 1.04,
}

const Pace = 0.80

// All are the circuits of a tree whose top is root.
func All(t testing.TB, root string) []Circuit {
	t.Helper()
	read := func(name string) [][]string {
		file, err := os.Open(filepath.Join(root, "testdata/circuits", name+".csv"))
		if err != nil {
			t.Fatal(err)
		}
		defer file.Close()
		rows, err := csv.NewReader(file).ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		return rows[1:]
	}
	figure := func(s string) float64 {
		v, err := strconv.ParseFloat(s, 64)
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
	var out []Circuit
	for _, r := range read("truth") {
		c := Circuit{Name: r[0]}
		for i, to := range []*float64{&c.Meters, &c.Turning, &c.ShareByAngle, &c.ShareByLoad, &c.Lap, &c.Megajoule, &c.Impulse, &c.Brakings} {
			*to = figure(r[i+1])
		}
		for _, p := range read(c.Name + "-centre") {
			c.Middle = append(c.Middle, Place{figure(p[0]), figure(p[1]), figure(p[2]), figure(p[3])})
		}
		for _, p := range read(c.Name + "-line") {
			c.X, c.Y = append(c.X, figure(p[0])), append(c.Y, figure(p[1]))
		}
		out = append(out, c)
	}
	if len(out) != 15 {
		t.Fatalf("%d circuits", len(out))
	}
	return out
}

// Segments is the line that the figures are of.
func (c Circuit) Segments(t testing.TB) []duty.Segment {
	t.Helper()
	segs, err := synthetic.Along(c.X, c.Y)
	if err != nil {
		t.Fatal(err)
	}
	return segs
}
