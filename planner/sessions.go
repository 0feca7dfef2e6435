package planner

import (
	"cmp"
	"slices"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/projection"
	"example.com/tripwear/planner/standing"
	"example.com/tripwear/planner/trip"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/quantity"
)

// Paddock answers whether the sessions left of a trip's circuit day are on: the
// one under way, or the next. It is nil where no circuit day is left.
func (g *Outing) Paddock(o Options) (*plan.Paddock, error) {
	o = o.orDefault()
	at := slices.IndexFunc(g.Trip.Legs, func(l profiles.Leg) bool { return l.Kind == profiles.CircuitLeg })
	if at < 0 {
		return nil, nil
	}
	m := trip.NewMachine(g.Folder)
	day, each := g.Trip.Clone(), g.Trip.Clone()
	day.Legs, each.Legs = day.Legs[:at+1], each.Legs[:at+1]
	day.Legs[at].Days = 1
	each.Legs[at].Days, each.Legs[at].Sessions.Count = plan.MostSessions, 1
	c, _, err := decided(m, g.Folder, day, o.timeless())
	if err != nil {
		return nil, err
	}
	ahead, err := undecided(m, g.Folder, each, o)
	if err != nil {
		return nil, err
	}
	whole, err := g.Plan(o)
	if err != nil {
		return nil, err
	}
	leg := c.Legs[len(c.Legs)-1]
	out := &plan.Paddock{
		Car: g.Folder.Car.Name, Trip: g.Trip.Name, Name: whole.Legs[len(c.Legs)-1].Name, Day: leg.Start, Here: at == 0,
		Odometer: float64(g.Folder.Car.Odometer), Left: leg.Sessions,
		Least: plan.LastsChance, Cap: float64(g.Folder.Model.Safety.Cap), Home: whole.Headline(), HomeWhy: whole.Why,
	}
	if s := whole.Standing; s != nil {
		out.Done = s.Sessions
	}
	before := len(ahead.Legs) - plan.MostSessions
	sets := make([]plan.PaddockSet, len(c.sets))
	draws := projection.NewDraws(o.Draws, o.Seed)
	projection.Parallel(len(sets), func() func(int) {
		w := projection.NewWorker(draws, ahead.Usages)
		return func(i int) {
			ahead.sets[i].ProjectAsIs(w, len(ahead.Legs))
			sets[i] = g.inPaddock(c.sets[i], ahead.sets[i], before, out)
		}
	})
	slices.SortStableFunc(sets, func(a, b plan.PaddockSet) int {
		return cmp.Or(cmp.Compare(len(b.Stop), len(a.Stop)), cmp.Compare(a.Sessions, b.Sessions), cmp.Compare(a.Chance, b.Chance))
	})
	out.Sets, out.Jobs = sets, standing.Jobs(whole)
	out.Verdict, out.Why = standing.GoOut(out)
	out.On = out.Verdict == plan.Yes
	out.Session, out.Sure = standing.Session(out)
	out.Next = standing.Tomorrow(whole, len(c.Legs)-1)
	return out, nil
}

// inPaddock is the answer for one set, decided for the day and followed session
// by session.
func (g *Outing) inPaddock(s, ahead *projection.Set, before int, p *plan.Paddock) plan.PaddockSet {
	first := ahead.Levels[ahead.First]
	out := plan.PaddockSet{
		ID: s.ID, Name: s.Name, Kind: s.Kind, Where: s.Decision.Where, Measure: first.Measure, Act: first.Margin,
		Chance: 1 - s.Decision.PAsIs, Unsafe: s.Unnoticed, Stop: s.Stop, On: holdsOut(s, p.Cap), Expect: first.Start,
	}
	for k := range plan.MostSessions {
		if 1-ahead.After[before+k].PLimit < p.Least {
			break
		}
		out.Sessions = k + 1
	}
	next := ahead.After[before].PLimit
	out.Next = out.On || len(s.Stop) == 0 && !s.PastLimit() && 1-next >= p.Least && (!s.Critical || next <= p.Cap)
	for _, lost := range first.Loss[:before+min(p.Left, plan.MostSessions)] {
		out.Expect -= lost
	}
	out.Expect = max(0, out.Expect)
	if s.Read && first.Gauge > 0 && first.Measure.Info().Length {
		out.Read = &first.From
	}
	for _, e := range slices.Backward(g.Folder.Log) {
		read, ok := profiles.KindRead(e.What)
		if !ok || read != s.Kind || e.Place != first.Place || !e.IsOf(s.Part) || e.Zone != "" && e.Zone != first.Zone || e.Odometer < g.since(s.Kind, e.Place) {
			continue
		}
		switch info := first.Measure.Info(); {
		case out.ReadOn.IsZero() && info.Length && info.Form.Row == e.What:
			out.Read, out.ReadOn = &e.Value, e.Date
		case out.Found == "" && !info.Length && len(logbook.Findings(e.What)) > 0:
			out.Found, out.ReadOn = e.Text, e.Date
		}
	}
	return out
}

// since is the odometer at which the part at a place went on.
func (g *Outing) since(k profiles.Kind, place string) quantity.Length {
	if _, on := g.Folder.On(k, place); on != nil {
		return on.Since.Odometer
	}
	return 0
}
