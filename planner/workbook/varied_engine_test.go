//go:build engine

package workbook

import (
	"bytes"
	"errors"
	"fmt"
	"math"
	"testing"

	"github.com/xuri/excelize/v2"

	"example.com/tripwear/planner"
	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/randomcar"
	"example.com/tripwear/planner/workbook/expr"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
)

// TestEngineFollowsWhatIf writes another value into inputs that go by runs of the
// model, recalculates, and holds what every leg takes from every point against the
// program planning the changed trip.
func TestEngineFollowsWhatIf(t *testing.T) {
	onCircuits := func(col int, value float64) func(b *book) map[string]any {
		return func(b *book) map[string]any {
			cells := map[string]any{}
			for j, l := range b.Legs {
				if l.Kind == profiles.CircuitLeg {
					cells[expr.At(legsName, col, legFirst+j, 0).Free().Name()] = value
				}
			}
			return cells
		}
	}
	to := func(key, value string) func(*profiles.Folder, *profiles.Trip) error {
		return func(f *profiles.Folder, outing *profiles.Trip) error {
			return f.Apply(outing, profiles.Change{Key: key, Value: value})
		}
	}
	mirrored := func(b *book) map[string]any { // and another share where a summary says it
		cells := onCircuits(legShare, 0.62)(b)
		for j, l := range b.Legs {
			if l.Circuit != "" && !l.BySummary {
				cells[expr.At(legsName, legShare, legFirst+j, 0).Free().Name()] = 1 - l.LeftShare
			}
		}
		return cells
	}
	aligned := func(b *book) map[string]any { // the front's camber alone, and both of the rear
		cells := map[string]any{}
		for i, r := range b.sheet(legsName).rows {
			if len(r.cells) < legName {
				continue
			}
			switch r.cells[legName-1].value {
			case "Front":
				cells[expr.At(legsName, legDistance, i+1, 0).Free().Name()] = -2.9
				cells[expr.At(legsName, legMinutes, i+1, 0).Free().Name()] = nil
			case "Rear":
				cells[expr.At(legsName, legDistance, i+1, 0).Free().Name()] = -0.9
				cells[expr.At(legsName, legMinutes, i+1, 0).Free().Name()] = 0.27
			}
		}
		return cells
	}
	for _, c := range []struct {
		name, car, trip string
		cells           func(b *book) map[string]any // on Legs
		change          func(f *profiles.Folder, outing *profiles.Trip) error
		within          float64
	}{
		{"pace of 72.5", "juniper", "spring", onCircuits(legPace, 0.725), to("pace", "72.5 %"), 0.01},
		{"pace of 97.5", "juniper", "spring", onCircuits(legPace, 0.975), to("pace", "97.5 %"), 0.01},
		{"pace of 81, the fjord", "fjord", "midsummer", onCircuits(legPace, 0.81), to("pace", "81 %"), 0.01},
		{"left share", "juniper", "spring", mirrored, func(f *profiles.Folder, outing *profiles.Trip) error {
			c := f.Circuits["quarry-ridge"]
			c.LeftShare = 0.62
			f.Circuits["quarry-ridge"] = c
			for i := range outing.Legs {
				outing.Legs[i].Reverse = outing.Legs[i].Name == "heron-flats"
			}
			return nil
		}, 0.01},
		{"camber and toe", "juniper", "spring", aligned, func(f *profiles.Folder, outing *profiles.Trip) error {
			return errors.Join(to("alignment.front.camber", "-2.9 deg")(f, outing), to("alignment.rear.camber", "-0.9 deg")(f, outing), to("alignment.rear.toe", "0.27 deg")(f, outing))
		}, 0.03},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			was, now, g := whatIf(t, c.car, c.trip, c.cells, c.change)
			b, worst := layOut(now, quantity.Metric), 0.0
			for _, w := range b.wear {
				for k, j := range b.driven {
					takes, got := w.p.Loss[j]*w.u.factor(), number64(t, fieldOf(g, workingsName, w.from+1+k, workWear))
					mirrored := was.Legs[j].Reverse != now.Legs[j].Reverse
					if mirrored && w.p.Measure != kind.Tread && w.p.Measure != kind.HubLife {
						// the other way round brakes elsewhere; a left share alone does not
						takes = find(t, was, w.set.ID).Points[w.nth[1]].Loss[j] * w.u.factor()
					}
					off := (got - takes) / math.Max(1e-9, takes)
					over := c.within
					switch { // on the safe side
					case w.Minutes && was.Legs[j].Told != nil:
						over = 0.5 // the doubt about a pace that a lap time alone told stays
					case w.Minutes:
						over = 0.12 // in the step where sessions begin to age oil more than miles
					}
					under := c.within
					if mirrored && w.p.Measure != kind.OilLife {
						over, under = 0.04, 0.04
					}
					if off > over || off < -under {
						t.Errorf("%s %s, leg %d takes %v, the program %v", w.set.ID, w.spot(), j+1, got, takes)
					} else if !w.Minutes {
						worst = math.Max(worst, math.Abs(off))
					}
				}
			}
			for j, l := range now.Legs {
				if l.Kind == profiles.StopLeg {
					continue
				}
				near(t, fmt.Sprint("fuel of leg ", j+1), fieldOf(g, legsName, legFirst+j, legFuel), b.u.fuel.of(l.FuelUsed), 2*c.within*b.u.fuel.of(l.FuelUsed)+1e-9)
				if l.Kind == profiles.CircuitLeg {
					near(t, fmt.Sprint("lap of leg ", j+1), fieldOf(g, legsName, legFirst+j, legLapTime), l.LapTime/86400, c.within*l.LapTime/86400)
				}
			}
			if got := g.at(t, "Summary", "A3"); got != choiceMessage {
				t.Errorf("the Summary says %q", got)
			}
			t.Logf("off by %.2g at most of %d points", worst, len(b.wear))
		})
	}
}

// whatIf is a demo with other inputs on its Legs sheet, recalculated, and planned
// with the change that they stand for.
func whatIf(t *testing.T, car, trip string, cells func(b *book) map[string]any, change func(f *profiles.Folder, outing *profiles.Trip) error) (was, now *plan.Plan, g grid) {
	t.Helper()
	was = planned(t, car, trip)
	f, err := excelize.OpenReader(bytes.NewReader(written(t, was, quantity.Metric)))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	for at, v := range cells(layOut(was, quantity.Metric)) {
		if err := f.SetCellValue(legsName, at, v); err != nil {
			t.Fatal(err)
		}
	}
	var out bytes.Buffer
	if err := f.Write(&out); err != nil {
		t.Fatal(err)
	}
	folder, outing := randomcar.Demo(t, car)
	if err := change(folder, &outing); err != nil {
		t.Fatal(err)
	}
	if now, err = planner.Make(folder, outing, planner.Options{Draws: 100}); err != nil {
		t.Fatal(err)
	}
	return was, now, gridOf(t, resaved(t, out.Bytes()))
}
