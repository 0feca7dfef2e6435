package trace

import (
	"math"

	"example.com/tripwear/wearmodel/duty"
)

// How the fitted line becomes a corner list. Engineering choices.
const (
	sameStretch = 0.2       // m g2, what joining two stretches may change
	firstJoin   = 1.0 / 256 // of that, at first: the most alike are joined before the others
	shortest    = 15.0      // m, of a stretch that stands between two others
	mildest     = 5e3       // m, of a radius; more is straight
)

// stretch is a part of the lap with one curvature.
type stretch struct {
	meters float64
	turn   float64 // rad
	speed  float64 // m/s, mean
}

func (s stretch) side() int {
	if s.turn > 0 {
		return leftSide
	}
	return rightSide
}

// cost is what joining changes: the squared difference of lateral acceleration
// over the length it is spread on. Stretches to either side stay apart.
func (s stretch) cost(b stretch) float64 {
	if float64(s.turn*b.turn) < 0 {
		return math.Inf(1)
	}
	speed := math.Min(s.speed, b.speed)
	d := (s.turn/s.meters - b.turn/b.meters) * speed * speed / duty.G
	return s.meters * b.meters / (s.meters + b.meters) * d * d
}

// joined joins neighbors that are alike.
func joined(all []stretch) []stretch {
	for limit := float64(firstJoin * sameStretch); limit <= sameStretch; limit *= 2 {
		out := append(make([]stretch, 0, len(all)), all[0])
		for _, s := range all[1:] {
			a := &out[len(out)-1]
			if a.cost(s) > limit {
				out = append(out, s)
				continue
			}
			whole := a.meters + s.meters
			*a = stretch{whole, a.turn + s.turn, (float64(a.speed*a.meters) + float64(s.speed*s.meters)) / whole}
		}
		all = out
	}
	return sharpen(all)
}

// sharpen shares out short stretches whose curvature lies between those of
// their neighbors: the curvature changes somewhere inside. Length and turning
// stay.
func sharpen(all []stretch) []stretch {
	for i := 1; i+1 < len(all); i++ {
		a, s, b := &all[i-1], all[i], &all[i+1]
		before, after := a.turn/a.meters, b.turn/b.meters
		share := (s.turn/s.meters - before) / (after - before)
		if s.meters > shortest || !(share >= 0 && share <= 1) {
			continue
		}
		a.meters, a.turn = a.meters+float64(s.meters*(1-share)), a.turn+float64(before*s.meters*(1-share))
		b.meters, b.turn = b.meters+float64(s.meters*share), b.turn+float64(after*s.meters*share)
		all = append(all[:i], all[i+1:]...)
		i--
	}
	return all
}

// stretches is the line node by node, from the start line on. Every bend to
// one side has the load that halves of the laps give it, so that noise makes
// no bends.
func (f *fitted) stretches(h sides) []stretch {
	all := make([]stretch, len(f.x))
	sharp := f.twice(f.all())
	whole := 0.0
	for i := range all {
		meters := (f.length[i] + f.length[f.before(i)]) / 2
		all[i] = stretch{meters, sharp[i] * meters, f.speed[i]}
		whole += f.turn[i]
	}
	var load [2]float64 // of left and right bends
	f.eachBend(func(side, from, to int) {
		size, plain := 0.0, 0.0
		for i := from; i < to; i++ {
			size += float64(h.of(side, i) * all[i].meters * all[i].speed)
			plain += float64(math.Abs(all[i].turn) * all[i].speed)
		}
		load[side] += size
		for i := from; i < to; i++ {
			all[i].turn *= math.Max(0, size) / math.Max(plain, 1e-12)
		}
	})
	all = joined(all)
	var kept [2]float64
	for _, s := range all {
		kept[s.side()] += float64(math.Abs(s.turn) * s.speed)
	}
	net, turned := 0.0, 0.0
	for i := range all {
		s := &all[i]
		s.turn = float64(s.turn * (math.Max(0, load[s.side()]) / math.Max(kept[s.side()], 1e-12)))
		net += float64(s.turn)
		turned += math.Abs(s.turn)
	}
	// A closed line turns by whole rounds (Hopf's theorem).
	rest := float64(2*math.Pi*math.Round(whole/(2*math.Pi))) - net
	for i := range all {
		all[i].turn += rest * math.Abs(all[i].turn) / turned
	}
	return all
}

// segments is stretches as a corner list that closes: what is next to straight
// gives its turning to the others.
func segments(all []stretch) []duty.Segment {
	straight := func(s stretch) bool { return s.meters > mildest*math.Abs(s.turn) }
	lost, kept := 0.0, 0.0
	for _, s := range all {
		if straight(s) {
			lost += s.turn
		} else {
			kept += math.Abs(s.turn)
		}
	}
	var out []duty.Segment
	way := 0.0
	for _, s := range all {
		if straight(s) {
			way += s.meters
			continue
		}
		turn := s.turn + lost*math.Abs(s.turn)/kept
		out = append(out, duty.Segment{Straight: way, Turn: turn, Radius: s.meters / math.Abs(turn)})
		way = 0
	}
	if way > 0 {
		out = append(out, duty.Segment{Straight: way})
	}
	return out
}
