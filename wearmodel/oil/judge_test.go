package oil

import (
	"maps"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// usual are the limits of the stock profile: common practice, no source.
func usual() Criteria {
	return Criteria{
		Thinner: 0.10, Thicker: 0.20, StopThinner: 0.20, StopThicker: 0.30,
		BaseShare: 0.5, BaseLeast: 2, Fuel: 0.05, Water: 0.001,
		Metals: map[Figure]float64{Iron: 100, Chromium: 10, Copper: 20, Tin: 10, Lead: 25, Aluminium: 20, Silicon: 20},
		Line:   0.9, Turn: 0.7, Step: 1.25,
	}
}

// clean is a sound report on 3,500 miles of a 5W-40, and its new oil.
func clean() (used, fresh Sample) {
	used = Sample{
		Values: map[Figure]float64{
			KV40: 82, KV100: 13.6, BaseNumber: 6.9, AcidNumber: 1.9, Fuel: 0.005, Water: 0, Glycol: 0,
			Iron: 14, Chromium: 1, Copper: 4, Tin: 0, Lead: 2, Aluminium: 3, Silicon: 8,
		},
		BaseMethod: "D2896", AcidMethod: "D664", Equivalent: 3500 * mile, Meters: 3500 * mile, TopUpKnown: true,
	}
	fresh = Sample{Values: map[Figure]float64{KV40: 85, KV100: 14.1, BaseNumber: 8.0, AcidNumber: 1.5, Silicon: 4, Iron: 1}, BaseMethod: "D2896"}
	return used, fresh
}

var fiveForty = func() Grade { g, _ := ParseGrade("5W-40"); return g }()

func find(j Judgement, f Figure) Reading {
	for _, r := range j.Readings {
		if r.Figure == f {
			return r
		}
	}
	return Reading{}
}

// A base number of 8.0 new and 5.0 at 3,500 miles gets to half, 4.0, at 4,667
// miles; the report supports 4,200. Straight line, computed.
func TestBaseNumberLine(t *testing.T) {
	used, fresh := clean()
	used.Values[BaseNumber] = 5.0
	j := Judge(fiveForty, used, &fresh, nil, 3500*mile, usual())
	near(t, "first limit", j.FirstLimit/mile, 4667, 1e-4)
	near(t, "supported", j.Supported/mile, 4200, 1e-9)
	if j.First != BaseNumber || !j.Longer || j.Verdict != Fine {
		t.Errorf("%+v", j)
	}
}

// A clean report lengthens the interval by a quarter at a time, or to what was
// on the sampled fill, which it shows to be sound: here about 6,000 highway
// miles and a circuit weekend. Common practice, no source.
func TestStretchedRun(t *testing.T) {
	used, fresh := clean()
	j := Judge(fiveForty, used, &fresh, nil, 3500*mile, usual())
	near(t, "supported", j.Supported/mile, 1.25*3500, 1e-9)
	used.Equivalent = RoadEquivalent(6000*mile, 1, 95) + CircuitEquivalent(10*20*60, 125)
	j = Judge(fiveForty, used, &fresh, nil, 3500*mile, usual())
	near(t, "supported", j.Supported/mile, used.Equivalent/mile, 1e-9)
	if !j.Longer || len(j.Doubts) > 0 {
		t.Errorf("not lengthened: %v", j.Doubts)
	}
}

// Each figure past its limit, by itself: flagged or stopped, no extension.
func TestFlags(t *testing.T) {
	for _, row := range []struct {
		f    Figure
		v    float64
		want Verdict
	}{
		{KV100, 12.6, Flagged}, // -10.6 % of new, inside its grade
		{KV100, 16.3, Flagged}, // out of its grade, +15.6 % of new
		{KV100, 11.2, Stop},    // -20.6 %
		{KV100, 18.4, Stop},    // +30.5 %
		{BaseNumber, 3.9, Flagged},
		{AcidNumber, 7.0, Flagged}, // above the base number
		{Fuel, 0.051, Flagged},
		{Water, 0.0011, Flagged},
		{Glycol, 0.0001, Stop},
		{Iron, 101, Flagged}, // 100 over new, levels are in all
		{Chromium, 11, Flagged},
		{Copper, 21, Flagged},
		{Tin, 11, Flagged},
		{Lead, 26, Flagged},
		{Aluminium, 21, Flagged},
		{Silicon, 21, Flagged},
	} {
		used, fresh := clean()
		used.Values[row.f] = row.v
		j := Judge(fiveForty, used, &fresh, nil, 3500*mile, usual())
		if got := find(j, row.f).Verdict; got != row.want || j.Verdict != row.want {
			t.Errorf("%s %g: %v, report %v, want %v", row.f, row.v, got, j.Verdict, row.want)
		}
		if j.Longer || j.Supported >= 3500*mile || len(j.Doubts) == 0 {
			t.Errorf("%s %g: supports %.0f miles, doubts %v", row.f, row.v, j.Supported/mile, j.Doubts)
		}
		if j.Engine() != (row.f == Glycol) {
			t.Errorf("%s: engine %v", row.f, j.Engine())
		}
	}
}

// Just inside every limit nothing is flagged.
func TestInside(t *testing.T) {
	for f, v := range map[Figure]float64{
		KV100: 12.7, BaseNumber: 4.0, AcidNumber: 6.9, Fuel: 0.05, Water: 0.001, Iron: 100, Chromium: 10, Copper: 20,
		Tin: 10, Lead: 25, Aluminium: 20, Silicon: 20,
	} {
		used, fresh := clean()
		used.Values[f] = v
		if j := Judge(fiveForty, used, &fresh, nil, 3500*mile, usual()); j.Verdict != Fine {
			t.Errorf("%s %g: %v", f, v, j.Verdict)
		}
	}
}

// A base number by ASTM D4739 is never subtracted from one by D2896, and one
// without a method is not compared either.
func TestBaseMethods(t *testing.T) {
	for _, method := range []string{"D4739", ""} {
		used, fresh := clean()
		used.BaseMethod, used.Values[BaseNumber] = method, 3.9 // below half of the new oil's 8.0
		j := Judge(fiveForty, used, &fresh, nil, 3500*mile, usual())
		if r := find(j, BaseNumber); r.Verdict != Fine || r.HasNew || !math.IsNaN(r.Rate) || r.Least != 2 {
			t.Errorf("%q: %+v", method, r)
		}
		used.Values[BaseNumber] = 1.9
		if r := find(Judge(fiveForty, used, &fresh, nil, 3500*mile, usual()), BaseNumber); r.Verdict != Flagged {
			t.Errorf("%q: 1.9 is %v", method, r.Verdict)
		}
	}
}

// What forbids an extension: a missing reference, an unknown top-up, an
// unmeasured viscosity or base number, a rising metal.
func TestDoubts(t *testing.T) {
	today := 3500 * mile
	for name, spoil := range map[string]func(used *Sample, fresh **Sample, earlier *[]Sample){
		"no reference":   func(_ *Sample, fresh **Sample, _ *[]Sample) { *fresh = nil },
		"top-up":         func(used *Sample, _ **Sample, _ *[]Sample) { used.TopUpKnown = false },
		"no viscosity":   func(used *Sample, _ **Sample, _ *[]Sample) { delete(used.Values, KV100) },
		"no base number": func(used *Sample, _ **Sample, _ *[]Sample) { delete(used.Values, BaseNumber) },
		"no distance":    func(used *Sample, _ **Sample, _ *[]Sample) { used.Equivalent = 0 },
		"rising iron": func(used *Sample, _ **Sample, earlier *[]Sample) {
			*earlier = []Sample{{Values: map[Figure]float64{Iron: 6}, Equivalent: 3500 * mile}}
		},
	} {
		used, fresh := clean()
		reference := &fresh
		var earlier []Sample
		if j := Judge(fiveForty, used, reference, earlier, today, usual()); !j.Longer {
			t.Fatalf("the clean report is doubted: %v", j.Doubts)
		}
		spoil(&used, &reference, &earlier)
		j := Judge(fiveForty, used, reference, earlier, today, usual())
		if j.Longer || j.Supported > today || len(j.Doubts) != 1 {
			t.Errorf("%s: supports %.0f miles, doubts %v", name, j.Supported/mile, j.Doubts)
		}
	}
}

// Below what could be measured is judged as the figure itself, but no line
// leads to it.
func TestBound(t *testing.T) {
	used, fresh := clean()
	used.Values[Water], used.Below = 0.001, map[Figure]bool{Water: true}
	j := Judge(fiveForty, used, &fresh, nil, 3500*mile, usual())
	if r := find(j, Water); r.Verdict != Fine || !math.IsNaN(r.Rate) || !j.Longer {
		t.Errorf("%+v", r)
	}
	used.Values[Water] = 0.002
	if j := Judge(fiveForty, used, &fresh, nil, 3500*mile, usual()); find(j, Water).Verdict != Flagged {
		t.Error("a bound over the limit is not flagged")
	}
}

// Three reports on one engine: iron at 2, 2 and 5 ppm per 1,000 miles.
func TestTrends(t *testing.T) {
	at := func(iron, miles float64) Sample {
		return Sample{Values: map[Figure]float64{Iron: iron}, Equivalent: miles * mile}
	}
	got := trends(at(20, 4000), nil, []Sample{at(6, 3000), at(8, 4000)})
	if len(got) != 1 || got[0].Reports != 2 || !got[0].Rising {
		t.Fatalf("%+v", got)
	}
	near(t, "before, per 1,000 mi", got[0].Before*1000*mile, 2, 1e-9)
	near(t, "now, per 1,000 mi", got[0].Now*1000*mile, 5, 1e-9)
	if got := trends(at(4, 1000), nil, []Sample{at(1, 1000)}); got[0].Rising {
		t.Error("4 ppm are within a laboratory's scatter")
	}
}

// Whatever a laboratory writes, the interval is a finite distance of 0 or
// more, a flag never lengthens it, and more of a contaminant never supports a
// longer one.
func TestJudgeProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		used, fresh := clean()
		for _, f := range Figures {
			if rapid.Bool().Draw(t, "measured") {
				used.Values[f] = rapid.Float64Range(0, 200).Draw(t, string(f))
			} else {
				delete(used.Values, f)
			}
		}
		used.Equivalent = rapid.Float64Range(0, 3e7).Draw(t, "distance")
		reference := &fresh
		if rapid.Bool().Draw(t, "no reference") {
			reference = nil
		}
		today := rapid.Float64Range(1e5, 2e7).Draw(t, "interval")
		j := Judge(fiveForty, used, reference, nil, today, usual())
		if math.IsNaN(j.Supported) || math.IsInf(j.Supported, 0) || j.Supported < 0 || j.Supported > 1.25*today {
			t.Errorf("supports %g m", j.Supported)
		}
		if j.Verdict >= Flagged && j.Longer {
			t.Error("a flag lengthens the interval")
		}
		if len(j.Readings)+len(j.Missing) != len(Figures) {
			t.Error("a figure is lost")
		}
		f := rapid.SampledFrom(slices.Sorted(maps.Keys(usual().Metals))).Draw(t, "more of")
		more := used
		more.Values = maps.Clone(used.Values)
		more.Values[f] += rapid.Float64Range(0, 100).Draw(t, "by")
		if _, measured := used.Values[f]; measured {
			if dirty := Judge(fiveForty, more, reference, nil, today, usual()); dirty.Supported > j.Supported {
				t.Errorf("more %s supports %g m, less %g", f, dirty.Supported, j.Supported)
			}
		}
	})
}
