package learning

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/projection"
	"example.com/tripwear/profiles"
	"example.com/tripwear/wearmodel/reliability"
)

// Teach adds to t what the logbook says of every set and hub, and its outliers.
func (l *Evidence) Teach(t *plan.Teaching) {
	l.teachSets(t)
	l.teachHubs(t)
	l.teachOutliers(t)
	for _, k := range learnedKinds() {
		t.Questions = append(t.Questions, l.histories[k.ID].questions(l.estimates[k.ID])...)
	}
}

func (l *Evidence) teachSets(t *plan.Teaching) {
	t.Warnings = append(t.Warnings, l.unheardCars()...)
	for _, k := range kind.All {
		if k.Lifetime || !k.ID.Info().Rated && !k.Replaced {
			continue
		}
		for _, p := range k.ID.Info().Sets {
			aside := l.Way.Folder.Asides(p)
			for i, part := range append([]string{l.Way.On[k.ID][p.At[0]].Part.ID}, aside...) {
				told := plan.SetTeaching{ID: p.ID, Name: p.Name, Kind: k.ID}
				if i > 0 {
					told.ID = projection.AsideID(p.ID, part)
				}
				if len(aside) > 0 {
					told.Name += " (" + part + ")"
				}
				rates := l.Posterior.Sets[told.ID]
				if told.Learned = rates.Learned; len(rates.Points) > 0 {
					told.Corners, told.Circuits = corners(rates, p.At), circuits(rates, l.histories[k.ID].spread)
				}
				t.Sets = append(t.Sets, told)
			}
		}
	}
	for _, k := range learnedKinds() {
		if n := l.histories[k.ID].unheard; n > 0 {
			t.Warnings = append(t.Warnings, fmt.Sprintf("the latest %d readings of the %s teach, the %d before them do not: rates drift over the years", mostReadings, k.ID.Info().Plural, n))
		}
		if w := l.estimates[k.ID].wider; w > 1 {
			t.Warnings = append(t.Warnings, fmt.Sprintf("the readings of the %s scatter %.1f times as much as the gauge should: their bands are widened by that; read at the same spots, cold", k.ID.Info().Plural, w))
		}
	}
}

// corners are what sets the two wheels of a set apart. It is taught where the 80 %
// band lies to one side.
func corners(r projection.RatePosterior, at []string) (out []plan.Apart) {
	for _, place := range at {
		times := map[int]float64{}
		for key, i := range r.Points {
			side := -1.0
			if strings.HasPrefix(key, projection.PointKey(place, "")) {
				side = 1
			}
			times[i] = side / float64(len(r.Points))
		}
		mean, sd := r.Log(times)
		m := multiplier(mean, sd, sd)
		m.Taught = m.Low > 1 || m.High < 1
		out = append(out, plan.Apart{Name: place, Multiplier: m})
	}
	return out
}

// circuits are what a set loses on each circuit that it was driven on.
func circuits(r projection.RatePosterior, before spreads) (out []plan.Apart) {
	for _, name := range slices.Sorted(maps.Keys(r.Circuits)) {
		mean, sd := r.Log(map[int]float64{1: 1, r.Circuits[name]: 1})
		out = append(out, plan.Apart{Name: name, Multiplier: multiplier(mean, sd, math.Hypot(before.circuit, before.apart))})
	}
	return out
}

// across is the wheel on the other side.
var across = map[string]string{"LF": "RF", "RF": "LF", "LR": "RR", "RR": "LR"}

func (l *Evidence) teachHubs(t *plan.Teaching) {
	usual := reliability.Hubs()
	bad := map[string]int{} // by place
	dayAt := func(p profiles.Set, place string) float64 {
		on := l.Way.At(kind.Of(p.Kind), place)
		if on.Entry == nil {
			return 0
		}
		return kind.Of(p.Kind).Points(on)[0].Of(&l.Way.PerDay)
	}
	for _, p := range profiles.Sets() {
		for _, s := range l.replaced[p.ID] {
			if s.badAt > 0 && kind.Of(p.Kind).Lifetime {
				bad[s.place]++
			}
		}
	}
	for _, p := range profiles.Sets() {
		scale, ok := l.Posterior.Hubs[p.ID]
		if !ok {
			continue
		}
		place, corner := p.At[0], l.corners[p.ID]
		day := dayAt(p, place)
		h := plan.HubTeaching{
			Place: place, Middle: medianLife(scale), Usual: medianLife(usual), Odd: corner.odd, Repaired: corner.repaired, Cured: corner.cured,
			Other: across[place], OtherBad: bad[across[place]],
		}
		if other := l.asked(h.Other); other > 0 {
			h.Load = l.asked(place) / other
		}
		for i := range h.Lasts {
			h.Lasts[i] = scale.Survive(0, day*float64(i+1))
			h.UsualLasts[i] = usual.Survive(0, day*float64(i+1))
		}
		for _, s := range l.replaced[p.ID] {
			if s.badAt > 0 {
				days := s.days
				if s.meters == 0 {
					days = s.badAt / math.Max(day, leastSpread)
				}
				h.Bad, h.BadDays, h.BadMeters = append(h.Bad, s.badAt), append(h.BadDays, days), append(h.BadMeters, s.meters)
			} else if s.heard() {
				h.Good++
			}
		}
		t.Hubs = append(t.Hubs, h)
	}
}

// medianLife is the life that half of new bearings reach.
func medianLife(s reliability.Scale) float64 {
	lo, hi := 0.0, 1e3
	for range 60 {
		mid := (lo + hi) / 2
		if s.Survive(0, mid) > 0.5 {
			lo = mid
		} else {
			hi = mid
		}
	}
	return lo
}

func (l *Evidence) teachOutliers(t *plan.Teaching) {
	for _, k := range learnedKinds() {
		h, est := l.histories[k.ID], l.estimates[k.ID]
		for _, i := range est.misfits() {
			r := h.readings[i]
			level, sd := est.fit.Level(r.start, r.taken)
			t.Misread = append(t.Misread, plan.Misread{
				Set: h.setID(r), Place: r.place, Zone: r.zone, Date: r.date, Read: r.level, Expected: level,
				Off: (r.level - level) / math.Hypot(sd, r.gauge),
			})
		}
	}
	slices.SortStableFunc(t.Misread, func(a, b plan.Misread) int { return a.Date.Compare(b.Date) })
}
