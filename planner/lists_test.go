package planner

import (
	"slices"
	"strings"
	"testing"
	"time"

	"example.com/tripwear/planner/decision"
	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/lists"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/trip"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
)

func itemOf(p *plan.Plan, set, buy string) (plan.Item, bool) {
	i := slices.IndexFunc(p.Shopping, func(it plan.Item) bool { return it.Set == set && it.Buy == buy })
	if i < 0 {
		return plan.Item{}, false
	}
	return p.Shopping[i], true
}

// saidOf is the checks of an occasion about a set, in words.
func saidOf(p *plan.Plan, when, set string) []string {
	var out []string
	for _, c := range p.Checks {
		if c.When == when && c.Set == set {
			out = append(out, p.Say(c, quantity.US))
		}
	}
	return out
}

// TestItemsFollowDecisions: an item is on the list because a set is renewed or
// a spare carried, and every such set has its items; the boot holds what is
// carried and nothing else.
func TestItemsFollowDecisions(t *testing.T) {
	for _, name := range profiles.DemoNames() {
		f, trip := demo(t, name)
		p := planned(t, f, trip)
		wanted := 0
		for _, s := range p.Sets {
			for _, buy := range decision.Needs(s.Decision, p.Legs) {
				wanted++
				if _, ok := itemOf(p, s.ID, buy); !ok {
					t.Errorf("%s: %s, %s: no item %q", name, s.ID, s.Decision.Action, buy)
				}
			}
		}
		if p.TopUp > 0 {
			wanted++
		}
		if len(p.Shopping) != wanted {
			t.Errorf("%s: %d items, decisions want %d", name, len(p.Shopping), wanted)
		}
		carried, volume, mass, sum, all := 0, 0.0, 0.0, 0.0, 0.0
		for _, it := range p.Shopping {
			if it.Buy == plan.BuyBring {
				carried++
				volume += it.Volume
				mass += it.Mass
			}
			if !it.OnShelf {
				all += quantity.OrZero(it.Price) // no sum counts what is unknown
			}
		}
		for _, total := range p.Totals {
			sum += total.Price
		}
		if len(p.Packing) != carried || p.Boot.UsedVolume != volume || p.Boot.UsedMass != mass || !p.Boot.Fits {
			t.Errorf("%s: packs %d of %d carried, %+v", name, len(p.Packing), carried, p.Boot)
		}
		if sum != all || p.Spend(plan.ForParts) != all {
			t.Errorf("%s: totals %g, budget %g, items %g", name, sum, p.Spend(plan.ForParts), all)
		}
	}
}

// TestLateFirst: what would arrive late heads the list, with its date, and the
// checklist says to order it now. The rear tires take five working days and an
// evening before departure, on a Thursday.
func TestLateFirst(t *testing.T) {
	f, outing := demo(t, "juniper")
	p, err := Make(f, outing, Options{Draws: 500, Today: departure.AddDate(0, 0, -30)})
	if err != nil {
		t.Fatal(err)
	}
	it, ok := itemOf(p, "tires-rear", plan.BuyBefore)
	if !ok || it.Late || it.OrderBy.Format(time.DateOnly) != "2027-05-05" {
		t.Errorf("rear tires: %+v", it)
	}
	late := &plan.Plan{Depart: departure, Sets: p.Sets, Legs: p.Legs}
	lists.Shop(late, &trip.Journey{Folder: f, On: kind.Fitted(f), Depart: departure}, departure.AddDate(0, 0, -7)) // May 6: the rotors were to be ordered by the 7th, the tires by the 5th
	if first := late.Shopping[0]; first.Set != "tires-rear" || !first.Late || late.Shopping[1].Late {
		t.Errorf("first on the list: %+v, then %+v", first, late.Shopping[1])
	}
}

// TestToolsOnce: a tool that several spares want is taken once, for all of
// them; with nothing to fit on the way and nothing watched, only the pressure
// gauge goes along.
func TestToolsOnce(t *testing.T) {
	f, trip := demo(t, "juniper")
	p, err := Make(f, trip, Options{})
	if err != nil {
		t.Fatal(err)
	}
	seen := map[string]int{}
	for _, tool := range p.Tools {
		seen[tool.Name]++
		if len(tool.For) == 0 {
			t.Errorf("%s for nothing", tool.Name)
		}
		if tool.Name == "jack and stands" && len(tool.For) != 3 {
			t.Errorf("%s for %v, want the front pads and rotors, and the rear pads, which are read", tool.Name, tool.For)
		}
	}
	for name, n := range seen {
		if n > 1 {
			t.Errorf("%s is taken %d times", name, n)
		}
	}
	for _, name := range []string{"jack and stands", "piston tool", "caliper sockets", "torque wrench"} {
		if seen[name] == 0 {
			t.Errorf("no %s, for spares in the boot", name)
		}
	}
	trip.Legs = []profiles.Leg{road(100)}
	f.Car.OilUse = 0
	fitNew(f, "tires-rear")
	for _, tool := range planned(t, f, trip).Tools {
		if tool.Name != "tire pressure gauge" {
			t.Errorf("a drive of 100 miles takes along %s for %v", tool.Name, tool.For)
		}
	}
}

// TestTopUp by hand: 0.2 L per 1,000 km over 1,000 km of road is 0.2 L, one
// bottle; without consumption none is taken.
func TestTopUp(t *testing.T) {
	f, trip := demo(t, "juniper")
	trip.Legs = []profiles.Leg{road(1000 / 1.609344)}
	p := planned(t, f, trip)
	if p.TopUp < 0.1999e-3 || p.TopUp > 0.2001e-3 {
		t.Errorf("top up %g L, by hand 0.2", p.TopUp*1000)
	}
	if it, ok := itemOf(p, "", plan.BuyBring); !ok || it.Count != 1 || !strings.Contains(it.Name, "5W-40") {
		t.Errorf("%+v", it)
	}
	f.Car.OilUse = 0
	if it, ok := itemOf(planned(t, f, trip), "", plan.BuyBring); ok {
		t.Errorf("nothing used, yet %+v", it)
	}
}

// TestChecksFollowFindings: what the demo finds is on its lists, and goes when
// the finding goes.
func TestChecksFollowFindings(t *testing.T) {
	f, trip := demo(t, "juniper")
	p := planned(t, f, trip)
	has := func(p *plan.Plan, when, set string, words ...string) bool {
		for _, line := range saidOf(p, when, set) {
			if !slices.ContainsFunc(words, func(w string) bool { return !strings.Contains(line, w) }) {
				return true
			}
		}
		return false
	}
	for _, c := range []struct {
		when, set string
		words     []string
	}{
		{kind.Before, "tires-rear", []string{"replace the rear tires", "torque", "first hour"}},
		{kind.Fuel, "tires-front", []string{"RF outside", "stop at 2.0/32 in"}},
		{kind.Session, "tires-front", []string{"RF outside", "before Quarry Ridge"}},
		{kind.Session, "pads-front", []string{"act at 3.0 mm", "stop at 2.0 mm", "spare is in the trunk", "torque"}},
		{kind.Night, "pads-front", []string{"before Heron Flats day 2 (which wants"}},
		{kind.Session, "hub-RF", []string{"RF above all", "3 % chance to fail", "Heron Flats day 1"}},
		{"at Alder Creek workshop", "oil", []string{"replace the engine oil"}},
	} {
		if !has(p, c.when, c.set, c.words...) {
			t.Errorf("%s, %s: nothing says %q: %q", c.when, c.set, c.words, saidOf(p, c.when, c.set))
		}
	}
	for i := range f.Car.Fitted {
		e := &f.Car.Fitted[i]
		if e.Part == "pads-front" {
			e.Pad["LF"], e.Pad["RF"] = 11e-3, 11e-3
		}
	}
	fitNew(f, "tires-rear")
	fitNew(f, "oil")
	trip.Legs = []profiles.Leg{trip.Legs[0], days("heron-flats", 1, "intermediate"), trip.Legs[3], trip.Legs[0]}
	p = planned(t, f, trip)
	for _, c := range []struct{ when, set string }{{kind.Before, "tires-rear"}, {"at Alder Creek workshop", "oil"}} {
		if got := saidOf(p, c.when, c.set); len(got) > 0 {
			t.Errorf("found in order, yet %s: %q", c.when, got)
		}
	}
	if !has(p, kind.Session, "pads-front", "look at the lining") || has(p, kind.Session, "pads-front", "act at") {
		t.Errorf("pads that are not watched: %q", saidOf(p, kind.Session, "pads-front"))
	}
}

// TestRenewedAndSpare: with ten times the cost of being stopped short the
// front pads are renewed and a second set carried. The one on the shelf goes
// on, the second is bought, and its tools come along.
func TestRenewedAndSpare(t *testing.T) {
	f, trip := demo(t, "juniper")
	f.Car.Costs.Stranded *= 10
	p := planned(t, f, trip)
	if d := setOf(p, t, "pads-front").Decision; d.Action != plan.ReplaceBefore || !d.Spare || d.Shelf != 1 {
		t.Fatalf("front pads: %+v", d)
	}
	first, _ := itemOf(p, "pads-front", plan.BuyBefore)
	second, _ := itemOf(p, "pads-front", plan.BuyBring)
	if !first.OnShelf || second.OnShelf || second.Price != 165 || second.OrderBy.IsZero() {
		t.Errorf("before leaving %+v, to carry %+v", first, second)
	}
	if !slices.ContainsFunc(p.Tools, func(tool plan.Tool) bool {
		return tool.Name == "piston tool" && slices.Contains(tool.For, setOf(p, t, "pads-front").Name)
	}) {
		t.Errorf("a spare set without its tools: %+v", p.Tools)
	}
}

// TestAllNew: of a car with everything new nothing is read before leaving but
// the wheels shaken; a day on circuit takes along the torque wrench that its
// sessions ask for, and what reading pads in the evening takes; a drive none.
func TestAllNew(t *testing.T) {
	f, trip := demo(t, "juniper")
	for _, id := range []string{"tires-front", "tires-rear", "pads-front", "pads-rear", "rotors-front", "rotors-rear"} {
		fitNew(f, id)
	}
	visit := trip.Legs[1]
	visit.Days = 1
	for _, c := range []struct {
		legs  []profiles.Leg
		tools bool
	}{{[]profiles.Leg{road(100)}, false}, {[]profiles.Leg{road(50), visit, road(50)}, true}} {
		trip.Legs = c.legs
		p := planned(t, f, trip)
		shaken := false
		for _, check := range p.Checks {
			if check.When == kind.Before {
				shaken = shaken || strings.HasPrefix(check.What, "shake each wheel")
				if strings.Contains(check.What, "measure") || strings.Contains(check.What, "fasteners") {
					t.Errorf("%d legs, everything new: %s", len(c.legs), check.What)
				}
			}
		}
		for _, name := range []string{"torque wrench", "jack and stands", "wheel wrench", "pad gauge"} {
			if along := slices.ContainsFunc(p.Tools, func(tool plan.Tool) bool { return tool.Name == name }); along != c.tools {
				t.Errorf("%d legs: %s along: %v", len(c.legs), name, along)
			}
		}
		if !shaken {
			t.Errorf("%d legs: the wheels are not shaken", len(c.legs))
		}
	}
}
