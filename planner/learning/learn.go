package learning

import (
	"cmp"
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"
	"time"

	"gonum.org/v1/gonum/stat/distuv"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/projection"
	"example.com/tripwear/planner/trip"
	"example.com/tripwear/profiles"
	"example.com/tripwear/wearmodel/reliability"
)

// How outliers are found, and excess scatter. Engineering choices.
const (
	outlierSDs    = 4.0  // standard deviations from what the other readings say
	outlierLevels = 2    // levels of a point it takes to say that one is off
	outlierOneIn  = 4    // at most one reading in so many is an outlier
	perRound      = 200  // one outlier for each so many readings, and one more, is left out before the next fit
	scatterLevel  = 0.99 // probability of less scatter than that by the gauge alone
	leastFree     = 3    // degrees of freedom it takes to test the scatter
)

// estimate is what a history says of the factors of wear.
type estimate struct {
	fit      reliability.Fit
	used     []int    // readings in the fit, by index
	outliers []int    // readings left out, better than the others allow
	held     []int    // readings in the fit that do not fit the others
	wider    float64  // how much wider than the gauge's the readings scatter; 1 where they do not
	unrest            // of visits and events
	theories []theory // in the fit: what the logbook does not say and the plan goes by
	asked    []theory // what the logbook does not say, all of it
}

// learn fits the readings before an odometer. One that is better than the
// others allow is left out, the furthest off first, where that makes no wear
// less. One that is worse still teaches, as much as if it just fitted: the worse
// it is the more it may not teach less. Where the rest scatter more than the gauge explains, the bands
// widen. So do those of visits, which are found by what they took. near is an
// estimate to begin the search with.
func (h *history) learn(before float64, near estimate) estimate {
	l := estimate{wider: 1, fit: near.fit, unrest: cmp.Or(near.unrest, usualUnrest), theories: h.said(before)}
	levels := map[int]int{}
	for i, r := range h.readings {
		if r.odometer >= before {
			break
		}
		if levels[r.start] == 0 && h.starts[r.start].SD < unknownStartSD {
			levels[r.start]++ // the new part
		}
		l.used = append(l.used, i)
		levels[r.start]++
	}
	most := len(l.used) / outlierOneIn
	for {
		l.fit = h.rates(l).Fit(l.fit)
		worst := h.worst(l, levels, min(1+len(l.used)/perRound, most-len(l.outliers)))
		if len(worst) == 0 {
			break
		}
		for _, k := range worst {
			levels[h.readings[l.used[k]].start]--
			l.outliers = append(l.outliers, l.used[k])
		}
		var rest []int
		for k, i := range l.used {
			if !slices.Contains(worst, k) {
				rest = append(rest, i)
			}
		}
		l.used = rest
	}
	for range unrestSteps {
		found := h.unrestBy(l)
		near := found.near(l.unrest)
		l.visits = found.visits
		if near {
			break
		}
		l.unrest = found
		l.fit = h.rates(l).Fit(l.fit)
	}
	chi2, free := l.fit.Scatter()
	if free >= leastFree && chi2 > (distuv.ChiSquared{K: free}).Quantile(scatterLevel) {
		l.wider = math.Sqrt(chi2 / free)
		l.fit = h.rates(l).Fit(l.fit)
	}
	h.theorize(&l)
	for k, off := range l.fit.Deviations() {
		if math.Abs(off) > outlierSDs {
			l.held = append(l.held, l.used[k])
		}
	}
	return l
}

// misfits are the readings that do not fit the others, as they were made.
func (l estimate) misfits() []int {
	return slices.Sorted(slices.Values(slices.Concat(l.outliers, l.held)))
}

// worst finds the readings in a fit that are better than the others allow, the
// furthest off first: so many at most, and of each part's point one. One that is
// not above what was read before it stays where more was read after it: to leave it
// out would make less of the fall from it to the next.
func (h *history) worst(l estimate, levels map[int]int, most int) []int {
	off := l.fit.Deviations()
	last, least := map[int]int{}, map[int]float64{} // by start
	for k, i := range l.used {
		last[h.readings[i].start] = k
	}
	var far []int
	for k, i := range l.used {
		r := h.readings[i]
		before, any := least[r.start]
		least[r.start] = r.level
		if any {
			least[r.start] = min(before, r.level)
		}
		if last[r.start] != k && !(any && r.level > before) { // the fall after it may be wear
			continue
		}
		if levels[r.start] >= outlierLevels && off[k] > outlierSDs {
			far = append(far, k)
		}
	}
	slices.SortStableFunc(far, func(a, b int) int { return cmp.Compare(off[b], off[a]) })
	var worst []int
	seen := map[int]bool{}
	for _, k := range far {
		if start := h.readings[l.used[k]].start; len(worst) < most && !seen[start] {
			worst, seen[start] = append(worst, k), true
		}
	}
	return worst
}

// ratesOf is the posterior of the rates of a set's part, by its key, and of the
// errors of its last readings.
func (h *history) ratesOf(l estimate, key int) projection.RatePosterior {
	last := map[string]reading{}
	for _, i := range l.used {
		if r := h.readings[i]; r.key == key {
			last[projection.PointKey(r.place, r.zone)] = r
		}
	}
	return h.ratesFrom(l, key, last, false)
}

// ratesFrom is ratesOf with the readings that forecasts start from, for levels or
// for what the gauge will read.
func (h *history) ratesFrom(l estimate, key int, last map[string]reading, asRead bool) projection.RatePosterior {
	axle := h.axleOf(key)
	b := projection.RatePosterior{
		Points: map[string]int{}, Starts: map[string]projection.ReadAs{}, Circuits: map[string]int{},
		Apart: h.spread.apart, Visit: h.visitAhead(l.unrest),
	}
	now := h.drifted(h.latest(l))
	forms := []reliability.Form{{Powers: h.roadOf(key)}, {Powers: append(h.circuitOf(key), now...)}}
	for _, place := range h.kind.ID.Info().Sets[axle].At {
		for _, zone := range h.zones {
			b.Points[projection.PointKey(place, zone)] = len(forms)
			forms = append(forms, reliability.Form{Powers: append(h.ofPoint(key, place, zone), h.sinceChanges(l, key, place)...)})
		}
	}
	names := slices.Sorted(maps.Keys(last))
	for _, name := range names {
		r := last[name]
		b.Starts[name] = projection.ReadAs{Odometer: r.odometer, Level: r.level, Index: len(forms)}
		taken, offset := h.byTheories(l, r)
		form := reliability.Form{Level: &reliability.Ask{Start: r.start, Taken: taken}}
		if asRead {
			form.Offset = max(1, offset)
		}
		forms = append(forms, form)
	}
	for _, c := range h.past.Circuits {
		b.Circuits[c.Name] = len(forms)
		forms = append(forms, reliability.Form{Powers: []reliability.Power{{Factor: h.ofCircuit(c.Name), Exponent: 1}}})
	}
	all, where := h.onAverage(l, key)
	where.Powers = append(where.Powers, now...)
	mean, cov := l.fit.Joint(append(forms, where, reliability.Form{Offset: h.offsetNow(l)}))
	n := len(forms)
	off := [2]float64{math.Max(0, mean[n+1]), cov[n+1][n+1]} // a gauge that reads shallow is no good news
	if asRead {
		off = [2]float64{}
	}
	for _, name := range names {
		r, i := last[name], b.Starts[name].Index
		if mean[i] -= r.level; !r.isNew { // the level is as read, whatever the others say of it
			mean[i], cov[i][i] = -off[0], math.Max(cov[i][i], float64(r.gauge*r.gauge*l.wider*l.wider)+off[1])
		}
	}
	if h.latest(l) >= 0 { // the next event is a step away
		cov[onCircuits][onCircuits] += float64(l.drift * l.drift)
	}
	b.Mean, b.Root = mean[:n], rootOf(cov, n)
	if len(where.Powers) == len(forms[1].Powers) {
		cov[n][n] += float64(b.Apart * b.Apart)
	}
	worn := map[int]bool{} // starts with a reading after some driving
	for _, i := range l.used {
		if r := h.readings[i]; len(r.taken) > 0 {
			worn[r.start] = true
		}
	}
	cars := h.beliefs[key].cars
	if len(worn) == 0 && cars == 0 {
		return b
	}
	own := map[float64]bool{}
	for _, i := range l.used {
		if r := h.readings[i]; r.axle == axle && h.ofSet(r, key) && worn[r.start] {
			own[r.odometer] = true
		}
	}
	b.Learned = plan.Learned{
		Readings: len(own), Borrowed: len(own) == 0 && len(worn) > 0, Others: cars,
		Road:    multiplier(mean[0], math.Sqrt(cov[0][0]), h.spread.road),
		Circuit: multiplier(mean[n], math.Sqrt(cov[n][n]), all),
	}
	return b
}

// onAverage is the rate of a set's part on the circuits it was read after, each
// as much as it took there, and its spread by the prior.
func (h *history) onAverage(l estimate, key int) (prior float64, form reliability.Form) {
	taken, sum := make([]float64, len(h.past.Circuits)), 0.0
	for _, i := range l.used {
		for _, t := range h.readings[i].taken {
			if h.visitOf(t) >= 0 && h.readings[i].key == key {
				taken[t.Powers[3].Factor-h.ofVisit(h.past.Visits)] += t.Amount
				sum += t.Amount
			}
		}
	}
	form.Powers = h.circuitOf(key)
	variance := float64(h.spread.circuit * h.spread.circuit)
	for i, c := range h.past.Circuits {
		if share := taken[i] / math.Max(sum, leastSpread*leastSpread); share > 0 {
			form.Powers = append(form.Powers, reliability.Power{Factor: h.ofCircuit(c.Name), Exponent: share})
			own := h.spread.apart
			if c.Summary {
				own = h.spread.bySummary
			}
			variance += float64(share * share * own * own)
		}
	}
	if sum == 0 { // any circuit is as far from the model's
		variance += float64(h.spread.apart * h.spread.apart)
	}
	return math.Sqrt(variance), form
}

// rootOf is the lower triangular root of the first rows of a covariance. What the
// rows before say all of has no part of its own.
func rootOf(cov [][]float64, n int) [][]float64 {
	root := make([][]float64, n)
	for i := range root {
		root[i] = make([]float64, i+1)
		for j := range i + 1 {
			rest := cov[i][j]
			for k := range j {
				rest -= float64(root[i][k] * root[j][k])
			}
			switch {
			case i == j:
				root[i][i] = math.Sqrt(math.Max(0, rest))
			case root[j][j] > 0:
				root[i][j] = rest / root[j][j]
			}
		}
	}
	return root
}

// ofSet says whether a reading is one of a set's own: those of another set that
// swaps with it are not, those of a part that was replaced are.
func (h *history) ofSet(r reading, key int) bool {
	return r.key == key || !slices.ContainsFunc(h.current, func(c current) bool { return c.key == r.key })
}

// onCircuits is the row of a posterior that circuits have.
const onCircuits = 1

const (
	band80        = 1.2815515655 // normal quantile of 0.9
	narrowedShare = 0.97         // a posterior narrower than this share of its prior has learned something; engineering choice
)

func multiplier(mean, sd, prior float64) plan.Multiplier {
	return plan.Multiplier{
		Median: math.Exp(mean), Low: math.Exp(mean - float64(band80*sd)), High: math.Exp(mean + float64(band80*sd)),
		Taught: sd < narrowedShare*prior,
	}
}

// Evidence is the posterior of the logbook, with the readings it rests on.
type Evidence struct {
	projection.Posterior
	Way       *trip.Journey
	histories map[profiles.Kind]*history
	estimates map[profiles.Kind]estimate
	replaced  map[string][]partHistory // by id of the set
	repaired  map[string]bool          // by id of the set
	corners   map[string]corner        // by id of the set, where there is a history
}

// learnedKinds are the kinds whose readings say how fast they wear.
func learnedKinds() []*kind.Kind {
	return slices.DeleteFunc(slices.Clone(kind.All), func(k *kind.Kind) bool { return !k.ID.Info().Rated })
}

// Learn works out the posterior from the logbook and car.yaml's own readings.
func Learn(m trip.Machine, w *trip.Journey) (*Evidence, error) {
	l := &Evidence{Way: w, histories: map[profiles.Kind]*history{}, estimates: map[profiles.Kind]estimate{}}
	l.Sets, l.Outliers = map[string]projection.RatePosterior{}, map[string]projection.Outlier{}
	for _, k := range learnedKinds() {
		h, err := newHistory(w, m, k)
		if err != nil {
			return nil, err
		}
		est := h.learn(math.Inf(1), estimate{})
		l.histories[k.ID], l.estimates[k.ID] = h, est
		h.outliersInto(est, l.Outliers)
		for _, c := range h.current {
			if s := h.ratesOf(est, c.key); s.Learned != (plan.Learned{}) {
				l.Sets[c.set] = s
			}
		}
	}
	l.learnReplacements()
	return l, nil
}

// Warnings names the readings that do not fit and the trips that cannot be.
func (l *Evidence) Warnings() []string {
	var out []string
	for _, k := range learnedKinds() {
		h := l.histories[k.ID]
		est := l.estimates[k.ID]
		for _, i := range est.misfits() {
			r, when := h.readings[i], "in car.yaml"
			if !r.date.IsZero() {
				when = "of " + r.date.Format("2 Jan 2006")
			}
			where := r.place
			if r.zone != "" {
				where += " " + r.zone
			}
			then := "teaches nothing: measure it again"
			if slices.Contains(est.held, i) {
				then = "teaches no more than one that just does: measure it again, and until then the plan goes from it where it is the last"
			}
			out = append(out, fmt.Sprintf("The %s reading %s at %s (%.1f mm) does not fit the others and %s.", r.what, when, where, 1000*r.level, then))
		}
	}
	for _, k := range learnedKinds() {
		for _, q := range l.histories[k.ID].questions(l.estimates[k.ID]) {
			then := "does not go by it, as it would be good news"
			if q.Taken {
				then = "goes by it"
			}
			out = append(out, fmt.Sprintf("%s Until you answer the plan %s: %s.", q.Text, then, strings.Join(q.Answers, ", or ")))
		}
	}
	for _, s := range slices.Concat(l.unheardCars(), l.Way.Past.TooLong) {
		out = append(out, s+".")
	}
	return out
}

// outliersInto adds the points whose last reading was left out, each with the
// last one that was not, or with the part as new.
func (h *history) outliersInto(l estimate, into map[string]projection.Outlier) {
	last, lastUsed := map[int]int{}, map[int]int{} // by start
	for i, r := range h.readings {
		last[r.start] = i
	}
	for _, i := range l.used {
		lastUsed[h.readings[i].start] = i
	}
	for _, i := range l.outliers {
		r := h.readings[i]
		if last[r.start] != i {
			continue
		}
		better := r
		better.level, better.odometer, better.date = h.starts[r.start].Mean, r.from, time.Time{}
		if k, ok := lastUsed[r.start]; ok {
			better = h.readings[k]
		}
		into[projection.OutlierKey(h.setID(r), profiles.SeenKey(r.what, r.place, r.zone))] = projection.Outlier{
			Odometer: r.odometer, Date: r.date, Used: better.level, UsedOdometer: better.odometer, UsedDate: better.date,
		}
	}
}
