package season

import (
	"math"
	"slices"

	"example.com/tripwear/planner/decision"
	"example.com/tripwear/planner/plan"
)

// prices finds prices of room, and shares of visits, that give a high bound: by
// subgradient steps, and by sharing a visit evenly among those that make it.
func (s *Season) prices(sets []*search) (room [][2]float64, least float64) {
	const steps = 100
	now := make([][2]float64, len(s.Trunk))
	spread, scale := 0.0, [2]float64{}
	for _, one := range sets {
		bare := one.back(now, func(step *decision.Step) bool { return step.Size == [2]float64{} })
		if dear := bare - one.back(now, nil); dear < plan.NotTaken/2 {
			spread = max(spread, dear)
		}
		for _, layer := range one.states {
			for _, at := range layer {
				for n := range at.steps {
					scale[0], scale[1] = max(scale[0], at.steps[n].Size[0]), max(scale[1], at.steps[n].Size[1])
				}
			}
		}
	}
	least = math.Inf(-1)
	best := make([]map[site]float64, len(sets))
	for n := range steps {
		total := -worth(now, s.Trunk)
		taken, visitors := make([][2]float64, len(now)), map[site][]int{}
		for i, one := range sets {
			total += one.back(now, nil)
			for k, step := range one.cheapest(now) {
				taken[k][0], taken[k][1] = taken[k][0]+step.Size[0], taken[k][1]+step.Size[1]
				if step.Visits {
					visitors[site{k, step.Site}] = append(visitors[site{k, step.Site}], i)
				}
			}
		}
		if total > least {
			least, room = total, slices.Clone(now)
			for i, one := range sets {
				best[i] = copied(one.visits)
			}
		}
		for k := range now {
			for d := range scale {
				if scale[d] > 0 {
					over := (taken[k][d] - s.Trunk[k][d]) / scale[d]
					now[k][d] = max(0, now[k][d]+float64(spread/scale[d]/float64(2+n)*max(-1, min(1, over))))
				}
			}
		}
		s.share(sets, visitors, 1/float64(1+n))
	}
	for i, one := range sets {
		one.visits = best[i]
		one.back(room, nil)
	}
	return room, least
}

func copied(m map[site]float64) map[site]float64 {
	out := make(map[site]float64, len(m))
	for k, v := range m {
		out[k] = v
	}
	return out
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

// worth of all the room there is.
func worth(room, trunk [][2]float64) float64 {
	sum := 0.0
	for k, r := range room {
		sum += float64(r[0]*trunk[k][0]) + float64(r[1]*trunk[k][1])
	}
	return sum
}
