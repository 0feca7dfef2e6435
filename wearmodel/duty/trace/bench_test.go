package trace_test

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"pgregory.net/rapid"

	"example.com/tripwear/wearmodel/duty/trace"
	"example.com/tripwear/wearmodel/duty/trace/synthetic"
)

// hours is a recording of about as many hours at 10 Hz.
func hours(t testing.TB, n float64) []trace.Fix {
	fixes := record(t, heronFlats(), synthetic.Day{Rate: 10, White: 1, Drift: 2, Laps: 8, Sessions: int(math.Ceil(3 * n)), Rest: 40}, 1)
	return fixes[:min(len(fixes), int(36000*n))]
}

// Two hours at 10 Hz, 72,000 fixes.
func BenchmarkSurvey(b *testing.B) {
	fixes := hours(b, 2)
	b.ReportMetric(float64(len(fixes)), "fixes")
	b.ReportAllocs()
	for b.Loop() {
		if _, err := trace.Survey(fixes); err != nil {
			b.Fatal(err)
		}
	}
}

// Twice the recording must take not much more than twice as long; the bound
// leaves room for a busy machine.
func TestSurveyGrowsEvenly(t *testing.T) {
	best := func(fixes []trace.Fix) float64 {
		least := math.Inf(1)
		for range 3 {
			begin := time.Now()
			if _, err := trace.Survey(fixes); err != nil {
				t.Fatal(err)
			}
			least = min(least, time.Since(begin).Seconds())
		}
		return least
	}
	half, one := best(hours(t, 0.5)), best(hours(t, 1))
	t.Logf("half an hour at 10 Hz in %.0f ms, an hour in %.0f ms", 1e3*half, 1e3*one)
	if one > 4*half {
		t.Errorf("an hour takes %.2f s, half an hour %.2f", one, half)
	}
}

// Whatever the fixes, there is an answer or an error, and no figure of the
// answer is anything but a number.
func TestAnyFixes(t *testing.T) {
	base := record(t, heronFlats(), synthetic.Day{Rate: 1, White: 1, Laps: 3}, 1)
	rapid.Check(t, func(t *rapid.T) {
		rng := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 0))
		fixes := append([]trace.Fix(nil), base...)
		harm := rapid.Float64Range(0, 0.3).Draw(t, "harm")
		size := math.Pow(10, rapid.Float64Range(-6, 1).Draw(t, "size"))
		for i := range fixes {
			if rng.Float64() < harm {
				fixes[i].Lat += size * rng.NormFloat64()
			}
			if rng.Float64() < harm/10 {
				fixes[i].Lon += size * rng.NormFloat64()
			}
			fixes[i].Gap = rng.Float64() < harm/20
		}
		fixes = fixes[rapid.IntRange(0, len(fixes)).Draw(t, "from"):]
		lap, err := trace.Survey(fixes)
		if err != nil {
			return
		}
		for _, v := range []float64{lap.Seconds, lap.Meters, lap.LeftShare, lap.ShareSD, lap.Noise} {
			if math.IsNaN(v) || math.IsInf(v, 0) || v < 0 {
				t.Fatalf("lap %+v", lap)
			}
		}
		for _, s := range lap.Segments {
			if math.IsNaN(s.Turn) || math.IsNaN(s.Radius) || math.IsNaN(s.Straight) {
				t.Fatalf("segment %+v", s)
			}
		}
	})
}
