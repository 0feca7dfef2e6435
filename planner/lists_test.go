package planner

import (
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
)

func (p *Plan) item(set, buy string) (Item, bool) {
	i := slices.IndexFunc(p.Shopping, func(it Item) bool { return it.Set == set && it.Buy == buy })
	if i < 0 {
		return Item{}, false
	}
	return p.Shopping[i], true
}

// said is the checks of an occasion about a set, in words.
func (p *Plan) said(when, set string) []string {
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
		p := plan(t, f, trip)
		wanted := 0
		for _, s := range p.Sets {
			for _, buy := range needs(s.Decision, p.Legs) {
				wanted++
				if _, ok := p.item(s.ID, buy); !ok {
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
			if it.Buy == BuyCarry {
				carried++
				volume += it.Volume
				mass += it.Mass
			}
			if !it.OnShelf {
				all += it.Price
			}
		}
		for _, total := range p.Totals {
			sum += total.Price
		}
		if len(p.Packing) != carried || p.Boot.UsedVolume != volume || p.Boot.UsedMass != mass || !p.Boot.Fits {
			t.Errorf("%s: packs %d of %d carried, %+v", name, len(p.Packing), carried, p.Boot)
		}
		if sum != all || p.Spend(ForParts) != all {
			t.Errorf("%s: totals %g, budget %g, items %g", name, sum, p.Spend(ForParts), all)
		}
	}
}

// TestQuantity: what one buys, in the owner's units.
func TestQuantity(t *testing.T) {
	oil := profiles.OilPart{Quantity: 4.8 * 0.946352946e-3}
	for _, c := range []struct {
		part       profiles.Part
		us, metric string
	}{
		{profiles.Part{Kind: profiles.Tire}, "1 pair, mounted and balanced, new valves", ""},
		{profiles.Part{Kind: profiles.Pads}, "1 axle set", ""},
		{profiles.Part{Kind: profiles.Rotors}, "1 pair", ""},
		{profiles.Part{Kind: profiles.Bearing}, "1 hub, its nut where the maker wants a new one", ""},
		{profiles.Part{Kind: profiles.Oil, Oil: &oil}, "4.8 qt, filter and drain washer", "4.5 L, filter and drain washer"},
		{profiles.Part{Kind: profiles.Fluid, Fluid: &profiles.FluidPart{Quantity: 0.5e-3}}, "1 bottle of 0.5 L", ""},
		{profiles.Part{Kind: profiles.Fluid, Fluid: &profiles.FluidPart{Quantity: 0.8e-3}}, "2 bottles of 0.5 L", ""},
	} {
		buy := kind.Of(c.part.Kind).Buy(c.part)
		it := Item{Count: buy.Count, As: buy.As, Fluid: buy.Fluid, With: buy.With}
		if c.metric == "" {
			c.metric = c.us
		}
		if us, metric := it.Quantity(quantity.US), it.Quantity(quantity.Metric); us != c.us || metric != c.metric {
			t.Errorf("%s: %q and %q, want %q and %q", c.part.Kind, us, metric, c.us, c.metric)
		}
	}
}

// TestLateFirst: what would arrive late heads the list, with its date, and the
// checklist says to order it now. The front tires take five days.
func TestLateFirst(t *testing.T) {
	f, trip := demo(t, "juniper")
	p, err := Make(f, trip, Options{Draws: 500, Today: departure.AddDate(0, 0, -30)})
	if err != nil {
		t.Fatal(err)
	}
	it, ok := p.item("tires-rear", BuyBefore)
	if !ok || it.Late || it.OrderBy.Format(time.DateOnly) != "2027-05-08" {
		t.Errorf("rear tires: %+v", it)
	}
	late := &Plan{Depart: departure, Sets: p.Sets, Legs: p.Legs}
	late.shop(&journey{folder: f, on: kind.Fitted(f)}, departure.AddDate(0, 0, -3)) // the rotors take three days, the tires five
	if first := late.Shopping[0]; first.Set != "tires-rear" || !first.Late || late.Shopping[1].Late {
		t.Errorf("first on the list: %+v, then %+v", first, late.Shopping[1])
	}
}

// TestToolsOnce: a tool that several spares want is taken once, for all of
// them; with nothing to fit on the way and nothing watched, only the pressure
// gauge goes along.
func TestToolsOnce(t *testing.T) {
	f, trip := demo(t, "juniper")
	p := plan(t, f, trip)
	seen := map[string]int{}
	for _, tool := range p.Tools {
		seen[tool.Name]++
		if len(tool.For) == 0 {
			t.Errorf("%s for nothing", tool.Name)
		}
		if tool.Name == "jack and stands" && len(tool.For) != 2 {
			t.Errorf("%s for %v, want the front pads and the front rotors", tool.Name, tool.For)
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
	for _, tool := range plan(t, f, trip).Tools {
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
	p := plan(t, f, trip)
	if p.TopUp < 0.1999e-3 || p.TopUp > 0.2001e-3 {
		t.Errorf("top up %g L, by hand 0.2", p.TopUp*1000)
	}
	if it, ok := p.item("", BuyCarry); !ok || it.Count != 1 || !strings.Contains(it.Name, "5W-40") {
		t.Errorf("%+v", it)
	}
	f.Car.OilUse = 0
	if it, ok := plan(t, f, trip).item("", BuyCarry); ok {
		t.Errorf("nothing used, yet %+v", it)
	}
}

// TestChecksFollowFindings: what the demo finds is on its lists, and goes when
// the finding goes.
func TestChecksFollowFindings(t *testing.T) {
	f, trip := demo(t, "juniper")
	p := plan(t, f, trip)
	has := func(p *Plan, when, set string, words ...string) bool {
		for _, line := range p.said(when, set) {
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
		{kind.Before, "tires-rear", []string{"renew the rear tires", "torque", "first hour"}},
		{kind.Fuel, "tires-front", []string{"RF outside", "stop at 2.0/32 in"}},
		{kind.Session, "tires-front", []string{"RF outside", "before Quarry Ridge"}},
		{kind.Session, "pads-front", []string{"act at 3.0 mm", "stop at 2.0 mm", "spare is in the boot", "torque"}},
		{kind.Night, "pads-front", []string{"before Heron Flats day 2 (which wants"}},
		{kind.Session, "hub-LF", []string{"LF above all", "2 % chance to fail", "Quarry Ridge"}},
		{"at Alder Creek workshop", "oil", []string{"renew the engine oil"}},
	} {
		if !has(p, c.when, c.set, c.words...) {
			t.Errorf("%s, %s: nothing says %q: %q", c.when, c.set, c.words, p.said(c.when, c.set))
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
	p = plan(t, f, trip)
	for _, c := range []struct{ when, set string }{{kind.Before, "tires-rear"}, {kind.Session, "pads-front"}, {"at Alder Creek workshop", "oil"}} {
		if got := p.said(c.when, c.set); len(got) > 0 {
			t.Errorf("found in order, yet %s: %q", c.when, got)
		}
	}
}

// TestExpected: what a check says to expect is the start less the nominal
// losses, and after a renewal the new part's.
func TestExpected(t *testing.T) {
	pt := Point{Measure: PadLining, Start: 6e-3, New: 11e-3, Limit: 2e-3, Margin: 3e-3, Loss: []float64{1e-3, 2e-3, 0, 2e-3}}
	for _, c := range []struct {
		d    Decision
		want []float64 // mm
	}{
		{Decision{Action: Run, Leg: -1}, []float64{6, 5, 3, 3, 1}},
		{Decision{Action: RenewBefore, Leg: -1}, []float64{11, 10, 8, 8, 6}},
		{Decision{Action: RenewAtStop, Leg: 2}, []float64{6, 5, 3, 11, 9}},
		{Decision{Action: Carry, Leg: 1}, []float64{6, 11, 9, 9, 7}},
	} {
		got := course(Set{Decision: c.d}, pt)
		for j := range c.want {
			if d := got[j]*1000 - c.want[j]; d > 1e-9 || d < -1e-9 {
				t.Errorf("%s at %d: before leg %d %.3f mm, by hand %g", c.d.Action, c.d.Leg, j, got[j]*1000, c.want[j])
			}
		}
	}
}

// TestRenewedAndSpare: with ten times the cost of being stopped short the
// front pads are renewed and a second set carried. The one on the shelf goes
// on, the second is bought, and its tools come along.
func TestRenewedAndSpare(t *testing.T) {
	f, trip := demo(t, "juniper")
	f.Car.Costs.Stranded *= 10
	p := plan(t, f, trip)
	if d := p.set(t, "pads-front").Decision; d.Action != RenewBefore || !d.Spare || d.Shelf != 1 {
		t.Fatalf("front pads: %+v", d)
	}
	first, _ := p.item("pads-front", BuyBefore)
	second, _ := p.item("pads-front", BuyCarry)
	if !first.OnShelf || second.OnShelf || second.Price != 165 || second.OrderBy.IsZero() {
		t.Errorf("before leaving %+v, to carry %+v", first, second)
	}
	if !slices.ContainsFunc(p.Tools, func(tool Tool) bool { return tool.Name == "piston tool" && slices.Contains(tool.For, "front pads") }) {
		t.Errorf("a spare set without its tools: %+v", p.Tools)
	}
}

// TestTonight by hand: a day that takes 2 mm wants 5 mm of a pad whose margin
// is 3; a day that none follows wants nothing.
func TestTonight(t *testing.T) {
	legs := []Leg{{Kind: profiles.CircuitLeg}, {Kind: profiles.CircuitLeg}, {Kind: profiles.RoadLeg}}
	pt := Point{Measure: PadLining, Start: 9e-3, New: 11e-3, Limit: 2e-3, Margin: 3e-3, Loss: []float64{1.5e-3, 2e-3, 0}}
	s := Set{ID: "pads-front"}
	c := Check{When: kind.Night}.reads(legs, s, pt, course(s, pt))
	want := []Reading{{Leg: 1, Level: 7.5e-3, Need: 5e-3}, {Leg: 2, Level: 5.5e-3}}
	if diff := cmp.Diff(want, c.Expect, cmpopts.EquateApprox(0, 1e-12)); diff != "" {
		t.Error(diff)
	}
}

// TestTopUpTakesRoom: the oil to be added has its room in the boot before any
// spare. Two litres are two bottles of 1.2 L and 0.95 kg as packed.
func TestTopUpTakesRoom(t *testing.T) {
	f, _ := demo(t, "juniper")
	got := room(f.Car, 1.5e-3)
	want := [2]float64{(180 - 95 - 2.4) * 1e-3, 90 - 40 - 1.9}
	if diff := cmp.Diff(want, got, cmpopts.EquateApprox(0, 1e-9)); diff != "" {
		t.Error(diff)
	}
}

// TestOrderForTheNextTrip: what comes home with a tenth of its life is on the
// list for home, what comes home with half of it is not.
func TestOrderForTheNextTrip(t *testing.T) {
	p := &Plan{Sets: []Set{
		{ID: "pads-front", Name: "front pads", Kind: profiles.Pads, Decision: Decision{Action: Run, LifeEnd: 0.1}},
		{ID: "pads-rear", Name: "rear pads", Kind: profiles.Pads, Decision: Decision{Action: Run, LifeEnd: 0.5}},
	}}
	l := &checklist{p: p}
	l.home()
	p.Checks = l.out
	if got := p.said(kind.Home, "pads-front"); len(got) != 1 || !strings.Contains(got[0], "order front pads before the next trip: about 10 % of life is left") {
		t.Errorf("front pads: %q", got)
	}
	if got := p.said(kind.Home, "pads-rear"); len(got) != 0 {
		t.Errorf("rear pads: %q", got)
	}
}

// TestWholeBottles: what fills bottles to the last drop takes no further one.
func TestWholeBottles(t *testing.T) {
	oil := profiles.Part{ID: "oil", Price: 45, Oil: &profiles.OilPart{Grade: "5W-40", Quantity: 4.5e-3}}
	b := &journey{on: map[profiles.Kind]map[string]kind.At{profiles.Oil: {"engine": {Part: oil}}}}
	for litres, want := range map[float64]int{0: 0, 0.1: 1, 1: 1, 1.1: 2, 3: 3} {
		b.topUp = litres * 1e-3
		it, ok := topUpItem(b)
		if ok != (want > 0) || it.Count != want || it.Price != 10*float64(want) {
			t.Errorf("%g L: %d bottles at %g", litres, it.Count, it.Price)
		}
		if room := topUpRoom(b.topUp); want > 0 && (it.Mass != 0.95*float64(want) || room[1] != it.Mass || room[0] != it.Volume || it.Volume < 1e-3*float64(want)) {
			t.Errorf("%g L: takes %g m3 and %g kg, kept free %v", litres, it.Volume, it.Mass, room)
		}
	}
	for litres, want := range map[float64]int{0: 1, 0.5: 1, 0.51: 2, 1: 2, 1.5: 3} {
		it := kind.Fluid.Buy(profiles.Part{Kind: profiles.Fluid, Fluid: &profiles.FluidPart{Quantity: quantity.Volume(litres * 1e-3)}})
		if it.Count != want {
			t.Errorf("%g L of fluid: %d bottles", litres, it.Count)
		}
	}
}

// TestToPay: what lies on the shelf is paid already, and each occasion adds up
// by itself.
func TestToPay(t *testing.T) {
	got := totals([]Item{{Buy: BuyCarry, Price: 30}, {Buy: BuyBefore, Price: 100}, {Buy: BuyBefore, Price: 7, OnShelf: true}, {Buy: BuyBefore, Price: 20}})
	if diff := cmp.Diff([]Total{{Buy: BuyBefore, Price: 120}, {Buy: BuyCarry, Price: 30}}, got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

// TestWhereItIsBought: what is on the shelf comes along to a stop; otherwise the
// stop's counter serves, where it has one.
func TestWhereItIsBought(t *testing.T) {
	legs := []Leg{{Can: []string{"shop", "parts"}}, {Can: []string{"shop"}}}
	for _, c := range []struct {
		d    Decision
		want []string
	}{
		{Decision{Action: Run}, nil},
		{Decision{Action: Watch}, nil},
		{Decision{Action: DoNotTake}, nil},
		{Decision{Action: Carry}, []string{BuyCarry}},
		{Decision{Action: RenewBefore}, []string{BuyBefore}},
		{Decision{Action: RenewBefore, Spare: true}, []string{BuyBefore, BuyCarry}},
		{Decision{Action: RenewAtStop, Leg: 0}, []string{BuyOnTheWay}},
		{Decision{Action: RenewAtStop, Leg: 0, Shelf: 1}, []string{BuyCarry}},
		{Decision{Action: RenewAtStop, Leg: 1}, []string{BuyCarry}},
	} {
		if diff := cmp.Diff(c.want, needs(c.d, legs)); diff != "" {
			t.Errorf("%+v:\n%s", c.d, diff)
		}
	}
}

// TestBootToTheBrim: what fills the boot to the last litre and kilogram fits, a
// litre or a kilogram more does not. Luggage is in it first.
func TestBootToTheBrim(t *testing.T) {
	var car profiles.Car
	car.Boot.Volume, car.Boot.Payload = 96, 64
	car.Luggage.Volume, car.Luggage.Mass = 32, 24
	for _, c := range []struct {
		volume, mass float64
		fits         bool
	}{{64, 40, true}, {65, 40, false}, {64, 41, false}, {0, 0, true}} {
		b := load([]Item{{Volume: c.volume / 4, Mass: c.mass / 2}, {Volume: c.volume * 3 / 4, Mass: c.mass / 2}}, car)
		if b.Fits != c.fits || b.Volume != 64 || b.Payload != 40 || b.UsedVolume != c.volume || b.UsedMass != c.mass {
			t.Errorf("%g and %g: %+v", c.volume, c.mass, b)
		}
	}
}

// TestOilWithoutAQuantity: oil to be added that has no size of fill has no
// price, rather than one without end.
func TestOilWithoutAQuantity(t *testing.T) {
	oil := profiles.Part{ID: "oil", Price: 45, Oil: &profiles.OilPart{Grade: "5W-40"}}
	b := &journey{topUp: 1e-3, on: map[profiles.Kind]map[string]kind.At{profiles.Oil: {"engine": {Part: oil}}}}
	if it, ok := topUpItem(b); !ok || it.Count != 1 || it.Price != 0 {
		t.Errorf("%+v, %v", it, ok)
	}
}
