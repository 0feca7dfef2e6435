package planner

import (
	"fmt"
	"math"
	"slices"
	"time"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/wearmodel/reliability"
)

// Teaching is what the logbook teaches of a car, and how far it can be
// trusted.
type Teaching struct {
	Car      string        `json:"car"`
	Rows     int           `json:"rows"`
	Trips    int           `json:"trips"` // rows of trips driven
	Days     float64       `json:"days"`  // circuit days in them
	Sets     []SetTeaching `json:"sets"`
	Hubs     []HubTeaching `json:"hubs"` // corners with a history
	Misread  []Misread     `json:"misread"`
	Warnings []string      `json:"warnings"`
	Backtest Backtest      `json:"backtest"`
	Trip     string        `json:"trip"` // that Next is for; "" where none was asked about
	Next     *Next         `json:"next"` // nil where no single reading would tell much
}

// SetTeaching is what was learned of one set's rates.
type SetTeaching struct {
	ID      string        `json:"id"`
	Name    string        `json:"name"`
	Kind    profiles.Kind `json:"kind"`
	Learned Learned       `json:"learned"`
}

// HubTeaching is what one corner's bearings became.
type HubTeaching struct {
	Place      string     `json:"place"`
	Good       int        `json:"good"`   // still good when they came off, or when last felt
	Bad        []float64  `json:"bad"`    // ages at which others were found bad, L10 lives
	Middle     float64    `json:"middle"` // the life that half of new bearings there reach, L10 lives
	Usual      float64    `json:"usual"`  // the same at a corner without a history
	Lasts      [3]float64 `json:"lasts"`  // chance that a new one lasts 1, 2 and 3 usual circuit days
	UsualLasts [3]float64 `json:"usual_lasts"`
}

// Misread is a reading that the others contradict.
type Misread struct {
	Set      string    `json:"set"`
	Place    string    `json:"place"`
	Zone     string    `json:"zone"`
	Date     time.Time `json:"date"`
	Read     float64   `json:"read"`     // m
	Expected float64   `json:"expected"` // m, by the other readings
	Off      float64   `json:"off"`      // standard deviations
}

// Learn tells what the logbook teaches. With a trip it also tells what to
// measure next for it.
func Learn(f *profiles.Folder, trip *profiles.Trip, o Options) (*Teaching, error) {
	o = o.orDefault()
	o.Prior = false
	m := build(f)
	w, err := standing(m, f)
	if err != nil {
		return nil, err
	}
	l, err := learn(m, w)
	if err != nil {
		return nil, err
	}
	t := &Teaching{Car: f.Car.Name, Rows: len(f.Log)}
	for _, e := range f.Log {
		if e.What == logbook.Trip {
			t.Trips++
		}
	}
	if t.Rows > 0 {
		t.Days = w.past.days(0, float64(f.Car.Odometer))
		t.Warnings = w.past.squeezed
		t.sets(l)
		t.hubs(l)
		t.misread(l)
		t.Backtest = l.backtest(o.Seed)
	}
	if trip == nil {
		return t, nil
	}
	c, _, err := decided(m, f, *trip, o.timeless())
	if err != nil {
		return nil, err
	}
	t.Trip = trip.Name
	t.Next = next(c.journey, c.sets, newDraws(o.Draws, o.Seed))
	return t, nil
}

func (t *Teaching) sets(l *learning) {
	for _, k := range kind.All {
		if k.Lifetime || !k.Learns && !k.Replaced {
			continue
		}
		for _, p := range k.ID.Info().Sets {
			t.Sets = append(t.Sets, SetTeaching{ID: p.ID, Name: p.Name, Kind: k.ID, Learned: l.posterior.sets[p.ID].learned})
		}
	}
	for _, k := range learned() {
		if w := l.lessons[k.ID].wider; w > 1 {
			t.Warnings = append(t.Warnings, fmt.Sprintf("the readings of the %s scatter %.1f times as much as the gauge should: their bands are widened by that; read at the same spots, cold", k.Plural, w))
		}
	}
}

func (t *Teaching) hubs(l *learning) {
	usual := reliability.NewScale(reliability.HubPrior())
	for _, p := range profiles.Sets() {
		scale, ok := l.posterior.hubs[p.ID]
		if !ok {
			continue
		}
		a := l.way.at(kind.Of(p.Kind), p.At[0])
		day := kind.Of(p.Kind).Points(a)[0].Of(&l.way.perDay)
		h := HubTeaching{Place: p.At[0], Middle: middleLife(scale), Usual: middleLife(usual)}
		for i := range h.Lasts {
			h.Lasts[i] = scale.Survive(0, day*float64(i+1))
			h.UsualLasts[i] = usual.Survive(0, day*float64(i+1))
		}
		for _, s := range l.replaced[p.ID] {
			if s.bad > 0 {
				h.Bad = append(h.Bad, s.bad)
			} else {
				h.Good++
			}
		}
		t.Hubs = append(t.Hubs, h)
	}
}

// middleLife is the life that half of new bearings reach.
func middleLife(s reliability.Scale) float64 {
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

func (t *Teaching) misread(all *learning) {
	for _, k := range learned() {
		h, l := all.histories[k.ID], all.lessons[k.ID]
		for _, i := range l.out {
			r := h.reads[i]
			level, sd := l.fit.Level(r.start, r.taken)
			t.Misread = append(t.Misread, Misread{
				Set: h.setID(r), Place: r.place, Zone: r.zone, Date: r.date, Read: r.level, Expected: level,
				Off: (r.level - level) / math.Hypot(sd, r.gauge),
			})
		}
	}
	slices.SortStableFunc(t.Misread, func(a, b Misread) int { return a.Date.Compare(b.Date) })
}
