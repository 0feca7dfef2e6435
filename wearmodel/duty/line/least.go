package line

import "math"

// What the line keeps to. Engineering choices.
const (
	carHalf   = 1.0 // m of the car to either side of its line
	leastRoom = 0.4 // m across, where the tarmac is narrower than the car
	rounds    = 3   // more move the left share by less than 0.001
)

// path is a closed polyline: each step goes from a place to the next.
type path struct {
	places  []Place
	step    []float64 // m
	heading []float64 // rad, of the step
	turn    []float64 // rad, at each place, + left
}

func newPath(places []Place) *path {
	n := len(places)
	p := &path{places, make([]float64, n), make([]float64, n), make([]float64, n)}
	for i, a := range places {
		b := places[(i+1)%n]
		p.heading[i] = math.Atan2(b.Y-a.Y, b.X-a.X)
		p.step[i] = apart(a, b)
	}
	for i := range places {
		p.turn[i] = math.Remainder(p.heading[i]-p.heading[(i+n-1)%n], 2*math.Pi)
	}
	return p
}

// length is what belongs to a place: half of the steps on its two sides.
func (p *path) length(i int) float64 {
	n := len(p.step)
	return (p.step[(i+n-1)%n] + p.step[i]) / 2
}

// curvature is that at a place, 1/m.
func (p *path) curvature(i int) float64 { return p.turn[i] / p.length(i) }

// laps is how often the path goes round, + to the left.
func (p *path) laps() int {
	sum := 0.0
	for _, t := range p.turn {
		sum += t
	}
	return int(math.Round(sum / (2 * math.Pi)))
}

// straightened is the path moved across itself, within its edges, to where the
// sum of its squared curvatures is least. Nil where there is none.
//
// A place moved by d to the left has the curvature k + d" - k2 d, with the
// second derivative along the path as it was: what a turn gains in radius by
// going farther round counts for less than what it gains by being cut. That
// lies between the line of least curvature and the shortest one, as a driver's
// does.
func (p *path) straightened() *path {
	n := len(p.places)
	rows, rest := make(ringRows, n), make([]float64, n)
	low, high := make([]float64, n), make([]float64, n)
	for i, at := range p.places {
		k, h := p.curvature(i), p.length(i)
		rows[i] = [3]float64{1 / (h * h), -2/(h*h) - float64(k*k), 1 / (h * h)}
		rest[i] = k
		low[i], high[i] = carHalf-at.Right, at.Left-carHalf
		if lack := leastRoom - (high[i] - low[i]); lack > 0 {
			low[i], high[i] = low[i]-float64(lack/2), high[i]+float64(lack/2)
		}
	}
	offset := rows.leastWithin(rest, low, high)
	if offset == nil {
		return nil
	}
	moved := make([]Place, n)
	for i, at := range p.places {
		sin, cos := math.Sincos(p.heading[i] - float64(p.turn[i]/2))
		moved[i] = Place{at.X - float64(offset[i]*sin), at.Y + float64(offset[i]*cos), at.Right + offset[i], at.Left - offset[i]}
	}
	return newPath(even(moved))
}
