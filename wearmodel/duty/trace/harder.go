package trace

import (
	"math"

	"example.com/tripwear/wearmodel/duty"
)

// What a lap driven on a corner list brakes too little of, because the sharpest
// places of a line are shorter than a recording can show. Measured on lines of
// real circuits, whose bends change all along, and on recorded corner lists,
// whose bends are arcs: see TestRealLines and TestTruth.
const (
	lost        = 0.112  // ln of the braking energy, in a bend of one radian that is smoothed over a meter
	lostByReach = 0.0355 // more by ln of the meters that bends are smoothed over
	lostByAngle = 0.0643 // less by ln of the radians that they turn by
	mostReach   = 40.0   // m
	bends       = 0.72   // of the turning is in the arcs, at most
	arcs        = 0.80   // is at least: nothing is lost
	likeRadius  = 0.3    // of ln of a radius over that of the longest arc of its bend, by which it is less of the arc
	harderSD    = 0.04   // that is left, of its logarithm
)

// harder is by what factor the laps recorded brake more than one driven on the
// corner list.
func (f *fitted) harder(segs []duty.Segment) float64 {
	all, inArcs := 0.0, 0.0
	for from := 0; from < len(segs); {
		to, arc := from, segs[from]
		for ; to < len(segs) && (to == from || segs[to].Straight == 0 && float64(segs[to].Turn*arc.Turn) > 0); to++ {
			if math.Abs(segs[to].Turn) > math.Abs(arc.Turn) {
				arc = segs[to]
			}
		}
		for _, s := range segs[from:to] {
			if turn := math.Abs(s.Turn); turn > 0 {
				all += turn
				inArcs += float64(turn * math.Exp(-math.Abs(math.Log(s.Radius/arc.Radius))/likeRadius))
			}
		}
		from = to
	}
	return math.Exp(f.lost() * math.Max(0, math.Min(1, (arcs-inArcs/all)/(arcs-bends))))
}

// lost is ln of what the braking energy lacks where bends change all along.
func (f *fitted) lost() float64 {
	pulls, stiff := f.all(), f.stiffness(f.swing)
	whole, reach, angle := 0.0, 0.0, 0.0
	f.eachBend(func(_, from, to int) {
		meters := 0.0
		for i := from; i < to; i++ {
			meters += f.length[i]
		}
		for i := from; i < to; i++ {
			turn, scale := math.Abs(f.turn[i]), f.speed[i]*f.speed[i]*f.speed[i]/duty.G
			// A spline with a price on its third derivative reaches as far as
			// the sixth root of the price over the weight of what it goes through.
			sixth := stiff * scale * scale * f.ease[i] / math.Max(1e-9, pulls.own[i]+float64(2*pulls.next[i]))
			reach += float64(turn * math.Log(sixth) / 6)
			angle += float64(turn * math.Log(meters*(turn/f.length[i]+1/mildest/1e3)))
			whole += turn
		}
	})
	return lost + float64(lostByReach*math.Min(math.Log(mostReach), reach/whole)) - float64(lostByAngle*angle/whole)
}
