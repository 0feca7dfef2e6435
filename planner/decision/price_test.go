package decision

import (
	"math"
	"testing"
	"time"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/projection"
	"example.com/tripwear/planner/trip"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
)

// choosing is a set of two points, with half of its life left at the worse
// one, on a trip of road, circuit, circuit, road.
func choosing(k profiles.Kind) chooser {
	s := &projection.Set{Spec: kind.Of(k), Set: plan.Set{Kind: k, Critical: true}, FitAt: []string{"home", "shop", "paddock"}}
	s.Levels = []projection.Level{{Point: plan.Point{New: 10, Start: 8, Limit: 2}}, {Point: plan.Point{New: 10, Start: 6, Limit: 2}}}
	f := &profiles.Folder{}
	f.Car.Costs = profiles.Costs{Stranded: 1000, Hour: 40, Shop: 130}
	return chooser{
		set: s, way: &trip.Journey{Folder: f, Legs: []plan.Leg{
			{Kind: profiles.RoadLeg}, {Kind: profiles.CircuitLeg}, {Kind: profiles.CircuitLeg}, {Kind: profiles.RoadLeg},
		}},
		part:   profiles.Part{Price: 100, Hours: 3600, LeadTime: 2 * 86400, Volume: 3, Weight: 4},
		asIs:   unnoticed([]plan.Band{{P50: 1.25}, {P50: 0.25}, {P50: 0.125}, {P50: -0.5}}, 1, 1),
		safety: profiles.Safety{Cap: 0.0625, Run: 0.125},
	}
}

// TestPrice by hand: a part of 100 that takes an hour, an owner's hour at 40,
// a shop's at 130, being stopped short 1000.
func TestPrice(t *testing.T) {
	home, stop, away := homeSite, 1, noSite
	for _, c := range []struct {
		what  string
		kind  profiles.Kind
		op    option
		want  float64
		labor float64
		site  int
	}{
		{"nothing is done", profiles.Pads, option{Decision: plan.Decision{Action: plan.Run, POut: 0.125}}, 125, 0, away},
		{"half a life thrown away at home, 2 h at 40, ordered", profiles.Pads,
			option{Decision: plan.Decision{Action: plan.ReplaceBefore}, hours: 7200, rate: 40, bought: 1}, 50 + 80 + 10, 80, home},
		{"the same from the shelf", profiles.Pads,
			option{Decision: plan.Decision{Action: plan.ReplaceBefore}, hours: 7200, rate: 40}, 50 + 80, 80, home},
		{"a quarter left at the stop, half an hour at 130", profiles.Pads,
			option{Decision: plan.Decision{Action: plan.ReplaceAtStop, Leg: 1, POut: 0.25}, hours: 1800, rate: 130, bought: 1}, 250 + 25 + 65 + 10, 65, stop},
		{"more than new is not left", profiles.Pads, option{Decision: plan.Decision{Action: plan.ReplaceAtStop}}, 100, 0, 0},
		{"less than nothing is not left", profiles.Pads, option{Decision: plan.Decision{Action: plan.ReplaceAtStop, Leg: 3}}, 0, 0, 3},
		{"brought, for use in one case of four: 2 h in the paddock at need, half an hour to pack, 15 where it comes home unused, an errand", profiles.Pads,
			option{Decision: plan.Decision{Action: plan.Bring, Leg: -1, PNeed: 0.25}, bought: 1}, 0.25*80 + 20 + 0.75*15 + 10, 0, away},
		{"the same from the shelf costs nothing unused", profiles.Pads,
			option{Decision: plan.Decision{Action: plan.Bring, Leg: -1, PNeed: 0.25}}, 0.25*80 + 20, 0, away},
		{"brought and put on before leg 3 with a quarter left", profiles.Pads,
			option{Decision: plan.Decision{Action: plan.Bring, Leg: 2, PNeed: 1}, bought: 1, thrown: 0.25}, 25 + 80 + 20 + 10, 0, away},
		{"replaced at home with a spare beside it", profiles.Pads,
			option{Decision: plan.Decision{Action: plan.ReplaceBefore, Spare: true, PNeed: 0.5}, hours: 3600, rate: 40, bought: 2}, 50 + 40 + 20 + 40 + 20 + 0.5*15, 40, home},
		{"oil past its interval in half the cases is worth a fill, twice over", profiles.Oil,
			option{Decision: plan.Decision{Action: plan.Run}, margin: 0.5}, 100, 0, away},
		{"of pads the margin costs nothing", profiles.Pads, option{Decision: plan.Decision{Action: plan.Run}, margin: 0.5}, 0, 0, away},
	} {
		op := c.op
		op.site = c.site
		choosing(c.kind).price(&op)
		if math.Abs(op.Cost-c.want) > 1e-9 || math.Abs(op.Labor-c.labor) > 1e-9 {
			t.Errorf("%s: costs %g, labor %g; by hand %g and %g", c.what, op.Cost, op.Labor, c.want, c.labor)
		}
	}
	worn := choosing(profiles.Pads)
	worn.set.Levels[1].Start = 1
	if got := worn.lifeLeft(-1); got != 0 {
		t.Errorf("below its limit it has %g left", got)
	}
	for leg, want := range map[int]float64{0: 1, 1: 0.25, 2: 0.125, 3: 0} {
		if got := choosing(profiles.Pads).lifeLeft(leg); got != want {
			t.Errorf("after leg %d: %g left, want %g", leg+1, got, want)
		}
	}
}

// TestOrderFor by hand, on a calendar: May 13, 2027 is a Thursday, May 15 a
// Saturday, May 17 a Monday.
func TestOrderFor(t *testing.T) {
	home, shop := []string{"shop", "home"}, []string{"shop"}
	for _, c := range []struct {
		what            string
		depart, lead    int // of May; days
		kind            profiles.Kind
		fit             []string
		hours           int
		buy             string
		by, there, when string // "" is the departure itself
	}{
		{"a spare is there on Wednesday, Tuesday and Monday to come", 13, 2, profiles.Pads, home, 1, plan.BuyBring, "Mon 10", "Wed 12", "to be packed"},
		{"a hub is fitted on Wednesday evening", 13, 2, profiles.Bearing, home, 2, plan.BuyBefore, "Mon 10", "Wed 12", "to be fitted at home"},
		{"pads are fitted on Tuesday, bedded in on Wednesday", 13, 2, profiles.Pads, home, 1, plan.BuyBefore, "Fri 7", "Tue 11", "to be fitted at home and bedded in"},
		{"tires come on Tuesday, the shop has Wednesday", 13, 5, profiles.Tire, shop, 2, plan.BuyBefore, "Tue 4", "Tue 11", "to be fitted at a shop"},
		{"six hours are two evenings", 13, 2, profiles.Bearing, home, 6, plan.BuyBefore, "Fri 7", "Tue 11", "to be fitted at home"},
		{"off on Monday: a spare comes on Friday", 17, 1, profiles.Pads, home, 1, plan.BuyBring, "Thu 13", "Fri 14", "to be packed"},
		{"off on Monday: pads come on Friday, have the weekend", 17, 1, profiles.Pads, home, 1, plan.BuyBefore, "Thu 13", "Fri 14", "to be fitted at home and bedded in"},
		{"off on Monday: the shop has Friday, tires come on Thursday", 17, 1, profiles.Tire, shop, 2, plan.BuyBefore, "Wed 12", "Thu 13", "to be fitted at a shop"},
		{"off on Saturday: the shop has Thursday, rotors are bedded in on Friday", 15, 1, profiles.Rotors, shop, 2, plan.BuyBefore, "Tue 11", "Wed 12", "to be fitted at a shop and bedded in"},
		{"ten hours are two days of a shop", 13, 1, profiles.Tire, shop, 10, plan.BuyBefore, "Fri 7", "Mon 10", "to be fitted at a shop"},
		{"over a counter there is nothing to order", 13, 0, profiles.Oil, home, 1, plan.BuyBefore, "Thu 13", "Thu 13", ""},
	} {
		part := profiles.Part{Kind: c.kind, Fit: c.fit, Hours: quantity.Duration(c.hours * 3600), LeadTime: quantity.Duration(c.lead * 86400)}
		o := OrderFor(time.Date(2027, 5, c.depart, 0, 0, 0, 0, time.UTC), part, c.buy)
		if by, there := o.By.Format("Mon 2"), o.There.Format("Mon 2"); by != c.by || there != c.there || o.For != c.when {
			t.Errorf("%s: order by %s, there by %s %s; by hand %s, %s %s", c.what, by, there, o.For, c.by, c.there, c.when)
		}
	}
}

// TestOrderedTooLate: on the last day to order, Friday May 7, it is not yet late.
func TestOrderedTooLate(t *testing.T) {
	c := choosing(profiles.Pads)
	c.part.Kind, c.part.Fit = profiles.Pads, []string{"home"}
	departure := time.Date(2027, 5, 13, 0, 0, 0, 0, time.UTC)
	last := time.Date(2027, 5, 7, 0, 0, 0, 0, time.UTC)
	on := plan.Decision{Action: plan.ReplaceBefore}
	spare := plan.Decision{Action: plan.ReplaceBefore, Spare: true, Shelf: 1}
	for _, row := range []struct {
		today, depart time.Time
		op            option
		late          bool
	}{
		{last, departure, option{Decision: on, bought: 1}, false},
		{last.Add(23 * time.Hour), departure, option{Decision: on, bought: 1}, false},
		{last.AddDate(0, 0, 1), departure, option{Decision: on, bought: 1}, true},
		{last.AddDate(0, 0, 1), departure, option{Decision: spare, bought: 1}, false}, // what lies on the shelf goes on
		{last.AddDate(0, 0, 3), departure, option{Decision: spare, bought: 1}, false},
		{last.AddDate(0, 0, 4), departure, option{Decision: spare, bought: 1}, true},
		{last.AddDate(0, 0, 1), departure, option{Decision: on, bought: 0}, false},
		{last.AddDate(0, 0, 1), departure, option{Decision: on, bought: 1, counter: true}, false},
		{time.Time{}, departure, option{Decision: on, bought: 1}, false},
		{last.AddDate(0, 0, 1), time.Time{}, option{Decision: on, bought: 1}, false},
	} {
		c.today, c.way.Depart = row.today, row.depart
		if got := c.orderedTooLate(&row.op); got != row.late {
			t.Errorf("today %v, departure %v, %d to buy: late %v", row.today, row.depart, row.op.bought, got)
		}
	}
}
