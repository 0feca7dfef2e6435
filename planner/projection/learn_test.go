package projection

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/floats/scalar"
	"gonum.org/v1/gonum/stat"
)

// The draws follow the belief: medians, spreads and the tie between the rates.
func TestDrawnRates(t *testing.T) {
	const n = 40_000
	s := &Set{RoadSD: 0.2, CircuitSD: 0.3, Rates: RatePosterior{Road: 0.1, Circuit: -0.4, Correlation: -0.7}}
	road, circuit := NewWorker(NewDraws(n, 1), nil).rates(Stream(1, "x"), s)
	for i := range road {
		road[i], circuit[i] = math.Log(road[i]), math.Log(circuit[i])
	}
	for _, c := range []struct {
		name      string
		got, want float64
	}{
		{"road", stat.Mean(road, nil), 0.1},
		{"road spread", stat.StdDev(road, nil), 0.2},
		{"circuit", stat.Mean(circuit, nil), -0.4},
		{"circuit spread", stat.StdDev(circuit, nil), 0.3},
		{"tie", stat.Correlation(road, circuit, nil), -0.7},
	} {
		if !scalar.EqualWithinAbs(c.got, c.want, 0.01) { // five standard errors of 40,000 draws
			t.Errorf("%s: %.4f, want %.2f", c.name, c.got, c.want)
		}
	}
}
