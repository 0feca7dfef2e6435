package decision

import (
	"math"
	"testing"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/projection"
	"example.com/tripwear/planner/trip"
	"example.com/tripwear/profiles"
)

// TestRuledOut: what is at the cap is allowed; what was found allows a new set
// alone, and not even that where it cures nothing.
func TestRuledOut(t *testing.T) {
	for _, row := range []struct {
		unsafe      float64
		action      plan.Action
		stop, final bool
		want        plan.Bind
	}{
		{0.0625, plan.Run, false, false, ""},
		{0.0626, plan.Run, false, false, plan.BindCap},
		{0, plan.Run, true, false, plan.BindFound},
		{0, plan.ReplaceAtStop, true, false, plan.BindFound},
		{0, plan.ReplaceBefore, true, false, ""},
		{0, plan.ReplaceBefore, true, true, plan.BindFound},
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
			t.Errorf("%+v: ruled out for %q", row, op.ruledOut)
		}
	}
}

// TestAsItIs: under the tolerated chance, by as much as is printed, and at an
// even chance of the margin the set runs; above either, or where something was
// seen, it is watched. So two hubs of about 2 % have one word.
func TestAsItIs(t *testing.T) {
	for _, row := range []struct {
		limit, margin, unseen float64 // unseen: share of crossings that nobody would notice where the set is not watched
		watched               bool
		want                  plan.Action
	}{
		{0.119, 0.5, 0.5, false, plan.Run},
		{0.121, 0.5, 0.5, false, plan.Watch},
		{0.129, 0.5, 0.5, false, plan.Watch},
		{0.119, 0.51, 0.5, false, plan.Watch},
		{0, 0, 0.5, true, plan.Watch},
		{0.0626, 0, 1, false, plan.Watch},
	} {
		c := choosing(profiles.Pads)
		c.set.Watched = row.watched
		c.asIs.bands[3] = plan.Band{P50: 0.75, PLimit: row.limit, PMargin: row.margin}
		c.asIs = unnoticed(c.asIs.bands, row.unseen, 0.25)
		op := c.asItIs()
		share := row.unseen
		if row.want == plan.Watch {
			share = 0.25
		}
		if op.Action != row.want || op.Watched != (row.want == plan.Watch) || op.POut != row.limit || op.PUnsafe != row.limit*share || op.LifeEnd != 0.75 || op.Leg != -1 || op.site != noSite {
			t.Errorf("%+v: %+v", row, op)
		}
	}
	oil := choosing(profiles.Oil)
	oil.set.Critical = false
	if got := oil.outlook(oil.set, 0, []plan.Band{{}, {}, {}, {PLimit: 1}}).atEnd(false); got != 0 {
		t.Errorf("oil past its ceiling endangers with %g", got)
	}
}

// TestBring: the spare goes on at the latest in the paddock before the leg that
// would leave more than the cap (1 in 16 unnoticed, so 1 in 8 with every other
// crossing caught) to chance.
func TestBring(t *testing.T) {
	road, circuit, stop := plan.Leg{Kind: profiles.RoadLeg}, plan.Leg{Kind: profiles.CircuitLeg}, plan.Leg{Kind: profiles.StopLeg}
	for _, row := range []struct {
		what   string
		legs   []plan.Leg
		limits []float64 // chance that the limit was crossed by the end of each leg
		ok     bool
		leg    int  // that it goes on before
		worn   bool // it is, more than the chances say
	}{
		{"under the tolerated chance nothing is brought", []plan.Leg{road, circuit, road}, []float64{0, 0.0574, 0.0574}, false, 0, false},
		{"above it only if the checks call for it", []plan.Leg{road, circuit, road}, []float64{0.01, 0.09375, 0.125}, true, -1, false},
		{"over the cap on the second day", []plan.Leg{road, circuit, circuit, road}, []float64{0.01, 0.125, 0.25, 0.5}, true, 2, false},
		{"over the cap on the way home: on in the paddock before it", []plan.Leg{road, circuit, circuit, road}, []float64{0.01, 0.02, 0.125, 0.5}, true, 3, false},
		{"the same, worn: not over the cap any more a day earlier", []plan.Leg{road, circuit, circuit, road}, []float64{0.01, 0.02, 0.125, 0.5}, true, 2, true},
		{"over it on a road after a road: on before the circuit day", []plan.Leg{road, circuit, road, road}, []float64{0.01, 0.02, 0.125, 0.5}, true, 2, false},
		{"a stop is a paddock too", []plan.Leg{road, stop, road, road}, []float64{0.01, 0.01, 0.125, 0.5}, true, 2, false},
		{"over it before any paddock", []plan.Leg{road, road, circuit}, []float64{0.01, 0.25, 0.5}, false, 0, false},
		{"over it on the first leg", []plan.Leg{circuit, circuit}, []float64{0.25, 0.5}, false, 0, false},
		{"needed on the first leg, a circuit", []plan.Leg{circuit, road}, []float64{0.09375, 0.125}, true, -1, false},
		{"needed on the first leg, a road", []plan.Leg{road, circuit}, []float64{0.09375, 0.125}, true, -1, false},
		{"no check on the way", []plan.Leg{road, road}, []float64{0, 0.125}, false, 0, false},
	} {
		c := choosing(profiles.Pads)
		c.safety.Run = 0.0625
		c.way.Legs = row.legs
		var usages []trip.Usage
		for _, l := range row.legs {
			usages = append(usages, trip.Usage{Circuit: l.Kind == profiles.CircuitLeg})
		}
		worn := wearing("brought", 1, usages)
		worn.Spec, worn.FitAt = kind.Pads, []string{"paddock"}
		worn.Credits.Pads, worn.Levels[0].From = 0.5, 3.4e-3
		if row.worn {
			worn.Levels[0].From = 3e-3
		}
		c.set, c.w = worn, projection.NewWorker(projection.NewDraws(200, 5), usages)
		bands := make([]plan.Band, len(row.limits))
		for j, p := range row.limits {
			bands[j].PLimit = p
		}
		from := unnoticed(bands, 0.5, 0.5)
		from.set, from.course = worn, func() *projection.Course { return c.w.Follow(worn, 0, nil) }
		op, ok := c.bring(from)
		if ok != row.ok {
			t.Errorf("%s: brought %v", row.what, ok)
		}
		if !ok || !row.ok {
			continue
		}
		if op.Leg != row.leg || op.PNeed <= 0 || op.PNeed > 1 || row.leg >= 0 && op.PNeed < 0.9 {
			t.Errorf("%s: before leg %d, needed %g; want %d", row.what, op.Leg+1, op.PNeed, row.leg+1)
		}
		if op.size != [2]float64{3, 4} || op.site != noSite || op.Action != plan.Bring || !op.Watched {
			t.Errorf("%s: %+v", row.what, op)
		}
		c.set.Credits = profiles.Caught{}
		if _, ok := c.bring(from); ok {
			t.Errorf("%s: brought, though no check would call for it", row.what)
		}
	}
}

// unnoticed is an outlook of which shares of the crossings go unnoticed where
// the set is not watched, and where it is.
func unnoticed(bands []plan.Band, unwatched, watched float64) outlook {
	return outlook{bands: bands, uncaught: func(w bool) []float64 {
		share := unwatched
		if w {
			share = watched
		}
		var out []float64
		for _, b := range bands {
			out = append(out, b.PLimit*share)
		}
		return out
	}}
}

// wearing is a set of points that lose a little on every leg of a season.
func wearing(id string, points int, legs []trip.Usage) *projection.Set {
	s := &projection.Set{Set: plan.Set{ID: id, Critical: true}, RoadSD: 0.25, CircuitSD: 0.4, SummarySD: 0.3}
	for i := range points {
		p := projection.Level{Point: plan.Point{New: 8e-3, Start: 6e-3, Limit: 1.6e-3, Margin: 2.4e-3}, From: 6e-3, StartSD: 2e-4}
		for j := range legs {
			loss := trip.Loss{2e-4, 2e-4, 2e-4}
			if legs[j].Circuit {
				loss[0], loss[1], loss[2] = 4e-4*math.Exp(-0.2), 4e-4*(1+float64(i)/20), 4e-4*math.Exp(0.25)
			}
			p.LegLoss, p.Loss = append(p.LegLoss, loss), append(p.Loss, loss[1])
		}
		s.Levels = append(s.Levels, p)
	}
	return s.AddReplacement()
}
