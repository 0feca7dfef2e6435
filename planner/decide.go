package planner

import (
	"runtime"
	"sync"
	"time"

	"example.com/tripwear/profiles"
)

// decideAll projects every set, lists its options, chooses among all of them
// together, and explains. Sets are independent of one another until the
// choice, each with its own random stream.
func decideAll(sets []*set, way *journey, today time.Time, d *draws) Choice {
	m := &menu{sets: sets, options: make([][]option, len(sets)), visit: float64(way.folder.Car.Costs.Visit), limit: room(way.folder.Car, way.topUp)}
	choosers := make([]chooser, len(sets))
	parallel(len(sets), func() func(int) {
		w := newWorker(d, way.usages)
		return func(i int) {
			sets[i].finish(w, len(way.legs))
			choosers[i] = newChooser(sets[i], w, way, today)
			m.options[i] = choosers[i].options()
		}
	})

	m.shares = m.share()
	best := m.solve(m.limit, nil)
	small := newDraws(min(d.n, flipDraws), d.seed)
	parallel(len(sets), func() func(int) {
		w := newWorker(small, way.usages)
		return func(i int) {
			op := m.chosen(best, i)
			op.PAsIs = m.options[i][0].POut
			op.Next = m.rival(best, i)
			if op.Action != Run {
				op.Flip = choosers[i].flip(w, op.Action)
			}
			choosers[i].explain(&op)
			sets[i].Decision = op.Decision
		}
	})

	c := Choice{Nodes: best.Nodes, LeftOut: m.leftOut(best)}
	for i := range sets {
		if best.pick[i] == none {
			best.Cost -= nothing
			best.Bound -= nothing
		}
	}
	c.Cost, c.Bound = best.Cost, best.Bound
	return c
}

// room is what the boot holds beside the luggage and the oil for topping up:
// m3, kg.
func room(car profiles.Car, topUp float64) [2]float64 {
	oil := topUpRoom(topUp)
	return [2]float64{
		max(0, float64(car.Boot.Volume-car.Luggage.Volume)-oil[0]),
		max(0, float64(car.Boot.Payload-car.Luggage.Mass)-oil[1]),
	}
}

// parallel calls a worker's function for every index, a worker to a core.
func parallel(n int, worker func() func(int)) {
	var wg sync.WaitGroup
	next := make(chan int)
	for range min(runtime.GOMAXPROCS(0), n) {
		wg.Go(func() {
			do := worker()
			for i := range next {
				do(i)
			}
		})
	}
	for i := range n {
		next <- i
	}
	close(next)
	wg.Wait()
}

// rival is what the best plan without a set's chosen option gives it.
func (m *menu) rival(best solution, i int) *Rival {
	mine := best.pick[i]
	if mine == none {
		return nil
	}
	chosen := m.options[i][mine]
	other := m.solve(m.limit, func(set int, op option) bool {
		return set == i && op.Action == chosen.Action && op.Leg == chosen.Leg && op.Spare == chosen.Spare
	})
	if other.pick[i] == none {
		return nil
	}
	op := m.options[i][other.pick[i]]
	return &Rival{Action: op.Action, Leg: op.Leg, Spare: op.Spare, Extra: other.Cost - best.Cost, POut: op.POut}
}

// finish projects a set as the car stands.
func (s *set) finish(w *worker, legs int) {
	asIs := w.project(s, 0)
	for i := range s.points {
		s.points[i].After = asIs.points[i]
		s.Points = append(s.Points, s.points[i].Point)
	}
	s.After, s.First = asIs.set, asIs.first
	s.RoadSpread, s.CircuitSpread, s.SummarySpread = s.road, s.circuit, s.summary
	s.Used = make([]float64, legs)
	first := s.points[s.First]
	for j, taken := range first.Loss {
		if s.alone {
			taken = 0
		}
		s.Used[j] = taken / (first.New - first.Limit)
		if taken > 0 && (s.Most < 0 || taken > first.Loss[s.Most]) {
			s.Most = j
		}
	}
}
