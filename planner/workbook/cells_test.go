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
			f := reopened(t, p, system)

			tires := rows(t, f, "Tires")
			rear := find(t, p, "tires-rear")
			for i, pt := range rear.Points {
				col := 1 + 2*i
				same(t, "start", below(t, tires, "Rear tires", "start")[col], pt.Start*k.tread)
				same(t, "leg 2", below(t, tires, "Rear tires", "2 ")[col], math.Max(0, nominal(pt, 1)*k.tread))
				same(t, "limit", below(t, tires, "Rear tires", "limit")[col], pt.Limit*k.tread)
				same(t, "chance by the draws", below(t, tires, "Rear tires", "the same by the draws")[col], pt.After[len(p.Legs)-1].PLimit)
			}

			brakes := rows(t, f, "Brakes")
			pads := find(t, p, "pads-front").Points
			same(t, "pad", below(t, brakes, "Pads", "3 ")[1], math.Max(0, nominal(pads[0], 2)*1000))
			rotors := find(t, p, "rotors-front").Points
			i := slices.IndexFunc(rotors, func(pt plan.Point) bool { return pt.Measure == kind.Thickness })
			same(t, "rotor", below(t, brakes, "Rotors: thickness", "3 ")[1], nominal(rotors[i], 2)*1000)
			same(t, "rotor bulk", below(t, brakes, "Temperatures", "2 ")[1], p.Legs[1].RotorBulk[0]*k.heat+k.zero)
			fluid := find(t, p, "fluid").Points[0]
			same(t, "to boiling", below(t, brakes, "Temperatures", "2 ")[7], fluid.After[1].P50*k.heat)

			oil := rows(t, f, "Oil and bearings")
			fill := find(t, p, "oil").Points[0]
			row := below(t, oil, "Engine oil", "8 ")
			same(t, "equivalent distance", row[1], (fill.New-nominal(fill, 7))*k.distance)
			same(t, "interval", row[3], (fill.New-fill.Margin)*k.distance)
			same(t, "ceiling", row[5], (fill.New-fill.Limit)*k.distance)
			hub := find(t, p, "hub-RF").Points[0]
			same(t, "hub lasts", below(t, oil, "Hub bearings", "8 ")[3], 1-hub.After[7].PLimit)
			same(t, "leg takes", below(t, oil, "Hub bearings", "8 ")[4], hub.Loss[7])

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
					same(t, "fluid peak", row[19], l.FluidPeak*k.heat+k.zero)
				}
			}
		})
	}
}

func TestEverySetIsDecidedOnPaper(t *testing.T) {
	p := juniper(t)
	f := reopened(t, p, quantity.US)
	summary, decisions, wear := rows(t, f, "Summary"), rows(t, f, "Decisions"), rows(t, f, "Wear")
	todo := map[string][]string{}
	for _, r := range summary {
		if len(r) > 3 {
			todo[r[1]] = r
		}
	}
	last := len(p.Legs) - 1
	for i, s := range p.Sets {
		row := decisions[4+i]
		if row[0] != s.Name || !strings.EqualFold(strings.TrimSuffix(row[6], "."), strings.TrimSuffix(s.Decision.Reason, ".")) {
			t.Errorf("%s: decision row %q", s.ID, row)
		}
		same(t, s.ID+" as it is", row[3], s.Decision.PAsIs)
		same(t, s.ID+" stopped short", row[4], s.Decision.POut)
		on, ok := todo[s.Name]
		if ok == (s.Decision.Action == plan.Run) {
			t.Errorf("%s: action %q, on the summary %v", s.ID, s.Decision.Action, ok)
		}
		if ok {
			same(t, s.ID+" on the summary", on[4], s.Decision.PAsIs)
		}
		switch matrix := below(t, wear, "Set", s.Name); s.Kind {
		case profiles.Bearing:
			same(t, s.ID+" lasts", matrix[8], 1-s.After[last].PLimit)
		case profiles.Fluid:
		default:
			least := 1.0
			for _, pt := range s.Points {
				least = math.Min(least, (nominal(pt, last)-pt.Limit)/(pt.New-pt.Limit))
			}
			same(t, s.ID+" left", matrix[8], math.Max(0, least))
		}
	}
}

func TestUnsafePlanSaysSo(t *testing.T) {
	p := juniper(t)
	p.Safe, p.Verdict = false, plan.No
	p.Sets[0].Decision.Action = plan.DoNotTake
	summary := rows(t, reopened(t, p, quantity.US), "Summary")
	if !strings.HasPrefix(summary[3][0], plan.No) {
		t.Errorf("verdict %q", summary[3][0])
	}
	if first := below(t, summary, "When", "do not leave"); first[1] != p.Sets[0].Name {
		t.Errorf("first row %q", first)
	}
}

func TestShoppingAddsUp(t *testing.T) {
	p := juniper(t)
	p.Shopping = []plan.Item{
		{Name: "tires", Price: 430}, {Name: "pads", Price: 165, OnShelf: true}, {Name: "fluid", Price: 24}, {Name: "clip"},
	}
	p.Answer = answer.Of(p)
	list := rows(t, reopened(t, p, quantity.US), "Shopping list")
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
	if got := below(t, rows(t, f, "Shopping list"), "What the trip costs", plan.ForFuel)[1]; got != "as planned" {
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
		list := rows(t, f, "Packing")
		if got := below(t, list, "Item", "IT ")[0]; got != want {
			t.Errorf("verdict %q, want %q", got, want)
		}
		same(t, "left over", below(t, list, "Item", "Left over")[1], 80-used[0]*1000)
		same(t, "weight left over", below(t, list, "Item", "Left over")[2], 50-used[1])
		short := choose(want == "IT FITS.", "the packing fits", "THE PACKING DOES NOT FIT")
		for group, f := range map[string]*excelize.File{"Boot": f, "Trunk": reopened(t, p, quantity.US)} {
			if got := below(t, rows(t, f, "Summary"), "Group", group)[1]; got != short {
				t.Errorf("%s The Summary says %q of the %s", want, got, group)
			}
		}
	}
}

// TestFormWalksRoundTheCar reads one page of the form in its order.
func TestFormWalksRoundTheCar(t *testing.T) {
	p := juniper(t)
	form := rows(t, reopened(t, p, quantity.Metric), "Measurements")
	pages, stops := 0, 0
	var wheels []string
	for _, r := range form {
		if len(r) == 0 {
			continue
		}
		if r[0] == "Before leaving" || strings.HasPrefix(r[0], "After leg") {
			pages++
		}
		if strings.HasPrefix(r[0], "After leg") && strings.Contains(r[0], ", at ") {
			stops++
			if r[0] != "After leg 4  Heron Flats to Alder Creek, at Alder Creek workshop" {
				t.Errorf("page %q", r[0])
			}
		}
		if pages == 2 && len(r) > 1 && len(r[0]) == 2 {
			wheels = append(wheels, r[0])
		}
	}
	if !slices.Equal(wheels, walk) {
		t.Errorf("wheels %v, want %v", wheels, walk)
	}
	if pages != 8 || stops != 1 { // seven driven legs and the start
		t.Errorf("%d pages, %d at a stop", pages, stops)
	}
	at := slices.IndexFunc(form, func(r []string) bool { return len(r) > 0 && strings.HasPrefix(r[0], "After leg 2") })
	zone := form[at+3]
	pt := find(t, p, "tires-front").Points[0]
	if zone[0] != "LF" || zone[1] != "tread, inside" || zone[5] != "mm" {
		t.Errorf("first wheel row %q", zone)
	}
	same(t, "expected", zone[2], nominal(pt, 1)*1000)
	near(t, "low", zone[3], pt.After[1].P5*1000, bandNear*(pt.New-pt.Limit)*1000)
	near(t, "high", zone[4], pt.After[1].P95*1000, bandNear*(pt.New-pt.Limit)*1000)
}
