package workbook

import (
	"slices"
	"strings"
	"testing"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles/quantity"

	"example.com/tripwear/planner/workbook/form"
)

// TestEveryKindAndMeasure of a plan stands in the tables of the workbook, once;
// kinds that share a table of the report are shown plainly.
func TestEveryKindAndMeasure(t *testing.T) {
	keys := map[string]bool{}
	for _, k := range kind.All {
		if kindOf(k.ID).Sheet == "" {
			t.Errorf("%s is in no group", k.ID)
		}
		for _, a := range form.Asks[k.ID] {
			if keys[a.Key] || a.Reading == "" || a.Place == "" || a.Set == "" || (a.Words() == nil) == (a.Most == 0) {
				t.Errorf("%s asks %+v", k.ID, a)
			}
			keys[a.Key] = true
		}
		for _, m := range k.Measures {
			if measureOf(m.Measure).Plain && k.Table == "" {
				t.Errorf("%s is not in the table", m.Measure)
			}
		}
	}
	for _, a := range []plan.Action{plan.Run, plan.Watch, plan.Bring, plan.ReplaceBefore, plan.ReplaceAtStop, plan.DoNotTake} {
		if urgency(a) < 0 {
			t.Errorf("%s is in no order", a)
		}
	}
}

// TestKindWithoutASheet: a kind and a measure that have no place on a sheet get
// a plain table, a row in every list, and a row on the form whose reading comes
// back.
func TestKindWithoutASheet(t *testing.T) {
	known := kind.All
	kind.All = append(slices.Clone(known), &kind.Kind{ID: "boot", Sheet: "Other parts", Measures: []kind.MeasureInfo{{
		Measure: "boot life", Level: quantity.Percent, Taken: quantity.Percent, Form: kind.Ask{Row: "boot life", What: "boot life"},
	}}})
	t.Cleanup(func() { kind.All = known })
	p := juniper(t)
	boots := find(t, p, "pads-front")
	boots.ID, boots.Name, boots.Kind, boots.PartName = "boots", "CV boots", "boot", "plain boots"
	for _, place := range []string{"LF", "gearbox"} {
		pt := boots.Points[0]
		pt.Place, pt.Measure = place, "boot life"
		pt.New, pt.Start, pt.Margin, pt.Limit, pt.Gauge, pt.Prior = 1, 0.9, 0.2, 0, 0, [2]float64{}
		boots.Points = append(boots.Points, pt)
	}
	boots.Points = boots.Points[len(boots.Points)-2:]
	p.Sets, p.Varied = append(p.Sets, boots), plan.Varied{}
	book := written(t, p, quantity.Metric)
	f := opened(t, book)
	if got := below(t, rows(t, f, "Summary"), "Set", "CV boots")[2]; got != "LF boot life" && got != "gearbox boot life" {
		t.Errorf("tightest point of the boots: %q", got)
	}
	for _, sheet := range []string{"Wear", "Rates", "Decisions"} {
		below(t, rows(t, f, sheet), "", "CV boots")
	}
	got, err := read(fill(t, book, 0, map[string]any{"date": 46523, "odometer": 231000.0, "gearbox boot life": 62}))
	if err != nil || len(got) != 1 || got[0].What != "boot life" || got[0].Place != "gearbox" || got[0].Value != "62 %" || got[0].Set != "boots" {
		t.Errorf("%+v, %v", got, err)
	}
	for at, formula := range formulas(t, book) {
		if strings.Contains(formula, "#") {
			t.Errorf("%s: %s", at, formula)
		}
	}
}
