package lists

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/trip"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
)

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

// TestExpected: what a check says to expect is the start less the nominal
// losses, and after a renewal the new part's.
func TestExpected(t *testing.T) {
	pt := plan.Point{Measure: kind.PadLining, Start: 6e-3, New: 11e-3, Limit: 2e-3, Margin: 3e-3, Loss: []float64{1e-3, 2e-3, 0, 2e-3}}
	for _, c := range []struct {
		d    plan.Decision
		want []float64 // mm
	}{
		{plan.Decision{Action: plan.Run, Leg: -1}, []float64{6, 5, 3, 3, 1}},
		{plan.Decision{Action: plan.ReplaceBefore, Leg: -1}, []float64{11, 10, 8, 8, 6}},
		{plan.Decision{Action: plan.ReplaceAtStop, Leg: 2}, []float64{6, 5, 3, 11, 9}},
		{plan.Decision{Action: plan.Bring, Leg: 1}, []float64{6, 5, 3, 3, 1}},
	} {
		got := course(plan.Set{Decision: c.d}, pt)
		for j := range c.want {
			if d := got[j]*1000 - c.want[j]; d > 1e-9 || d < -1e-9 {
				t.Errorf("%s at %d: before leg %d %.3f mm, by hand %g", c.d.Action, c.d.Leg, j, got[j]*1000, c.want[j])
			}
		}
	}
}

// TestExpectedOfASpare by hand: told of once it may be on, as new until half of
// those that go on are, and worn from there.
func TestExpectedOfASpare(t *testing.T) {
	pt := plan.Point{New: 11e-3, Limit: 2e-3, Loss: []float64{1e-3, 2e-3, 0, 2e-3}}
	for _, c := range []struct {
		d    plan.Decision
		want []float64 // mm
	}{
		{plan.Decision{Action: plan.Run}, []float64{0, 0, 0, 0, 0}},
		{plan.Decision{Action: plan.Bring, Leg: 1, PNeed: 1, On: []float64{0, 1, 1, 1, 1}}, []float64{0, 11, 9, 9, 7}},
		{plan.Decision{Action: plan.Bring, Leg: 3, PNeed: 1, On: []float64{0, 0.09, 0.2, 1, 1}}, []float64{0, 0, 11, 11, 9}},
		{plan.Decision{Action: plan.Bring, Leg: -1, PNeed: 0.3, On: []float64{0, 0.1, 0.2, 0.2, 0.3}}, []float64{0, 11, 11, 11, 9}},
		{plan.Decision{Action: plan.Bring, Leg: -1, PNeed: 0.05, On: []float64{0, 0, 0, 0, 0.05}}, []float64{0, 0, 0, 0, 0}},
	} {
		for j, got := range spareCourse(plan.Set{Decision: c.d}, pt) {
			if d := got*1000 - c.want[j]; d > 1e-9 || d < -1e-9 {
				t.Errorf("%+v: before leg %d %.3f mm, by hand %g", c.d, j, got*1000, c.want[j])
			}
		}
	}
}

// TestTonight: after a circuit day stands what the next one needs, where the
// decision knows it; a day that none follows needs nothing.
func TestTonight(t *testing.T) {
	legs := []plan.Leg{{Kind: profiles.CircuitLeg}, {Kind: profiles.CircuitLeg}, {Kind: profiles.RoadLeg}}
	pt := plan.Point{Measure: kind.PadLining, Start: 9e-3, New: 11e-3, Limit: 2e-3, Margin: 3e-3, Loss: []float64{1.5e-3, 2e-3, 0}}
	s := plan.Set{ID: "pads-front", Decision: plan.Decision{Days: []plan.Need{{Leg: 1, Under: 5e-3}}}}
	c := reads(plan.Check{When: kind.Night, Before: []int{1, 2}}, legs, s, pt, course(s, pt))
	want := []plan.Reading{{Leg: 1, Level: 7.5e-3, Need: 5e-3}, {Leg: 2, Level: 5.5e-3}}
	if diff := cmp.Diff(want, c.Expect, cmpopts.EquateApprox(0, 1e-12)); diff != "" {
		t.Error(diff)
	}
}

// TestOrderForTheNextTrip: what comes home with a tenth of its life is on the
// list for home, what comes home with half of it is not.
func TestOrderForTheNextTrip(t *testing.T) {
	p := &plan.Plan{Sets: []plan.Set{
		{ID: "pads-front", Name: "front pads", Kind: profiles.Pads, Decision: plan.Decision{Action: plan.Run, LifeEnd: 0.1}},
		{ID: "pads-rear", Name: "rear pads", Kind: profiles.Pads, Decision: plan.Decision{Action: plan.Run, LifeEnd: 0.5}},
	}}
	l := &checklist{p: p, f: &profiles.Folder{}}
	l.home()
	p.Checks = l.out
	if got := saidOf(p, kind.Home, "pads-front"); len(got) != 1 || !strings.Contains(got[0], "order front pads before the next trip: about 10 % of life is left") {
		t.Errorf("front pads: %q", got)
	}
	if got := saidOf(p, kind.Home, "pads-rear"); len(got) != 0 {
		t.Errorf("rear pads: %q", got)
	}
}

// TestWholeBottles: what fills bottles to the last drop takes no further one.
func TestWholeBottles(t *testing.T) {
	oil := profiles.Part{ID: "oil", Price: 45, Oil: &profiles.OilPart{Grade: "5W-40", Quantity: 4.5e-3}}
	b := &trip.Journey{On: map[profiles.Kind]map[string]kind.At{profiles.Oil: {"engine": {Part: oil}}}}
	for liters, want := range map[float64]int{0: 0, 0.1: 1, 1: 1, 1.1: 2, 3: 3} {
		b.TopUp = liters * 1e-3
		it, ok := topUpItem(b)
		if ok != (want > 0) || it.Count != want || it.Price != 10*float64(want) {
			t.Errorf("%g L: %d bottles at %g", liters, it.Count, it.Price)
		}
		if room := trip.TopUpRoom(b.TopUp); want > 0 && (it.Mass != 0.95*float64(want) || room[1] != it.Mass || room[0] != it.Volume || it.Volume < 1e-3*float64(want)) {
			t.Errorf("%g L: takes %g m3 and %g kg, kept free %v", liters, it.Volume, it.Mass, room)
		}
	}
	for liters, want := range map[float64]int{0: 1, 0.5: 1, 0.51: 2, 1: 2, 1.5: 3} {
		it := kind.Fluid.Buy(profiles.Part{Kind: profiles.Fluid, Fluid: &profiles.FluidPart{Quantity: quantity.Volume(liters * 1e-3)}})
		if it.Count != want {
			t.Errorf("%g L of fluid: %d bottles", liters, it.Count)
		}
	}
}

// TestToPay: what lies on the shelf is paid already, and each occasion adds up
// by itself.
func TestToPay(t *testing.T) {
	got := totals([]plan.Item{{Buy: plan.BuyBring, Price: 30}, {Buy: plan.BuyBefore, Price: 100}, {Buy: plan.BuyBefore, Price: 7, OnShelf: true}, {Buy: plan.BuyBefore, Price: 20}})
	if diff := cmp.Diff([]plan.Total{{Buy: plan.BuyBefore, Price: 120}, {Buy: plan.BuyBring, Price: 30}}, got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

// TestBootToTheBrim: what fills the boot to the last liter and kilogram fits, a
// liter or a kilogram more does not. Luggage is in it first.
func TestBootToTheBrim(t *testing.T) {
	var car profiles.Car
	car.Boot.Volume, car.Boot.Payload = 96, 64
	car.Luggage.Volume, car.Luggage.Mass = 32, 24
	for _, c := range []struct {
		volume, mass float64
		fits         bool
	}{{64, 40, true}, {65, 40, false}, {64, 41, false}, {0, 0, true}} {
		b := load([]plan.Item{{Volume: c.volume / 4, Mass: c.mass / 2}, {Volume: c.volume * 3 / 4, Mass: c.mass / 2}}, car)
		if b.Fits != c.fits || b.Volume != 64 || b.Payload != 40 || b.UsedVolume != c.volume || b.UsedMass != c.mass {
			t.Errorf("%g and %g: %+v", c.volume, c.mass, b)
		}
	}
}

// TestOilWithoutAQuantity: oil to be added that has no size of fill has no
// price, rather than one without end.
func TestOilWithoutAQuantity(t *testing.T) {
	oil := profiles.Part{ID: "oil", Price: 45, Oil: &profiles.OilPart{Grade: "5W-40"}}
	b := &trip.Journey{TopUp: 1e-3, On: map[profiles.Kind]map[string]kind.At{profiles.Oil: {"engine": {Part: oil}}}}
	if it, ok := topUpItem(b); !ok || it.Count != 1 || it.Price != 0 {
		t.Errorf("%+v, %v", it, ok)
	}
}
