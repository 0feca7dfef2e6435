package trace

import (
	"sort"
)

// How the slow error of a lap is taken off. Engineering choices.
const (
	driftReach = 15.0 // s to either side over which it is one error
	driftPrior = 8.0  // fixes' worth of belief that there is none
	driftLaps  = 3    // laps at least: fewer cannot tell it from the line
)

// undrift works out for every place the slow error of its lap, in meters to
// the left of the line there: the shift that best lays the lap's fixes around
// it on the line of all laps. Receivers err by meters that last for minutes,
// which bends no corner but makes laps differ.
func (f *fitted) undrift() {
	for from := 0; from < len(f.places); {
		to := from
		for to < len(f.places) && f.places[to].lap == f.places[from].lap {
			to++
		}
		f.undriftLap(f.places[from:to])
		from = to
	}
}

func (f *fitted) undriftLap(lap []place) {
	// Sums of the normal equations of a shift, up to each place.
	sums := make([][5]float64, len(lap)+1)
	for k, p := range lap {
		d := f.dir[p.segment]
		nx, ny := -d[1], d[0]
		_, _, left := f.locate(p.x, p.y, p.segment)
		sums[k+1] = sums[k]
		for a, v := range [5]float64{nx * nx, nx * ny, ny * ny, nx * left, ny * left} {
			sums[k+1][a] += v
		}
	}
	for k := range lap {
		p := &lap[k]
		lo := sort.Search(len(lap), func(i int) bool { return lap[i].t >= p.t-driftReach })
		hi := sort.Search(len(lap), func(i int) bool { return lap[i].t > p.t+driftReach })
		var s [5]float64
		for a := range s {
			s[a] = sums[hi][a] - sums[lo][a]
		}
		xx, xy, yy := s[0]+driftPrior, s[1], s[2]+driftPrior
		det := float64(xx*yy) - float64(xy*xy)
		x, y := (float64(yy*s[3])-float64(xy*s[4]))/det, (float64(xx*s[4])-float64(xy*s[3]))/det
		d := f.dir[p.segment]
		p.drift = float64(y*d[0]) - float64(x*d[1])
	}
}
