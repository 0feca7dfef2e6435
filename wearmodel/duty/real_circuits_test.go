package duty_test

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"

	"example.com/tripwear/wearmodel/duty"
	"example.com/tripwear/wearmodel/duty/trace/synthetic"
)

// Source: lines of an open data set and an independent program's laps of them,
// see testdata/circuits/README.md.
func TestRealCircuits(t *testing.T) {
	file, err := os.Open("../../testdata/circuits/truth.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	v := duty.Vehicle{
		Mass: 1385, FrontShare: 0.53, Wheelbase: 2.51, TrackFront: 1.49, TrackRear: 1.50, CGHeight: 0.48,
		Drive: duty.RearDrive, Power: 172 * 745.7, DragArea: 0.66, RollFront: 0.58, Friction: 1,
		Rolling: 0.013, AirDensity: 1.20, Driveline: 0.87, Rotating: 1.04,
	}
	for _, row := range rows[1:] {
		segs := readLine(t, row[0])
		d, err := duty.Simulate(v, segs, 0.80)
		if err != nil {
			t.Fatal(err)
		}
		left, turned := 0.0, 0.0
		for _, s := range segs {
			left += math.Max(0, s.Turn)
			turned += math.Abs(s.Turn)
		}
		impulse := 0.0
		for _, s := range d.States {
			impulse += v.Mass * math.Abs(s.Ay) * s.Seconds
		}
		for k, tt := range []struct {
			name     string
			got, tol float64
			relative bool
		}{
			{"length, m", d.Meters, 0.003, true},
			{"turning, deg", duty.Turning(segs) * 180 / math.Pi, 0.2, false},
			{"share by angle", left / turned, 0.01, false},
			{"share by load", duty.LeftShare(d), 0.01, false},
			{"lap, s", d.Seconds, 0.003, true},
			{"brake, MJ", d.BrakeEnergy / 1e6, 0.02, true},
			{"impulse, kN s/km", impulse / d.Meters, 0.01, true},
			{"heavy brakings", float64(len(d.Brakings)), 0, false},
		} {
			want, err := strconv.ParseFloat(row[k+1], 64)
			if err != nil {
				t.Fatal(err)
			}
			off := tt.got - want
			if tt.relative {
				off /= want
			}
			if math.Abs(off) > tt.tol {
				t.Errorf("%s: %s %.5g, want %.5g", row[0], tt.name, tt.got, want)
			}
			t.Logf("%s: %s %.5g, want %.5g, off %.4f", row[0], tt.name, tt.got, want, off)
		}
	}
}

// readLine is a line of testdata/circuits.
func readLine(t *testing.T, name string) []duty.Segment {
	t.Helper()
	file, err := os.Open("../../testdata/circuits/" + name + "-line.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var at [2][]float64
	for _, row := range rows[1:] {
		for k := range at {
			v, err := strconv.ParseFloat(row[k], 64)
			if err != nil {
				t.Fatal(err)
			}
			at[k] = append(at[k], v)
		}
	}
	segs, err := synthetic.Along(at[0], at[1])
	if err != nil {
		t.Fatal(err)
	}
	return segs
}
