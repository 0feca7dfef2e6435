package trip

import (
	"fmt"
	"maps"
	"math"
	"slices"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/nearest"
)

// outfitOf is what a leg says is on, where sets swap.
func outfitOf(t profiles.Trip, leg profiles.Leg) profiles.Outfit {
	out := profiles.Outfit{}
	if leg.Kind == profiles.CircuitLeg {
		maps.Copy(out, t.Fit)
	}
	maps.Copy(out, leg.Fit)
	return out
}

// dress says with every leg of a trip what is on. Where a leg does not say, that
// is what the car left home with.
func dress(f *profiles.Folder, t profiles.Trip) profiles.Trip {
	usual := f.Worn()
	if len(usual) == 0 {
		return t
	}
	if t.Under != nil {
		maps.Copy(usual, t.Under.Left)
	}
	t = t.Clone()
	for i, leg := range t.Legs {
		on := maps.Clone(usual)
		maps.Copy(on, outfitOf(t, leg))
		t.Legs[i].Fit = on
	}
	return t
}

// Wears says whether a set's part is on during a leg.
func (w *Journey) Wears(set, part string, leg int) bool {
	on, swaps := w.Legs[leg].Fit[set]
	return !swaps || on == part
}

// Takes says whether a set's part goes along: it is on during some leg, or no trip
// is walked.
func (w *Journey) Takes(set, part string) bool {
	for j, l := range w.Legs {
		if l.Kind != profiles.StopLeg && w.Wears(set, part, j) {
			return true
		}
	}
	return len(w.Legs) == 0
}

// UsagesOf is what the legs do to a set's part: nothing where another is on.
func (w *Journey) UsagesOf(set, part string) []Usage {
	out := slices.Clone(w.Usages)
	for j := range out {
		if !w.Wears(set, part, j) {
			out[j] = Usage{Circuit: out[j].Circuit, Summary: out[j].Summary}
		}
	}
	return out
}

// aside is how a part sees the car that lies aside for a set: it is on, and what
// nobody wrote down was driven with it.
type aside struct{ set, part string }

// layAside works out the car as every part sees it that lies aside.
func (w *Journey) layAside(m Machine) error {
	w.asides = map[aside]*Journey{}
	for _, s := range profiles.Sets() {
		for _, part := range w.Folder.Asides(s) {
			m, f := m.wearing(w.Folder, profiles.Outfit{s.ID: part})
			out := &Journey{Folder: f, On: kind.Fitted(f)}
			if err := out.refer(m); err != nil {
				return err
			}
			w.asides[aside{s.ID, part}] = out
		}
	}
	return nil
}

// With is the journey as a part sees it that lies aside for a set.
func (w *Journey) With(set, part string) *Journey {
	own, ok := w.asides[aside{set, part}]
	if !ok {
		return w
	}
	out, past := *w, *w.Past
	out.Folder, out.On, out.PerMeter, out.PerDay = own.Folder, own.On, own.PerMeter, own.PerDay
	past.PerMeter = own.PerMeter
	out.Past = &past
	return &out
}

// Spans are pieces of the odometer, in order: from, to.
type Spans [][2]float64

// within is the pieces between two odometers; nil is all along.
func (s Spans) within(from, to float64) Spans {
	if s == nil {
		return Spans{{from, math.Max(from, to)}}
	}
	var out Spans
	for _, p := range s {
		if a, b := math.Max(p[0], from), math.Min(p[1], to); a < b {
			out = append(out, [2]float64{a, b})
		}
	}
	return out
}

// without is the pieces with one taken out.
func (s Spans) without(from, to float64) Spans {
	out := Spans{}
	for _, p := range s {
		for _, rest := range [][2]float64{{p[0], math.Min(p[1], from)}, {math.Max(p[0], to), p[1]}} {
			if rest[0] < rest[1] {
				out = append(out, rest)
			}
		}
	}
	return out
}

// place is a set's part at a place.
type place struct{ set, part, at string }

// lay finds where along the odometer each part was on that swaps with others: by
// the rows that put it on, and by what the legs of the trips driven say. A
// circuit day is driven on one set: a row within it stands for its nearer end.
func (p *Past) lay(f *profiles.Folder) {
	p.on = map[place]Spans{}
	for _, s := range profiles.Sets() {
		aside := f.Asides(s)
		if len(aside) == 0 {
			continue
		}
		part, _ := f.On(s.Kind, s.At[0])
		parts := append(aside, part.ID)
		for _, at := range s.At {
			for _, id := range parts {
				p.on[place{s.ID, id, at}] = Spans{}
			}
			for _, stint := range f.Stints(s.Kind, at) {
				key := place{s.ID, stint.Part, at}
				if from, to := p.dayEnd(stint.From, stint.Back), p.dayEnd(stint.To, stint.Kept); from < to {
					p.on[key] = append(p.on[key], [2]float64{from, to})
				}
			}
			for _, d := range p.Drives {
				on, said := d.fit[s.ID]
				if !said || d.From >= d.To {
					continue
				}
				for _, id := range parts {
					key := place{s.ID, id, at}
					p.on[key] = p.on[key].without(d.From, d.To)
					if id == on {
						p.on[key] = append(p.on[key], [2]float64{d.From, d.To})
					}
				}
			}
		}
	}
}

// dayEnd is an odometer at which sets were swapped, or the nearer end of the
// circuit day that it lies within.
func (p *Past) dayEnd(at float64, swapped bool) float64 {
	for _, d := range p.Drives {
		if swapped && d.Visit >= 0 && d.From < at && at < d.To {
			if at-d.From < d.To-at {
				return d.From
			}
			return d.To
		}
	}
	return at
}

// On is where along the odometer a part was on; nil where no other swaps with it.
func (p *Past) On(a kind.At) Spans {
	for _, s := range a.Part.Kind.Info().Sets {
		if on, swaps := p.on[place{s.ID, a.Part.ID, a.Place}]; swaps {
			return on
		}
	}
	return nil
}

// drivenOn is what a leg was driven with, where its trip does not say, by the rows
// of the logbook.
func drivenOn(f *profiles.Folder, l plan.Leg, at float64) profiles.Outfit {
	out := profiles.Outfit{}
	for _, s := range profiles.Sets() {
		if len(f.Asides(s)) == 0 {
			continue
		}
		for _, stint := range f.Stints(s.Kind, s.At[0]) {
			if stint.From <= at && at < stint.To {
				out[s.ID] = stint.Part
			}
		}
	}
	maps.Copy(out, l.Fit)
	return out
}

// left is what was on when a trip under way left home, of what the car still has.
func (b *Begun) left(f *profiles.Folder) profiles.Outfit {
	out := profiles.Outfit{}
	for _, s := range profiles.Sets() {
		for _, stint := range f.Stints(s.Kind, s.At[0]) {
			if at := b.home(); f.Owns(s.ID, stint.Part) && stint.From <= at && at < stint.To {
				out[s.ID] = stint.Part
			}
		}
	}
	return out
}

// swapAt is where sets can be swapped before a leg.
func (w *Journey) swapAt(leg int) []string {
	switch {
	case leg == 0 && w.Under != nil:
		return w.Under.Can
	case leg == 0:
		return []string{"home"}
	case w.Legs[leg-1].Kind == profiles.StopLeg:
		return w.Legs[leg-1].Can
	}
	return []string{"paddock"}
}

// swap lists what is swapped before which leg, in the order of the trip, and
// refuses what cannot be fitted where it would have to be.
func (w *Journey) swap(trip profiles.Trip, asked []profiles.Leg) error {
	var errs profiles.Errors
	for _, s := range profiles.Sets() {
		on, swaps := w.Folder.Worn()[s.ID]
		if !swaps {
			continue
		}
		if n := len(w.Past.Drives); w.Under != nil && n > 0 && w.Past.Drives[n-1].fit[s.ID] != "" { // nobody need write it down
			on = w.Past.Drives[n-1].fit[s.ID]
		}
		for j, l := range w.Legs {
			next := l.Fit[s.ID]
			if l.Kind == profiles.StopLeg || next == on {
				continue
			}
			fits, at := w.Folder.Parts[next], w.swapAt(j)
			k := kind.Of(s.Kind)
			if !slices.ContainsFunc(at, func(place string) bool { return slices.Contains(fits.Fit, place) }) && (k.SwapTime == 0 || !slices.Contains(at, "paddock")) && j > 0 {
				errs.Add(asked[j].At, fmt.Sprintf("the %s cannot be swapped before %s: %s is fitted at %s", s.Name, l.Name, next, nearest.OneOf(fits.Fit)),
					"a part that can be fitted in the paddock", "write fit: [paddock, shop, home] with the part in parts.yaml, if it can")
			}
			one := plan.Swap{Leg: j, Set: s.ID, Name: s.Name, Off: on, On: next, OnName: fits.Name, Seconds: float64(fits.Hours), Tools: fits.Tools}
			if k.SwapTime > 0 {
				one.Seconds, one.Tools = k.SwapTime, k.SwapTools
			}
			w.Swaps = append(w.Swaps, one)
			on = next
		}
	}
	slices.SortStableFunc(w.Swaps, func(a, b plan.Swap) int { return a.Leg - b.Leg })
	return errs.Sorted()
}

// Carried are the parts that ride in the trunk on a road because others are on,
// of every set that swaps on the way the most of any road.
func (w *Journey) Carried() []plan.Swap {
	var out []plan.Swap
	for _, s := range profiles.Sets() {
		var most []plan.Swap
		for j, l := range w.Legs {
			if l.Kind != profiles.RoadLeg {
				continue
			}
			var now []plan.Swap
			for _, other := range w.Swaps {
				for _, part := range []string{other.Off, other.On} {
					if other.Set == s.ID && other.Leg > 0 && part != l.Fit[s.ID] && !slices.ContainsFunc(now, func(c plan.Swap) bool { return c.On == part }) && w.Takes(s.ID, part) {
						now = append(now, plan.Swap{Leg: j, Set: s.ID, Name: s.Name, On: part, OnName: w.Folder.Parts[part].Name})
					}
				}
			}
			if len(now) > len(most) {
				most = now
			}
		}
		out = append(out, most...)
	}
	return out
}
