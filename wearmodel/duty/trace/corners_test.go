package trace

import (
	"math"
	"slices"
	"testing"

	"example.com/tripwear/wearmodel/duty"
)

// Two stretches, 30 m with 0.3 rad at 20 m/s and 10 m with -0.2 rad at 30:
// curvatures 0.01 and -0.02 1/m.
func TestStretch(t *testing.T) {
	a, b := stretch{4, 10, 30, 0.3, 20}, stretch{14, 3, 10, -0.2, 30}
	near(t, "curvature", b.curvature(), -0.02, 1e-15)
	near(t, "lateral acceleration", b.lateral(), -18/duty.G, 1e-12)
	j := a.join(b)
	if j.from != 4 || j.nodes != 13 || j.meters != 40 {
		t.Errorf("joined: %+v", j)
	}
	near(t, "turn", j.turn, 0.1, 1e-15)
	near(t, "speed", j.speed, 22.5, 1e-12)
	// 0.03/m at the lower speed is 12 m/s2; the two as one stretch of the mean
	// curvature err by sum of length times squared distance from it, 30*10/40.
	want := 7.5 * 12 * 12 / duty.G / duty.G
	near(t, "cost", a.cost(b), want, 1e-12)
	near(t, "cost the other way", b.cost(a), want, 1e-12)
}

func TestFromLine(t *testing.T) {
	for _, tt := range []struct{ from, want []int }{
		{[]int{0, 5, 9}, []int{0, 5, 9}}, {[]int{5, 9, 0}, []int{0, 5, 9}}, {[]int{5, 9, 2}, []int{9, 2, 5}},
		{[]int{9, 2, 5}, []int{9, 2, 5}}, {[]int{5, 0, 9}, []int{0, 9, 5}}, {[]int{3}, []int{3}},
	} {
		var all []stretch
		for _, f := range tt.from {
			all = append(all, stretch{from: f})
		}
		var got []int
		for _, s := range fromLine(all) {
			got = append(got, s.from)
		}
		if !slices.Equal(got, tt.want) {
			t.Errorf("%v begins as %v, want %v", tt.from, got, tt.want)
		}
	}
}

// A stretch of 10 m with 0.02/m between a straight and 0.05/m: four tenths of
// it are of the corner, six of the straight.
func TestSharpen(t *testing.T) {
	straight, corner := stretch{0, 10, 100, 0, 30}, stretch{14, 10, 40, 2, 15}
	between := func(meters, turn float64) stretch { return stretch{10, 4, meters, turn, 20} }
	got := sharpen([]stretch{straight, between(10, 0.2), corner, {24, 5, 50, 0, 30}})
	want := []stretch{{0, 14, 106, 0, 30}, {14, 10, 44, 2.2, 15}, {24, 5, 50, 0, 30}}
	check := func(got, want []stretch) {
		t.Helper()
		if len(got) != len(want) {
			t.Errorf("%+v, want %+v", got, want)
			return
		}
		for i, w := range want {
			g := got[i]
			near(t, "meters", g.meters, w.meters, 1e-12)
			near(t, "turn", g.turn, w.turn, 1e-12)
			if g.from != w.from || g.nodes != w.nodes || g.speed != w.speed {
				t.Errorf("stretch %d: %+v, want %+v", i, g, w)
			}
		}
	}
	check(got, want)
	// From 0.02 to 0.05 over 0.03: a third.
	got = sharpen([]stretch{{0, 5, 50, 1, 20}, between(9, 0.27), corner})
	check(got, []stretch{{0, 9, 56, 1.12, 20}, {14, 10, 43, 2.15, 15}})
	// Two in a row both go.
	got = sharpen([]stretch{straight, between(9, 0.09), between(9, 0.27), corner})
	check(got, []stretch{{0, 18, 110.8, 0, 30}, {14, 10, 47.2, 2.36, 15}})
	for _, stays := range [][]stretch{
		{straight, between(13.5, 0.27), corner},
		{straight, between(10, 0.6), corner},
		{straight, between(10, -0.1), corner},
		{straight, straight, straight},
		{between(10, 0.2), corner},
		{straight, between(10, 0.2)},
	} {
		check(sharpen(slices.Clone(stays)), stays)
	}
	if got := sharpen([]stretch{straight, between(13, 0.26), corner}); len(got) != 2 {
		t.Errorf("13 m between: %+v", got)
	}
	// As curved as a neighbor is between.
	check(sharpen([]stretch{straight, between(10, 0.5), corner}), []stretch{{0, 14, 100, 0, 30}, {14, 10, 50, 2.5, 15}})
	check(sharpen([]stretch{straight, between(10, 0), corner}), []stretch{{0, 14, 110, 0, 30}, {14, 10, 40, 2, 15}})
}

// By Hopf's theorem the corners turn by whole rounds: what the straights and
// rounding have lost is given to them by their turning.
func TestSegments(t *testing.T) {
	all := []stretch{
		{0, 0, 100, 0.05, 30}, // 0.0005/m at 30 m/s, 0.046 g: straight
		{0, 0, 50, 2, 20},     // 1.6 g
		{0, 0, 20, -0.01, 20}, // 0.02 g
		{0, 0, 30, 0, 20},     //
		{0, 0, 40, -1, 20},    // 1 g
		{0, 0, 25, 5, 10},     // 2 g
		{0, 0, 60, 0.02, 40},  // 0.054 g
	}
	// In all 6.06 rad; 0.06 of it on straights, and 2 pi - 6.06 are missing.
	share := (2*math.Pi - 6) / 8
	want := []duty.Segment{{Straight: 100, Turn: 2 + 2*share}, {Straight: 50, Turn: -1 + share}, {Turn: 5 + 5*share}, {Straight: 60}}
	got := segments(all)
	if len(got) != len(want) {
		t.Fatalf("%+v, want %+v", got, want)
	}
	for i, w := range want {
		near(t, "straight", got[i].Straight, w.Straight, 1e-12)
		near(t, "turn", got[i].Turn, w.Turn, 1e-12)
		if meters := []float64{50, 40, 25, 0}[i]; meters > 0 {
			near(t, "radius", got[i].Radius, meters/math.Abs(w.Turn), 1e-12)
		}
	}
	near(t, "turning in all", duty.Turning(got), 2*math.Pi, 1e-12)
	// The other way round, and a figure-eight that turns by nothing.
	for i := range all {
		all[i].turn = -all[i].turn
	}
	near(t, "turning to the right", duty.Turning(segments(all)), -2*math.Pi, 1e-12)
	near(t, "turning of an eight", duty.Turning(segments([]stretch{{0, 0, 50, 4.1, 20}, {0, 0, 50, -4, 20}})), 0, 1e-12)
	near(t, "turning of two rounds", duty.Turning(segments([]stretch{{0, 0, 50, 6.1, 20}, {0, 0, 50, 6, 20}})), 4*math.Pi, 1e-12)
	if got := segments([]stretch{{0, 0, 50, 6, 20}}); len(got) != 1 || got[0].Straight != 0 {
		t.Errorf("one corner: %+v", got)
	}
	// Just over a tenth of g is a corner, just under it a straight.
	for _, g := range []float64{0.0999, 0.1001, -0.0999, -0.1001} {
		got := segments([]stretch{{0, 0, 100, g * duty.G / 9, 30}, {0, 0, 50, 6, 20}})
		if (len(got) == 2) != (math.Abs(g) > 0.1) {
			t.Errorf("%g g: %+v", g, got)
		}
	}
}
