package trace

import (
	"testing"
)

// Round a square of 400 m in nodes 10 m apart.
func square() *line {
	var x, y []float64
	for i := range 40 {
		s := float64(10 * i)
		x = append(x, max(0, min(100, s, 300-s)))
		y = append(y, max(0, min(100, s-100, 400-s)))
	}
	return polygon(x, y)
}

// on is a fix on the square after a way, m.
func on(s, t float64, lap int) place {
	for s >= 400 {
		s -= 400
	}
	return place{
		x: max(0, min(100, s, 300-s)), y: max(0, min(100, s-100, 400-s)),
		t: t, lap: lap, segment: int(s / 10),
	}
}

// At fixes a second one node is passed by two laps at 20 and at 30 m/s: their
// slownesses have a mean of 1/24 s/m. Where no fixes are, the speed stays.
func TestPaced(t *testing.T) {
	f := &fitted{line: square(), speed: make([]float64, 40)}
	for i := range f.speed {
		f.speed[i] = 99
	}
	for k := range 6 {
		f.places = append(f.places, on(5+20*float64(k), float64(k), 0)) // 5 to 105 m
	}
	for k := range 4 {
		f.places = append(f.places, on(55+30*float64(k), 50+float64(k), 1)) // 55 to 145 m
	}
	got := f.paced()
	for i, v := range got {
		want := 99.0
		switch {
		case i >= 1 && i <= 5:
			want = 20
		case i >= 6 && i <= 10:
			want = 24
		case i >= 11 && i <= 14:
			want = 30
		}
		near(t, "speed", v, want, 1e-9)
	}
}

// Over the start too, with intervals of about a second at four fixes in one.
func TestPacedRound(t *testing.T) {
	f := &fitted{line: square(), speed: make([]float64, 40)}
	for k := range 21 {
		f.places = append(f.places, on(335+6*float64(k), float64(k)/4, 0)) // to 455 m: 24 m/s
	}
	f.places[7].x++ // of the last side, across the line: no harm
	for i, v := range f.paced() {
		want := 0.0
		if i >= 34 || i <= 5 {
			want = 24
		}
		near(t, "speed", v, want, 1e-9)
	}
}

// No speed comes of what is no way: a gap of more than three seconds, more than half
// a lap in an interval, standing, and a crawl counts as 8 m/s.
func TestPacedLeavesOut(t *testing.T) {
	for _, tt := range []struct {
		name   string
		places []place
		want   float64 // at node 1
	}{
		{"3 s", []place{on(5, 0, 0), on(35, 3, 0)}, 10},
		{"3.5 s", []place{on(5, 0, 0), on(40, 3.5, 0)}, 50},
		{"half a lap", []place{on(5, 0, 0), on(205, 2, 0)}, 100},
		{"more than half a lap", []place{on(5, 0, 0), on(206, 2, 0)}, 50},
		{"standing", []place{on(5, 0, 0), on(5, 1, 0)}, 50},
		{"a crawl", []place{on(5, 0, 0), on(15, 2, 0)}, 8},
		{"two laps", []place{on(5, 0, 0), on(35, 1, 1)}, 50},
	} {
		f := &fitted{line: square(), speed: make([]float64, 40), places: tt.places}
		for i := range f.speed {
			f.speed[i] = 50
		}
		near(t, tt.name, f.paced()[1], tt.want, 1e-9)
	}
	// The stride is a second's worth, to the nearest fix: of 0.42 s two, of
	// 0.39 s three.
	for period, want := range map[float64]float64{0.42: 1 / ((0.84/20 + 0.84/18) / 2), 0.39: 22 / 1.17} {
		f := &fitted{line: square(), speed: make([]float64, 40)}
		for k, s := range []float64{5, 9, 25, 27} {
			f.places = append(f.places, on(s, period*float64(k), 0))
		}
		near(t, "speed over some intervals", f.paced()[1], want, 1e-9)
	}
}
