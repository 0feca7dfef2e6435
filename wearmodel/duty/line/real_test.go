package line

import (
	"encoding/csv"
	"math"
	"math/rand/v2"
	"os"
	"strconv"
	"testing"

	"example.com/tripwear/wearmodel/duty"
)

// real is a circuit of testdata/circuits, whose source and whose car stand
// there: its middle with its widths, and what a line within them asks.
type real struct {
	name                          string
	middle                        []Place
	meters, share, lap, megajoule float64
}

var realCar = duty.Vehicle{
	Mass: 1385, FrontShare: 0.53, Wheelbase: 2.51, TrackFront: 1.49, TrackRear: 1.50, CGHeight: 0.48,
	Power: 172 * 745.7, DragArea: 0.66, RollFront: 0.58, Friction: 1,
	Rolling: 0.013, AirDensity: 1.20, Driveline: 0.87, Rotating: 1.04,
}

const realPace = 0.80

func realCircuits(t testing.TB) []real {
	t.Helper()
	read := func(name string) [][]string {
		file, err := os.Open("../../../testdata/circuits/" + name)
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
	var out []real
	for _, r := range read("truth.csv") {
		c := real{name: r[0], meters: figure(r[1]), share: figure(r[4]), lap: figure(r[5]), megajoule: figure(r[6])}
		for _, p := range read(r[0] + "-centre.csv") {
			c.middle = append(c.middle, Place{figure(p[0]), figure(p[1]), figure(p[2]), figure(p[3])})
		}
		out = append(out, c)
	}
	if len(out) != 15 {
		t.Fatalf("%d circuits", len(out))
	}
	return out
}

// without is a middle as a map has it that says nothing of widths.
func without(p []Place) []Place {
	out := make([]Place, len(p))
	for i := range p {
		out[i] = Place{p[i].X, p[i].Y, math.NaN(), math.NaN()}
	}
	return out
}

// misses are how far a lap by the map is off the truth.
func misses(t *testing.T, c real, lap *Lap) [3]float64 {
	t.Helper()
	d, err := duty.Simulate(realCar, lap.Segments, realPace)
	if err != nil {
		t.Fatal(err)
	}
	return [3]float64{duty.LeftShare(d) - c.share, d.Seconds/c.lap - 1, d.BrakeEnergy/1e6/c.megajoule - 1}
}

// On 15 real circuits the map alone gives share, lap time and braking energy of
// a line within the true widths. Bounds: of the share rms and worst, of the
// others one standard deviation, and the mean within it. The truth is itself a line of least curvature,
// by a program that shares no code: what a driver's line adds is not in it.
func TestRealCircuits(t *testing.T) {
	circuits := realCircuits(t)
	for name, tt := range map[string]struct {
		known       bool
		rms, worst  float64
		time, brake float64
	}{
		"widths given":          {true, 0.005, 0.015, 0.007, 0.025},
		"widths of 5 m assumed": {false, 0.008, 0.022, 0.011, 0.030},
	} {
		var sum, squares, worst [3]float64
		for _, c := range circuits {
			middle := c.middle
			if !tt.known {
				middle = without(middle)
			}
			lap, err := Drive(middle)
			if err != nil {
				t.Fatalf("%s: %v", c.name, err)
			}
			if lap.Widths != tt.known || math.Abs(lap.Meters/c.meters-1) > 0.01 || !duty.Closes(lap.Segments) || math.Abs(duty.Length(lap.Segments)/lap.Meters-1) > 1e-9 {
				t.Errorf("%s: widths known: %v, %.0f m of %.0f, turning %.4f", c.name, lap.Widths, lap.Meters, c.meters, duty.Turning(lap.Segments))
			}
			for k, miss := range misses(t, c, lap) {
				sum[k] += miss
				squares[k] += miss * miss
				worst[k] = max(worst[k], math.Abs(miss))
			}
		}
		n := float64(len(circuits))
		mean := func(k int) float64 { return sum[k] / n }
		sd := func(k int) float64 { return math.Sqrt(squares[k]/n - mean(k)*mean(k)) }
		t.Logf("%s: share %.4f rms, %.4f at worst; lap %+.2f +- %.2f %%, braking energy %+.2f +- %.2f %%", name,
			math.Sqrt(squares[0]/n), worst[0], 100*mean(1), 100*sd(1), 100*mean(2), 100*sd(2))
		if rms := math.Sqrt(squares[0] / n); rms > tt.rms || worst[0] > tt.worst {
			t.Errorf("%s: share %.4f rms, %.4f at worst", name, rms, worst[0])
		}
		if sd(1) > tt.time || sd(2) > tt.brake || math.Abs(mean(1)) > tt.time || math.Abs(mean(2)) > tt.brake {
			t.Errorf("%s: lap %+.4f +- %.4f, braking energy %+.4f +- %.4f", name, mean(1), sd(1), mean(2), sd(2))
		}
	}
}

// Maps come with a point every 20 to 50 m, and a meter off: the stated
// deviations hold what that adds.
func TestRoughMaps(t *testing.T) {
	if testing.Short() {
		t.Skip("60 maps")
	}
	within, all := 0, 0
	for seed, every := range []int{2, 3, 5} {
		rough := rand.New(rand.NewPCG(7, uint64(seed)))
		for _, c := range realCircuits(t) {
			var middle []Place
			for i := 0; i < len(c.middle); i += every {
				p := c.middle[i]
				middle = append(middle, Place{p.X + rough.NormFloat64(), p.Y + rough.NormFloat64(), math.NaN(), math.NaN()})
			}
			lap, err := Drive(middle)
			if err != nil {
				t.Fatalf("%s: %v", c.name, err)
			}
			for k, miss := range misses(t, c, lap) {
				all++
				if math.Abs(miss) <= 2*[3]float64{lap.ShareSD, lap.TimeSD, lap.BrakeSD}[k] {
					within++
				}
			}
		}
	}
	if share := float64(within) / float64(all); share < 0.95 {
		t.Errorf("within two deviations: %.3f of %d", share, all)
	}
}

func BenchmarkDrive(b *testing.B) {
	circuits := realCircuits(b)
	longest := circuits[len(circuits)-1]
	for b.Loop() {
		if _, err := Drive(longest.middle); err != nil {
			b.Fatal(err)
		}
	}
}
