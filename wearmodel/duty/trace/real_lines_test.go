package trace_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"strconv"
	"testing"

	"example.com/tripwear/wearmodel/duty"
	"example.com/tripwear/wearmodel/duty/realcircuits"
	"example.com/tripwear/wearmodel/duty/trace"
)

// theirCar is the driver's car as the lap simulation has it.
func theirCar() duty.Vehicle {
	v := middling()
	v.Mass, v.Power, v.CGHeight, v.Wheelbase = 1385, 172*745.7, 0.48, 2.51
	return v
}

// misses are the errors of many recordings.
type misses []float64

func (e misses) mean() (m float64) {
	for _, v := range e {
		m += v / float64(len(e))
	}
	return m
}

// around is the root mean square and the greatest distance from a value.
func (e misses) around(at float64) (rms, worst float64) {
	for _, v := range e {
		rms += (v - at) * (v - at) / float64(len(e))
		worst = max(worst, math.Abs(v-at))
	}
	return math.Sqrt(rms), worst
}

// below is the share of values below a limit.
func (e misses) below(limit float64) (share float64) {
	for _, v := range e {
		if v < limit {
			share += 1 / float64(len(e))
		}
	}
	return share
}

// Sessions on lines of 15 real circuits, whose source stands in
// testdata/circuits, driven and recorded by a program that shares no code with
// the reader, at 1, 5 and 10 fixes a second with 0.5, 1.5 and 3 m of noise.
//
// TRIPWEAR_SEED draws other sessions; by default every line is recorded three
// times, with it nine times: at every rate with every noise.
func TestRealLines(t *testing.T) {
	seed, all := uint64(1), false
	if s := os.Getenv("TRIPWEAR_SEED"); s != "" {
		n, err := strconv.ParseUint(s, 10, 64)
		if err != nil {
			t.Fatalf("TRIPWEAR_SEED is %q, want a number", s)
		}
		seed, all = n, true
	}
	for _, tt := range []struct {
		laps         int
		share, worst float64 // of the share: root mean square, and at worst
	}{{8, 0.004, 0.015}, {2, 0.006, 0.03}} {
		t.Run(fmt.Sprintf("%d laps", tt.laps), func(t *testing.T) {
			var share, ratio, deviation, length, seconds, brake misses
			for line, c := range realcircuits.All(t, "../../..") {
				d := drive(c.X, c.Y, 0.8)
				for i, rate := range []float64{1, 5, 10} {
					for j, white := range []float64{0.5, 1.5, 3} {
						if !all && (i+j+line)%3 != 0 {
							continue
						}
						rng := rand.New(rand.NewPCG(seed, uint64(100*line+10*i+j)))
						fixes, times := d.record(judged(rate, white, tt.laps, rng), rng)
						what := fmt.Sprintf("%s, %g Hz, %g m", c.Name, rate, white)
						lap, err := trace.Survey(fixes)
						if err != nil {
							t.Errorf("%s: %v", what, err)
							continue
						}
						slices.Sort(times)
						pace, err := duty.FitPace(theirCar(), lap.Segments, lap.Seconds)
						if err != nil {
							t.Errorf("%s: %v", what, err)
							continue
						}
						found, err := duty.Simulate(theirCar(), lap.Segments, pace)
						if err != nil {
							t.Fatal(err)
						}
						share = append(share, lap.LeftShare-d.share)
						deviation = append(deviation, lap.ShareSD)
						ratio = append(ratio, math.Abs(lap.LeftShare-d.share)/lap.ShareSD)
						length = append(length, lap.Meters/d.meters-1)
						seconds = append(seconds, lap.Seconds/((times[(tt.laps-1)/2]+times[tt.laps/2])/2)-1)
						brake = append(brake, found.BrakeEnergy*lap.Harder/d.brake-1)
						if off := duty.LeftShare(found) - lap.LeftShare; math.Abs(off) > 0.02 && tt.laps == 8 {
							t.Errorf("%s: driven, the left share is %+.4f off", what, off)
						}
					}
				}
			}
			within := func(what string, v, limit float64) {
				t.Helper()
				t.Logf("%s: %.4f", what, v)
				if !(v <= limit) {
					t.Errorf("%s: %.4f, want %g at most", what, v, limit)
				}
			}
			rms, worst := share.around(0)
			within("left share, root mean square", rms, tt.share)
			within("left share, at worst", worst, tt.worst)
			if inside := ratio.below(1); !(inside >= 0.60 && inside <= 0.85) {
				t.Errorf("left share within one deviation in %.2f of the recordings, want 0.60 to 0.85", inside)
			}
			within("left share, one deviation misses", 1-ratio.below(1), 0.40)
			within("left share, two deviations miss", 1-ratio.below(2), 0.08)
			slices.Sort(deviation)
			within("median deviation", deviation[len(deviation)/2], 0.005)
			rms, _ = seconds.around(0)
			within("lap time, root mean square", rms, 0.002)
			if tt.laps < 8 {
				return
			}
			rms, worst = length.around(0)
			within("length, root mean square", rms, 0.002)
			within("length, at worst", worst, 0.007)
			rms, worst = brake.around(0)
			t.Logf("braking energy: mean %+.3f", brake.mean())
			within("braking energy, root mean square", rms, 0.04)
			within("braking energy, at worst", worst, 0.12)
		})
	}
}
