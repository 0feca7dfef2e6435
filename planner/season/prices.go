package season

import (
	"maps"
	"math"
	"slices"

	"example.com/tripwear/planner/plan"
)

// prices finds prices of what is short, and shares of visits, that give a high
// bound: by subgradient steps, and by sharing a visit evenly among those that
// make it.
func (s *Season) prices(sets []*search, limits []float64) (price []float64, least float64) {
	const steps, slower = 150, 0.95
	now := make([]float64, len(limits))
	spread, scale := 0.0, make([]float64, len(limits))
	for _, one := range sets {
		bare := one.back(now, true)
		if dear := bare - one.back(now, false); dear < plan.NotTaken/2 {
			spread = max(spread, dear)
		}
		for _, layer := range one.states {
			for _, at := range layer {
				for _, uses := range at.uses {
					for _, u := range uses {
						scale[u.row] = max(scale[u.row], u.amount)
					}
				}
			}
		}
	}
	least = math.Inf(-1)
	visits, credit := make([]map[site]float64, len(sets)), make([]map[site]float64, len(sets))
	step := 0.5
	for n := range steps {
		total := -worth(now, limits)
		taken, visitors, workers := make([]float64, len(now)), map[site][]int{}, map[site][]int{}
		for i, one := range sets {
			total += one.back(now, false)
			one.cheapest(now, func(k int, at *state, n int) {
				for _, u := range at.uses[n] {
					taken[u.row] += u.amount
				}
				step := &at.steps[n]
				where := site{k, step.Site}
				if step.Visits {
					visitors[where] = append(visitors[where], i)
				}
				if one.shared(step) > 0 {
					workers[where] = append(workers[where], i)
				}
			})
		}
		if total > least {
			least, price = total, slices.Clone(now)
			for i, one := range sets {
				visits[i], credit[i] = maps.Clone(one.visits), maps.Clone(one.credit)
			}
		}
		for row, most := range scale {
			if most > 0 {
				over := (taken[row] - limits[row]) / most
				now[row] = max(0, now[row]+float64(step*spread/most*max(-1, min(1, over))))
			}
		}
		step *= slower
		s.share(sets, visitors, 1/float64(1+n))
		give(sets, workers, 1/float64(2+n))
	}
	for i, one := range sets {
		one.visits, one.credit = visits[i], credit[i]
		one.back(price, false)
	}
	return price, least
}

// share moves what the sets pay of each visit toward even shares.
func (s *Season) share(sets []*search, visitors map[site][]int, by float64) {
	for at, who := range visitors {
		for i, one := range sets {
			fair := 0.0
			if slices.Contains(who, i) {
				fair = s.Visit / float64(len(who))
			}
			one.visits[at] += float64(by * (fair - one.visits[at]))
		}
	}
}

// give moves the credit for labor that two sets may share from the one that works
// alone somewhere to the other, which might follow, and back to half each where
// both work.
func give(sets []*search, workers map[site][]int, by float64) {
	for at, who := range workers {
		for _, i := range who {
			mate := sets[i].mate
			fair := -0.5
			if slices.Contains(who, mate) {
				fair = 0
			}
			sets[i].credit[at] += float64(by * (fair - sets[i].credit[at]))
			sets[mate].credit[at] = -sets[i].credit[at]
		}
	}
}

// worth of all that there is.
func worth(price, limits []float64) float64 {
	sum := 0.0
	for row, p := range price {
		sum += float64(p * limits[row])
	}
	return sum
}
