package planner

import (
	"fmt"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/randomcar"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/quantity"
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
		never(t, fmt.Sprint(what, " ", place, " ", word), o, later(o, what, place, "", string(word)))
	})
}

// measures are what rows read.
var measures = map[logbook.What]kind.Measure{logbook.Tread: kind.Tread, logbook.Pad: kind.PadLining, logbook.Thickness: kind.Thickness}

// TestWorseReading: of two readings of one thing on one day the worse one gives
// no better an answer, however far it is from what was expected. By the model's
// rates no set may gain. By those of the logbook the set that was read may not:
// readings share out what was worn between road and circuit, so that one made
// after miles of road says of an earlier one over both that circuits took less,
// and on a trip to a circuit other sets last a little longer. A no stays a no.
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
		row := func(mm float64) *randomcar.Owner {
			return later(o, what, place, zone, fmt.Sprintf("%.2f mm", mm))
		}
		said := fmt.Sprintf("%s %s %s %.2f mm in place of %.2f mm", what, place, zone, worse, level)
		neverOf(t, true, func(plan.Set) bool { return true }, said+", by the model's rates,", row(level), row(worse))
		good, bad := neverOf(t, false, func(s plan.Set) bool { return read(s, place, measures[what]) }, said, row(level), row(worse))
		if disbelieved(good, row(level)) {
			return
		}
		for i, s := range good.Sets {
			for j, p := range s.Points {
				if p.Place != place || p.Zone != zone || p.Measure != measures[what] {
					continue
				}
				home := len(p.After) - 1
				if was, is := p.After[home].PLimit, bad.Sets[i].Points[j].After[home].PLimit; is < was-slack {
					t.Errorf("%s lowers the chance to reach the limit there from %.4f to %.4f", said, was, is)
				}
			}
		}
	})
}

// read says whether a set has a point at a place with what was measured there.
func read(s plan.Set, place string, m kind.Measure) bool {
	return slices.ContainsFunc(s.Points, func(p plan.Point) bool { return p.Place == place && p.Measure == m })
}

// TestHeatChecksAreNoGoodNews: heat checks that a nail does not catch lower
// nothing, and where the forecast has a rotor past its life they do not say that
// it lives longer. A smooth face may.
func TestHeatChecksAreNoGoodNews(t *testing.T) {
	for _, days := range []quantity.Number{10, 70} {
		chance := map[string]float64{}
		for _, word := range []string{"", "smooth", "checks", "catches"} {
			row := ""
			if word != "" {
				row = "2026-11-02,142000 mi,rotor face,LF,," + word + ",,\n2026-11-02,142000 mi,rotor face,RF,," + word + ",,\n"
			}
			f, trip := logged(t, "2026-11-01,142000 mi,odometer,,,,,\n"+row)
			on := fitted(f, profiles.Rotors, "RF")
			on.Used, on.Thickness, on.CircuitDays = nil, nil, days
			written := f.AsWritten()
			for i := range written.Fitted {
				if written.Fitted[i].Part == on.Part {
					written.Fitted[i].Used, written.Fitted[i].Thickness, written.Fitted[i].CircuitDays = nil, nil, days
				}
			}
			chance[word] = setOf(planned(t, f, trip), t, "rotors-front").Decision.PAsIs
		}
		if chance["checks"] < chance[""] || chance["catches"] < chance["checks"] || chance["smooth"] > chance[""] || days == 10 && chance["smooth"] == chance[""] {
			t.Errorf("%g circuit days: %v", days, chance)
		}
	}
}
