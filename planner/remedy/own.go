package remedy

import (
	"fmt"
	"slices"
	"strings"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
)

// wearing is a trip that wants a set's other part on at its circuits.
func wearing(outing profiles.Trip, set, part string) profiles.Trip {
	out := outing.Clone()
	if out.Fit == nil {
		out.Fit = profiles.Outfit{}
	}
	out.Fit[set] = part
	for _, l := range out.Legs {
		if l.Kind == profiles.CircuitLeg {
			delete(l.Fit, set)
		}
	}
	return out
}

// idle lists the parts that lie aside for a set and that the trip leaves at home.
func idle(f *profiles.Folder, s plan.Set) []string {
	for _, t := range profiles.Sets() {
		if t.ID == s.ID && !s.Swaps() {
			return f.Asides(t)
		}
	}
	return nil
}

// Own lists what the owner has that would do: a set that lies aside, worn at
// the circuits, where the one on the car asks for work or a spare and then neither
// does, and nothing else is the worse for it.
func Own(p *plan.Plan, f *profiles.Folder, outing profiles.Trip, anew Anew) []plan.Change {
	goesOn := func(a plan.Action) bool { return a == plan.Run || a == plan.Watch }
	var out []plan.Change
	for _, s := range p.Sets {
		for _, part := range idle(f, s) {
			if goesOn(s.Decision.Action) {
				continue
			}
			other, err := anew(f, wearing(outing, s.ID, part), min(p.Draws, firstDraws))
			if err != nil { // it cannot be swapped there
				continue
			}
			was, ends := troubled(p), 0.0
			if slices.ContainsFunc(troubled(other), func(id string) bool { return !slices.Contains(was, id) }) {
				continue
			}
			asks := slices.ContainsFunc(other.Sets, func(t plan.Set) bool {
				of, _, _ := strings.Cut(t.ID, ":")
				if t.ID == s.ID {
					ends = t.Decision.LifeEnd
				}
				return of == s.ID && !goesOn(t.Decision.Action)
			})
			if !asks {
				out = append(out, plan.Change{
					What: fmt.Sprintf("with the %s that you own, %s, on at circuits, those on the car do the trip and come home with about %s of their life: write fit: {%s: %s} in the trip's file",
						s.Name, part, quantity.Life(ends), s.Name, part),
					Cost: other.Spend("") - p.Spend(""),
				})
			}
		}
	}
	return out
}

// wearAside has what lies aside for a set on at the circuits.
func (s *search) wearAside(set plan.Set) []remedy {
	var out []remedy
	for _, part := range idle(s.folder, set) {
		what := fmt.Sprintf("have %s, which lies aside, on as the %s at circuits", part, set.Name)
		out = append(out, single(plan.Change{What: what}, func(_ *profiles.Folder, t *profiles.Trip) error {
			*t = wearing(*t, set.ID, part)
			return nil
		})...)
	}
	return out
}

// emptier makes room for what is swapped on the way: less luggage, or one set on
// all the way.
func (s *search) emptier() []remedy {
	if !slices.Contains(s.bad, fullTrunk) {
		return nil
	}
	b, luggage := s.plan.Boot, s.folder.Car.Luggage
	var less []string
	over := func(used, room, have float64, shown quantity.Shown) float64 {
		more := max(0, used-room)
		if more > have {
			more = quantity.Unknown() // leaving all of it at home would not do
		} else if more > 0 {
			less = append(less, shown.BothUp(more))
		}
		return more
	}
	volume := over(b.UsedVolume, b.Volume, float64(luggage.Volume), quantity.Boot)
	mass := over(b.UsedMass, b.Payload, float64(luggage.Mass), quantity.Weight)
	var out []remedy
	if quantity.Known(volume) && quantity.Known(mass) {
		out = single(plan.Change{What: "take " + strings.Join(less, " and ") + " less luggage"}, func(f *profiles.Folder, _ *profiles.Trip) error {
			f.Car.Luggage.Volume -= quantity.Volume(volume)
			f.Car.Luggage.Mass -= quantity.Mass(mass)
			return nil
		})
	}
	for _, t := range profiles.Sets() {
		if on, swaps := s.folder.Worn()[t.ID]; swaps && slices.ContainsFunc(s.plan.Swaps, func(w plan.Swap) bool { return w.Set == t.ID && w.Leg > 0 }) {
			out = append(out, single(plan.Change{What: fmt.Sprintf("keep %s on as the %s all the way", on, t.Name)}, func(_ *profiles.Folder, trip *profiles.Trip) error {
				delete(trip.Fit, t.ID)
				for i := range trip.Legs {
					delete(trip.Legs[i].Fit, t.ID)
				}
				return nil
			})...)
		}
	}
	return out
}
