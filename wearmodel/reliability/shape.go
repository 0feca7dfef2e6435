package reliability

import (
	"cmp"
	"slices"
)

// shape is what some readings have to do with one another. Factors and starts
// take their places by their last reading, so that those of all readings come
// last and what is over and done with stays apart from what follows.
type shape struct {
	touched [][]int // by reading: its factors, its start as it stands after them, its gauge's offset
	place   []int
	first   []int // by place: the first place that it shares a reading with, or is a step from
}

func (r Rates) shape() shape {
	n := len(r.Factors) + len(r.Starts)
	s := shape{touched: make([][]int, len(r.Readings)), place: make([]int, n), first: make([]int, n)}
	from, to, order := make([]int, n), make([]int, n), make([]int, n)
	for i := range n {
		from[i], to[i], order[i] = -1, -1, i
	}
	for k, y := range r.Readings {
		touch := func(i int) {
			if to[i] == k {
				return
			}
			if to[i] = k; from[i] < 0 {
				from[i] = k
			}
			s.touched[k] = append(s.touched[k], i)
		}
		for _, t := range y.Taken {
			for _, p := range t.Powers {
				touch(p.Factor)
			}
		}
		touch(len(r.Factors) + y.Start)
		if y.Offset > 0 {
			touch(len(r.Factors) + y.Offset - 1)
		}
	}
	r.besideSteps(from, to)
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Or(cmp.Compare(to[a], to[b]), cmp.Compare(from[b], from[a])) })
	for at, i := range order {
		s.place[i], s.first[at] = at, at
	}
	for i, f := range r.Factors {
		if from := f.After - 1; from >= 0 {
			low, high := min(s.place[i], s.place[from]), max(s.place[i], s.place[from])
			s.first[high] = min(s.first[high], low)
		}
	}
	for _, touched := range s.touched {
		least := n
		for _, i := range touched {
			least = min(least, s.place[i])
		}
		for _, i := range touched {
			s.first[s.place[i]] = min(s.first[s.place[i]], least)
		}
	}
	return s
}

// besideSteps has what no reading touches of a random walk take its place beside
// the step before or after it.
func (r Rates) besideSteps(from, to []int) {
	for i, f := range r.Factors {
		if f.After > 0 && to[i] < 0 {
			from[i], to[i] = to[f.After-1], to[f.After-1]
		}
	}
	for i, f := range slices.Backward(r.Factors) {
		if before := f.After - 1; before >= 0 && to[before] < 0 {
			from[before], to[before] = from[i], from[i]
		}
	}
}

// placed is a vector in the order of the places.
func (s shape) placed(v []float64) []float64 {
	out := make([]float64, len(v))
	for i, at := range s.place {
		out[at] = v[i]
	}
	return out
}

// solve solves for a matrix by its factor.
func (s shape) solve(lower skyline, x, b []float64) {
	v := s.placed(b)
	lower.forward(v)
	lower.backward(v)
	for i, at := range s.place {
		x[i] = v[at]
	}
}
