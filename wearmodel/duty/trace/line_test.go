package trace

import (
	"math"
	"testing"
)

// A loop of noise is drawn out of the line wherever it lies, over the start
// too, and the line stays where it was elsewhere.
func TestUntangle(t *testing.T) {
	const radius = 100.0
	n := int(math.Round(2 * math.Pi * radius / nodeSpacing))
	for _, at := range []int{0, n / 3, n - 1} {
		x, y := make([]float64, n), make([]float64, n)
		for i := range x {
			y[i], x[i] = math.Sincos(2 * math.Pi * float64(i) / float64(n))
			x[i], y[i] = radius*x[i], radius*y[i]
		}
		// A step back of 3 m along the way, and out.
		back := (at - 3 + n) % n
		x[at], y[at] = x[back]*1.01, y[back]*1.01
		l := spaced(x, y, n)
		sharp := func(l *line) (worst float64) {
			for _, turn := range l.turn {
				worst = max(worst, math.Abs(turn))
			}
			return worst
		}
		if sharp(l) <= sharpestTurn {
			t.Fatalf("node %d: the knot turns %.2f rad at a node, no more than a line may", at, sharp(l))
		}
		l = l.untangle()
		if got := sharp(l); got > sharpestTurn {
			t.Errorf("node %d: still turns %.2f rad at a node", at, got)
		}
		away := 2 * math.Pi * float64(at) / float64(n)
		for i := range l.x {
			off := math.Hypot(l.x[i], l.y[i]) - radius
			far := math.Abs(math.Remainder(math.Atan2(l.y[i], l.x[i])-away, 2*math.Pi))*radius > 40
			if far && math.Abs(off) > 0.02 || math.Abs(off) > 1.5 {
				t.Errorf("node %d: %.3f m off at (%.1f, %.1f)", at, off, l.x[i], l.y[i])
				break
			}
		}
	}
}

// polygon is a closed line of given nodes.
func polygon(x, y []float64) *line {
	l := newLine(len(x))
	copy(l.x, x)
	copy(l.y, y)
	l.measure()
	return l
}

// A kite of nodes (0,0), (4,0), (4,3), (0,3) moved out to (-4,6): sides of 4,
// 3 and 8.544 and 7.211 m.
func TestMeasure(t *testing.T) {
	l := polygon([]float64{0, 4, 4, -4}, []float64{0, 0, 3, 6})
	root73, root52 := math.Sqrt(73), math.Sqrt(52)
	for i, want := range []float64{4, 3, root73, root52} {
		near(t, "length", l.length[i], want, 1e-12)
	}
	near(t, "total", l.total(), 7+root73+root52, 1e-12)
	for i, want := range [][2]float64{{1, 0}, {0, 1}, {-8 / root73, 3 / root73}, {4 / root52, -6 / root52}} {
		near(t, "direction east", l.dir[i][0], want[0], 1e-12)
		near(t, "direction north", l.dir[i][1], want[1], 1e-12)
	}
	// Headings 0, 90, 159.44 and -56.31 deg.
	a, b := math.Atan2(3, -8), math.Atan2(-6, 4)
	turns := []float64{-b, math.Pi / 2, a - math.Pi/2, b - a + 2*math.Pi}
	k := l.curvature()
	for i, want := range turns {
		near(t, "turn", l.turn[i], want, 1e-12)
		near(t, "curvature", k[i], want/((l.length[(i+3)%4]+l.length[i])/2), 1e-12)
	}
	if l.next(3) != 0 || l.next(2) != 3 || l.before(0) != 3 || l.before(3) != 2 {
		t.Error("the nodes do not go round")
	}
	if same := polygon([]float64{1, 1, 1}, []float64{2, 2, 2}); same.length[1] != 1e-9 {
		t.Errorf("places that fall together are %g m apart", same.length[1])
	}
}

// On a square of 40 m in steps of 10 m. Outside a corner, the segment is the
// one that the way there ends on.
func TestLocateAndNearest(t *testing.T) {
	var x, y []float64
	for i := range 16 {
		s := float64(10 * i)
		x = append(x, math.Max(0, math.Min(40, math.Min(s, 120-s))))
		y = append(y, math.Max(0, math.Min(40, math.Min(s-40, 160-s))))
	}
	l := polygon(x, y)
	for _, tt := range []struct {
		x, y        float64
		guess       int
		segment     int
		share, left float64
	}{
		{13, 2, 1, 1, 0.3, 2}, {13, -1, 15, 1, 0.3, -1}, {13, 2, 3, 1, 0.3, 2}, {13, -1.5, 0, 1, 0.3, -1.5},
		{44, 28, 3, 6, 0.8, -4}, {38, 28, 7, 6, 0.8, 2}, {16, 41, 9, 10, 0.4, -1}, {3, 4, 13, 15, 0.6, 3}, {-2, 4, 2, 15, 0.6, -2},
		{45, -3, 3, 4, 0, -5}, {45, -3, 4, 3, 1, -3}, {20, 5, 1, 1, 1, 5}, {20, 5, 2, 2, 0, 5},
	} {
		segment, share, left := l.locate(tt.x, tt.y, tt.guess)
		if segment != tt.segment || math.Abs(share-tt.share) > 1e-12 || math.Abs(left-tt.left) > 1e-12 {
			t.Errorf("(%g, %g) from %d: %d, %g, %g; want %d, %g, %g", tt.x, tt.y, tt.guess, segment, share, left, tt.segment, tt.share, tt.left)
		}
	}
	for _, tt := range []struct {
		x, y               float64
		guess, reach, want int
	}{
		{13, 2, 1, 3, 1}, {13, 2, 15, 2, 1}, {13, 2, 15, 1, 0}, {2, 12, 1, 4, 15}, {2, 12, 17, 4, 15}, {27, 38, 5, 4, 9}, {27, 38, 5, 3, 8},
		{40, 20, 14, 100, 6}, {0, 40, -2, 3, 12}, {26, 0, 2, 0, 2},
	} {
		if got := l.nearest(tt.x, tt.y, tt.guess, tt.reach); got != tt.want {
			t.Errorf("nearest to (%g, %g) within %d of %d: %d, want %d", tt.x, tt.y, tt.reach, tt.guess, got, tt.want)
		}
	}
}

// The nodes lie evenly along the spline of E. Catmull and R. Rom (1974): the
// cubic of Hermite whose slope at a place is half of what the places beside it
// are apart, here in eight chords.
func TestSpaced(t *testing.T) {
	x, y := []float64{0, 31, 40, 22, -9, -14}, []float64{0, -5, 17, 33, 40, 18}
	m := len(x)
	hermite := func(v []float64, i int, u float64) float64 {
		a, b, c, d := v[(i+m-1)%m], v[i], v[(i+1)%m], v[(i+2)%m]
		return (2*u*u*u-3*u*u+1)*b + (u*u*u-2*u*u+u)*(c-a)/2 + (3*u*u-2*u*u*u)*c + (u*u*u-u*u)*(d-b)/2
	}
	var px, py, gone []float64
	for i := range m {
		for k := range 8 {
			px, py = append(px, hermite(x, i, float64(k)/8)), append(py, hermite(y, i, float64(k)/8))
		}
	}
	px, py, gone = append(px, px[0]), append(py, py[0]), append(gone, 0)
	for k := 1; k < len(px); k++ {
		gone = append(gone, gone[k-1]+math.Hypot(px[k]-px[k-1], py[k]-py[k-1]))
	}
	for _, n := range []int{5, 48, 100} {
		l := spaced(x, y, n)
		for i := range n {
			want := gone[len(gone)-1] * float64(i) / float64(n)
			k := 0
			for gone[k+1] < want {
				k++
			}
			f := (want - gone[k]) / (gone[k+1] - gone[k])
			near(t, "east", l.x[i], px[k]*(1-f)+px[k+1]*f, 1e-9)
			near(t, "north", l.y[i], py[k]*(1-f)+py[k+1]*f, 1e-9)
		}
		if l.length[0] == 0 || l.turn[0] == 0 {
			t.Error("the line is not measured")
		}
	}
	// Places that fall together, all or a few at the start.
	for _, x := range [][]float64{{3, 3, 3}, {3, 3, 3, 3, 9, 9, 9, 9}} {
		l := spaced(x, make([]float64, len(x)), 7)
		if l.x[0] != 3 || math.IsNaN(l.total()) {
			t.Errorf("through %v: %v", x, l.x)
		}
	}
}

// A node that is too sharp takes eight on either side of it a step toward the
// mean of their neighbors, and no other; a line that is not is left alone.
func TestUntangleStep(t *testing.T) {
	const n = 60
	x, y := make([]float64, n), make([]float64, n)
	for i := range x {
		y[i], x[i] = math.Sincos(2 * math.Pi * float64(i) / n)
		x[i], y[i] = 30*x[i], 30*y[i]
	}
	round := polygon(x, y)
	if round.untangle() != round {
		t.Error("a circle is changed")
	}
	x[2] += 3 // turns by 0.9 rad there and half of it beside
	l := polygon(x, y)
	sharp := 0
	for _, turn := range l.turn {
		if math.Abs(turn) > sharpestTurn {
			sharp++
		}
	}
	if sharp != 1 {
		t.Fatalf("%d sharp nodes, want 1", sharp)
	}
	wx, wy := append([]float64(nil), x...), append([]float64(nil), y...)
	for k := 2 - 8; k <= 2+8; k++ {
		i := (k + n) % n
		a, b := (i+n-1)%n, (i+1)%n
		wx[i], wy[i] = x[a]/4+x[i]/2+x[b]/4, y[a]/4+y[i]/2+y[b]/4
	}
	want, got := spaced(wx, wy, n), l.untangle()
	for _, turn := range want.turn {
		if math.Abs(turn) > sharpestTurn {
			t.Fatal("one step is not enough")
		}
	}
	for i := range want.x {
		near(t, "east", got.x[i], want.x[i], 1e-9)
		near(t, "north", got.y[i], want.y[i], 1e-9)
	}
}
