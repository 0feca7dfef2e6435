package lists

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
)

// TestWarnings: what a circuit asks for is said once, however many days it
// takes, and nothing is said of a tank that just lasts the day, of work that
// just fits the stay or of a road.
func TestWarnings(t *testing.T) {
	day := plan.Leg{Kind: profiles.CircuitLeg, Circuit: "Heron Flats", Days: 2, Tanks: 1.5, WheelLifts: true, BySummary: true, PadsTooHot: [2]bool{true, false}}
	first, second := day, day
	first.Day, second.Day = 1, 2
	first.Waits = 1
	full := plan.Leg{Kind: profiles.CircuitLeg, Circuit: "Quarry Ridge", Day: 1, Days: 1, Tanks: 1, Waits: 2}
	long := plan.Leg{Kind: profiles.RoadLeg, Name: "Home", Tanks: 3}
	f := &profiles.Folder{Parts: map[string]profiles.Part{
		"pads": {Hours: 3600}, "rotors": {Hours: 2 * 3600}, "oil": {Hours: 1800},
	}}
	renewed := func(id, part string, kind profiles.Kind, stop int) plan.Set {
		return plan.Set{ID: id, Part: part, Kind: kind, Decision: plan.Decision{Action: plan.ReplaceAtStop, Leg: stop}}
	}
	p := &plan.Plan{
		Legs: []plan.Leg{long, first, second, {Kind: profiles.StopLeg, Name: "Just", Stay: 4.5 * 3600}, {Kind: profiles.StopLeg, Name: "Short", Stay: 1800}, full},
		// By axle the larger job: 2 h in front and 2 h behind, then half an hour of oil.
		Sets: []plan.Set{
			renewed("pads-front", "pads", profiles.Pads, 3), renewed("rotors-front", "rotors", profiles.Rotors, 3),
			renewed("rotors-rear", "rotors", profiles.Rotors, 3), renewed("oil", "oil", profiles.Oil, 3),
			renewed("pads-rear", "pads", profiles.Pads, 4),
			{ID: "fluid", Part: "oil", Kind: profiles.Fluid, Decision: plan.Decision{Action: plan.ReplaceBefore, Leg: 4}},
		},
		Shopping: []plan.Item{{Name: "pads", Late: true, OrderBy: departure}, {Name: "oil", OrderBy: departure}},
		Boot:     plan.Boot{Fits: true},
	}
	want := []string{
		"Heron Flats burns about 1.5 tanks a day",
		"The trip waits 1 night for Heron Flats",
		"At this pace the car lifts a wheel at Heron Flats",
		"Heron Flats is known by its summary alone",
		"The trip waits 2 nights for Quarry Ridge",
		"Heron Flats: the front rotors run hotter",
		"The work at Short takes about 1.0 h, its stay is 0.5 h",
		"pads should have been ordered by " + departure.Format("2 Jan 2006"),
	}
	if diff := cmp.Diff(want, begins(Warnings(p, f), want)); diff != "" {
		t.Errorf("(-want +got)\n%s", diff)
	}
	// Hot oil is warned about by circuit.
	f.Car.OilTemp = 142
	var hot []string
	for _, w := range Warnings(p, f) {
		if circuit, _, ok := strings.Cut(w, ": oil as hot as your gauge shows"); ok {
			hot = append(hot, circuit)
		}
	}
	if diff := cmp.Diff([]string{"Heron Flats", "Quarry Ridge"}, hot); diff != "" {
		t.Errorf("hot oil (-want +got)\n%s", diff)
	}
}

// begins cuts each line to the beginning that is wanted of it.
func begins(lines, want []string) []string {
	var out []string
	for i, l := range lines {
		if i < len(want) && strings.HasPrefix(l, want[i]) {
			l = want[i]
		}
		out = append(out, l)
	}
	return out
}

// TestColdBite: track pads on a long road have a word on how they bite cold.
// Common practice, no source.
func TestColdBite(t *testing.T) {
	for _, c := range []struct {
		threshold, miles float64
		want             bool
	}{{500, 3000, true}, {500, 200, false}, {300, 3000, false}} {
		f := &profiles.Folder{Parts: map[string]profiles.Part{"p": {Pads: &profiles.PadsPart{Threshold: quantity.Temperature(c.threshold)}}}}
		p := &plan.Plan{Sets: []plan.Set{{Part: "p", Name: "front pads"}}, Legs: []plan.Leg{{Kind: profiles.RoadLeg, Meters: c.miles * 1609.344}}}
		if said := strings.Join(Warnings(p, f), "\n"); strings.Contains(said, "front pads are for heat") != c.want {
			t.Errorf("%+v: %q", c, said)
		}
	}
}
