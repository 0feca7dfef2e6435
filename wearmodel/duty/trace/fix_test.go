package trace

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"
)

// flat has a meter to a degree: places in meters can be written down.
var flat = plane{north: 1, east: 1}

// north is fixes on a way to the north.
func north(times, meters []float64) []Fix {
	out := make([]Fix, len(times))
	for i := range out {
		out[i] = Fix{Time: times[i], Lat: meters[i]}
	}
	return out
}

// What is left out and what breaks a recording, on either side of each bound:
// 150 m/s and 20 m for a wild fix, 5 s for a gap, 2.5 periods for one that the
// recorder says.
func TestLay(t *testing.T) {
	flag := func(fixes []Fix, at ...int) []Fix {
		for _, i := range at {
			fixes[i].Gap = true
		}
		return fixes
	}
	far := func(n int, back float64) []Fix { // some 1 km off
		fixes := north([]float64{0, 1}, []float64{0, 10})
		for i := range n {
			fixes = append(fixes, Fix{Time: 1 + float64(i+1)/8, Lat: 1000})
		}
		return append(fixes, Fix{Time: 4, Lat: back})
	}
	for _, tt := range []struct {
		name    string
		fixes   []Fix
		t       []float64
		run     []int
		dropped int
	}{
		{"a time twice", north([]float64{0, 1, 1, 2}, []float64{0, 10, 11, 20}), []float64{0, 1, 2}, []int{0, 0, 0}, 0},
		{"170 m in a second", north([]float64{0, 1, 2}, []float64{0, 170, 180}), []float64{0, 1, 2}, []int{0, 0, 0}, 0},
		{"170.5 m in a second", north([]float64{0, 1, 2}, []float64{0, 170.5, 20}), []float64{0, 2}, []int{0, 0}, 1},
		{"95.5 m in half a second", north([]float64{0, 0.5, 2}, []float64{0, 95.5, 20}), []float64{0, 2}, []int{0, 0}, 1},
		{"770.5 m in 5 s", north([]float64{0, 5, 6}, []float64{0, 770.5, 780}), []float64{0, 5, 6}, []int{0, 0, 0}, 0},
		{"770.5 m to the south and back", north([]float64{0, 4, 8}, []float64{770.5, 0, 770}), []float64{0, 8}, []int{0, 1}, 1},
		{"5.5 s", north([]float64{0, 5.5, 6}, []float64{0, 100, 110}), []float64{0, 5.5, 6}, []int{0, 1, 1}, 0},
		{"a gap of 2.5 s that is said", flag(north([]float64{0, 2.5, 3}, []float64{0, 25, 30}), 1), []float64{0, 2.5, 3}, []int{0, 0, 0}, 0},
		{"a gap of 2.625 s that is said", flag(north([]float64{0, 2.625, 6}, []float64{0, 25, 60}), 1), []float64{0, 2.625, 6}, []int{0, 1, 1}, 0},
		{"a gap that a wild fix says", flag(north([]float64{0, 1, 3, 6}, []float64{0, 500, 30, 60}), 1), []float64{0, 3, 6}, []int{0, 1, 1}, 1},
		{"a gap that is not said", north([]float64{0, 4, 5}, []float64{0, 40, 50}), []float64{0, 4, 5}, []int{0, 0, 0}, 0},
		{"nine wild fixes", far(9, 40), []float64{0, 1, 4}, []int{0, 0, 0}, 9},
		{"ten wild fixes", far(10, 1040), []float64{0, 1, 4}, []int{0, 0, 1}, 10},
		{"a place that stays", far(11, 1040), []float64{0, 1, 1 + 11.0/8, 4}, []int{0, 0, 1, 1}, 10},
	} {
		got := lay(tt.fixes, flat, 1)
		if !slices.Equal(got.t, tt.t) || !slices.Equal(got.run, tt.run) || got.dropped != tt.dropped || got.period != 1 {
			t.Errorf("%s: runs %v at %v, %d dropped; want %v at %v, %d", tt.name, got.run, got.t, got.dropped, tt.run, tt.t, tt.dropped)
		}
	}
	got := lay([]Fix{{Time: 0, Lat: 3, Lon: 4}, {Time: 1, Lat: 7, Lon: -9}}, plane{lat: 1, lon: 2, north: 1, east: 10}, 1)
	if !slices.Equal(got.x, []float64{20, -110}) || !slices.Equal(got.y, []float64{2, 6}) {
		t.Errorf("places %v east, %v north", got.x, got.y)
	}
	// A wild fix is one by both axes.
	if got := lay([]Fix{{Time: 0}, {Time: 1, Lat: 130, Lon: 130}, {Time: 2}}, flat, 1); got.dropped != 1 {
		t.Errorf("184 m in a second: %d dropped", got.dropped)
	}
}

// The bounds of what is a trace.
func TestCheck(t *testing.T) {
	evenly := func(n int, step float64) []Fix {
		out := make([]Fix, n)
		for i := range out {
			out[i] = Fix{Time: 100 + step*float64(i), Lat: 50, Lon: 8}
		}
		return out
	}
	changed := func(n int, change func([]Fix)) []Fix {
		fixes := evenly(n, 0.5)
		change(fixes)
		return fixes
	}
	for _, tt := range []struct {
		name   string
		fixes  []Fix
		period float64
		says   string
	}{
		{"29", evenly(29, 0.5), 0, "too few fixes for a lap: 29, at least 30"},
		{"30", evenly(30, 0.5), 0.5, ""},
		{"89 deg", changed(30, func(f []Fix) { f[0].Lat, f[1].Lat, f[0].Lon, f[1].Lon = 89, -89, 360, -360 }), 0.5, ""},
		{"89.5 deg", changed(30, func(f []Fix) { f[2].Lat = -89.5 }), 0, "fix 3, 101 s at -89.5, 8, is no place"},
		{"361 deg", changed(30, func(f []Fix) { f[2].Lon = 361 }), 0, "fix 3, 101 s at 50, 361, is no place"},
		{"no time", changed(30, func(f []Fix) { f[0].Time = math.NaN() }), 0, "fix 1, NaN s"},
		{"never", changed(30, func(f []Fix) { f[0].Time = math.Inf(-1) }), 0, "fix 1, -Inf s"},
		{"one back", changed(30, func(f []Fix) { f[4].Time -= 0.75 }), 0, "fix 5 is 0.25 s earlier"},
		{"30 of 31 times", changed(31, func(f []Fix) { f[4].Time = f[3].Time }), 0.5, ""},
		{"29 of 30 times", changed(30, func(f []Fix) { f[4].Time = f[3].Time }), 0, "different times for a lap: 29, at least 30"},
		{"1.5 s", evenly(30, 1.5), 1.5, ""},
		{"1.75 s", evenly(30, 1.75), 0, "a fix every 1.75 s"},
	} {
		got, err := check(tt.fixes)
		if tt.says == "" && err != nil || tt.says != "" && (err == nil || !strings.Contains(err.Error(), tt.says)) || got != tt.period {
			t.Errorf("%s: %g s, error %v; want %g and %q", tt.name, got, err, tt.period, tt.says)
		}
		if slow := new(RateError); errors.As(err, &slow) != (tt.name == "1.75 s") {
			t.Errorf("%s: error %v", tt.name, err)
		}
	}
}

func TestMedian(t *testing.T) {
	for _, tt := range []struct {
		values          []float64
		median, quarter float64
	}{
		{nil, 0, 0}, {[]float64{3}, 3, 3}, {[]float64{9, 1}, 5, 1}, {[]float64{9, 1, 2}, 2, 1},
		{[]float64{7, 1, 2, 4}, 3, 2}, {[]float64{5, 4, 3, 2, 1}, 3, 2},
	} {
		if got := quantile(slices.Clone(tt.values), 0.25); got != tt.quarter {
			t.Errorf("a quarter of %v lie below %g, want %g", tt.values, got, tt.quarter)
		}
		if got := median(slices.Clone(tt.values)); got != tt.median {
			t.Errorf("median of %v is %g, want %g", tt.values, got, tt.median)
		}
	}
	if got := quantile([]float64{1, 2}, 1); got != 2 {
		t.Errorf("the whole lies below %g", got)
	}
}
