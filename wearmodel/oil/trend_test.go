package oil

import (
	"math"
	"slices"
	"testing"
)

// metal is a sample of one metal (ppm) after some miles.
func metal(f Figure, ppm, miles float64) Sample {
	return Sample{Values: map[Figure]float64{f: ppm}, Equivalent: miles * mile}
}

// The rule of Trend, at both of its edges: more than twice the earlier rate,
// and more than 5 ppm over the new oil.
func TestRising(t *testing.T) {
	for _, row := range []struct {
		what               string
		clean, before, now float64
		rising             bool
	}{
		{"twice", 0, 5, 10, false},
		{"more than twice", 0, 5, 10.1, true},
		{"5 ppm", 0, 1, 5, false},
		{"more than 5 ppm", 0, 1, 5.1, true},
		{"8 ppm of which the new oil has 4", 4, 5, 8, false}, // 4 over new against 1
		{"10 ppm of which the new oil has 4", 4, 5, 10, true},
		{"20 ppm of which the new oil has 10", 10, 14, 20, true}, // 10 against 4, though 20 is not twice 14
		{"nothing before", 0, 0, 8, false},
	} {
		fresh := metal(Silicon, row.clean, 0)
		got := trends(metal(Silicon, row.now, 1000), &fresh, []Sample{metal(Silicon, row.before, 1000)})
		if len(got) != 1 || got[0].Rising != row.rising {
			t.Errorf("%s: %+v", row.what, got)
		}
	}
}

// A sample without a distance has no rate and is no report to compare with.
func TestTrendNeedsDistance(t *testing.T) {
	if got := trends(metal(Iron, 20, 0), nil, []Sample{metal(Iron, 5, 1000)}); got != nil {
		t.Errorf("no distance now: %+v", got)
	}
	if got := trends(metal(Iron, 20, 1000), nil, []Sample{metal(Iron, 5, 0)}); got != nil {
		t.Errorf("no distance before: %+v", got)
	}
	got := trends(metal(Iron, 20, 1000), nil, []Sample{metal(Iron, 5, 0), metal(Iron, 5, 1000)})
	if len(got) != 1 || got[0].Reports != 1 {
		t.Errorf("one of two with a distance: %+v", got)
	}
}

// 14 ppm of iron less the new oil's 1 against 6 less 1, over one distance: 2.6
// times as fast.
func TestRisingDoubt(t *testing.T) {
	used, fresh := clean()
	j := Judge(fiveForty, used, &fresh, []Sample{metal(Iron, 6, 3500)}, 3500*mile, usual())
	if want := []string{"iron comes 2.6 times as fast as in the earlier reports"}; !slices.Equal(j.Doubts, want) {
		t.Errorf("%q, want %q", j.Doubts, want)
	}
}

// "30 percent shorter than the break point": a fleet association's advice of
// 2003, at second hand. Fills of 3,000 and 3,500 miles brought 2 ppm a thousand
// miles, one of 5,000 brings 5: it turned beyond 3,500, and 2,450 are supported.
// One earlier report is no trend, and only stops an extension.
func TestTurnedTrend(t *testing.T) {
	used, fresh := clean()
	used.Values[Iron], fresh.Values[Iron], used.Equivalent = 25, 0, 5000*mile
	earlier := []Sample{metal(Iron, 6, 3000), metal(Iron, 7, 3500)}
	for _, row := range []struct {
		earlier []Sample
		want    float64
	}{{earlier, 2450}, {earlier[:1], 3500}, {[]Sample{metal(Iron, 12, 6000), metal(Iron, 12, 6000)}, 3500}} {
		if got := Judge(fiveForty, used, &fresh, row.earlier, 3500*mile, usual()).Supported / mile; math.Abs(got-row.want) > 1e-9 {
			t.Errorf("%d earlier reports: %g mi, want %g", len(row.earlier), got, row.want)
		}
	}
}
