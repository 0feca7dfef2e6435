package trace

import (
	"math"
	"slices"
	"testing"
)

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s: %.9g, want %.9g (within %g)", what, got, want, tol)
	}
}

// Ten fixes a second at y = t^2: the mean of nine around a fix, 0.1 s apart, is
// t^2 + 2 (1+4+9+16) 0.1^2 / 9. Every tenth is taken, anew after a break,
// and by a side alone none is.
func TestOutline(t *testing.T) {
	tr := &track{period: 0.1}
	for i := range 56 {
		s := float64(i) / 10
		run := 0
		if i >= 25 {
			run, s = 1, s+10
		}
		tr.t, tr.x, tr.y, tr.run = append(tr.t, s), append(tr.x, 5), append(tr.y, s*s), append(tr.run, run)
	}
	o := tr.outline()
	if want := []int{0, 10, 20, 25, 35, 45, 55}; !slices.Equal(o.at, want) {
		t.Fatalf("points at fixes %v, want %v", o.at, want)
	}
	if want := []int{0, 0, 0, 1, 1, 1, 1}; !slices.Equal(o.run, want) {
		t.Fatalf("runs %v, want %v", o.run, want)
	}
	const more = 0.01 * 60 / 9
	for k, want := range []struct{ t, y float64 }{
		{0, 0}, {1, 1 + more}, {2, 4 + more}, {12.5, 156.25}, {13.5, 182.25 + more}, {14.5, 210.25 + more}, {15.5, 240.25},
	} {
		near(t, "time", o.t[k], want.t, 1e-9)
		near(t, "north", o.y[k], want.y, 1e-9)
		near(t, "east", o.x[k], 5, 1e-9)
	}
	// From the first to the second point is 1.07 m in a second: the car stands.
	gone := []float64{0, 0, 3, 3, 3 + 26 + more, 3 + 26 + more + 28, 3 + 26 + more + 28 + 30 - more}
	for k, want := range gone {
		near(t, "way gone", o.gone[k], want, 1e-9)
	}
	for k, want := range []float64{0, 1 + more, 3, 0, 26 + more, 28, 30 - more} {
		near(t, "speed", o.speed[k], want, 1e-9)
	}
	if o.gone[1] != 0 {
		t.Errorf("standing, the car has gone %g m", o.gone[1])
	}
	// The mean stays within a recording: 22 fixes, the point at 20 has one on one
	// side.
	short := &track{period: 0.1, t: tr.t[:22], x: tr.x[:22], y: tr.y[:22], run: tr.run[:22]}
	near(t, "north near the end", short.outline().y[2], (1.9*1.9+4+2.1*2.1)/3, 1e-9)
	// At a fix a second every one counts for itself; 0.98 s is less than a second.
	slow := &track{period: 1, t: []float64{0, 1, 1.98, 2.99, 5.49}, x: []float64{0, 30, 60, 90, 96.25}, y: make([]float64, 5), run: make([]int, 5)}
	got := slow.outline()
	if !slices.Equal(got.at, []int{0, 1, 3, 4}) {
		t.Errorf("points at fixes %v, want 0, 1, 3, 4", got.at)
	}
	// 6.25 m in 2.5 s is just standing.
	near(t, "way gone", got.gone[3], 90, 1e-9)
}

// drawn is an outline through places with their times, in one recording.
func drawn(t, x, y []float64) *outline {
	o := &outline{least: leastLap, t: t, x: x, y: y, run: make([]int, len(t)), gone: make([]float64, len(t)), speed: make([]float64, len(t))}
	for k := range t {
		o.at = append(o.at, k)
		if k > 0 {
			step := math.Hypot(x[k]-x[k-1], y[k]-y[k-1])
			o.gone[k], o.speed[k] = o.gone[k-1]+step, step/(t[k]-t[k-1])
		}
	}
	return o
}

// A gate at (100, 50) that looks to the east-north-east, 3 : 4 : 5, and ways
// past it.
func TestCrossings(t *testing.T) {
	g := gate{100, 50, 0.8, 0.6}
	// at is a place by meters before and to the left of the gate.
	at := func(along, left float64) (x, y float64) {
		return g.x + along*g.ux - left*g.uy, g.y + along*g.uy + left*g.ux
	}
	for _, tt := range []struct {
		name                 string
		from, fromL, to, toL float64
		crosses              bool
		f                    float64
	}{
		{"straight over", -10, 0, 30, 0, true, 0.25},
		{"to the left", -10, 16, 30, 24, true, 0.25},
		{"to the right", -10, -16, 30, -24, true, 0.25},
		{"too far left", -10, 19, 30, 25, false, 0},
		{"too far right", -10, -19, 30, -25, false, 0},
		{"left at first only", -30, 26, 10, 15, true, 0.75},
		{"back", 10, 0, -30, 0, false, 0},
		{"before", -30, 0, -10, 0, false, 0},
		{"beyond", 10, 0, 30, 0, false, 0},
		{"from afar", -301, 0, 30, 0, false, 0},
		{"from not so far", -299, 0, 1, 0, true, 299.0 / 300},
		{"55 degrees aslant", -5, -5 * 1.43, 5, 5 * 1.43, true, 0.5},
		{"65 degrees aslant", -5, 5 * 2.14, 5, -5 * 2.14, false, 0},
	} {
		x0, y0 := at(tt.from, tt.fromL)
		x1, y1 := at(tt.to, tt.toL)
		o := drawn([]float64{7, 9}, []float64{x0, x1}, []float64{y0, y1})
		o.gone[0], o.gone[1] = 1000, 1100
		cs := g.crossings(o)
		if (len(cs) == 1) != tt.crosses {
			t.Errorf("%s: %d crossings", tt.name, len(cs))
			continue
		}
		if tt.crosses {
			near(t, tt.name+": time", cs[0].t, 7+2*tt.f, 1e-9)
			near(t, tt.name+": way", cs[0].gone, 1000+100*tt.f, 1e-9)
		}
		o.run[1] = 1
		if cs := g.crossings(o); len(cs) != 0 {
			t.Errorf("%s: %d crossings over a break", tt.name, len(cs))
		}
	}
	// On the line itself counts as before it; so it is crossed once.
	x0, y0 := at(-20, 0)
	x2, y2 := at(20, 0)
	cs := g.crossings(drawn([]float64{0, 1, 2}, []float64{x0, g.x, x2}, []float64{y0, g.y, y2}))
	if len(cs) != 1 || cs[0].k != 1 || cs[0].t != 1 {
		t.Errorf("a point on the line: %+v", cs)
	}
}

// Passages within 15 s are one, but for a break between them.
func TestCrossingsAreLapsApart(t *testing.T) {
	g := gate{0, 0, 1, 0}
	cross := func(times ...float64) *outline {
		var t, x, y []float64
		for _, s := range times {
			t, x, y = append(t, s-1, s+1), append(x, -20, 20), append(y, 0, 0)
		}
		return drawn(t, x, y)
	}
	o := cross(10, 24, 25, 40, 54)
	for _, want := range [][]float64{{10, 25, 40}, {10, 24, 40}} {
		var got []float64
		for _, c := range g.crossings(o) {
			got = append(got, c.t)
		}
		if !slices.Equal(got, want) {
			t.Errorf("crossings at %v, want %v", got, want)
		}
		for k := 2; k < len(o.run); k++ {
			o.run[k] = 1 // a break after the first
		}
	}
}

// rings is laps of circles through the origin, one point a second, each of its
// own length, m, and time, s.
func rings(laps ...[2]float64) *outline {
	var t, x, y []float64
	now := 0.0
	for _, l := range laps {
		r := l[0] / (2 * math.Pi)
		for s := 0.5; s < l[1]; s++ {
			sin, cos := math.Sincos(2 * math.Pi * s / l[1])
			t, x, y = append(t, now+s), append(x, r*sin), append(y, r*(1-cos))
		}
		now += l[1]
	}
	return drawn(t, x, y)
}

// Laps of like length are kept: those within 6 % of the shortest of them, the
// most there are.
func TestTry(t *testing.T) {
	g := gate{0, 0, 1, 0}
	in := func(l float64) [2]float64 { return [2]float64{l, l / 20} }
	for _, tt := range []struct {
		name   string
		laps   [][2]float64
		times  []float64
		usual  float64
		meters float64
	}{
		{"of like length", [][2]float64{in(900), in(1000), in(1020), in(1040), in(2000), in(1000)}, []float64{50, 51, 52}, 50, 1020},
		{"too long by 7 %", [][2]float64{in(900), in(1000), in(1000), in(1070), in(1000)}, []float64{50, 50}, 50, 1000},
		{"a kart track", [][2]float64{in(700), in(400), in(400), in(700)}, []float64{20, 20}, 20, 400},
		{"too short a lap", [][2]float64{in(700), {295, 20}, {295, 20}, in(700)}, nil, 0, 0},
		{"the first of two groups of as many", [][2]float64{in(700), in(1000), in(1500), in(700)}, []float64{50}, 50, 1000},
	} {
		c := rings(tt.laps...).try(g)
		if len(c.times) != len(tt.times) {
			t.Errorf("%s: laps of %v s, want %v", tt.name, c.times, tt.times)
			continue
		}
		for i := range c.times {
			near(t, tt.name+": lap", c.times[i], tt.times[i], 0.1)
		}
		near(t, tt.name+": usual lap", c.usual, tt.usual, 0.1)
		near(t, tt.name+": meters", c.meters, tt.meters, 5)
		if c.gate != g {
			t.Errorf("%s: gate %v", tt.name, c.gate)
		}
	}
	// A break is no lap.
	o := rings(in(1000), in(1000), in(1000))
	for k := range o.run {
		if k > 75 {
			o.run[k] = 1
		}
	}
	if c := o.try(g); len(c.times) != 0 {
		t.Errorf("laps of %v s with a break in the only one", c.times)
	}
}

// The start line lies where a meter takes least time, the length is that of the
// laps it cuts, and what is slow, like a paddock, is no place for one.
func TestFindGate(t *testing.T) {
	// A square of 400 m sides that stands aslant, 3 : 4 : 5: one side at 50 m/s,
	// the others at 20.
	var ts, xs, ys []float64
	now := 0.0
	point := func(x, y, dt float64) {
		ts, xs, ys = append(ts, now), append(xs, 0.6*x-0.8*y-1000), append(ys, 0.8*x+0.6*y-3000)
		now += dt
	}
	const laps = 4
	for range laps {
		for s := 0.0; s < 400; s += 50 {
			point(s, 0, 1)
		}
		for s := 0.0; s < 400; s += 20 {
			point(400, s, 1)
		}
		for s := 0.0; s < 400; s += 20 {
			point(400-s, 400, 1)
		}
		for s := 0.0; s < 400; s += 20 {
			point(0, 400-s, 1)
		}
	}
	o := drawn(ts, xs, ys)
	g, length := o.findGate()
	near(t, "length", length, 1600, 1e-6)
	along, off := 0.6*(g.x+1000)+0.8*(g.y+3000), 0.6*(g.y+3000)-0.8*(g.x+1000)
	if math.Hypot(g.ux-0.6, g.uy-0.8) > 1e-9 || math.Abs(off) > 1e-9 || along <= 0 || along >= 400 {
		t.Errorf("start line at %+v, want one on the fast side", g)
	}
	if n := len(g.crossings(o)); n != laps {
		t.Errorf("crossed %d times, want %d", n, laps)
	}
	// At just 8 m/s nothing is fast enough.
	slow := drawn(ts, slices.Clone(xs), slices.Clone(ys))
	for k := range slow.speed {
		slow.speed[k] = 8
	}
	if g, length := slow.findGate(); length != 0 || g != (gate{}) {
		t.Errorf("start line at %+v in a paddock, laps of %g m", g, length)
	}
	// A loop of 500 m in a lap of 2,500 that passes the same place: the lap is
	// the longer.
	two := rings([2]float64{500, 20}, [2]float64{2000, 50}, [2]float64{500, 20}, [2]float64{2000, 50}, [2]float64{500, 20}, [2]float64{2000, 50}, [2]float64{500, 20}, [2]float64{2000, 50})
	if _, length := two.findGate(); math.Abs(length-2500) > 10 {
		t.Errorf("laps of %.0f m, want 2500", length)
	}
}

// A slow lap is not one more: of places that three hot laps cut, the one where
// a meter takes least time is the start line, though a slow lap cuts the others too.
func TestFindGateBySlowLaps(t *testing.T) {
	var ts, xs, ys []float64
	now := 0.0
	side := func(fx, fy, ux, uy, step float64) {
		for s := 0.0; s < 400; s += step {
			ts, xs, ys = append(ts, now), append(xs, fx+s*ux), append(ys, fy+s*uy)
			now++
		}
	}
	for lap := range 5 {
		side(0, 0, 1, 0, 20)
		side(400, 0, 0, 1, 20)
		side(400, 400, -1, 0, 20)
		if lap == 0 {
			now += 6 // in traffic, at the end of the slow sides
		}
		if lap < 4 { // the last lap ends before
			side(0, 400, 0, -1, 50)
		}
	}
	g, length := drawn(ts, xs, ys).findGate()
	near(t, "length", length, 1600, 1e-6)
	if g.uy != -1 || g.x != 0 {
		t.Errorf("start line at %+v, want one on the fast side", g)
	}
}
