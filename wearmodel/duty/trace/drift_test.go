package trace

import (
	"math"
	"testing"
)

// Along a straight to the east only the error to the north shows: eight fixes
// 1.5 m to the left, with a belief of eight that there is none, are off by
// 1.5 * 8 / 16. Fixes more than 15 s away and of another lap say nothing.
func TestUndrift(t *testing.T) {
	l := polygon([]float64{0, 1000, 1000, 0}, []float64{0, 0, 500, 500})
	f := &fitted{line: l}
	for k := range 8 {
		f.places = append(f.places, place{x: float64(10 * k), y: 1.5, t: float64(k) * 15 / 7})
	}
	f.places = append(f.places, place{x: 300, y: 9, t: 40}, place{x: 400, y: -3, t: 40, lap: 1})
	f.undrift()
	for _, p := range f.places[:8] {
		near(t, "drift", p.drift, 0.75, 1e-12)
	}
	near(t, "drift of a fix apart", f.places[8].drift, 1, 1e-12)
	near(t, "drift of another lap", f.places[9].drift, -1.0/3, 1e-12)
}

// Around two corners the shift is the least of squares, by elimination: of the
// sum of (left - n.shift)^2 and 8 |shift|^2. What each place has of it is to
// the left of the line there.
func TestUndriftInTwoDirections(t *testing.T) {
	l := polygon([]float64{0, 40, 64, 0}, []float64{0, 0, 32, 50})
	f := &fitted{line: l, places: []place{
		{x: 10, y: 1, t: 0}, {x: 30, y: 2, t: 1}, // north of the first side
		{x: 46 + 1.6, y: 8 - 1.2, t: 2, segment: 1}, {x: 52 - 0.8, y: 16 + 0.6, t: 3, segment: 1}, // 0.6, 0.8 is its way
	}}
	f.undrift()
	// Normals (0,1) twice and (-0.8, 0.6) twice; left 1, 2, -2, 1.
	xx, xy, yy := 8+2*0.64, -2*0.48, 8+2+2*0.36
	bx, by := -0.8*(-2+1), 1+2+0.6*(-2+1)
	y := (by - xy/xx*bx) / (yy - xy/xx*xy)
	x := (bx - xy*y) / xx
	for k, want := range []float64{y, y, -0.8*x + 0.6*y, -0.8*x + 0.6*y} {
		near(t, "drift", f.places[k].drift, want, 1e-12)
	}
}

// Two laps cannot tell the error of a lap from the line; three can.
func TestDriftTakesThreeLaps(t *testing.T) {
	for _, laps := range []int{2, 3} {
		const n = 216
		var x, y []float64
		for i := range n {
			a, b := oval(float64(i) * ovalLength / n)
			x, y = append(x, a), append(y, b)
		}
		var places []place
		for k := range laps * n {
			a, b := oval(float64(k) * ovalLength / n)
			off := 0.0
			if k < n {
				off = 1 // to the north, the first lap
			}
			places = append(places, place{x: a, y: b + off, lap: k / n, t: float64(k) / 8, speed: 25, segment: k % n})
		}
		f := polygon(x, y).fit(places, laps)
		least, most := math.Inf(1), math.Inf(-1)
		for _, p := range f.places[:n] {
			least, most = min(least, p.drift), max(most, p.drift)
		}
		// North is to the left on the southern straight and to the right on the other.
		if laps == 2 && (least != 0 || most != 0) || laps == 3 && !(least < -0.3 && most > 0.3) {
			t.Errorf("%d laps: the first is off by %.2f to %.2f m", laps, least, most)
		}
	}
}
