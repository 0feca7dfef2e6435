package planner

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
)

func decisions(t *testing.T, f *profiles.Folder, trip profiles.Trip, o Options) (*plan.Plan, string) {
	p, err := Make(f, trip, o)
	if err != nil {
		t.Fatal(err)
	}
	out := ""
	for _, s := range p.Sets {
		out += fmt.Sprintln(s.ID, s.Decision.Action, s.Decision.Leg, s.Decision.Spare, s.Decision.Shelf)
	}
	return p, out
}

// TestUnknownPrice: with a price that nobody knows the plan chooses as with some
// price inside the range that it states, and every figure but the price is known.
// With the price at 0 it would choose otherwise at least once.
func TestUnknownPrice(t *testing.T) {
	f, trip := demo(t, "juniper")
	ids := []string{"tires-front", "tires-rear", "pads-front", "pads-rear", "rotors-front", "rotors-rear", "hub-front", "hub-rear", "oil", "fluid"}
	bent, cases := 0, 40
	if testing.Short() {
		cases = 4
	}
	r := rand.New(rand.NewPCG(1, 2))
	for range cases {
		id := ids[r.IntN(len(ids))]
		o := Options{Draws: 200, Seed: r.Uint64N(5) + 1}
		varied := f.Clone()
		varied.Car.Costs.Stranded = []quantity.Money{200, 1800, 9000}[r.IntN(3)]
		for i := range varied.Car.Fitted {
			varied.Car.Fitted[i].CircuitDays = quantity.Number(r.IntN(16))
		}
		at := func(price float64) (*plan.Plan, string) {
			g := varied.Clone()
			part := g.Parts[id]
			part.Price = quantity.Money(price)
			g.Parts[id] = part
			return decisions(t, g, trip, o)
		}
		p, unknown := at(quantity.Unknown())
		if math.IsNaN(p.Choice.Cost) || math.IsNaN(p.Spend("")) {
			t.Fatal("an unknown price poisons the choice or the sum")
		}
		if _, free := at(0); free != unknown {
			bent++
		}
		guess := statedPrice(t, p)
		if !slices.ContainsFunc([]float64{1, 0.5, 0.75, 1.5, 2}, func(times float64) bool {
			_, known := at(guess * times)
			return known == unknown
		}) {
			t.Fatalf("no price near %v of %s chooses as the unknown one does:\n%s", guess, id, unknown)
		}
	}
	if bent == 0 && !testing.Short() {
		t.Error("no choice depends on a price: the test shows nothing")
	}
}

// statedPrice is the first guess of a price that a plan's notes state.
func statedPrice(t *testing.T, p *plan.Plan) float64 {
	for _, w := range p.Warnings {
		var price float64
		for i := range w {
			if _, err := fmt.Sscanf(w[i:], "%f (", &price); err == nil && price > 1 && i > 0 && w[i-1] == ' ' {
				return price
			}
		}
	}
	t.Fatal("no note states the guess")
	return 0
}

// TestSafer: what a plan proposes heals what it stands under when it is planned
// by hand, and costs what it says; a plan that is safe has nothing to propose.
func TestSafer(t *testing.T) {
	day := func(m time.Month, d int) time.Time { return time.Date(2027, m, d, 0, 0, 0, 0, time.UTC) }
	f, trip := demo(t, "juniper")
	o := Options{Draws: 2000, Seed: 1, Today: day(5, 11)}
	p, _ := decisions(t, f, trip, o)
	Safer(p, f, trip, o)
	if p.Safe || len(p.Safer) == 0 {
		t.Fatalf("safe %v, %d changes", p.Safe, len(p.Safer))
	}
	first := p.Safer[0]
	if !first.Date.Equal(day(5, 19)) || first.Days != 6 {
		t.Errorf("%+v, want to leave on Wed 19 May: 5 working days after Tue 11 May the tires come, and go on that evening", first)
	}
	for _, s := range p.Sets {
		if late := s.ID == "tires-rear"; late != (s.Decision.Bind == plan.BindLate) || late != (len(s.Decision.Safer) > 0) {
			t.Errorf("%s: bound by %q, %d changes", s.ID, s.Decision.Bind, len(s.Decision.Safer))
		}
	}
	later := trip.Clone()
	later.Depart = first.Date
	moved, _ := decisions(t, f, later, o)
	if got := moved.Spend("") - p.Spend(""); !moved.Safe || math.Abs(got-first.Cost) > 1e-9 {
		t.Errorf("safe %v, costs %v more, said %v", moved.Safe, got, first.Cost)
	}
	Safer(moved, f, later, o)
	if moved.Tried != 0 || moved.Safer != nil {
		t.Error("a safe plan is searched")
	}
	if p.Tried > 12 {
		t.Errorf("%d plans", p.Tried)
	}
}

// TestBind: what keeps a set from being safe is named: the trunk, the place where
// the part can be fitted, the cap, what was found.
func TestBind(t *testing.T) {
	f, trip := demo(t, "juniper")
	for i := range f.Car.Fitted {
		if e := &f.Car.Fitted[i]; e.Part == "pads-front" {
			e.Pad = map[string]quantity.Length{"LF": 6.0e-3, "RF": 6.0e-3}
		}
	}
	shelfless := func(g *profiles.Folder) { g.Car.Shelf = nil }
	long := trip.Clone()
	for i := range long.Legs {
		if long.Legs[i].Kind == profiles.CircuitLeg {
			long.Legs[i].Days = 3
		}
		long.Legs[i].Date = time.Time{}
	}
	long.Legs = slices.DeleteFunc(long.Legs, func(l profiles.Leg) bool { return l.Kind == profiles.StopLeg })
	part := func(g *profiles.Folder, change func(*profiles.Part)) {
		p := g.Parts["pads-front"]
		change(&p)
		g.Parts["pads-front"] = p
	}
	for _, row := range []struct {
		want   plan.Bind
		change func(*profiles.Folder)
	}{
		{"", shelfless},
		{plan.BindRoom, func(g *profiles.Folder) { shelfless(g); part(g, func(p *profiles.Part) { p.Volume = 1.9 }) }},
		{plan.BindFitted, func(g *profiles.Folder) { shelfless(g); part(g, func(p *profiles.Part) { p.Fit = []string{"home"} }) }},
		{plan.BindCap, func(g *profiles.Folder) {
			shelfless(g)
			part(g, func(p *profiles.Part) { b := *p.Pads; b.Wear *= 6; p.Pads = &b })
		}},
	} {
		g := f.Clone()
		row.change(g)
		p, _ := decisions(t, g, long, Options{Draws: 2000, Seed: 1})
		for _, s := range p.Sets {
			if s.ID == "pads-front" && s.Decision.Bind != row.want {
				t.Errorf("want %q, got %q: %s: %s", row.want, s.Decision.Bind, s.Decision.Action, s.Decision.Reason)
			}
		}
	}
}
