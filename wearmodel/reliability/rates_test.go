package reliability

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/floats/scalar"
	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/optimize"
	"pgregory.net/rapid"
)

// twoRates is a level in mm that wears by thousand miles and by laps, with
// believed rates and their standard deviations.
type twoRates struct {
	start, startSD     float64
	road, roadSD       float64 // mm per thousand miles
	circuit, circuitSD float64 // mm per lap
	gauge              float64
	miles, laps, read  []float64
}

// The worked example: readings of a tread at their miles and laps.
var worked = twoRates{
	start: 8, startSD: 0.3, road: 0.12, roadSD: 0.06, circuit: 0.030, circuitSD: 0.012, gauge: 0.15,
	miles: []float64{0, 1.2, 2.0, 4.0, 4.6, 5.6, 7.1},
	laps:  []float64{0, 0, 40, 40, 95, 125, 145},
	read:  []float64{8.0, 7.9, 6.5, 6.3, 4.5, 3.5, 2.6},
}

// logOf is the lognormal distribution with a mean and a standard deviation.
func logOf(mean, sd float64) Factor {
	v := math.Log1p(sd * sd / (mean * mean))
	return Factor{Mean: math.Log(mean) - v/2, SD: math.Sqrt(v)}
}

// rates turns the example into factors: the rates themselves.
func (w twoRates) rates() Rates {
	r := Rates{
		Factors: []Factor{logOf(w.road, w.roadSD), logOf(w.circuit, w.circuitSD)},
		Starts:  []Start{{w.start, w.startSD}},
	}
	for i, level := range w.read {
		r.Readings = append(r.Readings, Reading{Level: level, Gauge: w.gauge, Taken: []Taken{
			{w.miles[i], []Power{{0, 1}}},
			{w.laps[i], []Power{{1, 1}}},
		}})
	}
	return r
}

// belief is what the grid says of the two rates and of their logs.
type belief struct{ mean, logMean, logSD [2]float64 }

// grid is the exact posterior on a grid of the two log rates, the start
// integrated out in closed form.
func (w twoRates) grid() belief {
	const points, span = 401, 6.0
	prior := w.rates().Factors
	at := func(f, i int) float64 { return prior[f].Mean + prior[f].SD*span*(2*float64(i)/(points-1)-1) }
	logs, most := make([]float64, points*points), math.Inf(-1)
	for i := range points {
		for j := range points {
			l := w.logPosterior(at(0, i), at(1, j))
			logs[i*points+j], most = l, math.Max(most, l)
		}
	}
	var b belief
	var sum float64
	var square [2]float64
	for i := range points {
		for j := range points {
			p := math.Exp(logs[i*points+j] - most)
			sum += p
			for f, x := range []float64{at(0, i), at(1, j)} {
				b.mean[f] += p * math.Exp(x)
				b.logMean[f] += p * x
				square[f] += p * x * x
			}
		}
	}
	for f := range 2 {
		b.mean[f] /= sum
		b.logMean[f] /= sum
		b.logSD[f] = math.Sqrt(square[f]/sum - b.logMean[f]*b.logMean[f])
	}
	return b
}

func (w twoRates) logPosterior(a, b float64) float64 {
	prior := w.rates().Factors
	za, zb := (a-prior[0].Mean)/prior[0].SD, (b-prior[1].Mean)/prior[1].SD
	log := -(za*za + zb*zb) / 2
	// Given the rates the start is normal: integrate it out.
	precision := 1 / (w.startSD * w.startSD)
	mean, square := w.start*precision, w.start*w.start*precision
	for i, y := range w.read {
		v := y + w.miles[i]*math.Exp(a) + w.laps[i]*math.Exp(b)
		g := 1 / (w.gauge * w.gauge)
		precision, mean, square = precision+g, mean+v*g, square+v*v*g
	}
	return log - (square-mean*mean/precision)/2
}

// believed turns a fit's two rates into what the grid says.
func (f Fit) believed() belief {
	var b belief
	for i := range 2 {
		mean, _, v, _, _ := f.logOf([]Power{{i, 1}}, nil)
		b.logMean[i], b.logSD[i], b.mean[i] = mean, math.Sqrt(v), math.Exp(mean+v/2)
	}
	return b
}

// Expected values computed by an independent program; 0.5 %.
func TestWorkedExample(t *testing.T) {
	fit, grid := worked.rates().Fit(Fit{}), worked.grid()
	start, _ := fit.Level(0, nil)
	for _, c := range []struct {
		name      string
		got, want float64
	}{
		{"start", start, 8.0081},
		{"road", math.Exp(fit.believed().logMean[0]), 0.11128},
		{"circuit", math.Exp(fit.believed().logMean[1]), 0.031534},
		{"grid, road", grid.mean[0], 0.11373},
		{"grid, circuit", grid.mean[1], 0.031401},
	} {
		if !scalar.EqualWithinRel(c.got, c.want, 0.005) {
			t.Errorf("%s: got %.6g, want %.6g", c.name, c.got, c.want)
		}
	}
}

// The fit agrees with the exact grid as far as the approximation goes: the
// means of the logs within a quarter of their spread (three readings alone leave
// a skewed posterior, whose peak is not its mean), the spreads within 15 %.
func TestFitAgainstGrid(t *testing.T) {
	few := worked
	few.miles, few.laps, few.read = few.miles[:3], few.laps[:3], few.read[:3]
	odd := twoRates{
		start: 8, startSD: 0.3, road: 0.12, roadSD: 0.06, circuit: 0.030, circuitSD: 0.012, gauge: 0.15,
		miles: []float64{0, 1.5, 2.4}, laps: []float64{0, 60, 110}, read: []float64{8.0, 6.2, 4.3},
	}
	for name, w := range map[string]twoRates{"worked": worked, "three readings": few, "steep": odd} {
		fit, grid := w.rates().Fit(Fit{}).believed(), w.grid()
		for f := range 2 {
			if d := math.Abs(fit.logMean[f] - grid.logMean[f]); d > grid.logSD[f]/4 {
				t.Errorf("%s, rate %d: mean of the log %.4f, grid %.4f +- %.4f", name, f, fit.logMean[f], grid.logMean[f], grid.logSD[f])
			}
			if !scalar.EqualWithinRel(fit.logSD[f], grid.logSD[f], 0.15) {
				t.Errorf("%s, rate %d: spread %.4f, grid %.4f", name, f, fit.logSD[f], grid.logSD[f])
			}
		}
	}
}

// Readings from which least squares gets a negative road rate: the fit's is
// positive, and so is its whole band.
func TestNeverNegative(t *testing.T) {
	w := worked
	w.miles, w.laps, w.read = []float64{0, 1.5, 2.4}, []float64{0, 60, 110}, []float64{8.0, 6.2, 4.3}
	// Three readings, three unknowns: the straight solution.
	a := mat.NewDense(3, 3, []float64{1, 0, 0, 1, -1.5, -60, 1, -2.4, -110})
	var x mat.VecDense
	if err := x.SolveVec(a, mat.NewVecDense(3, w.read)); err != nil {
		t.Fatal(err)
	}
	if x.AtVec(1) >= 0 {
		t.Fatalf("the case is meant to give a negative road rate, gives %.4f", x.AtVec(1))
	}
	b := w.rates().Fit(Fit{}).believed()
	if low := math.Exp(b.logMean[0] - 3*b.logSD[0]); !(low > 0) || b.mean[0] > 0.12 {
		t.Errorf("road rate %.4f, at least %.4f", b.mean[0], low)
	}
}

// What was not driven teaches nothing: with no laps the circuit's factor is
// its prior exactly, and its error is not tied to the road's.
func TestNothingDrivenNothingLearned(t *testing.T) {
	w := worked
	w.laps = make([]float64, len(w.laps))
	r := w.rates()
	_, circuit, _, variance, cov := r.Fit(Fit{}).logOf([]Power{{0, 1}}, []Power{{1, 1}})
	if circuit != r.Factors[1].Mean || !scalar.EqualWithinRel(math.Sqrt(variance), r.Factors[1].SD, 1e-12) || math.Abs(cov) > 1e-15 {
		t.Errorf("ln circuit %.6f +- %.6f, cov %g, prior %+v", circuit, math.Sqrt(variance), cov, r.Factors[1])
	}
}

// Where every factor stands alone and the levels are straight in the starts,
// the fit is the textbook's weighted mean.
func TestStartIsWeightedMean(t *testing.T) {
	r := Rates{Starts: []Start{{8, 0.3}}, Readings: []Reading{{Level: 7.8, Gauge: 0.15}, {Level: 7.9, Gauge: 0.2}}}
	level, sd := r.Fit(Fit{}).Level(0, nil)
	w0, w1, w2 := 1/0.09, 1/0.0225, 1/0.04
	if want := (8*w0 + 7.8*w1 + 7.9*w2) / (w0 + w1 + w2); !scalar.EqualWithinAbs(level, want, 1e-9) {
		t.Errorf("level %.6f, want %.6f", level, want)
	}
	if want := 1 / math.Sqrt(w0+w1+w2); !scalar.EqualWithinRel(sd, want, 1e-9) {
		t.Errorf("sd %.6f, want %.6f", sd, want)
	}
}

// Two starts of their own readings are each the textbook's weighted mean:
// (8/0.09 + 7.8/0.0225) / (1/0.09 + 1/0.0225) = 7.84 and
// (6/0.04 + 5/0.04) / (2/0.04) = 5.5.
func TestStartsStandApart(t *testing.T) {
	r := Rates{Starts: []Start{{8, 0.3}, {6, 0.2}}, Readings: []Reading{{Level: 7.8, Gauge: 0.15}, {Start: 1, Level: 5, Gauge: 0.2}}}
	fit := r.Fit(Fit{})
	for start, want := range []float64{7.84, 5.5} {
		if level, _ := fit.Level(start, nil); !scalar.EqualWithinAbs(level, want, 1e-9) {
			t.Errorf("start %d: %.6f, want %.6f", start, level, want)
		}
	}
}

// One factor of prior ln f ~ (0, 0.2), one start of 8 +- 0.1 and one reading
// of 3 +- 0.5 after 4 f^p were taken. The curvature of minus the log of the
// posterior is, with A = 4 f^p and the reading e above the level, 1/0.04 +
// p^2 (A^2 + e A)/0.25 in ln f, 1/0.01 + 1/0.25 in the start, -p A/0.25 across.
// The variance of ln f is the inverse's first entry. By hand.
func TestSpreadOfOneFactor(t *testing.T) {
	for _, p := range []float64{1, 2, 0.5} {
		r := Rates{Factors: []Factor{{SD: 0.2}}, Starts: []Start{{8, 0.1}}, Readings: []Reading{
			{Level: 3, Gauge: 0.5, Taken: []Taken{{4, []Power{{0, p}}}}},
		}}
		fit := r.Fit(Fit{})
		x, _, variance, _, _ := fit.logOf([]Power{{0, 1}}, nil)
		start, _ := fit.Level(0, nil)
		taken := 4 * math.Exp(p*x)
		e := 3 - (start - taken)
		// The most likely point is where both slopes vanish.
		if a, b := x/0.04+e*p*taken/0.25, (start-8)/0.01-e/0.25; math.Abs(a) > 1e-6 || math.Abs(b) > 1e-6 {
			t.Fatalf("power %g: slopes %g, %g at the most likely point", p, a, b)
		}
		factor, both, across := 1/0.04+p*p*(taken*taken+e*taken)/0.25, 1/0.01+1/0.25, -p*taken/0.25
		if want := both / (factor*both - across*across); !scalar.EqualWithinRel(variance, want, 1e-9) {
			t.Errorf("power %g: variance %.9f, want %.9f", p, variance, want)
		}
	}
}

// The search finds the same point as gonum's general optimiser, and more
// readings that agree never widen a rate's band.
func TestFitProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := worked
		n := rapid.IntRange(1, 8).Draw(t, "readings")
		w.miles, w.laps, w.read = nil, nil, nil
		var exact []float64
		miles, laps := 0.0, 0.0
		for range n {
			miles += rapid.Float64Range(0, 3).Draw(t, "miles")
			laps += rapid.Float64Range(0, 60).Draw(t, "laps")
			exact = append(exact, 8-0.12*miles-0.03*laps)
			level := exact[len(exact)-1] + rapid.Float64Range(-0.5, 0.5).Draw(t, "error")
			w.miles, w.laps, w.read = append(w.miles, miles), append(w.laps, laps), append(w.read, level)
		}
		r := w.rates()
		fit := r.Fit(Fit{})
		result, err := optimize.Minimize(optimize.Problem{Func: r.cost}, []float64{r.Factors[0].Mean, r.Factors[1].Mean, 8}, &optimize.Settings{MajorIterations: 3000}, &optimize.NelderMead{})
		if err != nil {
			t.Fatal(err)
		}
		if fitted := r.cost(fit.at); fitted > result.F+1e-6 || math.IsNaN(fitted) {
			t.Fatalf("cost %.6f, gonum finds %.6f", fitted, result.F)
		}
		for f := range 2 {
			if after := fit.variance(f); !(after > 0) || math.IsInf(after, 0) {
				t.Fatalf("rate %d: variance %g", f, after)
			}
		}
		// Readings that contradict one another may widen a band; ones that
		// agree must not, but for the curvature being read at another point.
		w.read = exact
		sound := w.rates()
		less := sound
		less.Readings = sound.Readings[:n-1]
		wide, narrow := less.Fit(Fit{}), sound.Fit(Fit{})
		for f := range 2 {
			if before, after := wide.variance(f), narrow.variance(f); after > before*1.15 {
				t.Fatalf("rate %d: variance %.5f after %.5f", f, after, before)
			}
		}
	})
}

// variance is that of the log of one factor.
func (f Fit) variance(factor int) float64 {
	_, _, v, _, _ := f.logOf([]Power{{factor, 1}}, nil)
	return v
}

// A misread value stands out from the others, and the sound ones do not.
func TestDeviation(t *testing.T) {
	w := worked
	w.read = append([]float64{}, w.read...)
	w.read[4] += 1.5
	r := w.rates()
	worst, most := 0, 0.0
	for i, d := range r.Fit(Fit{}).Deviations() {
		if math.Abs(d) > most {
			worst, most = i, math.Abs(d)
		}
	}
	if worst != 4 || most < 4 {
		t.Errorf("reading %d deviates most, by %.1f", worst, most)
	}
	sound := worked.rates()
	chi2, free := sound.Fit(Fit{}).Scatter()
	if chi2 > 3*free || free < 3 || free > 6 {
		t.Errorf("scatter %.2f over %.2f", chi2, free)
	}
	for i, d := range sound.Fit(Fit{}).Deviations() {
		if math.Abs(d) > 3 {
			t.Errorf("reading %d deviates by %.1f", i, d)
		}
	}
}
