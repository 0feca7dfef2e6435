package trace

import (
	"math"
	"math/rand/v2"
	"testing"

	"example.com/tripwear/wearmodel/duty"
)

// The mean speed of the fixes beside a node, at least 8 m/s; where none is,
// that of the node before, and at the start that of the last fix.
func TestSpeeds(t *testing.T) {
	f := &fitted{line: newLine(6), places: []place{{segment: 1, speed: 20}, {segment: 3, speed: 5}, {segment: 1, speed: 26}, {segment: 4, speed: 40}}}
	for i, want := range []float64{40, 23, 23, 8, 40, 40} {
		near(t, "speed", f.speeds()[i], want, 1e-12)
	}
}

// On a square of 10 m steps: a fix pulls the nodes of its segment by its share
// of the way between them, less the drift of its lap.
func TestGather(t *testing.T) {
	f := &fitted{line: square(), noise: 1, system: newRing(40)}
	f.places = []place{
		{x: 3, y: 2, segment: 1},             // of segment 0: 0.7 and 0.3, 2 to the left
		{x: 5, y: -3, drift: -2, segment: 0}, // halves, 1 to the right
		{x: -4.5, y: 2, segment: 39},         // of the last: 0.2 and 0.8, 4.5 to the right
	}
	side := make([]float64, 40)
	side[7] = 9 // of the round before
	f.system.at[2][5] = 9
	f.gather(side, false)
	want := map[[2]int]float64{
		{0, 0}: 0.49 + 0.25 + 0.64, {0, 1}: 0.09 + 0.25, {0, 39}: 0.04, {1, 0}: 0.21 + 0.25, {1, 39}: 0.16,
	}
	for k := range f.system.at {
		for i, v := range f.system.at[k] {
			near(t, "element", v, want[[2]int{k, i}], 1e-12)
		}
	}
	for i, v := range side {
		near(t, "side", v, map[int]float64{0: 1.4 - 0.5 - 3.6, 1: 0.6 - 0.5, 39: -0.9}[i], 1e-12)
	}
	if f.places[0].segment != 0 {
		t.Error("the fix keeps the segment that it was at first")
	}
	// The last is beyond four spreads.
	f.gather(side, true)
	near(t, "side", side[39], 0, 0)
	near(t, "side", side[0], 0.9, 1e-12)
	f.noise = 4.5 / wild // and now just on the bound
	f.gather(side, true)
	near(t, "side", side[39], -0.9, 1e-12)
}

// Nodes move along the bisector of their two sides, to the left, by no more
// than is allowed.
func TestMove(t *testing.T) {
	f := &fitted{line: square()}
	by := make([]float64, 40)
	by[0], by[3], by[12], by[20], by[35] = 1, -2, 0.5, 9, -9
	f.move(by, 3)
	r := math.Sqrt(0.5)
	want := square()
	want.x[0], want.y[0] = r, r
	want.y[3] = -2
	want.x[12] = 99.5
	want.x[20], want.y[20] = 100-3*r, 100-3*r
	want.x[35] = -3
	for i := range want.x {
		near(t, "east", f.x[i], want.x[i], 1e-12)
		near(t, "north", f.y[i], want.y[i], 1e-12)
	}
}

// Noise is 1.4826 of the median misfit (of a normal distribution), over the
// root of the share of fixes that the line has not used up: a degree of
// freedom in three reaches of a node's weight, or one a node.
func TestEstimate(t *testing.T) {
	f := &fitted{line: square(), noise: 2}
	for k := range 400 {
		p := on(float64(k), 0, 0)
		left := 0.5 + float64(k%5) // median 2.5
		if k%2 == 0 {
			left = -left
		}
		d := f.dir[p.segment]
		p.x, p.y, p.drift = p.x-left*d[1], p.y+left*d[0], 0
		f.places = append(f.places, p)
	}
	weights := make([]float64, 40)
	for i := range weights {
		if i < 20 {
			weights[i] = 1e10 / 40 // 1e10 m6 with 4 m2, 10 m and a fix a meter: reach 46.4 m
		}
	}
	// The others are free: a degree each.
	freedom := 20*10/(3*math.Pow(1e10, 1.0/6)) + 20
	f.estimate(weights)
	near(t, "noise", f.noise, 1.4826*2.5/math.Sqrt(1-freedom/400), 1e-6)

	// At most four fifths of the spread are taken for freedom.
	few := &fitted{line: square(), noise: 2, places: f.places[:21]}
	few.estimate(make([]float64, 40))
	near(t, "noise of few", few.noise, 1.4826*2.5/math.Sqrt(0.2), 1e-6)
	for k := range f.places {
		p := &f.places[k]
		_, _, left := f.locate(p.x, p.y, p.segment)
		p.drift = left
	}
	f.estimate(weights)
	near(t, "least noise", f.noise, 0.02, 0)
}

// oval is two straights of 200 m and two half rounds of 40 m radius to the
// left, from the middle of a straight, and its place after a way.
const ovalLength = 400 + 80*math.Pi

func oval(s float64) (x, y float64) {
	half := 40 * math.Pi
	turned := false
	if s = math.Mod(s, ovalLength); s >= ovalLength/2 {
		s, turned = s-ovalLength/2, true
	}
	switch {
	case s < 100:
		x, y = s, -40
	case s < 100+half:
		sin, cos := math.Sincos((s - 100) / 40)
		x, y = 100+40*sin, -40*cos
	default:
		x, y = 100-(s-100-half), 40
	}
	if turned {
		return -x, -y
	}
	return x, y
}

// ovals drives laps of the oval at a speed, with noise to either side and along.
func ovals(laps int, speed, period, noise float64, seed uint64) []Fix {
	rng := rand.New(rand.NewPCG(seed, 3))
	p := newPlane(50, 8)
	var out []Fix
	for k := 0; ; k++ {
		t := float64(k) * period
		s := t * speed
		if s > float64(laps)*ovalLength {
			return out
		}
		x, y := oval(s)
		x, y = x+noise*rng.NormFloat64(), y+noise*rng.NormFloat64()
		out = append(out, Fix{Time: t, Lat: 50 + y/p.north, Lon: 8 + x/p.east})
	}
}

// The line fitted to ten noisy laps lies within a fraction of the noise, knows
// it, and has the curvatures of the oval away from where they change.
func TestFitAnOval(t *testing.T) {
	for _, noise := range []float64{0.05, 1} {
		const n = 216 // nodes of 3 m
		var places []place
		rng := rand.New(rand.NewPCG(4, 4))
		var x, y []float64
		for i := range n / 4 {
			a, b := oval(float64(i) * ovalLength / (n / 4))
			x, y = append(x, a+noise*rng.NormFloat64()), append(y, b+noise*rng.NormFloat64())
		}
		l := spaced(x, y, n).untangle()
		for k := range 10 * n {
			s := float64(k)*ovalLength/n + 0.7
			a, b := oval(s)
			a, b = a+noise*rng.NormFloat64(), b+noise*rng.NormFloat64()
			places = append(places, place{x: a, y: b, lap: k / n, t: float64(k) * 0.1, speed: 25, segment: l.nearest(a, b, k%n, 20)})
		}
		f := l.fit(places, 10)
		near(t, "noise", f.noise/noise, 1, 0.06)
		near(t, "length", f.total(), ovalLength, 0.3+noise)
		kappa := f.curvature()
		var squares float64
		for i := range f.x {
			dx, dy := math.Max(0, math.Abs(f.x[i])-100), f.y[i]
			off := math.Hypot(dx, dy) - 40
			squares += off * off / n
			along := math.Abs(f.x[i]) - 100
			switch scale := 25 * 25 / duty.G; {
			case along > 12:
				near(t, "curvature of a half round, g", kappa[i]*scale, scale/40, 0.1+0.03*noise)
			case along < -12:
				near(t, "curvature of a straight, g", kappa[i]*scale, 0, 0.1+0.03*noise)
			}
		}
		if rms := math.Sqrt(squares); rms > 0.02+0.15*noise {
			t.Errorf("noise %g m: the line is off by %.3f m", noise, rms)
		}
		t.Logf("noise %g m: %.3f found, line off by %.3f m", noise, f.noise, math.Sqrt(squares))
	}
}

// The first line is the lap in the middle, the places are those of hot laps,
// each at the node nearest to it, at the speed of the second around it.
func TestStart(t *testing.T) {
	fixes := ovals(5, 25, 0.2, 0, 1)
	tr := lay(fixes, newPlane(50, 8), 0.2)
	o := tr.outline()
	g := gate{0, -40, 1, 0}
	cs := g.crossings(o)
	var parts []part
	for i := 1; i < len(cs); i++ {
		parts = append(parts, part{from: cs[i-1].t, to: cs[i].t, meters: cs[i].gone - cs[i-1].gone})
	}
	if len(parts) < 3 {
		t.Fatalf("%d laps", len(parts))
	}
	parts[1].why = "no hot lap"
	l, places := start(tr, o, parts, ovalLength)
	if len(l.x) != 217 {
		t.Errorf("%d nodes, want 217 of 3 m", len(l.x))
	}
	near(t, "length", l.total(), ovalLength, 0.01*ovalLength)
	hot := 0
	for i, s := range tr.t {
		lap := -1
		for j, p := range parts {
			if p.why == "" && s >= p.from && s < p.to {
				lap = j
			}
		}
		if lap < 0 {
			continue
		}
		p := places[hot]
		hot++
		if p.t != s || p.lap != lap || p.x != tr.x[i] || p.y != tr.y[i] {
			t.Fatalf("place %d is %+v, want lap %d at %g s", hot, p, lap, s)
		}
		if want := l.nearest(p.x, p.y, 0, len(l.x)); p.segment != want {
			t.Errorf("place at (%g, %g) beside node %d, want %d", p.x, p.y, p.segment, want)
		}
		j := 1
		for o.t[j] < s {
			j++
		}
		near(t, "speed", p.speed, o.speed[j], 0)
		near(t, "speed", p.speed, 25, 1)
	}
	if hot != len(places) {
		t.Errorf("%d places, want %d", len(places), hot)
	}
	for i := range l.x {
		off := math.Hypot(math.Max(0, math.Abs(l.x[i])-100), l.y[i]) - 40
		near(t, "first line", off, 0, 1.5) // once a second: chords of 25 m
	}
}

// The whole way: an oval at five fixes a second, from far away first, is two
// half rounds and two straights, all to the left.
func TestSurveyAnOval(t *testing.T) {
	for _, far := range []bool{false, true} {
		fixes := ovals(6, 25, 0.2, 0.3, 2)
		want := 5
		if far { // some minutes 200 km to the south, where a degree east is longer by 4 %
			var before []Fix
			for k := range 200 {
				before = append(before, Fix{Time: float64(k)/5 - 1000, Lat: 48.2 + 1e-4*float64(k), Lon: 7})
			}
			fixes = append(before, fixes...)
		}
		lap, err := Survey(fixes)
		if err != nil {
			t.Fatal(err)
		}
		if len(lap.Used) < want-1 || len(lap.Used) > want+1 || len(lap.Dropped) > 1 || lap.Period < 0.1999 || lap.Period > 0.2001 || lap.Lost != 0 {
			t.Errorf("laps %v, dropped %+v, period %g, lost %d", lap.Used, lap.Dropped, lap.Period, lap.Lost)
		}
		near(t, "lap time", lap.Seconds, ovalLength/25, 0.05)
		near(t, "meters", lap.Meters, ovalLength, 1)
		near(t, "left share", lap.LeftShare, 1, 1e-9)
		near(t, "noise", lap.Noise, 0.3, 0.05)
		var straights, turns, radii []float64
		for _, s := range lap.Segments {
			if s.Turn != 0 {
				turns, radii = append(turns, s.Turn), append(radii, s.Radius)
			}
			if s.Straight > 5 {
				straights = append(straights, s.Straight)
			}
		}
		if len(turns) != 2 || math.Abs(turns[0]-math.Pi) > 0.05 || math.Abs(radii[0]-40) > 0.8 || math.Abs(radii[1]-40) > 0.8 {
			t.Errorf("corners of %v rad, %v m", turns, radii)
		}
		near(t, "turning", duty.Turning(lap.Segments), 2*math.Pi, 1e-9)
		if n := len(straights); n < 2 || n > 3 {
			t.Errorf("straights of %v m", straights)
		}
		if first := lap.Line[0]; first != [2]float64{0, 0} {
			t.Errorf("the line begins at %v", first)
		}
		// The line is the oval, from wherever the start line lies.
		for i, p := range lap.Line {
			q := lap.Line[(i+1)%len(lap.Line)]
			near(t, "spacing", math.Hypot(q[0]-p[0], q[1]-p[1]), lap.Meters/float64(len(lap.Line)), 0.2)
		}
	}
}

// Of three laps, on circles of 100, 110 and 120 m radius, that of the middle
// time is the first line, whatever their order: its points from the beginning
// on, but for one that lies within half a step of its end.
func TestFirstLine(t *testing.T) {
	var ts, xs, ys []float64
	var parts []part
	add := func(r, from, to float64) {
		parts = append(parts, part{from: from, to: to, meters: 2 * math.Pi * r})
		for s := 0.0; s < 30; s++ {
			sin, cos := math.Sincos(2 * math.Pi * s / 30)
			ts, xs, ys = append(ts, float64(len(ts))), append(xs, r*cos), append(ys, r*sin)
		}
	}
	add(120, 0, 30.8)
	add(100, 30.8, 59.7)
	add(110, 59.7, 89.9) // 30.2 s, points 60 to 89
	ts, xs, ys = append(ts, 90, 91), append(xs, 110, 107), append(ys, 0, 23)
	o := drawn(ts, xs, ys)
	tr := &track{t: ts, x: xs, y: ys, run: o.run, period: 1}
	for _, tt := range []struct {
		from, to    float64
		first, last int
	}{
		{59.7, 89.9, 60, 89}, {59.7, 89.45, 60, 88}, {59.7, 89.5, 60, 88}, {59.7, 89.55, 60, 89}, {60, 89.7, 60, 89}, {59.4, 89.7, 60, 89}, {60.1, 90.3, 61, 89},
	} {
		p := append([]part(nil), parts...)
		p[2].from, p[2].to = tt.from, tt.to
		for range 3 {
			got, _ := start(tr, o, p, 2*math.Pi*110)
			want := spaced(xs[tt.first:tt.last+1], ys[tt.first:tt.last+1], 230).untangle()
			if len(got.x) != 230 || got.x[0] != want.x[0] || got.x[170] != want.x[170] || got.y[229] != want.y[229] {
				t.Errorf("lap from %g to %g s: a line of %d nodes from (%g, %g), want 230 from (%g, %g)", tt.from, tt.to, len(got.x), got.x[0], got.y[0], want.x[0], want.y[0])
			}
			p = append(p[1:], p[0])
		}
	}
}
