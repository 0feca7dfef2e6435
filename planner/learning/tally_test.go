package learning_test

import (
	"fmt"
	"math"
	"os"
	"strconv"
	"strings"
	"sync"
	"testing"

	"example.com/tripwear/planner/learning"
)

// tally is what became of the owners of a class, by owner.
type tally struct {
	cost, crossed map[string][]float64 // by policy
	sets          map[string]float64
	held, read    []float64 // readings in 80 % bands, but for two events after what nobody announced
	after, late   []float64 // the same on those two
}

// policies are what owners go by.
var policies = []string{"learned", "model", "half"}

// lived adds an owner to the tally.
func (y *tally) lived(by map[string]*outing) {
	for _, policy := range policies {
		o := by[policy]
		y.cost[policy] = append(y.cost[policy], o.cost)
		y.crossed[policy] = append(y.crossed[policy], o.crossed)
		y.sets[policy] += o.sets
	}
	o := by["learned"]
	var held, read [2]float64
	sudden, since := o.knocked > 0 || o.step > 0 || o.swapped, map[float64]bool{}
	for _, p := range o.told.Backtest.Predictions {
		late := 0
		if sudden && (p.Odometer > o.jumped+1 || p.Odometer > o.jumped-1 && o.knocked == 0) {
			if since[p.Odometer] = true; len(since) <= 2 {
				late = 1
			}
		}
		read[late]++
		if math.Abs(p.Rank-0.5) <= 0.4 {
			held[late]++
		}
	}
	y.held, y.read = append(y.held, held[0]), append(y.read, read[0])
	y.after, y.late = append(y.after, held[1]), append(y.late, read[1])
}

// meanOf is a mean and its standard error.
func meanOf(x []float64) (mean, se float64) {
	n := float64(len(x))
	for _, v := range x {
		mean += v / n
	}
	for _, v := range x {
		se += (v - mean) * (v - mean)
	}
	return mean, math.Sqrt(se / max(1, n-1) / n)
}

// minus is a less so many times b, by owner.
func minus(a []float64, times float64, b []float64) (out []float64) {
	for i, v := range a {
		out = append(out, v-times*b[i])
	}
	return out
}

// share is that of the readings held, and how far below a share that is in
// standard errors of owners, whose readings go together.
func share(held, read []float64, least float64) (of, below float64) {
	all, _ := meanOf(read)
	if all == 0 {
		return 1, 0
	}
	mean, _ := meanOf(held)
	short, se := meanOf(minus(held, least, read))
	return mean / all, -short / max(se, 1e-9)
}

func newTally() *tally {
	return &tally{cost: map[string][]float64{}, crossed: map[string][]float64{}, sets: map[string]float64{}}
}

// judge says what of a tally is not as it should be: the learner at most as dear
// as so many times the model alone, with as many crossings, its bands as wide as
// they say, each within two standard errors.
func (y *tally) judge(dear float64) (bad []string) {
	const errors = 2
	if more, se := meanOf(minus(y.cost["learned"], dear, y.cost["model"])); more > errors*se {
		bad = append(bad, fmt.Sprintf("costs %.0f +- %.0f USD more than %.1f times the model", more, se, dear))
	}
	if more, se := meanOf(minus(y.crossed["learned"], 1, y.crossed["model"])); more > errors*se {
		bad = append(bad, fmt.Sprintf("crosses %.3f +- %.3f more limits an owner", more, se))
	}
	if of, below := share(y.held, y.read, 0.75); below > errors {
		bad = append(bad, fmt.Sprintf("80 %% bands hold %.0f %%", 100*of))
	}
	if of, below := share(y.after, y.late, 0.7); below > errors {
		bad = append(bad, fmt.Sprintf("after a change 80 %% bands hold %.0f %%", 100*of))
	}
	return bad
}

func (y *tally) String() string {
	var b strings.Builder
	for _, policy := range policies {
		mean, se := meanOf(y.cost[policy])
		crossed, _ := meanOf(y.crossed[policy])
		fmt.Fprintf(&b, " %5.0f +-%4.0f %4.1f %%", mean, se, 100*crossed*float64(len(y.cost[policy]))/y.sets[policy])
	}
	held, _ := share(y.held, y.read, 0)
	after, _ := share(y.after, y.late, 0)
	return b.String() + fmt.Sprintf("  %3.0f %%  %3.0f %%", 100*held, 100*after)
}

// TestOwnersFromOutside compares what owners pay who go by the plan as it learns,
// by the model alone, and who replace what is below half. TRIPWEAR_OWNERS sets how
// many of each class there are, TRIPWEAR_OWNER which is the first. With four of
// each or more every class is judged, with fewer all together.
func TestOwnersFromOutside(t *testing.T) {
	n, l, first := learning.ManyOwners(t, 1), newLives(t), 0
	if s := os.Getenv("TRIPWEAR_OWNER"); s != "" {
		var err error
		if first, err = strconv.Atoi(s); err != nil {
			t.Fatal(err)
		}
	}
	some := classes
	if testing.Short() {
		some = classes[:2]
	}
	t.Logf("USD an owner, sets that cross: %20s %20s %20s  80 %% bands hold, after a change", policies[0], policies[1], policies[2])
	all := newTally()
	for _, c := range some {
		lives := make([]map[string]*outing, n)
		var wg sync.WaitGroup
		for part := range 2 {
			wg.Go(func() {
				for i := part; i < n; i += 2 {
					by := map[string]*outing{}
					for _, policy := range policies {
						by[policy] = l.live(t, c, policy, uint64(first+i))
					}
					lives[i] = by
				}
			})
		}
		wg.Wait()
		of := newTally()
		for _, by := range lives {
			if by["learned"].told == nil {
				return // said already
			}
			of.lived(by)
			all.lived(by)
		}
		t.Logf("%-28s %v", c.name, of)
		if n >= 4 {
			for _, s := range of.judge(1) {
				t.Errorf("%s: %s", c.name, s)
			}
		}
	}
	t.Logf("%-28s %v", "all", all)
	for _, s := range all.judge(0.9) {
		t.Errorf("all: %s", s)
	}
}
