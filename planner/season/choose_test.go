package season

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"example.com/tripwear/planner/decision"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/randomcar"
)

// anySeason draws what three sets could do on three stretches: costs, sizes,
// shops, labor and shelf in small whole numbers, so that many things tie.
func anySeason(t *rapid.T) Season {
	draw := func(what string, least, most int) float64 { return float64(rapid.IntRange(least, most).Draw(t, what)) }
	s := Season{Visit: draw("visit", 0, 8)}
	stretches := rapid.SampledFrom([]int{1, 2, 2, 2, 3}).Draw(t, "stretches")
	budget := rapid.SampledFrom([]float64{math.Inf(1), 2, 4, 6}).Draw(t, "budget a month")
	for k := range stretches {
		s.Trunk = append(s.Trunk, [2]float64{draw("room", 0, 4), draw("payload", 0, 4)})
		if !math.IsInf(budget, 1) {
			s.Spend = append(s.Spend, budget*float64(k+1))
		}
	}
	for i := range 3 {
		a := Ahead{Set: string(rune('a' + i)), Part: []string{"x", "x", "y"}[i], Partner: []string{"", "c", "b"}[i]}
		a.Shelf = int(draw("shelf", 0, 2))
		if i == 1 {
			a.Shelf = s.Sets[0].Shelf // the same part
		}
		type at struct {
			stretch int
			on      decision.Part
		}
		known := map[at][]decision.Step{}
		for k := range stretches {
			for from := range k + 1 { // as the car stands, or new before an earlier stretch
				on := decision.Part{New: from > 0, From: from}
				var steps []decision.Step
				for n := range 3 {
					step := decision.Step{Site: decision.NoSite, Next: on}
					step.Action, step.Leg, step.Cost = plan.Run, -1, draw("cost", 0, 20)
					if n > 0 {
						step.Action, step.Leg, step.Site = plan.ReplaceBefore, n-2, n-2
						step.Visits = draw("in a shop", 0, 1) == 1
						step.Labor = min(step.Cost, draw("labor", 0, 6))
						step.Shelf = int(draw("from the shelf", 0, 1))
						step.Bills = []decision.Bill{{Day: s.First.AddDate(0, int(draw("month", 0, k)), 0), Amount: draw("price", 0, 6)}}
						step.Size = [2]float64{draw("volume", 0, 2), draw("mass", 0, 2)}
						step.Next = decision.Part{New: true, From: k + 1}
					}
					steps = append(steps, step)
				}
				refused := decision.Step{Site: decision.NoSite, Next: on}
				refused.Action, refused.Leg, refused.Cost = plan.DoNotTake, -1, plan.NotTaken
				known[at{k, on}] = append(steps, refused)
			}
		}
		s.Lay(&a, func(k int, on decision.Part) []decision.Step { return known[at{k, on}] })
		s.Sets = append(s.Sets, a)
	}
	return s
}

// every lists all paths of a set.
func every(a Ahead, k, on int) [][]decision.Step {
	if k == len(a.states)-1 {
		return [][]decision.Step{nil}
	}
	var out [][]decision.Step
	for n, step := range a.states[k][on].steps {
		for _, rest := range every(a, k+1, a.states[k][on].next[n]) {
			out = append(out, append([]decision.Step{step}, rest...))
		}
	}
	return out
}

// cost of a path a set by plain sums; infinite where they do not fit.
func (s Season) cost(paths [3][]decision.Step) float64 {
	sum, shelf, spent := 0.0, map[string]int{}, make([]float64, len(s.Trunk))
	for k, room := range s.Trunk {
		shops, used := map[int]bool{}, [2]float64{}
		for i, p := range paths {
			step := p[k]
			sum += step.Cost
			shelf[s.Sets[i].Part] += step.Shelf
			used[0], used[1] = used[0]+step.Size[0], used[1]+step.Size[1]
			for _, b := range step.Bills {
				spent[b.Day.Month()-s.First.Month()] += b.Amount
			}
			if step.Visits {
				shops[step.Site] = true
			}
		}
		sum += s.Visit * float64(len(shops))
		if b, c := paths[1][k], paths[2][k]; b.Site == c.Site && b.Site != decision.NoSite {
			sum -= min(b.Labor, c.Labor)
		}
		if used[0] > room[0] || used[1] > room[1] {
			return math.Inf(1)
		}
	}
	for m, limit := range s.Spend {
		for _, amount := range spent[:m+1] {
			limit -= amount
		}
		if limit < 0 {
			return math.Inf(1)
		}
	}
	for i := range paths {
		if shelf[s.Sets[i].Part] > s.Sets[i].Shelf {
			return math.Inf(1)
		}
	}
	return sum
}

// TestBruteForce: no combination of all paths costs less, and in turn none costs
// less either.
func TestBruteForce(t *testing.T) {
	randomcar.Check(t, 40, func(t *rapid.T) {
		s := anySeason(t)
		best := math.Inf(1)
		var paths [3][][]decision.Step
		for i, a := range s.Sets {
			paths[i] = every(a, 0, 0)
		}
		for _, a := range paths[0] {
			for _, b := range paths[1] {
				for _, c := range paths[2] {
					best = min(best, s.cost([3][]decision.Step{a, b, c}))
				}
			}
		}
		got := Choose(s)
		if math.Abs(got.Cost-best) > 1e-6 || math.Abs(got.Bound-best) > 1e-6 {
			t.Fatalf("%g, bound %g; by trying all %g", got.Cost, got.Bound, best)
		}
		if paid := s.cost([3][]decision.Step{got.Paths[0], got.Paths[1], got.Paths[2]}); math.Abs(paid-best) > 1e-6 {
			t.Fatalf("what was chosen costs %g, not %g", paid, best)
		}
		for i, all := range paths {
			waits := slices.Repeat([]float64{math.Inf(1)}, len(s.Trunk))
			for _, p := range all {
				if first := slices.IndexFunc(p, decision.Step.Replaces); first >= 0 {
					sum := 0.0
					for _, step := range p {
						sum += step.Cost
					}
					waits[first] = min(waits[first], sum)
				}
			}
			if !slices.Equal(waits, got.Waits[i]) {
				t.Fatalf("%s: first replaced by stretch %v, by trying all %v", s.Sets[i].Set, got.Waits[i], waits)
			}
		}
		if s.Most = plan.NotTaken / 2; s.Spend != nil { // with a budget: is there one without a refusal?
			within := Choose(s)
			if best >= s.Most && (within.Paths != nil || within.Bound < s.Most) || best < s.Most && (math.Abs(within.Cost-best) > 1e-6 || math.Abs(within.Bound-best) > 1e-6) {
				t.Fatalf("with a budget %g, bound %g; by trying all %g", within.Cost, within.Bound, best)
			}
		}
		if sum, refused := InTurn(s); s.Spend == nil && sum+float64(plan.NotTaken*float64(refused)) < best-1e-6 {
			t.Fatalf("in turn %g with %d refused, whole %g", sum, refused, best)
		}
	})
}
