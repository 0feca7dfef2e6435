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
)

// choosing is a set of two points, with half of its life left at the worse
// one, on a trip of road, circuit, circuit, road.
func choosing(k profiles.Kind) chooser {
	s := &projection.Set{Spec: kind.Of(k), Set: plan.Set{Kind: k, Critical: true, Caught: 0.5}, FitAt: []string{"home", "shop", "paddock"}}
	s.Levels = []projection.Level{{Point: plan.Point{New: 10, Start: 8, Limit: 2}}, {Point: plan.Point{New: 10, Start: 6, Limit: 2}}}
	f := &profiles.Folder{}
	f.Car.Costs = profiles.Costs{Stranded: 1000, Hour: 40, Shop: 130}
	return chooser{
		set: s, way: &trip.Journey{Folder: f, Legs: []plan.Leg{
			{Kind: profiles.RoadLeg}, {Kind: profiles.CircuitLeg}, {Kind: profiles.CircuitLeg}, {Kind: profiles.RoadLeg},
		}},
		part:   profiles.Part{Price: 100, Hours: 3600, LeadTime: 2 * oneDay, Volume: 3, Weight: 4},
		asIs:   []plan.Band{{P50: 1.25}, {P50: 0.25}, {P50: 0.125}, {P50: -0.5}},
		safety: profiles.Safety{Cap: 0.0625, Run: 0.125},
	}
}

// TestPrice by hand: a part of 100 that takes an hour, an owner's hour at 40,
// a workshop's at 130, being stopped short 1000.
func TestPrice(t *testing.T) {
	home, stop, away := homeSite, 1, noSite
	for _, c := range []struct {
		what     string
		kind     profiles.Kind
		op       option
		want     float64
		labor    float64
		occasion int
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
		{"carried, for use in one case of four: 2 h in the paddock at need, half an hour to pack, 15 tied up otherwise, an errand", profiles.Pads,
			option{Decision: plan.Decision{Action: plan.Bring, Leg: -1, PNeed: 0.25}, bought: 1}, 0.25*80 + 20 + 0.75*15 + 10, 0, away},
		{"the same from the shelf ties up nothing", profiles.Pads,
			option{Decision: plan.Decision{Action: plan.Bring, Leg: -1, PNeed: 0.25}}, 0.25*80 + 20, 0, away},
		{"carried and put on before leg 3 with a quarter left", profiles.Pads,
			option{Decision: plan.Decision{Action: plan.Bring, Leg: 2, PNeed: 1}, bought: 1}, 25 + 80 + 20 + 10, 0, away},
		{"renewed at home with a spare beside it", profiles.Pads,
			option{Decision: plan.Decision{Action: plan.ReplaceBefore, Spare: true, PNeed: 0.5}, hours: 3600, rate: 40, bought: 2}, 50 + 40 + 20 + 40 + 20 + 0.5*15, 40, home},
		{"oil past its interval in half the cases is worth a fill, twice over", profiles.Oil,
			option{Decision: plan.Decision{Action: plan.Run}, margin: 0.5}, 100, 0, away},
		{"of pads the margin costs nothing", profiles.Pads, option{Decision: plan.Decision{Action: plan.Run}, margin: 0.5}, 0, 0, away},
	} {
		op := c.op
		op.site = c.occasion
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
	for leg, want := range map[int]float64{-1: 0, 0: 0, 1: 1, 2: 0.25, 3: 0.125} {
		if got := choosing(profiles.Pads).thrown(leg); got != want {
			t.Errorf("changed before leg %d: %g thrown away, want %g", leg+1, got, want)
		}
	}
}

// TestOrderBy: two days before departure, and on that day it is not yet late.
func TestOrderBy(t *testing.T) {
	c := choosing(profiles.Pads)
	c.way.Depart = departure
	last := departure.AddDate(0, 0, -2)
	if got := OrderBy(departure, c.part); !got.Equal(last) {
		t.Errorf("order by %v, want %v", got, last)
	}
	for _, row := range []struct {
		today, depart time.Time
		op            option
		late          bool
	}{
		{last, departure, option{bought: 1}, false},
		{last.Add(time.Minute), departure, option{bought: 1}, true},
		{last.Add(time.Minute), departure, option{bought: 0}, false},
		{last.Add(time.Minute), departure, option{bought: 1, counter: true}, false},
		{time.Time{}, departure, option{bought: 1}, false},
		{last.Add(time.Minute), time.Time{}, option{bought: 1}, false},
	} {
		c.today, c.way.Depart = row.today, row.depart
		if got := c.orderedTooLate(&row.op); got != row.late {
			t.Errorf("today %v, departure %v, %d to buy: late %v", row.today, row.depart, row.op.bought, got)
		}
	}
}

// TestBarred: what is at the cap is allowed; what was found allows a new set
// alone, and not even that where it cures nothing.
func TestBarred(t *testing.T) {
	for _, row := range []struct {
		unsafe      float64
		action      plan.Action
		stop, final bool
		want        string
	}{
		{0.0625, plan.Run, false, false, ""},
		{0.0626, plan.Run, false, false, "unsafe"},
		{0, plan.Run, true, false, "found"},
		{0, plan.ReplaceAtStop, true, false, "found"},
		{0, plan.ReplaceBefore, true, false, ""},
		{0, plan.ReplaceBefore, true, true, "found"},
		{0, plan.ReplaceBefore, false, true, ""},
	} {
		c := choosing(profiles.Pads)
		c.set.RepairFirst = row.final
		if row.stop {
			c.set.Stop = []string{"LF: play"}
		}
		op := option{Decision: plan.Decision{Action: row.action, PUnsafe: row.unsafe}}
		c.ruleOut(&op)
		if op.ruledOut != row.want {
			t.Errorf("%+v: barred %q", row, op.ruledOut)
		}
	}
}

// TestStay: at the tolerated chance and at an even chance of the margin the
// set runs; above either, or where something was seen, it is watched.
func TestStay(t *testing.T) {
	for _, row := range []struct {
		limit, margin float64
		watched       bool
		want          plan.Action
	}{
		{0.125, 0.5, false, plan.Run},
		{0.126, 0.5, false, plan.Watch},
		{0.125, 0.51, false, plan.Watch},
		{0, 0, true, plan.Watch},
	} {
		c := choosing(profiles.Pads)
		c.set.Watched = row.watched
		c.asIs[3] = plan.Band{P50: 0.75, PLimit: row.limit, PMargin: row.margin}
		op := c.asItIs()
		if op.Action != row.want || op.POut != row.limit || op.PUnsafe != row.limit/2 || op.LifeEnd != 0.75 || op.Leg != -1 || op.site != noSite {
			t.Errorf("%+v: %+v", row, op)
		}
	}
	oil := choosing(profiles.Oil)
	oil.set.Critical = false
	if got := oil.unsafe(1); got != 0 {
		t.Errorf("oil past its ceiling endangers with %g", got)
	}
}

// TestCarry: the spare goes on at the margin, at the latest in the paddock
// before the leg that would leave more than the cap (1 in 16 unnoticed, so 1 in
// 8 with every other crossing caught) to chance.
func TestCarry(t *testing.T) {
	road, circuit, stop := plan.Leg{Kind: profiles.RoadLeg}, plan.Leg{Kind: profiles.CircuitLeg}, plan.Leg{Kind: profiles.StopLeg}
	for _, row := range []struct {
		what   string
		legs   []plan.Leg
		limits []float64 // chance that the limit was crossed by the end of each leg
		ok     bool
		leg    int     // that it goes on before
		from   int     // what the spare has to last from
		stuck  float64 // crossings on the road, away from the paddock
		missed float64 // crossings before the change
	}{
		{"at the tolerated chance nothing is carried", []plan.Leg{road, circuit, road}, []float64{0, 0.0625, 0.0625}, false, 0, 0, 0, 0},
		{"above it only if the checks call for it", []plan.Leg{road, circuit, road}, []float64{0.01, 0.09375, 0.125}, true, -1, 1, 0.01 + 0.03125, 0.125},
		{"over the cap on the second day", []plan.Leg{road, circuit, circuit, road}, []float64{0.01, 0.125, 0.25, 0.5}, true, 2, 2, 0.01, 0.125},
		{"over the cap on the way home: on in the paddock before it", []plan.Leg{road, circuit, circuit, road}, []float64{0.01, 0.02, 0.125, 0.5}, true, 3, 3, 0.01, 0.125},
		{"over it on a road after a road: on before the circuit day", []plan.Leg{road, circuit, road, road}, []float64{0.01, 0.02, 0.125, 0.5}, true, 2, 2, 0.01, 0.02},
		{"a stop is a paddock too", []plan.Leg{road, stop, road, road}, []float64{0.01, 0.01, 0.125, 0.5}, true, 2, 2, 0.01, 0.01},
		{"over it before any paddock", []plan.Leg{road, road, circuit}, []float64{0.01, 0.25, 0.5}, false, 0, 0, 0, 0},
		{"over it on the first leg", []plan.Leg{circuit, circuit}, []float64{0.25, 0.5}, false, 0, 0, 0, 0},
		{"needed on the first leg, a circuit", []plan.Leg{circuit, road}, []float64{0.09375, 0.125}, true, -1, 0, 0.03125, 0.125},
		{"needed on the first leg, a road", []plan.Leg{road, circuit}, []float64{0.09375, 0.125}, true, -1, 0, 0.09375, 0.125},
		{"needed on a road: the spare has to last from the paddock before it", []plan.Leg{road, circuit, road, road}, []float64{0, 0, 0, 0.125}, true, -1, 2, 0.125, 0.125},
	} {
		c := choosing(profiles.Pads)
		c.safety.Run = 0.0625
		c.way.Legs = row.legs
		var usages []trip.Usage
		for _, l := range row.legs {
			usages = append(usages, trip.Usage{Circuit: l.Kind == profiles.CircuitLeg})
		}
		worn := wearing("carried", 1, usages)
		worn.Caught, worn.FitAt = 0.5, []string{"paddock"}
		c.set, c.w = worn, projection.NewWorker(projection.NewDraws(200, 5), usages)
		bands := make([]plan.Band, len(row.limits))
		for j, p := range row.limits {
			bands[j].PLimit = p
		}
		op, ok := c.bring(bands)
		if ok != row.ok {
			t.Errorf("%s: carried %v", row.what, ok)
			continue
		}
		if !ok {
			continue
		}
		after := c.newSet(row.from)[c.last()]
		need := 1.0
		if row.leg < 0 {
			need = row.limits[c.last()]
		}
		out, unsafe := 1-(1-row.stuck)*(1-after.PLimit), (1-(1-row.missed)*(1-after.PLimit))/2
		if op.Leg != row.leg || op.PNeed != need || math.Abs(op.POut-out) > 1e-12 || math.Abs(op.PUnsafe-unsafe) > 1e-12 || math.Abs(op.LifeEnd-after.P50) > 1e-9 {
			t.Errorf("%s: before leg %d, needed %g, out %g, unsafe %g; want %d, %g, %g, %g", row.what, op.Leg+1, op.PNeed, op.POut, op.PUnsafe, row.leg+1, need, out, unsafe)
		}
		if op.size != [2]float64{3, 4} || op.site != noSite || op.Action != plan.Bring {
			t.Errorf("%s: %+v", row.what, op)
		}
		c.set.Caught = 0
		if _, ok := c.bring(bands); ok {
			t.Errorf("%s: carried, though no check would call for it", row.what)
		}
	}
}
