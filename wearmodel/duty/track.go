package duty

import (
	"math"
)

// piece is a stretch of one curvature, cut into equal cells.
type piece struct {
	first     int     // its first node
	cells     int     // it ends at node first+cells
	ds        float64 // m, length of a cell
	curvature float64 // 1/m, + left
}

// track is a circuit cut into cells of at most one meter, with the squared
// speed at each node between them. The last node is the first one again.
type track struct {
	pieces   []piece
	sharpest int       // the piece of the smallest radius
	u        []float64 // (m/s)2, one more than there are cells
}

// maxCell is the longest cell, m. Engineering choice: half of it changes a lap
// time by 0.01 % and its braking energy by less than 0.1 %.
const maxCell = 1.0

// cut makes a track of a checked corner list.
func cut(segs []Segment) *track {
	t := &track{pieces: make([]piece, 0, 2*len(segs))}
	cells := 0
	add := func(length, curvature float64) {
		if length < minPiece {
			return
		}
		n := int(math.Ceil(float64(length/maxCell) - 1e-9)) // a rounding error is not worth a cell
		n = max(n, 1)
		t.pieces = append(t.pieces, piece{cells, n, length / float64(n), curvature})
		cells += n
	}
	for _, s := range segs {
		add(s.Straight, 0)
		if s.Turn != 0 {
			add(math.Abs(s.Turn)*s.Radius, math.Copysign(1/s.Radius, s.Turn))
		}
	}
	for i, p := range t.pieces {
		if math.Abs(p.curvature) > math.Abs(t.pieces[t.sharpest].curvature) {
			t.sharpest = i
		}
	}
	t.u = make([]float64, cells+1)
	return t
}

// nodes is the part of u that belongs to a piece, both ends included.
func (t *track) nodes(p piece) []float64 { return t.u[p.first : p.first+p.cells+1] }

// solve drives the track as fast as the limits allow and leaves the squared
// speeds in u.
//
// A quasi-steady-state lap: a speed limit from curvature at every node, then
// a sweep forward for acceleration and one backward for braking, sharing the
// grip by the friction ellipse. Source: Lenzo and Rossi, A Simple Mono-Dimensional
// Approach for Lap Time Optimisation, Applied Sciences 10(4) 1498 (2020).
func (t *track) solve(l limits) {
	t.limit(l)
	// Both sweeps start at the slowest place. Where the car is not slow there
	// (a lap it takes at top speed) it may come round slower than it left;
	// braking for what follows never makes the slowest place slower.
	const rounds = 20
	for range rounds {
		if !t.forward(l) {
			break
		}
	}
	t.backward(l)
}

// limit sets each node to the lower limit of the two cells it joins.
func (t *track) limit(l limits) {
	top := l.topSpeed()
	fastest := top * top
	before := math.Inf(1)
	for _, p := range t.pieces {
		limit := fastest
		if p.curvature != 0 {
			limit = math.Min(limit, l.cornering/math.Abs(p.curvature))
		}
		nodes := t.nodes(p)
		for i := range nodes {
			nodes[i] = limit
		}
		nodes[0] = math.Min(limit, before)
		before = limit
	}
	last := len(t.u) - 1
	t.u[0] = math.Min(t.u[0], t.u[last])
	t.u[last] = t.u[0]
}

// spare is the share of the grip that cornering leaves for driving and braking.
func spare(cornering float64) float64 {
	return math.Sqrt(math.Max(0, 1-float64(cornering*cornering)))
}

// forward takes out what the car cannot reach by accelerating, once round from
// the sharpest piece, and says whether it came back slower than it left.
func (t *track) forward(l limits) bool {
	start := &t.u[t.pieces[t.sharpest].first]
	was := *start
	for j := range t.pieces {
		p := t.pieces[(t.sharpest+j)%len(t.pieces)]
		nodes := t.nodes(p)
		use := math.Abs(p.curvature) / l.cornering
		step := 2 * p.ds
		u := nodes[0]
		for i := 1; i < len(nodes); i++ {
			left := 1.0
			if use > 0 {
				left = spare(u * use)
			}
			u += float64(step * l.speedUp(u, left))
			if u < nodes[i] {
				nodes[i] = u
			} else {
				u = nodes[i]
			}
		}
		if p.first+p.cells == len(t.u)-1 {
			t.u[0] = u
		}
	}
	return *start < was
}

// backward takes out what the car could not brake from, once round.
func (t *track) backward(l limits) {
	for j := len(t.pieces) - 1; j >= 0; j-- {
		p := t.pieces[(t.sharpest+j)%len(t.pieces)]
		nodes := t.nodes(p)
		if p.first+p.cells == len(t.u)-1 {
			t.u[len(t.u)-1] = t.u[0]
		}
		use := math.Abs(p.curvature) / l.cornering
		step := 2 * p.ds
		u := nodes[len(nodes)-1]
		for i := len(nodes) - 2; i >= 0; i-- {
			left := 1.0
			if use > 0 {
				left = spare(u * use)
			}
			u += float64(step * l.slowDown(u, left))
			if u < nodes[i] {
				nodes[i] = u
			} else {
				u = nodes[i]
			}
		}
	}
	t.u[len(t.u)-1] = t.u[0]
}

// seconds is the lap time of the solved track.
func (t *track) seconds() float64 {
	sum := 0.0
	for _, p := range t.pieces {
		nodes := t.nodes(p)
		from := math.Sqrt(nodes[0])
		inverse := 0.0
		for _, u := range nodes[1:] {
			to := math.Sqrt(u)
			inverse += 1 / (from + to)
			from = to
		}
		sum += float64(2 * p.ds * inverse)
	}
	return sum
}
