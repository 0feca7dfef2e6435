package trace

import (
	"math"
	"slices"
	"strings"
	"testing"
)

// Laps of 1000 m in 50 s with others between them, cut at the origin.
func TestPartsOfATrace(t *testing.T) {
	for _, tt := range []struct {
		name string
		laps [][2]float64 // after the first and before the last
		why  []string
	}{
		{"hot laps", [][2]float64{{1000, 50}, {1000, 52}, {1000, 51}}, []string{"", "", ""}},
		{"5 % slower", [][2]float64{{1000, 50}, {1000, 50}, {1000, 52}, {1000, 53}}, []string{"", "", "", "6 % slower"}},
		{"7 % faster", [][2]float64{{1000, 50}, {1000, 50}, {1000, 50}, {1000, 50}, {1000, 50}, {1000, 50}, {1000, 47}, {1000, 46}}, []string{"", "", "", "", "", "", "", "8 % faster"}},
		{"longer", [][2]float64{{1000, 50}, {1020, 50}, {1060, 50}}, []string{"", "", "6 % longer than"}},
		{"shorter", [][2]float64{{1000, 50}, {980, 50}, {940, 50}}, []string{"", "", "6 % shorter than"}},
	} {
		o := rings(append(append([][2]float64{{900, 45}}, tt.laps...), [2]float64{900, 45})...)
		tr := &track{t: o.t, x: o.x, y: o.y, run: o.run, period: 1}
		parts, outIn := tr.laps(o, gate{0, 0, 1, 0}, 1000)
		judge(parts, slowLap)
		if len(parts) != len(tt.laps) {
			t.Errorf("%s: %d laps, want %d", tt.name, len(parts), len(tt.laps))
			continue
		}
		if outIn != 2 {
			t.Errorf("%s: %d laps from and to the pits, want 2", tt.name, outIn)
		}
		at := 45.0
		for i, p := range parts {
			near(t, tt.name+": beginning", p.from, at, 0.05)
			at += tt.laps[i][1]
			near(t, tt.name+": end", p.to, at, 0.05)
			near(t, tt.name+": meters", p.meters, tt.laps[i][0], 5)
			near(t, tt.name+": time", p.seconds(), tt.laps[i][1], 0.1)
			if !strings.HasPrefix(p.why, tt.why[i]) || (p.why == "") != (tt.why[i] == "") {
				t.Errorf("%s: lap %d is not used for %q, want %q", tt.name, i, p.why, tt.why[i])
			}
		}
	}
	// A break is no lap, and a lap in which the car stood is none either.
	o := rings([2]float64{1000, 50}, [2]float64{1000, 50}, [2]float64{1000, 50}, [2]float64{1000, 50}, [2]float64{1000, 50})
	for k := range o.run {
		if o.t[k] > 125 {
			o.run[k] = 1
		}
		if o.t[k] > 60 && o.t[k] < 70 {
			o.speed[k] = 2
		}
	}
	tr := &track{t: o.t, x: o.x, y: o.y, run: o.run, period: 1}
	parts, outIn := tr.laps(o, gate{0, 0, 1, 0}, 1000)
	if len(parts) != 2 || !strings.HasPrefix(parts[0].why, "stood still for 10 s") || parts[1].why != "" || outIn != 4 {
		t.Errorf("laps %+v, %d from and to the pits", parts, outIn)
	}
}

func TestClockWord(t *testing.T) {
	for s, want := range map[float64]string{9: "9 s", 89: "89 s", 90: "2 min", 600: "10 min"} {
		if got := clockWord(s); got != want {
			t.Errorf("%g s are %q, want %q", s, got, want)
		}
	}
}

// Stops of 2 and of 4 s among points a second apart; a second belongs to the
// stop that the point after it has.
func TestLongestStop(t *testing.T) {
	o := &outline{
		t:     []float64{0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10},
		speed: []float64{0, 2.5, 0, 3, 9, 0, 1, 2, 0, 9, 9},
	}
	for _, tt := range []struct {
		from, to int
		want     float64
	}{{0, 10, 4}, {0, 4, 2}, {0, 7, 3}, {3, 10, 4}, {5, 10, 3}, {6, 8, 2}, {8, 10, 0}, {2, 5, 1}} {
		if got := o.longestStop(tt.from, tt.to); got != tt.want {
			t.Errorf("from %d to %d: %g s, want %g", tt.from, tt.to, got, tt.want)
		}
	}
}

// A way of more than a tenth of a lap before the first crossing of a recording
// or after its last is one from or to the pits.
func TestOutAndIn(t *testing.T) {
	for _, tt := range []struct {
		gone []float64
		run  []int
		at   []int
		ways []float64
		want int
	}{
		{[]float64{0, 200, 1200, 1400}, []int{0, 0, 0, 0}, []int{1, 2}, []float64{250, 1250}, 2},
		{[]float64{0, 50, 1050, 1100}, []int{0, 0, 0, 0}, []int{1, 2}, []float64{100, 1000}, 0},
		{[]float64{0, 50, 1050, 1101}, []int{0, 0, 0, 0}, []int{1, 2}, []float64{101, 1000}, 2},
		{[]float64{0, 200, 400, 1000, 1200, 1500}, []int{0, 0, 0, 1, 1, 1}, []int{1, 4}, []float64{250, 1250}, 4},
		{[]float64{0, 200, 400, 1000, 1200, 1500}, []int{0, 0, 0, 1, 1, 1}, []int{4}, []float64{1250}, 2},
		{[]float64{0, 50, 1050, 1050, 1100, 2100}, []int{0, 0, 0, 1, 1, 1}, []int{1, 1, 4, 4}, []float64{60, 1000, 1120, 2090}, 0},
		{[]float64{300, 500, 600}, []int{0, 0, 0}, nil, nil, 0},
	} {
		o := &outline{t: make([]float64, len(tt.gone)), gone: tt.gone, run: tt.run}
		var cs []crossing
		for i, k := range tt.at {
			cs = append(cs, crossing{k: k, gone: tt.ways[i]})
		}
		if got := o.outAndIn(cs, 1000); got != tt.want {
			t.Errorf("ways %v, crossed at %v: %d, want %d", tt.gone, tt.ways, got, tt.want)
		}
	}
}

// A crossing is timed by the straight line through the ways of the fixes within
// 0.6 s of it, by least squares: here over 30 m/s with two fixes that err.
func TestRefine(t *testing.T) {
	g := gate{10, 20, 0.6, 0.8}
	tr := &track{period: 0.2}
	var ts, ways []float64
	for i := range 31 {
		s := float64(i) / 5 // to 6 s, over the gate at 3.05
		a := 30 * (s - 3.05)
		if i == 14 {
			a += 2
		}
		if i == 17 {
			a++
		}
		if math.Abs(s-3.03) <= 0.6 {
			ts, ways = append(ts, s), append(ways, a)
		}
		left := 3 + 0.5*s
		tr.t = append(tr.t, s)
		tr.x, tr.y = append(tr.x, g.x+a*g.ux-left*g.uy), append(tr.y, g.y+a*g.uy+left*g.ux)
	}
	// The line by its center of gravity.
	var mt, ma, up, down float64
	for i := range ts {
		mt, ma = mt+ts[i]/float64(len(ts)), ma+ways[i]/float64(len(ts))
	}
	for i := range ts {
		up, down = up+(ts[i]-mt)*(ways[i]-ma), down+(ts[i]-mt)*(ts[i]-mt)
	}
	want := mt - ma*down/up
	o := &outline{at: []int{0, 15}}
	near(t, "crossing", tr.refine(o, g, crossing{k: 1, t: 3.03}), want, 1e-9)
	// The outline's point may lie apart from the crossing by more than 0.6 s.
	o.at[1] = 11
	near(t, "crossing long after the point", tr.refine(o, g, crossing{k: 1, t: 3.03}), want, 1)
	// Three fixes are too few, and a car that crawls crosses when the outline says.
	few := &track{t: tr.t[14:17], x: tr.x[14:17], y: tr.y[14:17]}
	if got := few.refine(&outline{at: []int{1}}, g, crossing{k: 0, t: 3.03}); got != 3.03 {
		t.Errorf("three fixes: %g s", got)
	}
	four := &track{t: tr.t[14:18], x: tr.x[14:18], y: tr.y[14:18]}
	if got := four.refine(&outline{at: []int{1}}, g, crossing{k: 0, t: 3.03}); got == 3.03 {
		t.Errorf("four fixes: %g s", got)
	}
	crawl := &track{t: tr.t, x: slices.Clone(tr.x), y: slices.Clone(tr.y)}
	for i := range crawl.t {
		crawl.x[i], crawl.y[i] = g.x+0.9*(tr.t[i]-3.05)*g.ux, g.y+0.9*(tr.t[i]-3.05)*g.uy
	}
	o.at[1] = 15
	if got := crawl.refine(o, g, crossing{k: 1, t: 3.2}); got != 3.2 {
		t.Errorf("at 0.9 m/s: %g s", got)
	}
}

// Sums of a straight line, with the edges of the time around it.
func TestAddToALine(t *testing.T) {
	tr := &track{t: []float64{1, 2, 2.5, 3}, x: []float64{5, 6, 8, 9}, y: []float64{1, 3, 3, 7}}
	g := gate{1, 2, 3, 5} // ways 7, 20, 26, 49
	var n, st, sa, stt, sta float64
	for i := range tr.t {
		add(tr, g, i, 2, 1, &n, &st, &sa, &stt, &sta)
	}
	// Times -1, 0, 0.5, 1.
	got, want := [5]float64{n, st, sa, stt, sta}, [5]float64{4, 0.5, 102, 2.25, 55}
	if got != want {
		t.Errorf("sums %v, want %v", got, want)
	}
	add(tr, g, 3, 1.75, 1, &n, &st, &sa, &stt, &sta)
	if n != 4 {
		t.Errorf("a fix 1.25 s off counts")
	}
}
