package trace_test

import (
	"math"
	"testing"

	"example.com/tripwear/wearmodel/duty"
	"example.com/tripwear/wearmodel/duty/trace"
	"example.com/tripwear/wearmodel/duty/trace/synthetic"
)

// A receiver's fixes, one a second, written ten times a second with straight
// lines between them, are the receiver's fixes; a receiver of ten a second
// keeps all of its own.
func TestRowsBetweenFixes(t *testing.T) {
	truth := lapOf(t, heronFlats())
	day := synthetic.Day{Rate: 1, White: 0.5, Drift: 1, Laps: session(truth)}
	own := record(t, heronFlats(), day, 1)
	var rows []trace.Fix
	for i, f := range own[1:] {
		a := own[i]
		for k := range 10 {
			u := float64(k) / 10
			rows = append(rows, trace.Fix{
				Time: a.Time + u*(f.Time-a.Time),
				Lat:  math.Round(1e7*(a.Lat+u*(f.Lat-a.Lat))) / 1e7, Lon: math.Round(1e7*(a.Lon+u*(f.Lon-a.Lon))) / 1e7,
			})
		}
	}
	lap, d := survey(t, rows)
	if math.Abs(lap.Period-1) > 0.01 {
		t.Errorf("a fix every %.2f s, want one a second", lap.Period)
	}
	if off := d.BrakeEnergy/truth.BrakeEnergy - 1; math.Abs(off) > 0.1 {
		t.Errorf("braking energy %+.1f %%", 100*off)
	}
	if off := duty.LeftShare(d) - duty.LeftShare(truth); math.Abs(off) > 0.02 {
		t.Errorf("left share %+.4f", off)
	}
	day.Rate = 10
	if lap, _ := survey(t, record(t, heronFlats(), day, 1)); math.Abs(lap.Period-0.1) > 0.001 {
		t.Errorf("a fix every %.3f s, want ten a second", lap.Period)
	}
}
