package trace_test

import (
	"maps"
	"math"
	"os"
	"slices"
	"strconv"
	"testing"

	"example.com/tripwear/wearmodel/duty"
	"example.com/tripwear/wearmodel/duty/trace/synthetic"
)

// At 1 and 2 Hz with 3 m of noise a whole day of four sessions gives the left
// share within 0.02 whatever the noise happens to be, driven and at measured
// speeds: three days of each circuit, or as many as TRIPWEAR_TRACES says.
func TestRoughDays(t *testing.T) {
	days := 3
	if s := os.Getenv("TRIPWEAR_TRACES"); s != "" {
		n, err := strconv.Atoi(s)
		if err != nil || n < 1 {
			t.Fatalf("TRIPWEAR_TRACES is %q, want a number of days", s)
		}
		days = n
	}
	all := circuits(t)
	for _, rate := range []float64{1, 2} {
		worst, squares, count := 0.0, 0.0, 0.0
		for i, name := range slices.Sorted(maps.Keys(all)) {
			truth := lapOf(t, all[name])
			day := synthetic.Day{Rate: rate, White: 3, Drift: 2, Dropout: 0.01, Laps: session(truth), Sessions: 4}
			for k := range days {
				lap, d := survey(t, record(t, all[name], day, uint64(i+100*k)))
				driven, measured := duty.LeftShare(d)-duty.LeftShare(truth), lap.LeftShare-duty.LeftShare(truth)
				if math.Abs(driven) > 0.02 || math.Abs(measured) > 0.02 {
					t.Errorf("%s, %g Hz, day %d: left share %+.4f, at measured speeds %+.4f", name, rate, k, driven, measured)
				}
				worst, squares, count = max(worst, math.Abs(driven)), squares+driven*driven, count+1
			}
		}
		t.Logf("%g Hz, 3 m, %g days: left share %.4f in the root mean square, %.4f at worst", rate, count, math.Sqrt(squares/count), worst)
	}
}
