package workbook

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"example.com/tripwear/planner/answer"
	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"

	"example.com/tripwear/planner/workbook/form"
)

// same fails unless a cell holds the figure, to the digits that a float64 keeps.
func same(t *testing.T, what, got string, want float64) {
	t.Helper()
	v, err := strconv.ParseFloat(got, 64)
	if err != nil || math.Abs(v-want) > 1e-9*math.Max(1, math.Abs(want)) {
		t.Errorf("%s: cell %q, plan %v", what, got, want)
	}
}

// near fails unless a cell holds the figure within a tolerance.
func near(t *testing.T, what, got string, want, tolerance float64) {
	t.Helper()
	v, err := strconv.ParseFloat(got, 64)
	if err != nil || math.Abs(v-want) > tolerance {
		t.Errorf("%s: cell %q, plan %v within %v", what, got, want, tolerance)
	}
}

func find(t *testing.T, p *plan.Plan, id string) plan.Set {
	t.Helper()
	i := slices.IndexFunc(p.Sets, func(s plan.Set) bool { return s.ID == id })
	if i < 0 {
		t.Fatalf("no set %s", id)
	}
	return p.Sets[i]
}

// nominal is what a point has left after leg j by the model's own rates.
func nominal(pt plan.Point, j int) float64 {
	left := pt.Start
	for _, l := range pt.Loss[:j+1] {
		left -= l
	}
	if pt.Cap != nil && j >= 0 {
		left = math.Min(left, pt.Cap[j])
	}
	return left
}

// The factors here are NIST SP 811, appendix B: 1 in = 25.4 mm, 1 mi =
// 1609.344 m, 1 gal = 3.785411784 L; a degree Fahrenheit is 5/9 K.
func TestCellsHoldThePlan(t *testing.T) {
	p := juniper(t)
	for system, k := range map[quantity.System]struct{ tread, distance, fuel, heat, zero float64 }{
		quantity.US:     {32 / 0.0254, 1 / 1609.344, 1000 / 3.785411784, 1.8, 32},
		quantity.Metric: {1000, 1e-3, 1000, 1, 0},
	} {
		t.Run(system.String(), func(t *testing.T) {
			f := reopened(t, standing(p), system)
			wear := rows(t, f, wearName)
			b := layOut(standing(p), system)
			row := func(set string, i int) ([]string, plan.Point) {
				pt := find(t, p, set).Points[i]
				return wear[b.wear.find(pt).row-1], pt
			}
			for i := range find(t, p, "tires-rear").Points {
				r, pt := row("tires-rear", i)
				same(t, "now", r[wearNow-1], pt.Start*k.tread)
				same(t, "leg 2", r[wearLegs], math.Max(0, nominal(pt, 1)*k.tread))
				same(t, "limit", r[wearLimit-1], pt.Limit*k.tread)
				same(t, "margin", r[wearMargin-1], pt.Margin*k.tread)
			}
			r, pad := row("pads-front", 0)
			same(t, "pad", r[wearLegs+1], math.Max(0, nominal(pad, 2)*1000))
			i := slices.IndexFunc(find(t, p, "rotors-front").Points, func(pt plan.Point) bool { return pt.Measure == kind.Thickness })
			r, rotor := row("rotors-front", i)
			same(t, "rotor", r[wearLegs+1], nominal(rotor, 2)*1000)
			r, fill := row("oil", 0)
			same(t, "distance left", r[wearLegs+5], math.Max(0, nominal(fill, 7)*k.distance))
			r, hub := row("hub-RF", 0)
			same(t, "hub lasts", r[wearLegs+5], 1-hub.After[7].PLimit)
			fluid := find(t, p, "fluid").Points[0]
			same(t, "to boiling", below(t, wear, "Brake fluid", "brake fluid")[wearLegs], fluid.After[1].P50*k.heat)

			legs := rows(t, f, "Legs")
			for j, l := range p.Legs {
				row := legs[legFirst-1+j]
				if row[2] != l.Name && !strings.HasPrefix(row[2], l.Name+" (") {
					t.Errorf("leg %d is %q, not %q", j+1, row[2], l.Name)
				}
				if l.Kind == profiles.StopLeg {
					continue
				}
				same(t, "distance", row[3], l.Meters*k.distance)
				same(t, "fuel", row[legFuel-1], l.FuelUsed*k.fuel)
				if l.Kind == profiles.CircuitLeg {
					same(t, "lap", row[legLapTime-1], l.LapTime/86400)
					same(t, "left share", row[10], l.LeftShare)
					same(t, "rotor bulk", row[17], l.RotorBulk[0]*k.heat+k.zero)
					same(t, "fluid peak", row[19], l.FluidPeak*k.heat+k.zero)
				}
			}
		})
	}
}

func TestEverySetIsDecidedOnPaper(t *testing.T) {
	p := juniper(t)
	f := reopened(t, p, quantity.US)
	summary, decisions := rows(t, f, "Summary"), rows(t, f, "Decisions")
	last := len(p.Legs) - 1
	for i, s := range p.Sets {
		row := decisions[4+i]
		if row[0] != s.Name || !strings.EqualFold(strings.TrimSuffix(row[6], "."), strings.TrimSuffix(s.Decision.Reason, ".")) {
			t.Errorf("%s: decision row %q", s.ID, row)
		}
		same(t, s.ID+" as it is", row[3], s.Decision.PAsIs)
		same(t, s.ID+" stopped short", row[4], s.Decision.POut)
		on := below(t, summary, "Set", s.Name)
		same(t, s.ID+" on the summary", on[5], s.Decision.POut)
		switch s.Kind {
		case profiles.Bearing:
			same(t, s.ID+" lasts", on[4], 1-s.After[last].PLimit)
		case profiles.Fluid:
		default:
			if on[1] != good {
				t.Errorf("%s is %q as decided", s.ID, on[1])
			}
		}
	}
}

// TestAsDecided: what is replaced reads as new from there, as the plan's courses
// have it; the switch, and the same formulas, show the car as it stands.
func TestAsDecided(t *testing.T) {
	for _, p := range []*plan.Plan{drawn(t, "juniper", "spring", 4000), drawn(t, "fjord", "midsummer", 4000)} {
		b, renewed := laidOut(p), 0
		for _, c := range p.Courses {
			i := slices.IndexFunc(b.wear, func(w *wearing) bool {
				return w.set.ID == c.Set && w.p.Place == c.Place && w.p.Zone == c.Zone && w.p.Measure == c.Measure
			})
			w := b.wear[i]
			if c.New >= 0 {
				renewed++
			}
			scale := w.u.factor() * (w.p.New - w.p.Limit)
			for k, j := range b.driven {
				if j+1 == c.New { // the course has the new one already
					continue
				}
				st := w.steps[k+1]
				for what, pair := range map[string][2]float64{"left": {max(0, st.left.Num()), c.Level[j+1]}, "low": {max(0, st.lo.Num()), c.Low[j+1]}, "high": {st.hi.Num(), c.High[j+1]}} {
					if d := math.Abs(pair[0]-pair[1]*w.u.factor()) / scale; !(d <= choose(what == "left", 1e-9, bandNear+0.02)) {
						t.Errorf("%s %s after leg %d: %s is off by %.3f of a life", w.set.ID, w.spot(), j+1, what, d)
					}
				}
			}
		}
		if renewed == 0 && p.Car == "Juniper" {
			t.Error("nothing is replaced")
		}
	}
	tread := find(t, juniper(t), "tires-rear").Points[0]
	b := layOut(juniper(t), quantity.US)
	r := b.sheet(wearName).rows[b.wear.find(tread).row-1]
	near(t, "the renewed tire leaves", strconv.FormatFloat(r.cells[wearStart-1].value.(float64), 'g', -1, 64), 8, 1e-9)
}

func TestUnsafePlanSaysSo(t *testing.T) {
	p := juniper(t)
	p.Safe, p.Verdict = false, plan.No
	p.Sets[0].Decision.Action = plan.DoNotTake
	summary := rows(t, reopened(t, p, quantity.US), "Summary")
	if !strings.HasPrefix(summary[3][0], plan.No) {
		t.Errorf("verdict %q", summary[3][0])
	}
	if row := below(t, summary, "Set", p.Sets[0].Name); row[3] != string(plan.DoNotTake) {
		t.Errorf("row %q", row)
	}
}

func TestShoppingAddsUp(t *testing.T) {
	p := juniper(t)
	p.Shopping = []plan.Item{
		{Name: "tires", Price: 430}, {Name: "pads", Price: 165, OnShelf: true}, {Name: "fluid", Price: 24}, {Name: "clip"},
	}
	p.Answer = answer.Of(p)
	list := rows(t, reopened(t, p, quantity.US), shopName)
	same(t, "still to pay", below(t, list, "Item", "Still to pay")[3], 430+24)
	if got := below(t, list, "Item", "clip"); len(got) > 3 && got[3] != "" {
		t.Errorf("price %q", got[3])
	}
}

// TestNoFuel: legs that take no fuel, in a car whose tank nobody gave, count no
// tanks, and their cost is as planned.
func TestNoFuel(t *testing.T) {
	p := juniper(t)
	for j := range p.Legs {
		p.Legs[j].FuelUsed, p.Legs[j].Tanks = 0, 0
	}
	f := reopened(t, p, quantity.US)
	for j, row := range rows(t, f, "Legs")[legFirst-1:][:len(p.Legs)] {
		if p.Legs[j].Kind == profiles.StopLeg {
			continue
		}
		for _, col := range []int{legFuel, legTanks, len(legWidths) + 2 + legBurn, len(legWidths) + 2 + legTank} {
			same(t, "column "+strconv.Itoa(col), row[col-1], 0)
		}
	}
	if got := below(t, rows(t, f, shopName), "What the trip costs", plan.ForFuel)[1]; got != "as planned" {
		t.Errorf("fuel's note %q", got)
	}
}

// TestPackingSaysWhetherItFits: a trunk that is just full fits, whatever rounding
// added; what is too much is said in words, alike on the Packing sheet and the
// Summary.
func TestPackingSaysWhetherItFits(t *testing.T) {
	p := juniper(t)
	for want, used := range map[string][2]float64{ // 80 L, 50 kg
		"IT FITS.":                                          {0.08, 50},
		"IT DOES NOT FIT: 20 L too big":                     {0.1, 40},
		"IT DOES NOT FIT: 5 kg too heavy":                   {math.Nextafter(0.08, 1), 55},
		"IT DOES NOT FIT: 2 L too big":                      {0.082, 50},
		"IT DOES NOT FIT: 20 L too big and 10 kg too heavy": {0.1, 60},
	} {
		p.Boot = plan.Boot{Volume: 0.08, Payload: 50, UsedVolume: used[0], UsedMass: used[1]}
		p.Packing = []plan.Item{{Name: "spare", Volume: used[0], Mass: used[1]}}
		f := reopened(t, p, quantity.Metric)
		list := rows(t, f, shopName)
		if got := below(t, list, "Packing:", "IT ")[0]; got != want {
			t.Errorf("verdict %q, want %q", got, want)
		}
		same(t, "left over", below(t, list, "Packing:", "Left over")[trunkVolume-1], 80-used[0]*1000)
		same(t, "weight left over", below(t, list, "Packing:", "Left over")[trunkMass-1], 50-used[1])
		short := choose(want == "IT FITS.", "the packing fits", "THE PACKING DOES NOT FIT")
		for group, f := range map[string]*excelize.File{"Boot": f, "Trunk": reopened(t, p, quantity.US)} {
			if got := below(t, rows(t, f, "Summary"), "Set", group)[1]; got != short {
				t.Errorf("%s The Summary says %q of the %s", want, got, group)
			}
		}
	}
}

// TestFormWalksRoundTheCar reads the form in its order: a block for each time at
// which the checks want a reading, and of it what they want.
func TestFormWalksRoundTheCar(t *testing.T) {
	p := juniper(t)
	form := rows(t, reopened(t, p, quantity.Metric), form.Sheet)
	var blocks []string
	asked := map[int][]string{}
	wheel := ""
	for _, r := range form {
		if len(r) == 0 {
			continue
		}
		if r[0] == "Before leaving" || strings.HasPrefix(r[0], "After leg") {
			blocks = append(blocks, r[0])
			continue
		}
		if r[0] != "" {
			wheel = r[0]
		}
		if len(blocks) > 0 && len(r) > 1 {
			asked[len(blocks)-1] = append(asked[len(blocks)-1], wheel+" "+r[1])
		}
	}
	if len(blocks) != 8 || blocks[4] != "After leg 4  Heron Flats to Alder Creek, at Alder Creek workshop" {
		t.Errorf("blocks %q", blocks)
	}
	at := func(block int, what string) int { return slices.Index(asked[block], what) }
	for _, what := range []string{"LF tread, inside", "RF tread, inside", "RR tread, outside", "LR pad, thinnest end", "LR hub at 12 and 6 (lasts)"} {
		if at(0, what) < 0 {
			t.Errorf("nobody asks for %s before leaving", what)
		}
	}
	if !(at(0, "LF tread, inside") < at(0, "RF tread, inside") && at(0, "RF tread, inside") < at(0, "RR tread, inside") && at(0, "RR tread, inside") < at(0, "LR tread, inside")) {
		t.Errorf("not round the car: %q", asked[0])
	}
	for _, c := range p.Checks {
		for i, j := range []int{-1, 0, 1, 2, 3, 5, 6, 7} {
			if c.Looks != kind.ByGauge || c.When == kind.Fuel || !slices.Contains(c.Before, j+1) {
				continue
			}
			what := c.Place + " pad, thinnest end"
			if c.Measure == kind.Tread {
				what = c.Place + " tread, " + c.Zone
			}
			if at(i, what) < 0 {
				t.Errorf("%s does not ask for %s: %q", blocks[i], what, asked[i])
			}
		}
	}
	if at(2, "LF tread, inside") >= 0 {
		t.Errorf("%s asks for what no check wants: %q", blocks[2], asked[2])
	}
	after := slices.IndexFunc(form, func(r []string) bool { return len(r) > 0 && strings.HasPrefix(r[0], "After leg 2") })
	zone := form[after+slices.IndexFunc(form[after:], func(r []string) bool { return len(r) > 1 && r[1] == "tread, outside" })]
	pt := find(t, p, "tires-front").Points[5]
	same(t, "expected", zone[2], nominal(pt, 1)*1000)
	near(t, "low", zone[3], pt.After[1].P5*1000, bandNear*(pt.New-pt.Limit)*1000)
	near(t, "high", zone[4], pt.After[1].P95*1000, bandNear*(pt.New-pt.Limit)*1000)
}
