package profiles

import (
	"math"
	"strings"
	"testing"
	"testing/fstest"

	"example.com/tripwear/profiles/faulty"
)

// aligned loads the minimal folder with other lines under alignment.
func aligned(t *testing.T, lines string) (*Folder, error) {
	t.Helper()
	files := lay(t, faulty.Archive{})
	text := strings.Replace(string(files["car.yaml"].Data), "  LF: {camber: -1.5 deg, toe: 0.05 deg}\n", lines, 1)
	files["car.yaml"] = &fstest.MapFile{Data: []byte(text)}
	return Load(files)
}

// One toe in every way it may be written. A published shop conversion table
// has 1/8 in of total toe at a 26 in tire as 0.138 degrees a wheel; 0.05
// degrees are 3 minutes by definition.
func TestToe(t *testing.T) {
	for _, row := range []struct {
		lines string
		place string
		want  float64 // deg
		near  float64
	}{
		{"  LF: {toe: 0.05 deg}\n", "LF", 0.05, 1e-12},
		{"  LF: {toe: 3 min}\n", "LF", 0.05, 1e-12},
		{"  LF: {toe: -3 min}\n", "LF", -0.05, 1e-12},
		{"  LF: {toe: 1/16 in, toe_diameter: 26 in}\n", "LF", 0.138, 5e-4},
		{"  front: {toe_total: 1/8 in, toe_diameter: 26 in}\n", "LF", 0.138, 5e-4},
		{"  front: {toe_total: 1/8 in, toe_diameter: 26 in}\n", "RF", 0.138, 5e-4},
		{"  front: {toe_total: 3.175 mm, toe_diameter: 660.4 mm}\n", "RF", 0.138, 5e-4},
		{"  rear: {toe_total: 0.24 deg}\n", "RR", 0.12, 1e-12},
		{"  rear: {toe_total: 14.4 min}\n", "LR", 0.12, 1e-12},
		{"  rear: {toe_total: -2 mm, toe_diameter: 16 in}\n", "LR", -180 / math.Pi * math.Asin(1/406.4), 1e-9},
		{"  LF: {camber: -1 deg}\n  front: {toe_total: 0.2 deg}\n", "LF", 0.1, 1e-12},
		{"  front: {toe_total: 0.2 deg}\n  LF: {camber: -1 deg}\n", "LF", 0.1, 1e-12},
		{"  front: {toe_total: 0.2 deg}\n", "LR", 0, 0},
	} {
		f, err := aligned(t, row.lines)
		if err != nil {
			t.Errorf("%s: %v", row.lines, err)
			continue
		}
		if got := float64(f.Car.Alignment[row.place].Toe) * 180 / math.Pi; math.Abs(got-row.want) > row.near {
			t.Errorf("%s: %s has %.5f deg, want %.5f", row.lines, row.place, got, row.want)
		}
	}
	f, err := aligned(t, "  front: {toe_total: 0.2 deg}\n  LF: {camber: -1 deg}\n")
	if err != nil || math.Abs(float64(f.Car.Alignment["LF"].Camber)+math.Pi/180) > 1e-12 {
		t.Errorf("the camber beside a total is lost: %v", err)
	}
}
