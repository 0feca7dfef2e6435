package duty

import (
	"fmt"
	"math"
)

// Bounds on a corner list, assumed: a tighter turn is a manoeuvre, not a
// corner, and a longer lap is a road.
const (
	minRadius    = 3.0   // m
	MaxLength    = 100e3 // m
	minPiece     = 1e-3  // m; shorter ones are dropped, a rounding error would shake the car there
	closedWithin = 5 * math.Pi / 180
)

// Length is the length of a lap, m.
func Length(segs []Segment) float64 {
	sum := 0.0
	for _, s := range segs {
		sum += s.Straight + float64(math.Abs(s.Turn)*s.Radius)
	}
	return sum
}

// Turning is the signed turning of a lap, rad, + left.
func Turning(segs []Segment) float64 {
	sum := 0.0
	for _, s := range segs {
		sum += s.Turn
	}
	return sum
}

// Closes says whether the turning is that of a closed lap, within 5 degrees
// (assumed, for rounded figures): once round to either side or, for a lap
// that crosses itself, not at all.
// Source: H. Hopf, Compositio Mathematica 2 (1935), the theorem of turning tangents.
func Closes(segs []Segment) bool {
	turning := math.Abs(Turning(segs))
	return turning <= closedWithin || math.Abs(turning-2*math.Pi) <= closedWithin
}

// Reverse is the circuit driven the other way round: its turns come in the
// opposite order, and each left turn is a right one.
func Reverse(segs []Segment) []Segment {
	var out []Segment
	for i := len(segs) - 1; i >= 0; i-- {
		s := segs[i]
		if s.Turn != 0 {
			out = append(out, Segment{Turn: -s.Turn, Radius: s.Radius})
		}
		if s.Straight > 0 {
			out = append(out, Segment{Straight: s.Straight})
		}
	}
	return out
}

// checkSegments says what is wrong with a corner list.
func checkSegments(segs []Segment) error {
	turns := false
	for i, s := range segs {
		switch {
		case !(s.Straight >= 0 && s.Straight <= MaxLength):
			return fmt.Errorf("segment %d: a straight of %g m is not possible", i+1, s.Straight)
		case math.IsNaN(s.Turn) || math.IsInf(s.Turn, 0):
			return fmt.Errorf("segment %d: a turn of %g rad is not possible", i+1, s.Turn)
		case s.Turn != 0 && !(s.Radius >= minRadius && s.Radius <= MaxLength):
			return fmt.Errorf("segment %d: a turn needs a radius between %g and %g m, not %g m", i+1, minRadius, MaxLength, s.Radius)
		case s.Turn == 0 && s.Straight == 0:
			return fmt.Errorf("segment %d has neither a straight nor a turn", i+1)
		}
		turns = turns || math.Abs(s.Turn)*s.Radius >= minPiece
	}
	if !turns {
		return fmt.Errorf("the circuit has no turn")
	}
	if l := Length(segs); !(l <= MaxLength) {
		return fmt.Errorf("a lap of %.4g km is longer than %g km", l/1000, MaxLength/1000)
	}
	return nil
}
