package learning

import (
	"math"
	"math/rand/v2"
	"slices"
	"sync"
	"testing"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/projection"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
)

// TestOwners: over many owners with 3 to 12 readings the bands of the rates, of
// what sets corners and circuits apart and of the predictions hold what they promise, the learned rates are far better
// than the defaults after four readings, and no rate is ever negative.
func TestOwners(t *testing.T) {
	var mu sync.Mutex
	var held, all, heldApart, apart float64
	var after4, default4 []float64
	var predictions []plan.Prediction
	owners(t, manyOwners(t), 11, func(b *bench, i int, random *rand.Rand) {
		o := b.drive(random, 3+random.IntN(10), []string{"errand", "journey", "day", "weekend", "quarry"})
		for _, k := range []profiles.Kind{profiles.Tire, profiles.Pads} {
			h, l := b.learned(t, o, k)
			var foretold []plan.Prediction
			if i%5 == 0 { // an owner in five makes some 12,000 predictions
				foretold, _ = h.backtest(l, 5)
			}
			mu.Lock()
			predictions = append(predictions, foretold...)
			for axle := range 2 {
				s := h.ratesOf(l, h.current[axle].key)
				truth := o.truth[k][axle]
				for _, a := range append(corners(s, k.Info().Sets[axle].At), circuits(s, h.spread)...) {
					x, isCircuit := o.bites[k][a.Name]
					if x += truth[1]; !isCircuit {
						x = o.apart(k, axle, a.Name)
					}
					apart++
					if m := math.Exp(x); a.Low <= m && m <= a.High {
						heldApart++
					}
				}
				truth[1] += o.biting(h, l, k, axle)
				for i, m := range []plan.Multiplier{s.Learned.Road, s.Learned.Circuit} {
					if !(m.Low > 0) || math.IsInf(m.High, 0) || math.IsNaN(m.Median) {
						t.Errorf("multiplier %+v", m)
					}
					all++
					if x := math.Exp(truth[i]); m.Low <= x && x <= m.High {
						held++
					}
				}
			}
			mu.Unlock()
		}
	})
	owners(t, manyOwners(t)*2/5, 13, func(b *bench, _ int, random *rand.Rand) {
		o := b.drive(random, 4, []string{"day", "weekend", "quarry", "errand"})
		for _, k := range []profiles.Kind{profiles.Tire, profiles.Pads} {
			h, l := b.learned(t, o, k)
			mu.Lock()
			for axle := range 2 {
				s := h.ratesOf(l, h.current[axle].key)
				got, plain := b.weekendError(s, o, k, axle)
				after4, default4 = append(after4, got), append(default4, plain)
			}
			mu.Unlock()
		}
	})
	score := score(predictions)
	if share := held / all; share < 0.75 || share > 0.85 {
		t.Errorf("80 %% bands of the rates hold in %.1f %%", 100*share)
	}
	if share := heldApart / apart; share < 0.75 || share > 0.87 {
		t.Errorf("80 %% bands of corners and circuits hold in %.1f %%", 100*share)
	}
	t.Logf("80 %% bands of corners and circuits hold %.1f %% of %.0f", 100*heldApart/apart, apart)
	for _, c := range []struct{ promised, got float64 }{{0.5, score.Held50}, {0.8, score.Held80}, {0.95, score.Held95}} {
		if math.Abs(c.got-c.promised) > 0.05 {
			t.Errorf("%.0f %% bands of the predictions hold in %.1f %%", 100*c.promised, 100*c.got)
		}
	}
	better := 1 - median(after4)/median(default4)
	if better < 0.40 {
		t.Errorf("after 4 readings the median error is only %.0f %% below the defaults'", 100*better)
	}
	if score.Error > 0.8*score.DefaultError || score.ErrorWhereLines > score.LineError {
		t.Errorf("mean error %.3g m, defaults %.3g; where a line can be drawn %.3g, the line %.3g", score.Error, score.DefaultError, score.ErrorWhereLines, score.LineError)
	}
	t.Logf("rates: 80 %% bands hold %.1f %% of %.0f; predictions: 50/80/95 %% bands hold %.1f/%.1f/%.1f %% of %d, bias %.3f mm, mean error %.3f mm (defaults %.3f; on the %d with a line %.3f, the line %.3f)",
		100*held/all, all, 100*score.Held50, 100*score.Held80, 100*score.Held95, len(predictions), 1000*score.Bias, 1000*score.Error, 1000*score.DefaultError, score.Lines, 1000*score.ErrorWhereLines, 1000*score.LineError)
	t.Logf("after 4 readings: median error of a weekend's wear %.1f %%, defaults %.1f %%: %.0f %% below", 100*median(after4), 100*median(default4), 100*better)
}

// TestOwnersRoadsOnly: who never drives on a circuit learns nothing of
// circuits, exactly.
func TestOwnersRoadsOnly(t *testing.T) {
	owners(t, 10, 17, func(b *bench, _ int, random *rand.Rand) {
		o := b.drive(random, 6, []string{"errand", "journey"})
		for _, k := range []profiles.Kind{profiles.Tire, profiles.Pads} {
			h, l := b.learned(t, o, k)
			for axle := range 2 {
				s := h.ratesOf(l, h.current[axle].key)
				if s.Mean[1] != 0 || math.Abs(s.SD(1)-h.spread.circuit) > 1e-9 || math.Abs(s.Root[1][0]) > 1e-9 || s.Learned.Circuit.Taught {
					t.Errorf("%s, axle %d: ln circuit %g +- %g, prior 0 +- %g, tied %g", k, axle, s.Mean[1], s.SD(1), h.spread.circuit, s.Root[1][0])
				}
				if k == profiles.Tire && !s.Learned.Road.Taught {
					t.Errorf("%s, axle %d: thousands of road miles taught nothing: %+v", k, axle, s.Learned.Road)
				}
			}
		}
	})
}

// TestOwnersOutliers: a reading that is 2 mm too deep is said, and left out where
// the tread would have grown; of good readings next to none is. One from which the
// tread falls fast to the next could be true, and is not dropped.
func TestOwnersOutliers(t *testing.T) {
	var mu sync.Mutex
	found, good, falsely := 0, 0, 0
	const n = 40
	owners(t, n, 19, func(b *bench, _ int, random *rand.Rand) {
		o := b.drive(random, 6, []string{"day", "weekend", "errand"})
		var treads []int
		for i, e := range o.log {
			if e.What == logbook.Tread {
				treads = append(treads, i)
			}
		}
		_, before := b.learned(t, o, profiles.Tire)
		wrong := &o.log[treads[len(treads)/2+random.IntN(6)]]
		wrong.Value += 2e-3
		h, l := b.learned(t, o, profiles.Tire)
		mu.Lock()
		defer mu.Unlock()
		good, falsely = good+len(before.used), falsely+len(before.outliers)
		for _, i := range l.misfits() {
			if r := h.readings[i]; r.level == wrong.Value && r.place == wrong.Place && r.zone == wrong.Zone {
				found++
			}
		}
	})
	t.Logf("%d of %d outliers found; %d of %d good readings left out", found, n, falsely, good)
	if found < n*9/10 || falsely*200 > good {
		t.Errorf("%d of %d outliers found; %d of %d good readings left out", found, n, falsely, good)
	}
}

// apart is what sets a wheel apart from both of its axle, ln.
func (o owner) apart(k profiles.Kind, axle int, place string) float64 {
	sum, n := 0.0, 0.0
	for p, multiple := range o.own {
		switch {
		case p.kind != k || p.axle != axle:
		case p.place == place:
			sum, n = sum+math.Log(multiple)/2, n+0.5
		case p.place != place:
			sum, n = sum-math.Log(multiple)/2, n+0.5
		}
	}
	return sum / n
}

// biting is what sets the circuits apart that a set was read after, each as much
// as it took there, ln.
func (o owner) biting(h *history, l estimate, k profiles.Kind, axle int) float64 {
	_, form := h.onAverage(l, h.current[axle].key)
	sum := 0.0
	for _, p := range form.Powers[2:] {
		sum += p.Exponent * o.bites[k][h.past.Circuits[p.Factor-h.ofVisit(h.past.Visits)].Name]
	}
	return sum
}

// weekendError is how far off the wear of a weekend is at a point, as a share: by
// what was learned, and by the defaults.
func (b *bench) weekendError(s projection.RatePosterior, o owner, k profiles.Kind, axle int) (learned, plain float64) {
	p := where{k, axle, k.Info().Sets[axle].At[1], 0}
	zone := kind.Zones[0]
	if k == profiles.Pads {
		p.zone, zone = -1, ""
	}
	truth, real := o.truth[k][axle], 0.0
	for _, u := range b.known["weekend"].Usages {
		lost := p.of(u.Nominal())
		plain += lost
		if u.Circuit {
			real += lost * math.Exp(truth[1]+o.bites[k][u.Name]) * o.own[p]
			learned += lost * s.OnCircuit(p.place, zone, u.Name)
		} else {
			real += lost * math.Exp(truth[0]) * o.own[p]
			learned += lost * s.OnRoads(p.place, zone)
		}
	}
	return math.Abs(learned-real) / real, math.Abs(plain-real) / real
}

func median(x []float64) float64 {
	x = slices.Sorted(slices.Values(x))
	return x[len(x)/2]
}
