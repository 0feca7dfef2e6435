package trace

import (
	"math"
	"slices"
	"testing"
)

// ovalFitted is the oval in 216 nodes with a fix beside each, and speeds that
// say which node they are of.
func ovalFitted(speed func(i int) float64) *fitted {
	const n = 216
	var x, y []float64
	for i := range n {
		a, b := oval(float64(i) * ovalLength / n)
		x, y = append(x, a), append(y, b)
	}
	f := &fitted{line: polygon(x, y), noise: 0.1}
	for i := range n {
		a, b := oval((float64(i) + 0.5) * ovalLength / n)
		f.places = append(f.places, place{x: a, y: b, segment: i})
		f.speed = append(f.speed, speed(i))
	}
	return f
}

// The stretches between the ends of arcs have the nodes of the line between
// them, to the nearest, and the mean of their speeds; the list begins where
// that given did.
func TestPolishedStretches(t *testing.T) {
	f := ovalFitted(func(i int) float64 { return 20 + float64(i)/10 })
	n := len(f.x)
	const step = ovalLength / 216
	half := 40 * math.Pi
	// From node 34, the first of the first half round, 100 m on; what is given
	// is a little wrong.
	all, q := f.polished([]stretch{
		{34, 43, half + 2, math.Pi - 0.05, 25}, {77, 65, 198, 0.02, 25}, {142, 43, half, math.Pi + 0.05, 25}, {185, 65, 200, -0.02, 25},
	})
	if len(all) != 4 || q == nil || len(q.pull) != 3+2*2+2 {
		t.Fatalf("%+v with %d parameters, want four stretches with nine", all, len(q.pull))
	}
	node, gone := 34, 0.0
	for j, s := range all {
		meters, turn := half, math.Pi
		if j%2 == 1 {
			meters, turn = 200, 0
		}
		near(t, "meters", s.meters, meters, 1.5)
		near(t, "turn", s.turn, turn, 0.02)
		gone += s.meters
		end := 34 + int(math.Round(gone/step))
		if s.from != node%n || s.nodes != end-node {
			t.Errorf("stretch %d: %d nodes from %d, want %d from %d", j, s.nodes, s.from, end-node, node%n)
		}
		mean := 0.0
		for ; node < end; node++ {
			mean += f.speed[node%n] / float64(s.nodes)
		}
		near(t, "speed", s.speed, mean, 1e-9)
	}
	if node != 34+n {
		t.Errorf("the stretches have %d nodes, want %d", node-34, n)
	}
}

// The oval's line is cut where its curvature changes: two half rounds and two
// straights, whatever node it begins at and at whatever speed.
func TestStretchesOfAnOval(t *testing.T) {
	for _, speed := range []float64{12, 25, 40} {
		f := ovalFitted(func(int) float64 { return speed })
		for range 3 {
			all, _ := f.stretches()
			nodes := 0
			var meters []float64
			for _, s := range all {
				nodes += s.nodes
				meters = append(meters, math.Round(s.meters/2)*2)
			}
			slices.Sort(meters)
			if len(all) != 4 || nodes != len(f.x) || meters[0] != 126 || meters[3] != 200 {
				t.Errorf("at %g m/s: %+v", speed, all)
			}
			// Turn the line round by 70 nodes.
			turn := func(v []float64) []float64 { return append(slices.Clone(v[70:]), v[:70]...) }
			f.line = polygon(turn(f.x), turn(f.y))
			for k := range f.places {
				p := &f.places[k]
				p.segment = (p.segment - 70 + len(f.x)) % len(f.x)
			}
		}
	}
}

// Bends to both sides of one radius, with no straight between them: a line with
// the symmetry of a square, of 52 nodes to the left and 20 to the right in turn.
func TestStretchesOfBends(t *testing.T) {
	const turn = 2 * math.Pi / 4 / (52 - 20)
	var x, y []float64
	f := &fitted{noise: 0.1}
	p := pose{}
	for i := range 4 * 72 {
		x, y = append(x, p.x), append(y, p.y)
		if i%72 < 52 {
			p.heading += turn
		} else {
			p.heading -= turn
		}
		sin, cos := math.Sincos(p.heading)
		f.places = append(f.places, place{x: p.x + 1.5*cos, y: p.y + 1.5*sin, segment: i})
		f.speed = append(f.speed, 20)
		p.x, p.y = p.x+3*cos, p.y+3*sin
	}
	f.line = polygon(x, y)
	near(t, "gap", math.Hypot(p.x, p.y), 0, 1e-9)
	all, _ := f.stretches()
	if len(all) != 8 {
		t.Fatalf("%d stretches, want 8: %+v", len(all), all)
	}
	for _, s := range all {
		want, nodes := 52*turn, 52
		if s.turn < 0 {
			want, nodes = -20*turn, 20
		}
		near(t, "turn", s.turn, want, 0.03)
		near(t, "nodes", float64(s.nodes), float64(nodes), 1)
	}
}

// Far more stretches than a circuit has are joined, the likest first, down to
// 150, before the fixes are asked.
func TestOfManyStretches(t *testing.T) {
	const n = 900
	var x, y []float64
	for i := range n {
		// A circle of 800 m with a wave of 6 nodes: 300 changes of curvature.
		r := 800 + 0.4*math.Sin(2*math.Pi*float64(i)/6)
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / n)
		x, y = append(x, r*cos), append(y, r*sin)
	}
	f := &fitted{line: polygon(x, y), noise: 5}
	for i := range n {
		f.places = append(f.places, place{x: x[i], y: y[i], segment: i})
		f.speed = append(f.speed, 60)
	}
	all, _ := f.stretches()
	turn, meters := 0.0, 0.0
	for _, s := range all {
		turn, meters = turn+s.turn, meters+s.meters
	}
	if len(all) > 150 {
		t.Errorf("%d stretches", len(all))
	}
	near(t, "turn", turn, 2*math.Pi, 0.01)
	near(t, "meters", meters/(2*math.Pi*800), 1, 0.01)
}
