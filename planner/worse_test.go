package planner

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/randomcar"
	"example.com/tripwear/profiles/logbook"
)

// later is a row of ten days before the trip.
func later(o *randomcar.Owner, what logbook.What, place, zone, value string) *randomcar.Owner {
	out := o.Clone()
	_, odometer := o.Latest()
	out.Rows = append(out.Rows, randomcar.Row{Date: o.Depart.AddDate(0, 0, -10), Odometer: odometer, What: what, Place: place, Zone: zone, Value: value})
	return out
}

// TestOneMoreBadFinding never helps; one that forbids driving stops the trip
// or has the part replaced.
func TestOneMoreBadFinding(t *testing.T) {
	randomcar.Check(t, 8, func(t *rapid.T) {
		o := randomcar.Draw(t, 30)
		what := rapid.SampledFrom([]logbook.What{logbook.Inspection, logbook.Lining, logbook.Face, logbook.Hub}).Draw(t, "row")
		finds := logbook.Findings(what)
		word := finds[rapid.IntRange(1, len(finds)-1).Draw(t, "word")]
		place := rapid.SampledFrom(logbook.Wheels).Draw(t, "where")
		never(t, fmt.Sprint(what, " ", place, " ", word), answered(t, o), answered(t, later(o, what, place, "", string(word))))
	})
}

// TestWorseReading: of two readings of one thing on one day the worse one gives
// no better an answer, however far it is from what was expected.
func TestWorseReading(t *testing.T) {
	randomcar.Check(t, 8, func(t *rapid.T) {
		o := randomcar.Draw(t, 30)
		what := rapid.SampledFrom([]logbook.What{logbook.Tread, logbook.Pad, logbook.Thickness}).Draw(t, "row")
		place, zone := rapid.SampledFrom(logbook.Wheels).Draw(t, "where"), ""
		if what == logbook.Tread {
			zone = rapid.SampledFrom(logbook.Zones).Draw(t, "zone read")
		}
		level := map[logbook.What]float64{logbook.Tread: 4.5, logbook.Pad: 7, logbook.Thickness: 21}[what] - float64(rapid.IntRange(0, 20).Draw(t, "less"))/10
		if what == logbook.Thickness && place[1] == 'R' {
			level -= 12
		}
		worse := max(0.3, level-float64(rapid.IntRange(1, 40).Draw(t, "worse"))/10)
		if what == logbook.Thickness {
			worse = max(worse, 3)
		}
		row := func(mm float64) *plan.Plan {
			return answered(t, later(o, what, place, zone, fmt.Sprintf("%.2f mm", mm)))
		}
		never(t, fmt.Sprintf("%s %s %s %.2f mm in place of %.2f mm", what, place, zone, worse, level), row(level), row(worse))
	})
}
