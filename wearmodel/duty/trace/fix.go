package trace

import (
	"fmt"
	"math"
)

// Fix is one place at one time.
type Fix struct {
	Time     float64 // s, from any origin, rising
	Lat, Lon float64 // deg, WGS84
	Gap      bool    // the first after a break in the recording
}

// What a trace must be. Engineering choices.
const (
	slowestRate = 1.5   // s between fixes at most: below, a corner falls between two
	fewestFixes = 30    //
	longestGap  = 5.0   // s without a fix that a lap may have
	flaggedGaps = 2.5   // periods without a fix that break a lap where the recorder says so
	nearestPole = 89.0  // deg
	glitchSpeed = 150.0 // m/s, faster than any car: the fix is wrong
	glitchSlack = 20.0  // m
)

// track is a trace on a plane, without what cannot be.
type track struct {
	t, x, y []float64
	run     []int   // number of the unbroken recording that a fix belongs to
	period  float64 // s between fixes, median
	dropped int     // fixes left out as impossible
}

// lay checks the fixes and puts them on a plane around an origin.
func lay(fixes []Fix, origin plane, period float64) *track {
	n := len(fixes)
	tr := &track{
		t: make([]float64, 0, n), x: make([]float64, 0, n), y: make([]float64, 0, n),
		run: make([]int, 0, n), period: period,
	}
	run, flagged, bad := 0, false, 0
	for _, f := range fixes {
		x, y := origin.xy(f.Lat, f.Lon)
		flagged = flagged || f.Gap
		if last := len(tr.t) - 1; last >= 0 {
			dt := f.Time - tr.t[last]
			if dt <= 0 {
				continue // the same second twice
			}
			// A single wild fix goes; a place that stays is where the car is.
			if math.Hypot(x-tr.x[last], y-tr.y[last]) > float64(glitchSpeed*dt)+glitchSlack && dt < longestGap && bad < 10 {
				bad++
				tr.dropped++
				continue
			}
			if dt > longestGap || flagged && dt > flaggedGaps*period || bad >= 10 {
				run++
			}
		}
		flagged, bad = false, 0
		tr.t, tr.x, tr.y, tr.run = append(tr.t, f.Time), append(tr.x, x), append(tr.y, y), append(tr.run, run)
	}
	return tr
}

// check says what is wrong with the fixes and gives the median time between them.
func check(fixes []Fix) (period float64, err error) {
	if len(fixes) < fewestFixes {
		return 0, fmt.Errorf("the trace holds too few fixes for a lap: %d, at least %d are needed", len(fixes), fewestFixes)
	}
	steps := make([]float64, 0, len(fixes))
	for i, f := range fixes {
		if !(math.Abs(f.Lat) <= nearestPole) || !(math.Abs(f.Lon) <= 360) || math.IsNaN(f.Time) || math.IsInf(f.Time, 0) {
			return 0, fmt.Errorf("fix %d, %g s at %g, %g, is no place on a circuit", i+1, f.Time, f.Lat, f.Lon)
		}
		if i > 0 {
			dt := f.Time - fixes[i-1].Time
			if dt < 0 {
				return 0, fmt.Errorf("fix %d is %.3g s earlier than the one before", i+1, -dt)
			}
			if dt > 0 {
				steps = append(steps, dt)
			}
		}
	}
	if len(steps) < fewestFixes-1 {
		return 0, fmt.Errorf("the trace holds too few fixes at different times for a lap: %d, at least %d are needed", len(steps)+1, fewestFixes)
	}
	period = median(steps)
	if period > slowestRate {
		return 0, &RateError{period}
	}
	return period, nil
}

// RateError says that the recording is too slow.
type RateError struct{ Period float64 } // s between fixes

// Error says what to give instead.
func (e *RateError) Error() string {
	return fmt.Sprintf("the trace has a fix every %.3g s, and corners need one a second at least", e.Period)
}
