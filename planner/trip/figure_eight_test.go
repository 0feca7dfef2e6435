package trip

import (
	"math"
	"os"
	"testing"

	"example.com/tripwear/profiles/trace"
	"example.com/tripwear/wearmodel/duty"
)

// Source: closed form, worked out and recorded apart by
// testdata/trace/figure_eight.py, which says how.
func TestFigureEightTrack(t *testing.T) {
	file, err := os.Open("../../testdata/trace/figure-eight.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	tr, err := trace.CSV(file)
	if err != nil {
		t.Fatal(err)
	}
	f, _ := demo(t, "juniper")
	lap, err := NewMachine(f).Surveys.Lap(tr)
	if err != nil {
		t.Fatal(err)
	}
	for _, tt := range []struct {
		what           string
		got, want, tol float64
	}{
		{"left share", lap.LeftShare, 0.6, 0.005},
		{"lap time, s", lap.Seconds, 40.592, 0.002 * 40.592},
		{"length, m", lap.Meters, 872.611, 0.003 * 872.611},
		{"turning, rad", duty.Turning(lap.Segments), 0, 1e-6},
		{"noise, m", lap.Noise, 0.5, 0.08},
	} {
		if math.Abs(tt.got-tt.want) > tt.tol {
			t.Errorf("%s: %.4f, want %.4f +- %.3g", tt.what, tt.got, tt.want, tt.tol)
		}
		t.Logf("%s: %.4f, closed form %.4f", tt.what, tt.got, tt.want)
	}
	if math.Abs(lap.LeftShare-0.6) > 2*lap.ShareSD {
		t.Errorf("left share %.4f +- %.4f", lap.LeftShare, lap.ShareSD)
	}
	var left, right float64
	for _, s := range lap.Segments {
		if s.Turn > 0 {
			left += s.Turn
		} else {
			right -= s.Turn
		}
	}
	for _, turned := range []float64{left, right} {
		if math.Abs(turned-1.5*math.Pi) > 0.08 {
			t.Errorf("turns %.3f rad to a side, want %.3f", turned, 1.5*math.Pi)
		}
	}
}
