package knapsack

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
)

// random makes a case with some free options, as most actions take no room.
func random(r *rand.Rand, classes, options int) ([][]Option, [2]float64) {
	out := make([][]Option, classes)
	for i := range out {
		out[i] = make([]Option, 1+r.IntN(options))
		for k := range out[i] {
			o := Option{Cost: math.Round(r.Float64() * 2000)}
			if r.IntN(3) > 0 {
				o.Size = [2]float64{math.Round(r.Float64() * 40), math.Round(r.Float64() * 20)}
			}
			out[i][k] = o
		}
	}
	return out, [2]float64{r.Float64() * 10 * float64(classes), r.Float64() * 6 * float64(classes)}
}

// brute tries every choice.
func brute(classes [][]Option, limit [2]float64) (cost float64, feasible bool) {
	cost = math.Inf(1)
	choice := make([]int, len(classes))
	for {
		sum, size := 0.0, [2]float64{}
		for i, k := range choice {
			o := classes[i][k]
			sum += o.Cost
			size[0] += o.Size[0]
			size[1] += o.Size[1]
		}
		if size[0] <= limit[0] && size[1] <= limit[1] && sum < cost {
			cost, feasible = sum, true
		}
		i := 0
		for ; i < len(choice); i++ {
			if choice[i]++; choice[i] < len(classes[i]) {
				break
			}
			choice[i] = 0
		}
		if i == len(choice) {
			return cost, feasible
		}
	}
}

// TestBruteForce compares with trying everything on 1,000 random cases.
func TestBruteForce(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 7))
	infeasible := 0
	for n := range 1000 {
		classes, limit := random(r, 1+r.IntN(6), 5)
		got := Solve(classes, limit)
		want, feasible := brute(classes, limit)
		if got.Feasible != feasible {
			t.Fatalf("case %d: feasible %v, brute force says %v", n, got.Feasible, feasible)
		}
		if !feasible {
			infeasible++
			continue
		}
		if got.Cost != want || got.Bound != got.Cost {
			t.Fatalf("case %d: cost %g, bound %g, brute force %g", n, got.Cost, got.Bound, want)
		}
		sum, size := 0.0, [2]float64{}
		for i, k := range got.Choice {
			sum += classes[i][k].Cost
			size[0] += classes[i][k].Size[0]
			size[1] += classes[i][k].Size[1]
		}
		if sum != got.Cost || size[0] > limit[0]+slack || size[1] > limit[1]+slack {
			t.Fatalf("case %d: the choice costs %g and takes %v of %v", n, sum, size, limit)
		}
	}
	if infeasible == 0 || infeasible > 800 {
		t.Errorf("%d of 1,000 cases infeasible: the cases do not test both", infeasible)
	}
}

// TestTextbook is a single-constraint multiple-choice instance small enough to
// solve by hand: three classes, room for 7. Taking the cheap option everywhere
// needs 3+4+2 = 9; the best is to give way in the class where it costs least.
func TestTextbook(t *testing.T) {
	classes := [][]Option{
		{{Cost: 0, Size: [2]float64{3, 0}}, {Cost: 10}},
		{{Cost: 0, Size: [2]float64{4, 0}}, {Cost: 7}},
		{{Cost: 0, Size: [2]float64{2, 0}}, {Cost: 6}},
	}
	got := Solve(classes, [2]float64{7, 0})
	if got.Cost != 6 || fmt.Sprint(got.Choice) != "[0 0 1]" {
		t.Errorf("got %+v, want cost 6 by giving up the third", got)
	}
	if got := Solve([][]Option{{{Cost: 1}}, {}}, [2]float64{1, 1}); got.Feasible {
		t.Error("a class without options is not infeasible")
	}
	if got := Solve(nil, [2]float64{}); !got.Feasible || got.Cost != 0 {
		t.Errorf("nothing to choose: %+v", got)
	}
}

// BenchmarkSolve shows the growth with sets and actions.
func BenchmarkSolve(b *testing.B) {
	for _, n := range [][2]int{{10, 6}, {20, 6}, {40, 6}, {40, 12}, {80, 6}} {
		b.Run(fmt.Sprintf("sets=%d/actions=%d", n[0], n[1]), func(b *testing.B) {
			var cases [][][]Option
			var limits [][2]float64
			r := rand.New(rand.NewPCG(3, 9))
			for len(cases) < 20 {
				c, l := random(r, n[0], n[1])
				if Solve(c, l).Feasible {
					cases, limits = append(cases, c), append(limits, l)
				}
			}
			nodes, i := 0, 0
			for b.Loop() {
				nodes += Solve(cases[i%20], limits[i%20]).Nodes
				i++
			}
			b.ReportMetric(float64(nodes)/float64(i), "nodes/op")
		})
	}
}
