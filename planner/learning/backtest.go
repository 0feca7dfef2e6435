package learning

import (
	"cmp"
	"maps"
	"math"
	"slices"
	"time"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/projection"
	"example.com/tripwear/wearmodel/reliability"
)

// backtestDraws is how many draws a forecast takes; the bands' ends are
// then good to a few hundredths of their width.
const backtestDraws = 400

// The work that a backtest may be: readings fitted anew over all occasions, but so
// many occasions at least. Engineering choices.
const (
	mostRefitted   = 9000
	leastOccasions = 10
)

// backtest forecasts the readings of a history's latest occasions, each from the
// readings before it, and counts those of earlier occasions. Outliers are left
// out.
func (h *history) backtest(l estimate, seed uint64) (out []plan.Prediction, earlier int) {
	all := h.occasions(l)
	first := max(0, len(all)-min(plan.LatestOccasions, max(leastOccasions, mostRefitted/max(1, len(h.readings)))))
	for _, which := range all[:first] {
		earlier += len(which)
	}
	known := estimate{fit: l.fit}
	for _, which := range all[first:] {
		known = h.learn(h.readings[which[0]].odometer, known)
		out = append(out, h.forecast(known, which, seed)...)
	}
	return out, earlier
}

// occasions lists, for every odometer with readings, those that could be
// forecast.
func (h *history) occasions(l estimate) [][]int {
	out := make([]bool, len(h.readings))
	for _, i := range l.misfits() {
		out[i] = true
	}
	var all [][]int
	first := map[int]float64{} // by start: the odometer of its first reading
	at := math.Inf(-1)
	for i, r := range h.readings {
		if _, known := first[r.start]; !known {
			first[r.start] = r.odometer
		}
		if len(r.taken) == 0 || out[i] || h.starts[r.start].SD == unknownStartSD && first[r.start] == r.odometer {
			continue
		}
		if r.odometer > at {
			all, at = append(all, nil), r.odometer
		}
		all[len(all)-1] = append(all[len(all)-1], i)
	}
	return all
}

// forecast forecasts the readings made at one odometer, as a plan on the day
// before would have: from each point's last reading, by what was known.
func (h *history) forecast(known estimate, which []int, seed uint64) []plan.Prediction {
	random, draws := projection.Stream(seed, "backtest"), projection.NewDraws(backtestDraws, seed)
	byKey := map[int][]int{}
	for k, i := range which {
		byKey[h.readings[i].key] = append(byKey[h.readings[i].key], k)
	}
	levels := make([][]float64, len(which))
	for _, key := range slices.Sorted(maps.Keys(byKey)) {
		last, ahead := map[string]reading{}, []projection.Ahead(nil)
		for _, k := range byKey[key] {
			r := h.readings[which[k]]
			before := h.before(known, r)
			last[projection.PointKey(r.place, r.zone)] = before
			ahead = append(ahead, h.ahead(before, r))
		}
		for n, drawn := range h.ratesFrom(known, key, last, true).Forecast(draws, random, ahead) {
			levels[byKey[key][n]] = drawn
		}
	}
	out := make([]plan.Prediction, len(which))
	for k, i := range which {
		r := h.readings[i]
		gauge := r.gauge * known.wider
		p := plan.Prediction{
			Set: h.setID(r), Place: r.place, Zone: r.zone, Date: r.date, Odometer: r.odometer, Read: r.level,
			Default: h.nominal(known, r),
		}
		for d, v := range levels[k] {
			p.Rank += math.Erfc((v-r.level)/(gauge*math.Sqrt2)) / 2 / backtestDraws
			levels[k][d] = v + float64(gauge*random.NormFloat64())
		}
		slices.Sort(levels[k])
		at := func(share float64) float64 { return levels[k][int(share*backtestDraws)] }
		p.Low, p.Median, p.High = at(0.1), at(0.5), at(0.9)
		p.Line, p.HasLine = h.lineThrough(known, r)
		out[k] = p
	}
	return out
}

// before is the last known reading of a point before another, or its new part.
func (h *history) before(known estimate, r reading) reading {
	for _, i := range slices.Backward(known.used) {
		if y := h.readings[i]; y.start == r.start {
			return y
		}
	}
	r.level, r.odometer, r.date, r.taken, r.isNew = h.starts[r.start].Mean, r.from, time.Time{}, nil, true
	return r
}

// ahead is what the driving between two readings takes by the model.
func (h *history) ahead(before, r reading) projection.Ahead {
	out := projection.Ahead{Place: r.place, Zone: r.zone, From: before.level}
	taken := map[int]float64{} // by visit; -1 on roads
	for _, t := range before.taken {
		taken[h.visitOf(t)] += t.Amount
	}
	for _, t := range r.taken {
		visit := h.visitOf(t)
		more := t.Amount - taken[visit]
		switch {
		case visit < 0:
			out.Road = more
		case more > 0:
			slope := math.Sqrt(math.Max(0, 2*(float64(t.Powers[2].Exponent*t.Powers[2].Exponent)-float64(h.spread.visit*h.spread.visit))))
			out.Visits = append(out.Visits, projection.Visit{Number: visit, Circuit: h.past.Circuits[t.Powers[3].Factor-h.ofVisit(h.past.Visits)].Name, Taken: more, Slope: slope})
		}
	}
	return out
}

// nominal is a reading as forecast without the logbook's rates: the weighted
// mean of its start by all known levels, less the nominal wear.
func (h *history) nominal(known estimate, r reading) float64 {
	s := h.starts[r.start]
	weight := 1 / (s.SD * s.SD)
	mean := float64(s.Mean * weight)
	for _, i := range known.used {
		if y := h.readings[i]; y.start == r.start {
			w := 1 / (y.gauge * y.gauge)
			weight, mean = weight+w, mean+float64(w*(y.level+amount(y.taken)))
		}
	}
	return mean/weight - amount(r.taken)
}

func amount(taken []reliability.Taken) float64 {
	sum := 0.0
	for _, t := range taken {
		sum += t.Amount
	}
	return sum
}

// lineThrough is the straight line by the odometer through the levels of a point
// known before, the new part's among them.
func (h *history) lineThrough(known estimate, r reading) (float64, bool) {
	var n, sx, sy, sxx, sxy float64
	add := func(x, y float64) {
		x -= r.from
		n, sx, sy, sxx, sxy = n+1, sx+x, sy+y, sxx+float64(x*x), sxy+float64(x*y)
	}
	if s := h.starts[r.start]; s.SD < unknownStartSD {
		add(r.from, s.Mean)
	}
	for _, i := range known.used {
		if y := h.readings[i]; y.start == r.start {
			add(y.odometer, y.level)
		}
	}
	spread := float64(n*sxx) - float64(sx*sx)
	if n < 2 || spread <= 0 {
		return 0, false
	}
	slope := (float64(n*sxy) - float64(sx*sy)) / spread
	return float64((sy-float64(slope*sx))/n) + float64(slope*(r.odometer-r.from)), true
}

// score sums forecasts up.
func score(all []plan.Prediction) plan.Backtest {
	b := plan.Backtest{Predictions: all}
	n := float64(len(all))
	if n == 0 {
		return b
	}
	for _, p := range all {
		for _, held := range []struct {
			share float64
			of    *float64
		}{{0.5, &b.Held50}, {0.8, &b.Held80}, {0.95, &b.Held95}} {
			if math.Abs(p.Rank-0.5) <= held.share/2 {
				*held.of += 1 / n
			}
		}
		b.Bias += (p.Read - p.Median) / n
		b.Error += math.Abs(p.Read-p.Median) / n
		b.DefaultError += math.Abs(p.Read-p.Default) / n
		if p.HasLine {
			b.Lines++
			b.LineError += math.Abs(p.Read - p.Line)
			b.ErrorWhereLines += math.Abs(p.Read - p.Median)
		}
	}
	if b.Lines > 0 {
		b.LineError /= float64(b.Lines)
		b.ErrorWhereLines /= float64(b.Lines)
	}
	return b
}

// Backtest is that of tires and pads together, in the order read.
func (l *Evidence) Backtest(seed uint64) plan.Backtest {
	var all []plan.Prediction
	left := 0
	for _, k := range learnedKinds() {
		if h, ok := l.histories[k.ID]; ok {
			latest, earlier := h.backtest(l.estimates[k.ID], seed)
			all, left = append(all, latest...), left+earlier
		}
	}
	slices.SortStableFunc(all, func(a, b plan.Prediction) int { return cmp.Compare(a.Odometer, b.Odometer) })
	b := score(all)
	b.Earlier = left
	return b
}
