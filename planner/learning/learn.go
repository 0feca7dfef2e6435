package learning

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"time"

	"gonum.org/v1/gonum/stat/distuv"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/projection"
	"example.com/tripwear/planner/trip"
	"example.com/tripwear/profiles"
	"example.com/tripwear/wearmodel/reliability"
)

// What is done about readings that do not go with the others. Engineering
// choices.
const (
	misread      = 4.0 // standard deviations from what the others say: left out
	tellsMisread = 3   // levels of a point it takes to say which is off
	mostMisread  = 4   // at most one reading in so many is left out
	atOnce       = 200 // of as many readings only the worst is left out before the others are judged anew, of more, one for each so many
	scatterLevel = 0.99
	leastFree    = 3 // readings beyond what the fit uses up, to judge the gauge by
)

// lesson is what a history teaches.
type lesson struct {
	fit   reliability.Fit
	used  []int   // reads that the fit heard, by their index
	out   []int   // reads left out
	wider float64 // how much wider than the gauge's the readings scatter; 1 where they do not
}

// learn fits the reads before an odometer. Reads that the others contradict
// are left out, the worst first; where the rest scatters more than the gauge
// explains, the bands widen with it. near is a fit to begin the search with.
func (h *history) learn(before float64, near reliability.Fit) lesson {
	l := lesson{wider: 1, fit: near}
	levels := map[int]int{}
	for i, r := range h.reads {
		if r.odometer >= before {
			break
		}
		if levels[r.start] == 0 && h.starts[r.start].SD < unknownStart {
			levels[r.start]++ // the new part
		}
		l.used = append(l.used, i)
		levels[r.start]++
	}
	most := len(l.used) / mostMisread
	for {
		l.fit = h.rates(l.used, 1).Fit(l.fit)
		worst := h.worst(l, levels, min(1+len(l.used)/atOnce, most-len(l.out)))
		if len(worst) == 0 {
			break
		}
		for _, k := range worst {
			levels[h.reads[l.used[k]].start]--
			l.out = append(l.out, l.used[k])
		}
		var rest []int
		for k, i := range l.used {
			if !slices.Contains(worst, k) {
				rest = append(rest, i)
			}
		}
		l.used = rest
	}
	chi2, free := l.fit.Scatter()
	if free >= leastFree && chi2 > (distuv.ChiSquared{K: free}).Quantile(scatterLevel) {
		l.wider = math.Sqrt(chi2 / free)
		l.fit = h.rates(l.used, l.wider).Fit(l.fit)
	}
	return l
}

// worst is which of the readings that a lesson used the others contradict, the
// worst first: so many at most, and of each part's point one.
func (h *history) worst(l lesson, levels map[int]int, most int) []int {
	off := l.fit.Deviations()
	var far []int
	for k, i := range l.used {
		if levels[h.reads[i].start] >= tellsMisread && math.Abs(off[k]) > misread {
			far = append(far, k)
		}
	}
	slices.SortStableFunc(far, func(a, b int) int { return cmp.Compare(math.Abs(off[b]), math.Abs(off[a])) })
	var worst []int
	seen := map[int]bool{}
	for _, k := range far {
		if start := h.reads[l.used[k]].start; len(worst) < most && !seen[start] {
			worst, seen[start] = append(worst, k), true
		}
	}
	return worst
}

// rates is the history's belief before, with some of its reads.
func (h *history) rates(used []int, wider float64) reliability.Rates {
	r := reliability.Rates{Factors: h.factors(), Starts: h.starts}
	for _, i := range used {
		y := h.reads[i]
		r.Readings = append(r.Readings, reliability.Reading{Start: y.start, Level: y.level, Gauge: y.gauge * wider, Taken: y.taken})
	}
	return r
}

// belief is what a lesson says of the set on an axle.
func (h *history) belief(l lesson, axle int) projection.Belief {
	key := h.current[axle]
	road, circuit, roadVar, circuitVar, cov := l.fit.Log(h.roadOf(key), h.circuitOf(key))
	b := projection.Belief{Road: road, Circuit: circuit, RoadSD: math.Sqrt(roadVar), CircuitSD: math.Sqrt(circuitVar)}
	if b.RoadSD > 0 && b.CircuitSD > 0 {
		b.Correlation = cov / (b.RoadSD * b.CircuitSD)
	}
	tells := map[int]bool{} // starts that were read after some driving
	for _, i := range l.used {
		if r := h.reads[i]; len(r.taken) > 0 {
			tells[r.start] = true
		}
	}
	own := map[float64]bool{}
	for _, i := range l.used {
		if r := h.reads[i]; r.axle == axle && tells[r.start] {
			own[r.odometer] = true
		}
	}
	if len(tells) > 0 {
		b.Learned = plan.Learned{
			Readings: len(own), Borrowed: len(own) == 0,
			Road: multiplier(road, b.RoadSD, h.road), Circuit: multiplier(circuit, b.CircuitSD, h.circuit),
		}
	}
	return b
}

const (
	band80      = 1.2815515655 // normal quantile of 0.9
	taughtShare = 0.97         // a spread narrowed to less than this share of the prior's has learned something; engineering choice
)

func multiplier(mean, sd, prior float64) plan.Multiplier {
	return plan.Multiplier{
		Median: math.Exp(mean), Low: math.Exp(mean - float64(band80*sd)), High: math.Exp(mean + float64(band80*sd)),
		Taught: sd < taughtShare*prior,
	}
}

// Logbook is how the logbook comes to teach.
type Logbook struct {
	projection.Posterior
	Way       *trip.Journey
	histories map[profiles.Kind]*history
	lessons   map[profiles.Kind]lesson
	replaced  map[string][]served // by id of the set
}

// learned are the kinds whose readings teach their rates.
func learned() []*kind.Kind {
	return slices.DeleteFunc(slices.Clone(kind.All), func(k *kind.Kind) bool { return !k.Learns })
}

// Learn hears the logbook; without rows there is nothing to hear.
func Learn(m trip.Machine, w *trip.Journey) (*Logbook, error) {
	l := &Logbook{Way: w}
	if w.Past == nil {
		return l, nil
	}
	l.histories, l.lessons = map[profiles.Kind]*history{}, map[profiles.Kind]lesson{}
	l.Sets, l.Instead = map[string]projection.Belief{}, map[string]projection.Misreading{}
	for _, k := range learned() {
		h, err := newHistory(w, m, k)
		if err != nil {
			return nil, err
		}
		lesson := h.learn(math.Inf(1), reliability.Fit{})
		l.histories[k.ID], l.lessons[k.ID] = h, lesson
		h.instead(lesson, l.Instead)
		for i, t := range k.ID.Info().Sets {
			if s := h.belief(lesson, i); s.Learned != (plan.Learned{}) {
				l.Sets[t.ID] = s
			}
		}
	}
	l.replacements()
	return l, nil
}

// Said is what a plan has to say of the logbook aloud.
func (l *Logbook) Said() []string {
	var out []string
	for _, k := range learned() {
		h, ok := l.histories[k.ID]
		if !ok {
			continue
		}
		for _, i := range l.lessons[k.ID].out {
			r, when := h.reads[i], "in car.yaml"
			if !r.date.IsZero() {
				when = "of " + r.date.Format("2 Jan 2006")
			}
			where := r.place
			if r.zone != "" {
				where += " " + r.zone
			}
			out = append(out, fmt.Sprintf("The %s reading %s at %s (%.1f mm) goes against the others and is left out: read it again.", r.what, when, where, 1000*r.level))
		}
	}
	if l.Way.Past != nil {
		for _, s := range l.Way.Past.Squeezed {
			out = append(out, s+".")
		}
	}
	return out
}

// instead finds the last sound reading, or the part as new, of the points
// whose last reading was left out.
func (h *history) instead(l lesson, into map[string]projection.Misreading) {
	last := map[int]int{}  // by start: its last read
	sound := map[int]int{} // and its last one in use
	for i, r := range h.reads {
		last[r.start] = i
	}
	for _, i := range l.used {
		sound[h.reads[i].start] = i
	}
	for _, i := range l.out {
		r := h.reads[i]
		if last[r.start] != i {
			continue
		}
		better := r
		better.level, better.odometer, better.date = h.starts[r.start].Mean, r.from, time.Time{}
		if k, ok := sound[r.start]; ok {
			better = h.reads[k]
		}
		into[profiles.SeenKey(r.what, r.place, r.zone)] = projection.Misreading{
			Odometer: r.odometer, Date: r.date, Sound: better.level, SoundAt: better.odometer, SoundDate: better.date,
		}
	}
}
