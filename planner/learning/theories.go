package learning

import (
	"math"
	"slices"

	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/wearmodel/reliability"
)

// theory is something that the logbook does not say and that would explain its
// readings: a wheel wears otherwise since some odometer, a circuit day is missing
// between two, or the gauge reads otherwise since one.
type theory struct {
	what  theoryKind
	key   int // of the set and part, of a change
	place string
	from  float64 // m
	to    float64 // m, of a day that is missing
	said  bool    // by the owner: a row of the logbook
	gain  float64 // log of the odds for it
}

type theoryKind int

const (
	changed theoryKind = iota
	missing
	stepped
)

// What is believed of theories before the readings, and how many are looked for.
// Engineering choices.
const (
	changeSD   = 0.7 // of the ln of a wheel's multiple since a change
	missingSD  = 0.5 // of the ln of how many usual circuit days are missing
	stepSDs    = 2.0 // of a gauge's step, in its errors
	theoryOdds = 6.0 // log of the odds that the readings must give: one wheel or interval in 400 has such a thing
	mostGuess  = 4   // theories that nobody said
	lately     = 8   // occasions back that are searched
	worthTry   = 4.0 // score, as a chi-square, from which on a theory is tried
)

// spread is a theory's prior: the ln of a change, of days, or the step itself.
func (h *history) prior(t theory) (mean, sd float64) {
	switch t.what {
	case changed:
		return 0, changeSD
	case missing:
		return 0, missingSD
	case stepped:
		return 0, stepSDs * h.starts[0].SD
	}
	return 0, 0
}

// answered is how near an owner's row must be to the odometer of a theory to be
// about it, m. Engineering choice.
const answered = 50e3

// said are the theories that the owner's rows say, before an odometer.
func (h *history) said(before float64) (out []theory) {
	for _, e := range h.way.Folder.Log {
		t := theory{from: float64(e.Odometer), said: true}
		switch {
		case t.from >= before:
		case e.What == logbook.Gauge && e.Text == string(h.reads()):
			t.what = stepped
			out = append(out, t)
		case e.What == logbook.Change && e.Text == cause(h.kind.ID):
			for key := range h.keys {
				for _, place := range e.At() {
					if t.key, t.place = key, place; slices.Contains(h.kind.ID.Info().Sets[h.axleOf(key)].At, place) {
						out = append(out, t)
					}
				}
			}
		}
	}
	return out
}

// denied says whether the owner's rows answer a theory, with yes or no.
func (h *history) denied(t theory) bool {
	return slices.ContainsFunc(h.way.Folder.Log, func(e logbook.Entry) bool {
		return math.Abs(float64(e.Odometer)-t.from) < answered &&
			(t.what == changed && e.What == logbook.Change && slices.Contains(e.At(), t.place) || t.what == stepped && e.What == logbook.Gauge)
	})
}

// reads is the row that the kind's points are read by.
func (h *history) reads() logbook.What { return h.readings[0].what }

// rates are the believed factors and starts with the readings of an estimate, by
// its theories.
func (h *history) rates(l estimate) reliability.Rates {
	r := reliability.Rates{Factors: h.priorFactors(l.unrest), Starts: h.starts}
	for _, t := range l.theories {
		mean, sd := h.prior(t)
		if t.what == stepped {
			r.Starts = append(slices.Clip(r.Starts), reliability.Start{Mean: mean, SD: math.Hypot(sd, h.starts[0].SD)})
		} else {
			r.Factors = append(r.Factors, reliability.Factor{Mean: mean, SD: sd})
		}
	}
	for _, i := range l.used {
		y := h.readings[i]
		taken, offset := h.byTheories(l, y)
		r.Readings = append(r.Readings, reliability.Reading{Start: y.start, Offset: offset, Level: y.level, Gauge: y.gauge * l.wider, Taken: taken, Hold: outlierSDs})
	}
	return r
}

// factorOf is the factor of an estimate's theory, or the offset as a Reading's.
func (h *history) factorOf(l estimate, n int) int {
	factors, starts := h.factors(), len(h.starts)
	for _, t := range l.theories[:n] {
		if t.what == stepped {
			starts++
		} else {
			factors++
		}
	}
	if l.theories[n].what == stepped {
		return starts + 1
	}
	return factors
}

// byTheories is what was taken from a reading's point, and its gauge's offset.
func (h *history) byTheories(l estimate, y reading) ([]reliability.Taken, int) {
	taken, offset := y.taken, y.offset
	for n, t := range l.theories {
		switch {
		case t.what == stepped && y.odometer >= t.from && y.offset > 0:
			offset = h.factorOf(l, n)
		case t.what == changed && t.key == y.key && t.place == y.place && y.odometer > t.from:
			taken = h.multiplied(taken, h.until(y, t.from), h.factorOf(l, n))
		case t.what == missing && y.odometer >= t.to && y.from <= t.from:
			taken = append(slices.Clip(taken), reliability.Taken{
				Amount: y.of(&h.way.PerDay),
				Powers: append(append(h.circuitOf(y.key), h.ofPoint(y.key, y.place, y.zone)...), reliability.Power{Factor: h.factorOf(l, n), Exponent: 1}),
			})
		}
	}
	return taken, offset
}

// until is what was taken from a reading's point up to an odometer, as far as an
// earlier reading of the same part tells.
func (h *history) until(y reading, odometer float64) []reliability.Taken {
	var before []reliability.Taken
	for _, i := range h.ofStart[y.start] {
		if r := h.readings[i]; r.odometer <= odometer {
			before = r.taken
		}
	}
	return before
}

// multiplied is what was taken, with a factor more on what came after the first.
func (h *history) multiplied(taken, before []reliability.Taken, factor int) []reliability.Taken {
	first := map[int]float64{}
	for _, t := range before {
		first[h.visitOf(t)] = t.Amount
	}
	var out []reliability.Taken
	for _, t := range taken {
		part := min(t.Amount, first[h.visitOf(t)])
		if part > 0 {
			out = append(out, reliability.Taken{Amount: part, Powers: t.Powers})
		}
		if t.Amount > part {
			out = append(out, reliability.Taken{Amount: t.Amount - part, Powers: append(slices.Clip(t.Powers), reliability.Power{Factor: factor, Exponent: 1})})
		}
	}
	return out
}

// effects are how the readings of an estimate follow a theory's number.
func (h *history) effects(l estimate, t theory) []reliability.Effect {
	var out []reliability.Effect
	for k, i := range l.used {
		y := h.readings[i]
		slope := 0.0
		switch {
		case t.what == stepped && y.odometer >= t.from && y.offset > 0:
			slope = 1
		case t.what == changed && t.key == y.key && t.place == y.place && y.odometer > t.from:
			slope = amountBy(l.fit, h.until(y, t.from)) - amountBy(l.fit, y.taken)
		case t.what == missing && y.odometer >= t.to && y.from <= t.from:
			slope = -y.of(&h.way.PerDay)
		}
		if slope != 0 {
			out = append(out, reliability.Effect{Reading: k, Slope: slope})
		}
	}
	return out
}

func amountBy(f reliability.Fit, taken []reliability.Taken) float64 {
	sum := 0.0
	for _, t := range taken {
		sum += f.Taken(t)
	}
	return sum
}

// candidates are the theories that the last occasions could be explained by.
func (h *history) candidates(l estimate) []theory {
	wheels := map[theory][]float64{} // by wheel: where it was read, of the part that is there
	var all []float64
	for _, i := range l.used {
		y := h.readings[i]
		wheel := theory{what: changed, key: y.key, place: y.place}
		if at := wheels[wheel]; len(at) == 0 || at[len(at)-1] < y.odometer {
			wheels[wheel] = append(at, y.odometer)
		}
		if len(all) == 0 || all[len(all)-1] < y.odometer {
			all = append(all, y.odometer)
		}
	}
	compared := func(key int, place string, since float64) bool {
		return slices.ContainsFunc(logbook.Wheels, func(other string) bool {
			at := wheels[theory{what: changed, key: key, place: other}]
			return other != place && len(at) > 0 && at[len(at)-1] > since
		})
	}
	recent := func(at []float64) []float64 { return at[max(0, len(at)-1-lately):] }
	var out []theory
	for key := range h.keys {
		for _, place := range logbook.Wheels {
			read := wheels[theory{what: changed, key: key, place: place}]
			at := recent(read)
			for n := range len(at) - 1 {
				if at[n] == read[0] && !compared(key, place, at[n]) { // faster than what?
					continue
				}
				out = append(out, theory{what: changed, key: key, place: place, from: at[n]})
			}
		}
	}
	for n, at := range recent(all) {
		if n > 0 {
			out = append(out, theory{what: stepped, from: at}, theory{what: missing, from: recent(all)[n-1], to: at})
		}
	}
	return out
}

// theorize looks for what the logbook does not say and would explain its
// readings. The plan goes by it where it is the worse news.
func (h *history) theorize(l *estimate) {
	all := h.explained(*l)
	l.asked, l.theories = all.theories, nil
	for n, t := range all.theories {
		if t.said || h.worse(all, n) {
			l.theories = append(l.theories, t)
		}
	}
	if len(l.theories) == len(all.theories) {
		l.fit = all.fit
	} else if len(l.theories) > 0 {
		l.fit = h.rates(*l).Fit(l.fit)
	}
}

// sinceChanges are the factors of the changes at a wheel that last.
func (h *history) sinceChanges(l estimate, key int, place string) []reliability.Power {
	var out []reliability.Power
	for n, t := range l.theories {
		if t.what == changed && t.key == key && t.place == place {
			out = append(out, reliability.Power{Factor: h.factorOf(l, n), Exponent: 1})
		}
	}
	return out
}

// offsetNow is the offset of the gauge as it reads now, as a Reading's.
func (h *history) offsetNow(l estimate) int {
	now, from := 1, math.Inf(-1)
	for n, t := range l.theories {
		if t.what == stepped && t.from > from {
			now, from = h.factorOf(l, n), t.from
		}
	}
	return now
}

// explained looks for theories that the readings speak for by far, the best
// first, and gives them with the fit by all of them.
func (h *history) explained(l estimate) estimate {
	guesses := 0
	for guesses < mostGuess {
		var best estimate
		odds := theoryOdds
		for _, t := range h.mostLikely(l) {
			with := l
			with.theories = append(slices.Clone(l.theories), t)
			with.fit = h.rates(with).Fit(l.fit)
			_, sd := h.prior(t)
			n := len(with.theories) - 1
			variance := h.varianceOf(with, n)
			gain := l.fit.Cost() - with.fit.Cost() + float64(math.Log(variance/(sd*sd))/2)
			if gain > odds {
				odds, best = gain, with
				best.theories[n].gain = gain - theoryOdds
			}
		}
		if best.theories == nil {
			break
		}
		l, guesses = best, guesses+1
	}
	return l
}

// mostLikely are the few candidates whose score is the highest.
func (h *history) mostLikely(l estimate) []theory {
	type scored struct {
		theory
		chi2 float64
	}
	var all []scored
	for _, t := range h.candidates(l) {
		effects := h.effects(l, t)
		if len(effects) == 0 || h.denied(t) || slices.ContainsFunc(l.theories, func(o theory) bool {
			return o.what == t.what && o.from == t.from && o.place == t.place && o.key == t.key
		}) {
			continue
		}
		_, sd := h.prior(t)
		if t.what == missing {
			sd = 1 // days, none to several
		}
		slope, information := l.fit.Score(effects)
		if chi2 := slope * slope / (information + 1/(sd*sd)); chi2 > worthTry*2 && (t.what != missing || slope > 0) {
			all = append(all, scored{t, chi2})
		}
	}
	slices.SortStableFunc(all, func(a, b scored) int {
		switch {
		case a.chi2 > b.chi2:
			return -1
		case a.chi2 < b.chi2:
			return 1
		}
		return 0
	})
	var out []theory
	for _, s := range all[:min(3, len(all))] {
		out = append(out, s.theory)
	}
	return out
}

// varianceOf is that of a theory's number after the fit, meanOf its mean.
func (h *history) varianceOf(l estimate, n int) float64 {
	_, cov := l.fit.Joint([]reliability.Form{h.formOf(l, n)})
	return cov[0][0]
}

func (h *history) meanOf(l estimate, n int) float64 {
	mean, _ := l.fit.Joint([]reliability.Form{h.formOf(l, n)})
	return mean[0]
}

func (h *history) formOf(l estimate, n int) reliability.Form {
	if l.theories[n].what == stepped {
		return reliability.Form{Offset: h.factorOf(l, n)}
	}
	return reliability.Form{Powers: []reliability.Power{{Factor: h.factorOf(l, n), Exponent: 1}}}
}

// worse says whether a theory is the worse news: wear that grew, or a gauge that
// reads deeper than it did. What nobody said and is better news, the plan does not
// go by.
func (h *history) worse(l estimate, n int) bool {
	switch l.theories[n].what {
	case changed:
		return h.meanOf(l, n) > 0
	case stepped:
		return h.meanOf(l, n) > l.fit.OffsetOf(1)
	case missing:
		return false
	}
	return false
}
