package trace

import (
	"math"
	"slices"
)

// How rows between a receiver's own fixes are told. Engineering choices.
const (
	onChord   = 0.05 // of what a receiver's fix is off the way between its neighbors, at most
	mostOn    = 0.6  // of the rows of a car that moves: more are made up
	moves     = 0.3  // m between neighbors
	knotReach = 1.5  // times the usual time from fix to fix, after which a row is kept all the same
)

// thin takes out rows that lie on the way between their neighbors to a hair:
// a file written at a higher rate than the receiver's. Taken for fixes they
// would draw every corner as a polygon. It gives the fixes as they are where
// there are few such rows.
func thin(fixes []Fix) []Fix {
	p := newPlane(fixes[0].Lat, fixes[0].Lon)
	// How far a row is off the way between its neighbors, and how far they are apart.
	off := func(i int) (left, apart float64) {
		a, b, c := fixes[i-1], fixes[i], fixes[i+1]
		if b.Gap || c.Gap || c.Time <= a.Time {
			return math.Inf(1), 0
		}
		u := (b.Time - a.Time) / (c.Time - a.Time)
		ax, ay := p.xy(a.Lat, a.Lon)
		bx, by := p.xy(b.Lat, b.Lon)
		cx, cy := p.xy(c.Lat, c.Lon)
		return math.Hypot(bx-ax-float64(u*(cx-ax)), by-ay-float64(u*(cy-ay))), math.Hypot(cx-ax, cy-ay)
	}
	const plenty = 4001 // rows tell as much as all
	var moving []float64
	for i := 1; i+1 < len(fixes); i += 1 + len(fixes)/plenty {
		if left, apart := off(i); apart > moves {
			moving = append(moving, left)
		}
	}
	if len(moving) < fewestFixes {
		return fixes
	}
	limit := onChord * quantile(moving, 0.97) // moving is sorted now
	on, _ := slices.BinarySearch(moving, limit)
	if float64(on) < mostOn*float64(len(moving)) {
		return fixes
	}
	own := make([]bool, len(fixes))
	var steps []float64
	last := math.Inf(-1)
	for i := 1; i+1 < len(fixes); i++ {
		if left, _ := off(i); left >= limit {
			own[i] = true
			steps = append(steps, fixes[i].Time-last)
			last = fixes[i].Time
		}
	}
	reach := knotReach * median(steps)
	out := fixes[:1:1]
	gap := false
	for i := 1; i < len(fixes); i++ {
		gap = gap || fixes[i].Gap
		if !own[i] && i+1 < len(fixes) && fixes[i].Time-out[len(out)-1].Time < reach {
			continue
		}
		f := fixes[i]
		f.Gap = gap
		out, gap = append(out, f), false
	}
	if _, err := check(out); err != nil {
		return fixes // one a second, without noise, on straights
	}
	return out
}
