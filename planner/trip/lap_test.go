package trip

import (
	"math"
	"math/rand/v2"
	"os"
	"testing"

	"example.com/tripwear/profiles/trace"
	"example.com/tripwear/wearmodel/duty"
	"example.com/tripwear/wearmodel/duty/trace/synthetic"
)

// Source: closed form, worked out and recorded apart by
// testdata/trace/figure_eight.py, which says how.
func TestFigureEightTrack(t *testing.T) {
	file, err := os.Open("../../testdata/trace/figure-eight.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	tr, err := trace.Read(file)
	if err != nil {
		t.Fatal(err)
	}
	f, _ := demo(t, "juniper")
	lap, err := NewMachine(f).Survey(tr.Trace)
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

// The sample tracks of testdata/trace are an invented car on the demo's
// circuit, recorded by our own generator: what is read from them must be what
// it gives, to the last digit written.
func TestSampleTracks(t *testing.T) {
	f, _ := demo(t, "juniper")
	segs := Segments(f.Circuits["heron-flats"].Corners)
	v := duty.Vehicle{
		Mass: 1385, FrontShare: 0.53, Wheelbase: 2.51, TrackFront: 1.49, TrackRear: 1.50, CGHeight: 0.48,
		Drive: duty.RearDrive, Power: 128e3, DragArea: 0.66, RollFront: 0.58, Friction: 1,
		Rolling: 0.013, AirDensity: 1.20, Driveline: 0.87, Rotating: 1.04,
	}
	for name, day := range map[string]synthetic.Day{
		"heron-flats.gpx": {Rate: 1, White: 0.5, Drift: 1, Laps: 6},
		"heron-flats.csv": {Rate: 2, White: 1, Drift: 1, Laps: 4},
	} {
		day.Lat, day.Lon, day.Heading = 58.3, 8.1, 0.7
		want, err := synthetic.Record(v, segs, 0.80, day, rand.New(rand.NewPCG(11, 1)))
		if err != nil {
			t.Fatal(err)
		}
		file, err := os.Open("../../testdata/trace/" + name)
		if err != nil {
			t.Fatal(err)
		}
		defer file.Close()
		got, err := trace.Read(file)
		if err != nil {
			t.Fatal(err)
		}
		if len(got.Trace.Fixes) != len(want) {
			t.Fatalf("%s: %d fixes, want %d", name, len(got.Trace.Fixes), len(want))
		}
		for i, g := range got.Trace.Fixes {
			w := want[i]
			seconds := (g.Time - got.Trace.Fixes[0].Time) - (w.Time - want[0].Time)
			if math.Abs(g.Lat-w.Lat) > 1e-7 || math.Abs(g.Lon-w.Lon) > 1e-7 || math.Abs(seconds) > 2e-3 {
				t.Fatalf("%s: fix %d is %+v, want %+v", name, i, g, w)
			}
		}
	}
}
