package season

import (
	"cmp"
	"container/heap"
	"fmt"
	"math"
	"slices"
)

// Pick is a set of events, by number, and the least that it can come to.
type Pick struct {
	Events []int
	Least  float64
	Turn   int // picks of a lower one are looked at first
}

// Picks are all sets of so many events, or of any number where size is 0, of which
// no two clash.
func Picks(events, size int, clash func(a, b int) bool, least func(set []int) float64) []Pick {
	var out []Pick
	var grow func(from int, set []int)
	grow = func(from int, set []int) {
		if len(set) > 0 && (size == 0 || len(set) == size) {
			if x := least(set); !math.IsInf(x, 1) {
				out = append(out, Pick{Events: slices.Clone(set), Least: x})
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
	return out
}

// Planned is a set of events planned as a season.
type Planned struct {
	Cost  float64 // of what is decided; +Inf where it cannot be driven
	Value float64 // the less the better; +Inf where it will not do
}

// Best is the number of the pick of the least value, -1 where none was found whose
// value is finite.
//
// A season costs no less than the one of its first events alone: what is decided for
// those leaves them as they were, and no later step costs less than nothing. So what
// the first events of a pick were found to cost bounds it: at gives the least that
// it can come to then; where it is nil, that takes no note of the cost. Picks are
// looked at in the order of their bounds, the first events of one before all of it,
// until none that is left can be better: that is the proof. It is given up once seasons
// of so many events in all were planned, or half as many more where nothing was found.
func Best(picks []Pick, most int, at func(p Pick, cost float64) float64, planned func(set []int) (Planned, error)) (best int, proved bool, err error) {
	known, events := map[string]Planned{}, 0
	q := make(queue, len(picks))
	for i, p := range picks {
		if q[i] = (waiting{p, i, 0}); at == nil {
			q[i].first = len(p.Events) - 1
		}
	}
	heap.Init(&q)
	best, least := -1, math.Inf(1)
	for len(q) > 0 {
		w := &q[0]
		if w.Least >= least {
			heap.Pop(&q)
			continue
		}
		if w.first++; events >= most { // all of it or nothing
			w.first = len(w.Events)
		}
		key := fmt.Sprint(w.Events[:w.first])
		got, ok := known[key]
		if !ok {
			if events >= most && (best >= 0 || events >= most*3/2) {
				return best, false, nil
			}
			if got, err = planned(w.Events[:w.first]); err != nil {
				return -1, false, err
			}
			known[key], events = got, events+w.first
		}
		switch {
		case math.IsInf(got.Cost, 1):
			heap.Pop(&q)
		case w.first < len(w.Events):
			w.Least = max(w.Least, at(w.Pick, got.Cost))
			heap.Fix(&q, 0)
		case w.first == len(w.Events):
			if got.Value < least {
				best, least = w.number, got.Value
			}
			heap.Pop(&q)
		}
	}
	return best, true, nil
}

// waiting is a pick of which so many first events were planned.
type waiting struct {
	Pick
	number, first int
}

// queue is picks in the order in which they are looked at.
type queue []waiting

func (q queue) Len() int { return len(q) }
func (q queue) Less(i, j int) bool {
	return cmp.Or(cmp.Compare(q[i].Turn, q[j].Turn), cmp.Compare(q[i].Least, q[j].Least), cmp.Compare(q[i].number, q[j].number)) < 0
}
func (q queue) Swap(i, j int) { q[i], q[j] = q[j], q[i] }
func (q *queue) Push(x any)   { *q = append(*q, x.(waiting)) }
func (q *queue) Pop() any {
	last := len(*q) - 1
	w := (*q)[last]
	*q = (*q)[:last]
	return w
}
