package planner

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/lists"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/randomcar"
	"example.com/tripwear/profiles"
)

// way is the demo changed.
func way(t testing.TB, name string, changes ...string) Way {
	t.Helper()
	f, trip := demo(t, name)
	var parsed []profiles.Change
	for _, s := range changes {
		c, err := profiles.ParseChange(s)
		if err != nil {
			t.Fatal(err)
		}
		parsed = append(parsed, c)
	}
	folder, p, err := Vary(f, trip, parsed, Options{Draws: 500})
	if err != nil {
		t.Fatal(err)
	}
	return Way{Label: strings.Join(changes, ", "), Folder: folder, Plan: p}
}

// ways compares the demo as it is with the demo changed.
func ways(t testing.TB, name string, changes ...string) *plan.Comparison {
	t.Helper()
	return Compare([]Way{way(t, name), way(t, name, changes...)})
}

func point(c *plan.Comparison, t testing.TB, place, zone string, m kind.Measure) plan.PointAcross {
	t.Helper()
	for _, p := range c.Wear {
		if p.Place == place && p.Zone == zone && p.Measure == m {
			return p
		}
	}
	t.Fatalf("no %s %s %s", place, zone, m)
	return plan.PointAcross{}
}

// A trip compared with itself shows no change.
func TestCompareWithItself(t *testing.T) {
	for _, name := range profiles.DemoNames() {
		c := ways(t, name)
		for _, p := range c.Wear {
			if p.Change != 0 {
				t.Errorf("%s: %+v", name, p)
			}
		}
		for _, s := range c.Decisions {
			if s.Differs || spread(s.Cost) != 0 {
				t.Errorf("%s: %+v", name, s)
			}
		}
		for _, w := range c.Tread {
			if w.Differs {
				t.Errorf("%s: %+v", name, w)
			}
		}
		a, b := c.Ways[0], c.Ways[1]
		if a.Purse != b.Purse || a.Life != b.Life || a.Apart != b.Apart || a.Road != b.Road || a.Laps != b.Laps || !slices.Equal(a.Spend, b.Spend) {
			t.Errorf("%s: %+v and %+v", name, a, b)
		}
	}
}

// Each kind of key moves what it names, the way it must, and nothing that has
// nothing to do with it.
func TestCompareMoves(t *testing.T) {
	up := func(p plan.PointAcross) bool { return p.Taken[1] > p.Taken[0] }
	same := func(p plan.PointAcross) bool { return p.Taken[1] == p.Taken[0] }
	asItIs := way(t, "juniper")
	for change, right := range map[string]func(*plan.Comparison) bool{
		"alignment.LR.toe=0.3deg": func(c *plan.Comparison) bool {
			return up(point(c, t, "LR", "inside", kind.Tread)) && same(point(c, t, "RR", "inside", kind.Tread)) && same(point(c, t, "LF", "", kind.PadLining))
		},
		"alignment.front.camber=-3deg": func(c *plan.Comparison) bool {
			return up(point(c, t, "LF", "inside", kind.Tread)) && !up(point(c, t, "LF", "outside", kind.Tread)) && same(point(c, t, "LR", "inside", kind.Tread))
		},
		"fitted.pads-front=pads-front": func(c *plan.Comparison) bool {
			p := point(c, t, "LF", "", kind.PadLining)
			return p.PLimit[1] < p.PLimit[0] && p.Change >= p.PLimit[0]-p.PLimit[1] && same(point(c, t, "LR", "", kind.PadLining))
		},
		"fitted.tires-rear.tread.LR=[2/32 in, 3/32 in, 4/32 in]": func(c *plan.Comparison) bool {
			p := point(c, t, "LR", "inside", kind.Tread)
			return p.End[1] < p.End[0] && same(p) && point(c, t, "LF", "inside", kind.Tread).Change == 0
		},
		"pace=advanced": func(c *plan.Comparison) bool {
			return up(point(c, t, "LF", "", kind.PadLining)) && up(point(c, t, "RR", "outside", kind.Tread)) && c.Ways[1].Road == c.Ways[0].Road
		},
		"pace.heron-flats=novice": func(c *plan.Comparison) bool {
			return point(c, t, "LF", "", kind.PadLining).Taken[1] < point(c, t, "LF", "", kind.PadLining).Taken[0]
		},
		"sessions=4x20min":   func(c *plan.Comparison) bool { return math.Abs(c.Ways[1].Laps*5-c.Ways[0].Laps*4) < 1e-9 },
		"days.heron-flats=1": func(c *plan.Comparison) bool { return c.Ways[1].Days == c.Ways[0].Days-1 },
		"distance.1=800mi": func(c *plan.Comparison) bool {
			return math.Abs(c.Ways[0].Road-c.Ways[1].Road-float64(210*mile)) < 1 && c.Ways[1].Purse < c.Ways[0].Purse && same(point(c, t, "LF", "face", kind.Crack)) && !same(point(c, t, "LF", "inside", kind.Tread))
		},
		"costs.stranded=3000": func(c *plan.Comparison) bool { return c.Ways[1].Apart > c.Ways[0].Apart && c.Wear[0].Change == 0 },
		"boot.volume=90L": func(c *plan.Comparison) bool { // the luggage alone takes 95 L
			for _, s := range c.Decisions {
				if s.Actions[1] == plan.Bring || s.Spares[1] {
					return false
				}
			}
			return c.Decisions[0].Differs && c.Wear[0].Change == 0
		},
		"safety.cap=0%": func(c *plan.Comparison) bool { return !c.Ways[1].Safe && c.Wear[0].Change == 0 },
		"parts.rotors-front.price=90": func(c *plan.Comparison) bool {
			return c.Ways[1].Purse == c.Ways[0].Purse-60 && c.Ways[1].Life < c.Ways[0].Life
		},
		"costs.fuel=3/gal": func(c *plan.Comparison) bool {
			return c.Ways[1].Purse < c.Ways[0].Purse && c.Ways[1].Life == c.Ways[0].Life
		},
		"spread.pace=0.2": func(c *plan.Comparison) bool {
			return same(point(c, t, "LF", "", kind.PadLining)) && c.Wear[0].Change > 0
		},
		"ambient=40C": func(c *plan.Comparison) bool {
			return up(point(c, t, "LF", "face", kind.Crack)) || up(point(c, t, "LF", "", kind.PadLining))
		},
	} {
		c := Compare([]Way{asItIs, way(t, "juniper", change)})
		if !right(c) {
			t.Errorf("%s: %+v\n%+v", change, c.Ways, c.Wear[:3])
		}
		for i := 1; i < len(c.Wear); i++ {
			if c.Wear[i].Change > c.Wear[i-1].Change {
				t.Errorf("%s: the biggest changes are not first", change)
			}
		}
	}
}

// More toe takes rubber and life, more camber trades evenness away; each at
// its own wheel alone.
// What a wheel lasts is by its worst zone.
func TestCompareAlignment(t *testing.T) {
	for change, right := range map[string]func(w plan.WheelAcross) bool{
		"alignment.RR.toe=0.4deg":     func(w plan.WheelAcross) bool { return w.Lasts[1] < w.Lasts[0] && w.Mean[1] > w.Mean[0] },
		"alignment.RR.camber=-3.5deg": func(w plan.WheelAcross) bool { return w.Lasts[1] < w.Lasts[0] && w.Even[1] < w.Even[0] },
	} {
		c := ways(t, "juniper", change)
		for _, w := range c.Tread {
			if w.Differs != (w.Place == "RR") {
				t.Errorf("%s: %s differs: %v", change, w.Place, w.Differs)
			}
			for k := range c.Ways {
				worst := point(c, t, w.Place, w.Worst[k], kind.Tread)
				if w.Most[k] != worst.Taken[k] || w.Even[k] > 1 || w.Least[k] > w.Mean[k] || w.Mean[k] > w.Most[k] || math.Abs(w.Lasts[k]*worst.Share[k]-1) > 1e-12 {
					t.Errorf("%s: %+v", change, w)
				}
			}
			if w.Place == "RR" && !right(w) {
				t.Errorf("%s: %+v", change, w)
			}
		}
	}
}

// Every set of a plan can be fitted anew by its id.
func TestVaryEverySet(t *testing.T) {
	f, trip := demo(t, "juniper")
	for _, s := range planned(t, f, trip).Sets {
		_, p, err := Vary(f, trip, []profiles.Change{{Key: "fitted." + s.ID, Value: s.Part}}, Options{Draws: 100})
		if err != nil {
			t.Errorf("%s: %v", s.ID, err)
			continue
		}
		if got := setOf(p, t, s.ID); got.Decision.PAsIs > s.Decision.PAsIs+0.05 {
			t.Errorf("%s: as new it has a chance of %g, as it was %g", s.ID, got.Decision.PAsIs, s.Decision.PAsIs)
		}
	}
}

// Vary reports every change that is refused, and leaves what it was given alone.
func TestVaryRefuses(t *testing.T) {
	f, trip := demo(t, "juniper")
	_, _, err := Vary(f, trip, []profiles.Change{{Key: "pase", Value: "advanced"}, {Key: "pace", Value: "advanced"}, {Key: "days", Value: "99"}}, Options{})
	bad, ok := err.(profiles.Errors)
	if !ok || len(bad) != 2 {
		t.Fatalf("got %v, want two errors", err)
	}
	if trip.Legs[1].Pace != "intermediate" {
		t.Error("the trip was changed")
	}
}

// Two ways side by side at one wheel, by hand: of 3, 2 and 1 mm the evenness
// is a third and the rubber 2 mm a zone; a half of its life a trip is two
// trips. Where zones lose alike the inner one is named; a way that takes
// nothing is even, and no number of trips is said.
func TestWheelsByHand(t *testing.T) {
	zone := func(name string, taken ...float64) plan.PointAcross {
		p := plan.PointAcross{Place: "LF", Zone: name, Measure: kind.Tread, Taken: taken}
		for _, v := range taken {
			p.Share = append(p.Share, v/6)
		}
		return p
	}
	rest := plan.PointAcross{Measure: kind.PadLining}
	got := wheels([]plan.PointAcross{zone("inside", 1, 0), zone("middle", 3, 0), zone("outside", 2, 0), rest, rest, rest}, make([]Way, 2))
	want := []plan.WheelAcross{{
		Place: "LF", Worst: []string{"middle", "inside"}, Best: []string{"inside", "inside"}, Most: []float64{3, 0}, Least: []float64{1, 0},
		Mean: []float64{2, 0}, Even: []float64{1.0 / 3, 1}, Lasts: []float64{2, 0}, Differs: true,
	}}
	if diff := cmp.Diff(want, got, cmpopts.EquateApprox(1e-12, 0)); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	same := wheels([]plan.PointAcross{zone("inside", 2, 2), zone("middle", 2, 2), zone("outside", 1, 1)}, make([]Way, 2))
	if w := same[0]; w.Differs || w.Worst[0] != "inside" || w.Best[1] != "outside" {
		t.Errorf("two alike: %+v", w)
	}
}

// One way in short, by hand: what wears most of each set counts at the set's
// price, heat does not.
func TestOutcomeByHand(t *testing.T) {
	f := &profiles.Folder{Parts: map[string]profiles.Part{"a": {Price: 100}, "b": {Price: 40}, "c": {Price: 1000}}}
	at := func(share ...float64) plan.Point {
		return plan.Point{New: 10, Limit: 2, Loss: []float64{8 * share[0], 8 * share[1]}}
	}
	p := &plan.Plan{
		Legs: []plan.Leg{
			{Kind: profiles.RoadLeg, Meters: 3e5, Nights: 1}, {Kind: profiles.CircuitLeg, Laps: 20, Meters: 7e4, Nights: 2},
			{Kind: profiles.CircuitLeg, Laps: 15, Meters: 5e4}, {Kind: profiles.StopLeg, Nights: 1}, {Kind: profiles.RoadLeg, Meters: 2e5},
		},
		Sets: []plan.Set{
			{Part: "a", Name: "pads", Kind: profiles.Pads, Points: []plan.Point{at(0.25, 0.25), at(0.125, 0.125)}, Stop: []string{"LF: plate"}},
			{Part: "b", Kind: profiles.Tire, Points: []plan.Point{at(0.25, 0)}},
			{Part: "c", Kind: profiles.Fluid, Points: []plan.Point{at(0.5, 0.5)}},
		},
		Budget: []plan.Expense{{Kind: plan.ForFuel, Amount: 70}, {Kind: plan.ForFees, Amount: 30}},
		Apart:  []plan.Expense{{Amount: 5}, {Amount: 6}},
	}
	got := outcome(Way{Plan: p, Folder: f})
	want := plan.Outcome{Road: 5e5, Days: 2, Laps: 35, Nights: 4, Spend: []float64{70, 30, 0, 0, 0, 0}, Purse: 100, Apart: 11, Life: 60, Found: []string{"pads, LF: plate"}}
	if diff := cmp.Diff(want, got, cmpopts.EquateApprox(1e-12, 0)); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

// What a trip takes is the sum of its legs; of a boiling margin the hottest.
func TestTakenInAll(t *testing.T) {
	loss := []float64{1, 3, 2}
	if got := lists.Taken((plan.Point{Measure: kind.Tread, Loss: loss})); got != 6 {
		t.Errorf("tread: %g, want 6", got)
	}
	if got := lists.Taken((plan.Point{Measure: kind.BoilMargin, Loss: loss})); got != 3 {
		t.Errorf("boiling margin: %g, want 3", got)
	}
}

// TestPutOnIsPaid: a part that a change puts on is bought at its price, or taken
// from the shelf, where it is then no spare.
func TestPutOnIsPaid(t *testing.T) {
	f, trip := demo(t, "juniper")
	as := func(part string) (string, *profiles.Folder, *plan.Plan) {
		changes := []profiles.Change{{Key: "fitted." + part, Value: part}}
		folder, p, err := Vary(f, trip, changes, Options{Draws: 300})
		if err != nil {
			t.Fatal(err)
		}
		return Paid(f, changes), folder, p
	}
	said, _, p := as("tires-rear")
	last := p.Budget[len(p.Budget)-1]
	if said != " (tires-rear bought for 430)" || last.Amount != 430 || last.Kind != plan.ForParts {
		t.Errorf("%q, %+v", said, last)
	}
	said, folder, p := as("pads-front")
	last = p.Budget[len(p.Budget)-1]
	if said != " (pads-front from the shelf)" || last.Amount != 0 || folder.Car.Shelf[0].Quantity != 0 || f.Car.Shelf[0].Quantity != 1 {
		t.Errorf("%q, %+v, shelf %v", said, last, folder.Car.Shelf)
	}
}

// TestCompareAnyOwner: ways of any owner's trip that take other sets along are set
// side by side without a gap: the same number of figures for each, and of one that
// stays at home none but nothing.
func TestCompareAnyOwner(t *testing.T) {
	randomcar.Check(t, 8, func(r *rapid.T) {
		o := randomcar.Draw(r, 4)
		f := owned(r, o)
		trip, err := f.FindTrip("next")
		if err != nil {
			r.Fatal(err)
		}
		changes := []string{"fit=none"}
		for _, s := range profiles.Sets() {
			for _, part := range f.Asides(s) {
				changes = append(changes, "fit="+s.Name+": "+part, "fitted."+s.ID+"="+part)
			}
		}
		var ways []Way
		for _, text := range changes {
			change, err := profiles.ParseChange(text)
			if err != nil {
				r.Fatal(err)
			}
			varied, p, err := Vary(f, trip, []profiles.Change{change}, Options{Draws: 50})
			if err != nil { // tires that no shop there fits
				continue
			}
			ways = append(ways, Way{text, varied, p})
		}
		if len(ways) == 0 {
			return
		}
		c := Compare(ways)
		for _, s := range c.Decisions {
			for k := range ways {
				if has := ways[k].set(s.ID).ID != ""; len(s.Parts) != len(ways) || len(s.POut) != len(ways) || s.Absent[k] == has {
					r.Errorf("%s, %s: %+v", ways[k].Label, s.ID, s)
				}
			}
		}
		for _, p := range c.Wear {
			for k := range ways {
				if len(p.Taken) != len(ways) || math.IsNaN(p.End[k]) && p.Taken[k] != 0 {
					r.Errorf("%s: %+v", ways[k].Label, p)
				}
			}
		}
	})
}
