package trace

import (
	"math"
)

// arc is a piece of a curve: a straight, or a turn of one radius.
type arc struct {
	meters   float64
	bend     float64 // 1/m, + left
	straight bool    // its bend is 0 and stays so
}

// pose is a place and a direction.
type pose struct{ x, y, heading float64 }

// along goes on by a length of arc, and gives the middle of the way too: the
// mean of its places.
func (p pose) along(bend, s float64) (end pose, middle [2]float64) {
	turn := float64(bend * s)
	// In the frame of the pose: sin(turn)/bend and (1-cos(turn))/bend, and the
	// means of both from 0 to s, as series where the turn is small.
	var u, v, mu, mv float64
	if math.Abs(turn) < 1e-4 {
		u, v = s, s*turn/2
		mu, mv = s/2, s*turn/6
	} else {
		sin, cos := math.Sincos(turn)
		u, v = sin/bend, (1-cos)/bend
		mu, mv = v/turn, (1-sin/turn)/bend
	}
	sin, cos := math.Sincos(p.heading)
	end = pose{p.x + float64(u*cos) - float64(v*sin), p.y + float64(u*sin) + float64(v*cos), p.heading + turn}
	return end, [2]float64{p.x + float64(mu*cos) - float64(mv*sin), p.y + float64(mu*sin) + float64(mv*cos)}
}

// beside is how far along an arc from the pose a place is, and how far to the
// left of it.
func (p pose) beside(a arc, x, y float64) (s, left float64) {
	sin, cos := math.Sincos(p.heading)
	u, v := float64((x-p.x)*cos)+float64((y-p.y)*sin), float64((y-p.y)*cos)-float64((x-p.x)*sin)
	if math.Abs(a.bend) < 1e-7 {
		return u, v
	}
	sign, r := math.Copysign(1, a.bend), float64(1/math.Abs(a.bend))
	up := r - float64(sign*v) // towards the place from the center, in the frame of the pose
	half := float64(a.meters / r / 2)
	phi := half + math.Remainder(math.Atan2(u, up)-half, 2*math.Pi)
	return phi * r, sign * (r - math.Hypot(u, up))
}

// curve is a corner list with its place on the plane.
type curve struct {
	start pose
	arcs  []arc
}

// poses is the beginning of each arc, and the end.
func (c *curve) poses() (at []pose, middles [][2]float64) {
	at = make([]pose, len(c.arcs)+1)
	middles = make([][2]float64, len(c.arcs))
	at[0] = c.start
	for j, a := range c.arcs {
		at[j+1], middles[j] = at[j].along(a.bend, a.meters)
	}
	return at, middles
}

// sight is where the fixes beside one node of a line lie in the mean.
type sight struct{ x, y, weight float64 }

// sights are those of a line from a node on; where there are no fixes, the
// node itself with no weight.
func (f *fitted) sights(first int) []sight {
	n := len(f.x)
	type sum struct{ count, share, left float64 }
	sums := make([]sum, n)
	for k := range f.places {
		p := &f.places[k]
		i, u, left := f.locate(p.x, p.y, p.segment)
		if left -= p.drift; math.Abs(left) > wild*f.noise {
			continue
		}
		s := &sums[i]
		s.count, s.share, s.left = s.count+1, s.share+u, s.left+left
	}
	out := make([]sight, n)
	for k := range out {
		i := (first + k) % n
		s := sums[i]
		out[k] = sight{f.x[i], f.y[i], s.count}
		if s.count > 0 {
			d, u, left := f.dir[i], s.share/s.count*f.length[i], s.left/s.count
			out[k].x += float64(u*d[0]) - float64(left*d[1])
			out[k].y += float64(u*d[1]) + float64(left*d[0])
		}
	}
	return out
}

// pass calls for every sight with the arc that it is beside. Sights are in the
// curve's order; the first may lie before its start and the last beyond its
// end, which are one place.
func (c *curve) pass(at []pose, sights []sight, call func(k, arc int, s, left float64)) {
	j, last := 0, len(c.arcs)-1
	for k, p := range sights {
		s, left := at[j].beside(c.arcs[j], p.x, p.y)
		for j > 0 && s < 0 {
			before, l := at[j-1].beside(c.arcs[j-1], p.x, p.y)
			if before > c.arcs[j-1].meters {
				break
			}
			j, s, left = j-1, before, l
		}
		for j < last && s > c.arcs[j].meters {
			j++
			s, left = at[j].beside(c.arcs[j], p.x, p.y)
		}
		on := j
		switch {
		case j == 0 && s < 0 && 2*k < len(sights):
			on = last
		case j == last && s > c.arcs[last].meters && 2*k > len(sights):
			on = 0
		}
		if on != j {
			s, left = at[on].beside(c.arcs[on], p.x, p.y)
		}
		call(k, on, s, left)
	}
}
