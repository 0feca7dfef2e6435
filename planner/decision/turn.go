package decision

import (
	"slices"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles/quantity"
)

// turns lists what a price that nobody knows would turn: at the least and at
// the most that it may be, with all other prices as they are.
func (m *menu) turns(choosers []chooser, best solution) []plan.PriceTurn {
	var out []plan.PriceTurn
	done := map[string]bool{}
	for _, c := range choosers {
		id := c.set.Part
		if done[id] || quantity.Known(c.way.Folder.Parts[id].Price) {
			continue
		}
		done[id] = true
		for _, scale := range []quantity.Money{1 / kind.GuessWide, kind.GuessWide} {
			other := *m
			other.options = slices.Clone(m.options)
			price := c.part.Price * scale
			for i, o := range choosers {
				if o.set.Part != id {
					continue
				}
				o.part.Price = price
				other.options[i] = slices.Clone(m.options[i])
				for k := range other.options[i] {
					o.price(&other.options[i][k])
				}
			}
			then := other.solve(m.limit, nil)
			saving := max(0, other.spent(best.pick)-then.Cost)
			for i, o := range choosers {
				was, is := m.chosen(best, i), other.chosen(then, i)
				if was.Action != is.Action || was.Leg != is.Leg || was.Spare != is.Spare {
					out = append(out, plan.PriceTurn{Part: id, Price: float64(price), Set: o.set.ID, Name: o.set.Name, Action: is.Action, Leg: is.Leg, Spare: is.Spare, Saving: saving})
				}
			}
		}
	}
	return out
}

// spent is what a choice costs at the prices of a menu.
func (m *menu) spent(pick []int) float64 {
	sum := float64(m.visit * float64(len(m.visited(pick))))
	for i, k := range pick {
		if k == noOption {
			sum += noActionCost
			continue
		}
		sum += m.options[i][k].Cost
		if with := m.partner(i); with > i && pick[with] != noOption {
			sum -= sharedLabor(m.options[i][k], m.options[with][pick[with]])
		}
	}
	return sum
}
