package synthetic

import (
	"math"
	"math/rand/v2"

	"example.com/tripwear/wearmodel/duty"
)

// Close changes the straights of a corner list, by as little as closes it, so
// that the lap ends where it began. It says whether that leaves every straight
// at least as long as least, m.
func Close(segs []duty.Segment, least float64) ([]duty.Segment, bool) {
	out := append([]duty.Segment(nil), segs...)
	for range 20 {
		// The end moves by a straight's direction for each meter of it.
		var x, y, h, xx, xy, yy float64
		for _, s := range out {
			c, sn := math.Cos(h), math.Sin(h)
			x, y = x+float64(s.Straight*c), y+float64(s.Straight*sn)
			xx, xy, yy = xx+float64(c*c), xy+float64(c*sn), yy+float64(sn*sn)
			if s.Turn != 0 {
				r := math.Copysign(s.Radius, s.Turn)
				x += float64(r * (math.Sin(h+s.Turn) - math.Sin(h)))
				y -= float64(r * (math.Cos(h+s.Turn) - math.Cos(h)))
				h += s.Turn
			}
		}
		if math.Hypot(x, y) < 1e-9 {
			return out, true
		}
		det := float64(xx*yy) - float64(xy*xy)
		if det < 1e-6 {
			return nil, false
		}
		px, py := (float64(yy*x)-float64(xy*y))/det, (float64(xx*y)-float64(xy*x))/det
		h = 0
		for i := range out {
			out[i].Straight -= float64(px*math.Cos(h)) + float64(py*math.Sin(h))
			h += out[i].Turn
			if out[i].Straight < least {
				return nil, false
			}
		}
	}
	return nil, false
}

// Invent draws a closed circuit of 5 to 16 corners, 1.5 to 6 km long, that
// turns left or right in all, or not at all where eight is true.
func Invent(rng *rand.Rand, eight bool) []duty.Segment {
	const deg = math.Pi / 180
	for {
		n := 5 + rng.IntN(12)
		segs := make([]duty.Segment, n)
		sum := 0.0
		for i := range segs {
			turn := (25 + float64(120*rng.Float64())) * deg
			if rng.Float64() < 0.35 {
				turn = -turn
			}
			segs[i] = duty.Segment{
				Straight: 20 + float64(380*math.Pow(rng.Float64(), 1.5)),
				Turn:     turn,
				Radius:   18 * math.Exp(2.2*rng.Float64()),
			}
			sum += turn
		}
		want := 2 * math.Pi
		if eight {
			want = 0
		}
		// The rest is shared out; a circuit that it would twist is drawn anew.
		fair := true
		for i := range segs {
			segs[i].Turn += (want - sum) / float64(n)
			fair = fair && math.Abs(segs[i].Turn) > 15*deg && math.Abs(segs[i].Turn) < 190*deg
		}
		if !fair {
			continue
		}
		closed, ok := Close(segs, 8)
		if l := duty.Length(closed); !ok || l < 1500 || l > 6000 {
			continue
		}
		if rng.IntN(2) == 0 {
			for k := range closed { // in a mirror
				closed[k].Turn = -closed[k].Turn
			}
		}
		return closed
	}
}
