package trace

import (
	"math"
)

// Spacing of the line's nodes. Engineering choice: a hairpin of 8 m keeps
// eight of them.
const (
	nodeSpacing = 3.0   // m
	mostNodes   = 20000 // a longer lap has them further apart
)

// line is a closed polyline, its nodes about evenly spaced.
type line struct {
	x, y   []float64
	length []float64    // m, of the segment from each node to the next
	dir    [][2]float64 // its direction
	turn   []float64    // rad, at each node, + left
}

func newLine(n int) *line {
	return &line{x: make([]float64, n), y: make([]float64, n), length: make([]float64, n), dir: make([][2]float64, n), turn: make([]float64, n)}
}

// next is the node after i, round the lap.
func (l *line) next(i int) int {
	if i++; i == len(l.x) {
		return 0
	}
	return i
}

func (l *line) before(i int) int {
	if i == 0 {
		return len(l.x) - 1
	}
	return i - 1
}

// measure works out lengths, directions and turns from the places.
func (l *line) measure() {
	for i := range l.x {
		j := l.next(i)
		dx, dy := l.x[j]-l.x[i], l.y[j]-l.y[i]
		l.length[i] = math.Max(1e-9, math.Hypot(dx, dy))
		l.dir[i] = [2]float64{dx / l.length[i], dy / l.length[i]}
	}
	for i := range l.x {
		a, b := l.dir[l.before(i)], l.dir[i]
		l.turn[i] = math.Atan2(float64(a[0]*b[1])-float64(a[1]*b[0]), float64(a[0]*b[0])+float64(a[1]*b[1]))
	}
}

func (l *line) total() float64 {
	sum := 0.0
	for _, s := range l.length {
		sum += s
	}
	return sum
}

// curvature is that of each node, 1/m.
func (l *line) curvature() []float64 {
	k := make([]float64, len(l.x))
	for i := range k {
		k[i] = 2 * l.turn[i] / (l.length[l.before(i)] + l.length[i])
	}
	return k
}

// locate finds the segment that a place is beside, from a guess, the share of
// the segment before it, and how far to the left of it the place is.
func (l *line) locate(x, y float64, i int) (segment int, share, left float64) {
	const steps = 60
	step := 0
	for range steps {
		dx, dy := x-l.x[i], y-l.y[i]
		share = (float64(dx*l.dir[i][0]) + float64(dy*l.dir[i][1])) / l.length[i]
		left = float64(dy*l.dir[i][0]) - float64(dx*l.dir[i][1])
		switch {
		case share > 1 && step >= 0:
			i, step = l.next(i), 1
		case share < 0 && step <= 0:
			i, step = l.before(i), -1
		default:
			return i, math.Min(1, math.Max(0, share)), left
		}
	}
	return i, math.Min(1, math.Max(0, share)), left
}

// nearest finds the node nearest to a place within reach nodes of a guess.
func (l *line) nearest(x, y float64, guess, reach int) int {
	n := len(l.x)
	reach = min(reach, n/2)
	best, least := guess, math.Inf(1)
	for k := guess - reach; k <= guess+reach; k++ {
		i := (k%n + n) % n
		dx, dy := x-l.x[i], y-l.y[i]
		if d := float64(dx*dx) + float64(dy*dy); d < least {
			best, least = i, d
		}
	}
	return best
}

// spaced is the line through the given places, closed, in n even steps:
// a Catmull-Rom spline.
func spaced(x, y []float64, n int) *line {
	m := len(x)
	at := func(v []float64, i int) float64 { return v[(i%m+m)%m] }
	const fine = 8
	var px, py, gone []float64
	sum := 0.0
	for i := range m {
		for k := range fine {
			u := float64(k) / fine
			q := func(v []float64) float64 {
				a, b, c, d := at(v, i-1), at(v, i), at(v, i+1), at(v, i+2)
				return b + float64(u/2*(c-a+float64(u*(float64(2*a)-float64(5*b)+float64(4*c)-d+float64(u*(float64(3*(b-c))+d-a))))))
			}
			X, Y := q(x), q(y)
			if k := len(px); k > 0 {
				sum += math.Hypot(X-px[k-1], Y-py[k-1])
			}
			px, py, gone = append(px, X), append(py, Y), append(gone, sum)
		}
	}
	sum += math.Hypot(px[0]-px[len(px)-1], py[0]-py[len(py)-1])
	px, py, gone = append(px, px[0]), append(py, py[0]), append(gone, sum)
	l := newLine(n)
	k := 0
	for i := range n {
		want := sum * float64(i) / float64(n)
		for k+2 < len(gone) && gone[k+1] < want {
			k++
		}
		f := 0.0
		if step := gone[k+1] - gone[k]; step > 0 {
			f = (want - gone[k]) / step
		}
		l.x[i], l.y[i] = px[k]+float64(f*(px[k+1]-px[k])), py[k]+float64(f*(py[k+1]-py[k]))
	}
	l.measure()
	return l
}

// sharpestTurn is the most that a line can turn at one node, rad: a radius of
// 4 m. More is a loop that noise has tied at low speed.
const sharpestTurn = nodeSpacing / 4

// untangle takes out loops by shortening the line around them, as a rubber
// band would, and spaces the nodes anew.
func (l *line) untangle() *line {
	const (
		reach  = 8
		passes = 40
	)
	n := len(l.x)
	for range passes {
		near := make([]bool, n)
		any := false
		for i, turn := range l.turn {
			if math.Abs(turn) > sharpestTurn {
				any = true
				for k := i - reach; k <= i+reach; k++ {
					near[(k%n+n)%n] = true
				}
			}
		}
		if !any {
			return l
		}
		x, y := make([]float64, n), make([]float64, n)
		for i := range x {
			x[i], y[i] = l.x[i], l.y[i]
			if near[i] {
				a, b := l.before(i), l.next(i)
				x[i] = (l.x[a] + 2*l.x[i] + l.x[b]) / 4
				y[i] = (l.y[a] + 2*l.y[i] + l.y[b]) / 4
			}
		}
		l = spaced(x, y, n)
	}
	return l
}
