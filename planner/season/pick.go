package season

import (
	"cmp"
	"math"
	"slices"
)

// Pick is a set of events, by number, and the least that it can come to.
type Pick struct {
	Events []int
	Least  float64
}

// Picks are all sets of so many events, or of any number where size is 0, of which
// no two clash; those that can come to least first.
func Picks(events, size int, clash func(a, b int) bool, least func(set []int) float64) []Pick {
	var out []Pick
	var grow func(from int, set []int)
	grow = func(from int, set []int) {
		if len(set) == size || size == 0 && len(set) > 0 {
			if x := least(set); !math.IsInf(x, 1) {
				out = append(out, Pick{slices.Clone(set), x})
			}
		}
		if size > 0 && len(set) == size {
			return
		}
		for e := from; e < events; e++ {
			if !slices.ContainsFunc(set, func(other int) bool { return clash(other, e) }) {
				grow(e+1, append(set, e))
			}
		}
	}
	grow(0, nil)
	slices.SortStableFunc(out, func(a, b Pick) int { return cmp.Compare(a.Least, b.Least) })
	return out
}

// Best tries picks in their order and gives the number of the one of the least
// value, -1 where none has one that is finite. It is proved where no pick that was
// not tried can come to less; at most so many are tried.
func Best(picks []Pick, most int, value func(Pick) (float64, error)) (best int, proved bool, err error) {
	best, least := -1, math.Inf(1)
	for i, p := range picks {
		if p.Least >= least {
			return best, true, nil
		}
		if i == most {
			return best, false, nil
		}
		v, err := value(p)
		if err != nil {
			return -1, false, err
		}
		if v < least {
			best, least = i, v
		}
	}
	return best, true, nil
}
