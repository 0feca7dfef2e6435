package trace

import (
	"math"

	"example.com/tripwear/wearmodel/duty"
)

// How the fitted line becomes a corner list. Engineering choices.
const (
	straightBelow = 0.1  // g of lateral acceleration: less counts as straight
	sameStretch   = 0.15 // m g2, what joining two stretches may change
	shortest      = 13.0 // m, of a stretch that stands between two others
	mostStretches = 150  // twice the corners of the longest circuits; more are noise
)

// stretch is a part of the lap with one curvature.
type stretch struct {
	from, nodes int // the first node and their number
	meters      float64
	turn        float64 // rad
	speed       float64 // m/s, mean
}

func (s stretch) curvature() float64 { return s.turn / s.meters }

// lateral is the acceleration that the measured speed makes of the curvature, g.
func (s stretch) lateral() float64 { return s.curvature() * s.speed * s.speed / duty.G }

// join is the two stretches as one.
func (s stretch) join(b stretch) stretch {
	all := s.meters + b.meters
	return stretch{
		from: s.from, nodes: s.nodes + b.nodes, meters: all, turn: s.turn + b.turn,
		speed: (float64(s.speed*s.meters) + float64(b.speed*b.meters)) / all,
	}
}

// cost is what joining changes: the squared difference of lateral acceleration
// over the length it is spread on.
func (s stretch) cost(b stretch) float64 {
	speed := math.Min(s.speed, b.speed)
	d := (s.curvature() - b.curvature()) * speed * speed / duty.G
	return s.meters * b.meters / (s.meters + b.meters) * d * d
}

// stretches cuts the line where its curvature changes and fits the pieces to
// the fixes.
func (f *fitted) stretches() ([]stretch, *ties) {
	n := len(f.x)
	kappa := f.curvature()
	// Begin at the greatest change, so that no stretch runs over the start.
	first, most := 0, 0.0
	for i := range n {
		if d := math.Abs(kappa[i] - kappa[f.before(i)]); d > most {
			first, most = i, d
		}
	}
	const same = 0.02 // g, from node to node
	var all []stretch
	for k := range n {
		i := (first + k) % n
		s := stretch{i, 1, (f.length[i] + f.length[f.before(i)]) / 2, f.turn[i], f.speed[i]}
		if last := len(all) - 1; last >= 0 && math.Abs(kappa[i]-kappa[f.before(i)])*s.speed*s.speed < same*duty.G {
			all[last] = all[last].join(s)
			continue
		}
		all = append(all, s)
	}
	for len(all) > 2 {
		best, least := -1, sameStretch
		if len(all) > mostStretches {
			least = math.Inf(1)
		}
		for i := range all[1:] {
			if c := all[i].cost(all[i+1]); c < least {
				best, least = i, c
			}
		}
		if best < 0 {
			break
		}
		all[best] = all[best].join(all[best+1])
		all = append(all[:best+1], all[best+2:]...)
	}
	return f.polished(sharpen(all))
}

// polished fits the stretches to the fixes as straights and turns of one
// radius, as few as the fixes speak for.
func (f *fitted) polished(all []stretch) ([]stretch, *ties) {
	n := len(f.x)
	first := all[0].from
	b := f.before(first)
	d := f.dir[b]
	c := &curve{start: pose{(f.x[b] + f.x[first]) / 2, (f.y[b] + f.y[first]) / 2, math.Atan2(d[1], d[0])}}
	for _, s := range all {
		c.arcs = append(c.arcs, arc{meters: s.meters, bend: s.curvature()})
	}
	c, q := c.simplify(f.sights(first), f.noise*f.noise)
	total, gone, node := 0.0, 0.0, 0
	for _, a := range c.arcs {
		total += a.meters
	}
	var out []stretch
	for _, a := range c.arcs {
		s := stretch{from: (first + node) % n, meters: a.meters, turn: a.bend * a.meters}
		gone += a.meters
		for end := int(math.Round(gone / total * float64(n))); node < end; node++ {
			s.nodes++
			s.speed += f.speed[(first+node)%n]
		}
		s.speed /= math.Max(1, float64(s.nodes))
		out = append(out, s)
	}
	return out, q
}

// fromLine turns the list so that it begins with the stretch of the start line.
func fromLine(all []stretch) []stretch {
	first := 0
	for i, s := range all {
		if s.from == 0 || s.from > all[first].from {
			first = i // of all stretches the one with the last first node goes over the end
		}
		if s.from == 0 {
			break
		}
	}
	return append(append([]stretch(nil), all[first:]...), all[:first]...)
}

// sharpen shares out short stretches whose curvature lies between those of
// their neighbors: the curvature changes somewhere inside. Length and turning
// stay.
func sharpen(all []stretch) []stretch {
	for i := 1; i+1 < len(all); i++ {
		a, s, b := &all[i-1], all[i], &all[i+1]
		if s.meters > shortest {
			continue
		}
		share := (s.curvature() - a.curvature()) / (b.curvature() - a.curvature())
		if !(share >= 0 && share <= 1) {
			continue
		}
		before, after := a.curvature(), b.curvature()
		a.meters, a.turn, a.nodes = a.meters+float64(s.meters*(1-share)), a.turn+float64(before*s.meters*(1-share)), a.nodes+s.nodes
		b.meters, b.turn = b.meters+float64(s.meters*share), b.turn+float64(after*s.meters*share)
		all = append(all[:i], all[i+1:]...)
		i--
	}
	return all
}

// segments is the stretches as a corner list that closes: what counts as
// straight gives its turning to the corners.
func segments(all []stretch) []duty.Segment {
	lost, kept, whole := 0.0, 0.0, 0.0
	for _, s := range all {
		whole += s.turn
		if math.Abs(s.lateral()) < straightBelow {
			lost += s.turn
		} else {
			kept += math.Abs(s.turn)
		}
	}
	// A closed line turns by whole rounds (Hopf's theorem); the rest is rounding.
	lost += float64(2*math.Pi*math.Round(whole/(2*math.Pi))) - whole
	var out []duty.Segment
	straight := 0.0
	for _, s := range all {
		if math.Abs(s.lateral()) < straightBelow {
			straight += s.meters
			continue
		}
		turn := s.turn + lost*math.Abs(s.turn)/kept
		out = append(out, duty.Segment{Straight: straight, Turn: turn, Radius: s.meters / math.Abs(turn)})
		straight = 0
	}
	if straight > 0 {
		out = append(out, duty.Segment{Straight: straight})
	}
	return out
}
