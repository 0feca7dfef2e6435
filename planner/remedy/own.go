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

// idle lists the parts that lie aside for a set and that are not on already at every
// circuit of the trips, and what the set is called where it does not swap.
func idle(f *profiles.Folder, set string, trips ...profiles.Trip) (name string, parts []string) {
	for _, t := range profiles.Sets() {
		if t.ID == set {
			name, parts = t.Name, slices.DeleteFunc(f.Asides(t), func(part string) bool {
				return !slices.ContainsFunc(trips, func(o profiles.Trip) bool {
					return o.Fit[set] != part || slices.ContainsFunc(o.Legs, func(l profiles.Leg) bool { on, says := l.Fit[set]; return says && on != part })
				})
			})
		}
	}
	return name, parts
}

// Own lists what the owner has that would do over trips, one after the other: a set
// that lies aside, worn at the circuits, where the one on the car asks for work or a
// spare and then does not, and nothing else is the worse for it. Nor does the one that
// lay aside ask then, or it takes less out of the purse all the same.
func Own(made []*plan.Plan, f *profiles.Folder, trips []profiles.Trip, anew func(trips []profiles.Trip, draws int) ([]*plan.Plan, error)) []plan.Change {
	var out []plan.Change
	for _, s := range made[0].Sets {
		if !asks(made, s.ID) {
			continue
		}
		name, parts := idle(f, s.ID, trips...)
		for _, part := range parts {
			aside := s.ID + ":" + part
			var other []profiles.Trip
			for _, t := range trips {
				other = append(other, wearing(t, s.ID, part))
			}
			then, err := anew(other, min(made[0].Draws, firstDraws))
			if err != nil { // it cannot be swapped there
				continue
			}
			was, more, ends := anyTroubled(made), 0.0, quantity.Unknown()
			if asks(then, s.ID) || slices.ContainsFunc(anyTroubled(then), func(id string) bool { return !slices.Contains(was, id) }) {
				continue
			}
			for k, p := range then {
				more += p.Spend("") - made[k].Spend("")
				if i := slices.IndexFunc(p.Sets, func(t plan.Set) bool { return t.ID == s.ID }); i >= 0 {
					ends = p.Sets[i].Decision.LifeEnd
				}
			}
			wants := asks(then, aside)
			if wants && !(more <= -1) || !quantity.Known(ends) { // what is on the car would stay at home
				continue
			}
			does := "do the trip and come home with about %s of their life: write fit: {%s: %s} in the trip's file"
			if len(trips) > 1 {
				does = "do the season and end it with about %s of their life: write fit: {%s: %s} in the file of each trip"
			}
			what := fmt.Sprintf("with the %s that you own, %s, on at circuits, those on the car "+does, name, part, quantity.Life(ends), name, part)
			if wants {
				what += "; " + part + " then asks for a new set or a spare itself"
			}
			out = append(out, plan.Change{What: what, Cost: more})
		}
	}
	return out
}

// asks says whether a set asks for work or a spare.
func asks(made []*plan.Plan, set string) bool {
	return slices.ContainsFunc(made, func(p *plan.Plan) bool {
		return slices.ContainsFunc(p.Sets, func(s plan.Set) bool {
			return s.ID == set && s.Decision.Action != plan.Run && s.Decision.Action != plan.Watch
		})
	})
}

func anyTroubled(made []*plan.Plan) []string {
	var out []string
	for _, p := range made {
		out = append(out, troubled(p)...)
	}
	return out
}

// wearAside has what lies aside for a set on at the circuits.
func (s *search) wearAside(set plan.Set) []remedy {
	var out []remedy
	name, parts := idle(s.folder, set.ID, s.outing)
	for _, part := range parts {
		what := fmt.Sprintf("have %s, which lies aside, on as the %s at circuits", part, name)
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
