package profiles

import (
	"strings"
	"testing"

	"example.com/tripwear/profiles/nearest"
	"example.com/tripwear/profiles/quantity"
)

// What a message calls "at most" may be just as much, what it calls "below"
// may not.
func TestSoundAtTheEdges(t *testing.T) {
	tire := func(limit, margin, depth quantity.Length) Part {
		return Part{Kind: Tire, Tire: &TirePart{Limit: limit, Margin: margin, NewDepth: depth}}
	}
	pads := func(limit, margin, depth quantity.Length) Part {
		return Part{Kind: Pads, Pads: &PadsPart{Limit: limit, Margin: margin, NewDepth: depth}}
	}
	rotors := func(discard, thickness quantity.Length, margin, limit quantity.Share) Part {
		return Part{Kind: Rotors, Rotors: &RotorsPart{Discard: discard, NewThickness: thickness, CrackMargin: margin, CrackLimit: limit}}
	}
	oil := func(interval, ceiling quantity.Length) Part {
		return Part{Kind: Oil, Oil: &OilPart{Interval: interval, Ceiling: ceiling}}
	}
	fluid := func(wet, dry quantity.Temperature, thick, worn quantity.Number) Part {
		return Part{Kind: Fluid, Fluid: &FluidPart{Wet: wet, Dry: dry, HeatThick: thick, HeatWorn: worn}}
	}
	for _, c := range []struct {
		what  string
		part  Part
		valid bool
	}{
		{"tire, margin at the limit", tire(2, 2, 8), true},
		{"tire, limit above the margin", tire(3, 2, 8), false},
		{"tire, margin as deep as new", tire(2, 8, 8), false},
		{"pads, margin at the limit", pads(2, 2, 8), true},
		{"pads, margin as deep as new", pads(2, 8, 8), false},
		{"rotors, margin at the limit", rotors(20, 22, 1, 1), true},
		{"rotors, margin above the limit", rotors(20, 22, 1.1, 1), false},
		{"rotors, new at the discard", rotors(22, 22, 0.8, 1), false},
		{"oil, interval at the ceiling", oil(5, 5), true},
		{"oil, interval beyond the ceiling", oil(6, 5), false},
		{"fluid, the same heat through any pad", fluid(180, 260, 0.4, 0.4), true},
		{"fluid, more heat through a thick pad", fluid(180, 260, 0.5, 0.4), false},
		{"fluid, water changes nothing", fluid(260, 260, 0.3, 0.4), false},
	} {
		var l loader
		l.checkPart(&c.part, nil, Position{})
		if valid := len(l.errs) == 0; valid != c.valid {
			t.Errorf("%s: %v", c.what, l.errs)
		}
	}
}

// Sixty characters are repeated, of one more the first 57.
func TestCut(t *testing.T) {
	whole := strings.Repeat("ä", 60)
	if got := nearest.Cut(whole); got != whole {
		t.Errorf("60 characters become %q", got)
	}
	if got, want := nearest.Cut(whole+"x"), strings.Repeat("ä", 57)+"..."; got != want {
		t.Errorf("61 characters become %q, want %q", got, want)
	}
}

// A list of words has one source, as it was written.
func TestSourcesOfLists(t *testing.T) {
	f, trip := juniper(t)
	if err := f.Apply(&trip, Change{"parts.pads-front.fit", "[shop, home]"}); err != nil {
		t.Fatal(err)
	}
	if got := f.Parts["pads-front"].Sources["fit"].Value; got != "shop, home" {
		t.Errorf("the source of fit says %q", got)
	}
}

// One zone as deep as new does not hide another that is deeper.
func TestDeeperThanNew(t *testing.T) {
	f, trip := juniper(t)
	depth := quantity.Tread[quantity.US].Text(float64(f.Parts["tires-rear"].Tire.NewDepth))
	err := f.Apply(&trip, Change{"fitted.tires-rear.tread.LR", "[" + depth + ", 15/32 in, " + depth + "]"})
	if err == nil || !strings.Contains(err.Error(), "more than new") {
		t.Errorf("new at %s: %v", depth, err)
	}
}

// A leg at a circuit goes by the circuit's name too, a road by its own alone.
func TestLegByCircuitsName(t *testing.T) {
	f, trip := juniper(t)
	circuit := f.Circuits["heron-flats"]
	circuit.Name = "The Flats"
	f.Circuits["heron-flats"] = circuit
	if err := f.Apply(&trip, Change{"pace.the-flats", "novice"}); err != nil {
		t.Error(err)
	}
	for _, leg := range trip.Legs {
		if want := leg.Kind == CircuitLeg && leg.Name == "heron-flats"; (leg.Pace == "novice") != want {
			t.Errorf("%s leg %s: pace %q", leg.Kind, leg.Name, leg.Pace)
		}
	}
}

// A hub that is told apart from its neighbor keeps its own readings, and the
// neighbor its own.
func TestSplitKeepsReadings(t *testing.T) {
	f, trip := juniper(t)
	i := f.holder(Bearing, "LR")
	f.Car.Fitted[i].Used = map[string]quantity.Share{"LR": 0.3, "RR": 0.4}
	if err := f.Apply(&trip, Change{"fitted.hub-LR.circuit_days", "9"}); err != nil {
		t.Fatal(err)
	}
	left, right := on(t, f, Bearing, "LR"), on(t, f, Bearing, "RR")
	if len(left.Used) != 1 || left.Used["LR"] != 0.3 || left.CircuitDays != 9 {
		t.Errorf("left %+v", left)
	}
	if len(right.Used) != 1 || right.Used["RR"] != 0.4 || right.CircuitDays != 11 {
		t.Errorf("right %+v", right)
	}
}
