package trace_test

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"example.com/tripwear/wearmodel/duty/realcircuits"
	"example.com/tripwear/wearmodel/duty/trace"
)

// Three recordings of one circuit, at rates and with offsets of their own, on
// clocks that say nothing of each other, are one fit, as good as that of one long
// recording: two draws on every line.
func TestSeveralRecordings(t *testing.T) {
	all := realcircuits.All(t, "../../..")
	var share, sd misses
	for n := range 2 * len(all) {
		c := all[n/2]
		d := drive(c.X, c.Y, 0.8)
		rng := rand.New(rand.NewPCG(uint64(n/2), uint64(31+10*(n%2))))
		heading := rng.Float64()
		var recordings [][]trace.Fix
		for _, rate := range []float64{1, 5, 10} {
			o := judged(rate, 2, 0, rng)
			o.heading = heading
			stint := []stintLap{{d, 1.35}}
			for range 3 {
				stint = append(stint, stintLap{d, math.Exp(o.pace * rng.NormFloat64())})
			}
			fixes := recordStint(append(stint, stintLap{d, 1.35}), o, rng, 50, 8)
			east, north := 4*rng.NormFloat64(), 4*rng.NormFloat64() // m, what the satellites have that day
			for i := range fixes {
				fixes[i].Lat += north / 111e3
				fixes[i].Lon += east / 71e3
			}
			recordings = append(recordings, fixes)
		}
		lap, err := trace.Survey(recordings...)
		if err != nil {
			t.Fatalf("%s: %v", c.Name, err)
		}
		share, sd = append(share, lap.LeftShare-d.share), append(sd, lap.ShareSD)
		if len(lap.Used) < 6 || len(lap.Used) > 9 {
			t.Errorf("%s: laps used %.1f; dropped %+v", c.Name, lap.Used, lap.Dropped)
		}
		if math.Abs(lap.Meters/d.meters-1) > 0.007 || math.Abs(lap.Seconds/d.seconds-1) > 0.02 {
			t.Errorf("%s: %.0f m in %.1f s, want %.0f in %.1f", c.Name, lap.Meters, lap.Seconds, d.meters, d.seconds)
		}
	}
	rms, worst := share.around(0)
	t.Logf("left share: %.4f rms, %.4f at worst; stated %.4f", rms, worst, sd.mean())
	if rms > 0.004 || worst > 0.015 || sd.mean() > 0.005 {
		t.Errorf("left share %.4f rms, %.4f at worst, stated %.4f", rms, worst, sd.mean())
	}

	// Of another circuit, and one that is too short, by their numbers.
	here, there := drive(all[0].X, all[0].Y, 0.8), drive(all[1].X, all[1].Y, 0.8)
	rng := rand.New(rand.NewPCG(1, 32))
	a, _ := here.record(judged(5, 1, 4, rng), rng)
	b, _ := there.record(judged(5, 1, 2, rng), rng)
	for _, tt := range []struct {
		second []trace.Fix
		says   string
	}{{b, "recording 2 has no hot lap of the circuit"}, {a[:20], "recording 2: the trace holds too few fixes"}} {
		if _, err := trace.Survey(a, tt.second); err == nil || !strings.Contains(err.Error(), tt.says) {
			t.Errorf("%v, want an error that says %q", err, tt.says)
		}
	}
}
