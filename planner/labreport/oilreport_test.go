package labreport

import (
	"math"
	"strings"
	"testing"

	"example.com/tripwear/profiles"
	"example.com/tripwear/wearmodel/oil"
)

// Nothing is assumed in silence: what a report leaves out is said.
func TestReportSaysWhatItAssumes(t *testing.T) {
	f, _ := demo(t, "juniper")
	r := sampled(t, f, func(r *profiles.OilReport) {
		for _, key := range []string{"fill.circuit", "fill.added", "used.tin"} {
			delete(r.Sources, key)
		}
		r.Fill.Circuit = 0
	})
	got, err := Read(f, r)
	if err != nil {
		t.Fatal(err)
	}
	all := strings.Join(append(append(got.Assumed, got.CannotSay...), got.Doubts...), "\n")
	for _, want := range []string{"no circuit hours", "grade 5W-40", "not judged: tin", "what was added since the fill is not known"} {
		if !strings.Contains(all, want) {
			t.Errorf("%q is not said in:\n%s", want, all)
		}
	}
	if strings.Contains(all, "an hour on circuit") || strings.Contains(all, "oil on circuit at") {
		t.Errorf("without hours on circuit their distance and heat are assumed:\n%s", all)
	}
	if got.Longer || math.Abs(got.Equivalent-3350*1609.344) > 1 {
		t.Errorf("longer %v, %.0f m", got.Longer, got.Equivalent)
	}
	r.Grade = "5W-45"
	if _, err := Read(f, r); err == nil {
		t.Error("5W-45 is no grade of SAE J300")
	}
}

// Reports of the same engine are compared; another engine's are not.
func TestEarlierReports(t *testing.T) {
	f, _ := demo(t, "juniper")
	before := sampled(t, f, func(r *profiles.OilReport) {
		r.Sampled = r.Sampled.AddDate(-1, 0, 0)
		r.Used.Iron = 6
	})
	foreign := sampled(t, f, func(r *profiles.OilReport) {
		r.Sampled = r.Sampled.AddDate(-2, 0, 0)
		r.Engine, r.Used.Iron = "the spare engine", 1
	})
	newest := f.OilReports[0]
	f.OilReports = []profiles.OilReport{foreign, before, newest}
	got, err := Read(f, newest)
	if err != nil {
		t.Fatal(err)
	}
	iron := got.Trends[0]
	if got.Earlier != 1 || iron.Figure != oil.Iron || !iron.Rising || got.Longer {
		t.Errorf("%d earlier, %+v, longer %v", got.Earlier, iron, got.Longer)
	}
}

// A sample of 32 mm2/s at 40 deg C and 5.4 at 100 has 8.53 at 80: a published
// worksheet on ASTM D341, which prints 8.5. Without one of the two there is
// none; without a temperature on the report the car's own counts.
func TestHotViscosity(t *testing.T) {
	f, _ := demo(t, "juniper")
	read := func(change func(*profiles.OilReport)) Reading {
		r, err := Read(f, sampled(t, f, change))
		if err != nil {
			t.Fatal(err)
		}
		return r
	}
	r := read(func(r *profiles.OilReport) {
		r.Fill.OilTemp, r.Used.KV40, r.Used.KV100 = 80, 32, 5.4
		delete(r.Sources, "new.kv40")
	})
	if math.Abs(r.HotViscosity-8.53) > 0.005 || r.CircuitTemp != 80 || !math.IsNaN(r.NewHotViscosity) {
		t.Errorf("%.3f mm2/s at %g deg C, new %g", r.HotViscosity, r.CircuitTemp, r.NewHotViscosity)
	}
	if r := read(func(r *profiles.OilReport) { r.Used.KV40 = r.Used.KV100 }); !math.IsNaN(r.HotViscosity) {
		t.Errorf("as thin at 40 as at 100 deg C, yet %g mm2/s when hot", r.HotViscosity)
	}
	f.Car.OilTemp = 111
	if r := read(func(*profiles.OilReport) {}); r.CircuitTemp != 111 {
		t.Errorf("the car's gauge says 111 deg C, the reading %g", r.CircuitTemp)
	}
}
