package trace_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"example.com/tripwear/wearmodel/duty/realcircuits"
	"example.com/tripwear/wearmodel/duty/trace"
)

// detour moves the points of a line between two of them up to so far to the left
// and, past the middle, as far to the right: a chicane.
func detour(x, y []float64, from, to int, aside float64) (ox, oy []float64) {
	ox, oy = slices.Clone(x), slices.Clone(y)
	for i := from; i < to; i++ {
		dx, dy := x[i+1]-x[i-1], y[i+1]-y[i-1]
		left := aside * math.Sin(2*math.Pi*float64(i-from)/float64(to-from)) / math.Hypot(dx, dy)
		ox[i], oy[i] = x[i]-left*dy, y[i]+left*dx
	}
	return ox, oy
}

// Stints on a line of a real circuit with something in them that a club day has:
// a driver who learns, a lap that ends at the pits' speed, and a chicane that
// is driven on some laps only. Which laps count is known by how they were driven.
func TestStints(t *testing.T) {
	c := realcircuits.All(t, "../../..")[0]
	plain := drive(c.X, c.Y, 0.8)
	// The straightest stretch of 30 points takes the chicane.
	at, least := 0, math.Inf(1)
	for i := 40; i+80 < len(c.X); i++ {
		bow := math.Hypot(c.X[i]+c.X[i+30]-2*c.X[i+15], c.Y[i]+c.Y[i+30]-2*c.Y[i+15])
		if bow < least {
			at, least = i, bow
		}
	}
	cx, cy := detour(c.X, c.Y, at, at+30, 12)
	chicane := drive(cx, cy, 0.8)
	mx, my := detour(c.X, c.Y, at, at+30, 7)
	mild := drive(mx, my, 0.8)
	t.Logf("with the chicane %.1f m and %.1f s longer; a mild one %.1f s", chicane.meters-plain.meters, chicane.seconds-plain.seconds, mild.seconds-plain.seconds)
	laps := func(d *driver, scales ...float64) (out []stintLap) {
		for _, s := range scales {
			out = append(out, stintLap{d, s})
		}
		return out
	}
	for _, tt := range []struct {
		name  string
		hot   []stintLap
		used  []int // of hot
		spare int   // that may be missing, since the start line may lie in the way from or to the pits
		says  string
	}{
		{"a driver who learns", laps(plain, 1.11, 1.076, 1.067, 1.032, 1), []int{0, 1, 2, 3, 4}, 1, ""},
		{"a long way to learn", laps(plain, 1.2, 1.16, 1.12, 1.08, 1.05, 1.02, 1, 1.003), []int{0, 1, 2, 3, 4, 5, 6, 7}, 1, ""},
		{"a lap in traffic is none of learning", laps(plain, 1, 1.01, 1.09, 1, 1.005, 1), []int{0, 1, 3, 4, 5}, 1, "slower than the usual lap"},
		{"a cool-down lap at the end", laps(plain, 1.01, 1, 1.005, 1.12), []int{0, 1, 2}, 1, "slower than the usual lap"},
		{"the chicane on two of six", append(laps(plain, 1, 1.004, 1.008, 1.002), laps(chicane, 1, 1.003)...), []int{0, 1, 2, 3}, 1, "goes another way than the laps used"},
		{"the chicane on four of six", append(laps(plain, 1, 1.004), laps(chicane, 1, 1.003, 1.005, 1.002)...), []int{2, 3, 4, 5}, 1, "goes another way than the laps used"},
		{"the chicane on one of six", append(laps(plain, 1, 1.004, 1.008, 1.002, 0.999), laps(chicane, 1)...), []int{0, 1, 2, 3, 4}, 1, "goes another way than the laps used"},
		{"a chicane of 7 m on one of six", append(laps(plain, 1, 1.004, 1.008, 1.002, 0.999), laps(mild, 1)...), []int{0, 1, 2, 3, 4}, 1, "goes another way than the laps used"},
		{"a chicane of 7 m on two of five", append(laps(plain, 1, 1.004, 1.008), laps(mild, 1, 1.003)...), []int{0, 1, 2}, 1, "goes another way than the laps used"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			for seed, rate := range []float64{1, 5, 10} {
				if rate == 1 && strings.Contains(tt.name, "of 7 m") {
					continue // it lies between two fixes
				}
				rng := rand.New(rand.NewPCG(uint64(seed), 77))
				o := judged(rate, 1, 0, rng)
				d := tt.hot[tt.used[0]].driver
				stint := slices.Concat(laps(plain, 1.35), tt.hot, laps(plain, 1.35))
				lap, err := trace.Survey(recordStint(stint, o, rng, 50, 8))
				if err != nil {
					t.Fatal(err)
				}
				var times []float64
				for _, i := range tt.used {
					times = append(times, tt.hot[i].scale*d.seconds)
				}
				found := 0
				for _, want := range times {
					for _, got := range lap.Used {
						if math.Abs(got/want-1) < 0.004 {
							found++
							break
						}
					}
				}
				said := tt.says == ""
				for _, x := range lap.Dropped {
					said = said || strings.Contains(x.Why, tt.says)
				}
				if len(lap.Used) > len(times) || found < len(times)-tt.spare || !said {
					t.Errorf("%g Hz: laps used %.1f, want %.1f; dropped %+v", rate, lap.Used, times, lap.Dropped)
				}
				if math.Abs(lap.Meters/d.meters-1) > 0.002 || math.Abs(lap.LeftShare-d.share) > 3*lap.ShareSD {
					t.Errorf("%g Hz: %.0f m, left share %.4f +- %.4f, want %.0f and %.4f", rate, lap.Meters, lap.LeftShare, lap.ShareSD, d.meters, d.share)
				}
			}
		})
	}
}
