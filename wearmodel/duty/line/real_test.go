package line

import (
	"math"
	"math/rand/v2"
	"testing"

	"example.com/tripwear/wearmodel/duty"
	"example.com/tripwear/wearmodel/duty/realcircuits"
)

// real is a circuit with its middle as this room takes it.
type real struct {
	realcircuits.Circuit
	middle []Place
}

func realCircuits(t testing.TB) (out []real) {
	t.Helper()
	for _, c := range realcircuits.All(t, "../../..") {
		r := real{Circuit: c}
		for _, p := range c.Middle {
			r.middle = append(r.middle, Place(p))
		}
		out = append(out, r)
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
	d, err := duty.Simulate(realcircuits.Car, lap.Segments, realcircuits.Pace)
	if err != nil {
		t.Fatal(err)
	}
	return [3]float64{duty.LeftShare(d) - c.ShareByLoad, d.Seconds/c.Lap - 1, d.BrakeEnergy/1e6/c.Megajoule - 1}
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
				t.Fatalf("%s: %v", c.Name, err)
			}
			if lap.Widths != tt.known || math.Abs(lap.Meters/c.Meters-1) > 0.01 || !duty.Closes(lap.Segments) || math.Abs(duty.Length(lap.Segments)/lap.Meters-1) > 1e-9 {
				t.Errorf("%s: widths known: %v, %.0f m of %.0f, turning %.4f", c.Name, lap.Widths, lap.Meters, c.Meters, duty.Turning(lap.Segments))
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
				t.Fatalf("%s: %v", c.Name, err)
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
