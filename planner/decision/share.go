package decision

import (
	"slices"
	"time"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/projection"
	"example.com/tripwear/planner/trip"
)

// role is what an option is in a spare that two sets share.
type role int

const (
	alone role = iota
	leads      // it has the spare
	joins      // it would use the other's
)

// mate is the set across the axle that one spare would serve too: a part of the
// same kind, one at each wheel; -1 where there is none.
func (m *menu) mate(i int) int {
	s := m.sets[i]
	if len(s.Places()) != 1 {
		return -1
	}
	axle := func(place string) byte { return place[len(place)-1] } // of LF, RF, LR, RR
	return slices.IndexFunc(m.sets, func(o *projection.Set) bool {
		places := o.Places()
		return o.ID != s.ID && o.Part == s.Part && len(places) == 1 && len(places[0]) == 2 && axle(places[0]) == axle(s.Places()[0])
	})
}

// shareSpares gives sets across an axle the options of one spare for both. Where
// the one has used it, the other goes on as it is: that chance counts for each,
// as if the other's failure always came first.
func (m *menu) shareSpares(way *trip.Journey, today time.Time) {
	for i := range m.sets {
		k := m.mate(i)
		if k < i {
			continue
		}
		a, b := m.brings(i), m.brings(k)
		if len(a) == 0 || len(b) == 0 {
			continue
		}
		for _, op := range a {
			m.options[i] = append(m.options[i], m.shared(i, op, b[0].PNeed, leads, way, today))
		}
		join := b[0]
		join.bought, join.Shelf, join.size, join.Shares = 0, 0, [2]float64{}, m.sets[i].ID
		m.options[k] = append(m.options[k], m.shared(k, join, a[0].PNeed, joins, way, today))
	}
}

// brings lists the options of a set that bring a spare and no more.
func (m *menu) brings(i int) []option {
	return slices.DeleteFunc(slices.Clone(m.options[i]), func(op option) bool { return op.Action != plan.Bring || op.role != alone })
}

// shared is an option to bring a spare that is gone with a chance.
func (m *menu) shared(i int, op option, gone float64, as role, way *trip.Journey, today time.Time) option {
	without := m.options[i][0]
	mix := func(with, without float64) float64 { return float64((1-gone)*with) + float64(gone*without) }
	op.role = as
	op.POut, op.PUnsafe, op.crossing = mix(op.POut, without.POut), mix(op.PUnsafe, without.PUnsafe), mix(op.crossing, without.crossing)
	op.Cost, op.ruledOut = 0, ""
	c := newChooser(m.sets[i], nil, way, today)
	c.price(&op)
	c.ruleOut(&op)
	return op
}

// together says whether two options can be chosen for a pair of sets.
func together(x, y option) bool {
	return x.role == alone && y.role == alone || x.role == leads && y.role == joins
}
