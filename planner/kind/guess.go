package kind

import (
	"slices"
	"time"

	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
)

// Guess is what a set of a kind costs and takes where neither its owner nor
// his other parts say. Engineering choices, meant to be no more than plausible.
type Guess struct {
	ShopHours float64 // its price, in hours of a shop's labor, which follow the currency
	Volume    float64 // m3
	Mass      float64 // kg
}

// GuessWide is how many times more or less than a guess the true figure may be.
const GuessWide = 2.0

// guessLead is the delivery, s, of a part of which nobody knows it. Engineering choice.
const guessLead = 14 * 86400

// unknownAge is how old, in days, a fill is taken to be of which nobody knows
// the day: older than any should get. Engineering choice.
const unknownAge = 5 * daysPerYear

const unknownDay = "the day it went in is not known: taken as five years old"

// AgeAtDeparture is how old, in days, a part is on a day; 0 where either is not given.
func AgeAtDeparture(e *profiles.Fitted, depart time.Time) float64 {
	switch {
	case e.Since.Undated:
		return unknownAge
	case e.Since.Date.IsZero() || depart.IsZero():
		return 0
	}
	return depart.Sub(e.Since.Date).Hours() / 24
}

// Filled is a part with what its owner does not know put in: the median of the
// kind's known figures in the folder, otherwise the kind's guess; of a delivery
// the longest that is known.
func Filled(f *profiles.Folder, p profiles.Part) profiles.Part {
	own := Guess{}
	if k := Of(p.Kind); k != nil {
		own = k.Guess
	}
	fill(&p.Price, f, p.Kind, func(p profiles.Part) quantity.Money { return p.Price }, quantity.Money(own.ShopHours*float64(f.Car.Costs.Shop)))
	fill(&p.Volume, f, p.Kind, func(p profiles.Part) quantity.Volume { return p.Volume }, quantity.Volume(own.Volume))
	fill(&p.Weight, f, p.Kind, func(p profiles.Part) quantity.Mass { return p.Weight }, quantity.Mass(own.Mass))
	if !quantity.Known(p.LeadTime) {
		p.LeadTime = guessLead
		if all := known(f, p.Kind, func(p profiles.Part) quantity.Duration { return p.LeadTime }); len(all) > 0 {
			p.LeadTime = max(p.LeadTime, all[len(all)-1])
		}
	}
	return p
}

// fill puts a figure in where there is none.
func fill[T ~float64](v *T, f *profiles.Folder, k profiles.Kind, of func(profiles.Part) T, guess T) {
	if quantity.Known(*v) {
		return
	}
	*v = guess
	if all := known(f, k, of); len(all) > 0 {
		*v = (all[(len(all)-1)/2] + all[len(all)/2]) / 2
	}
}

// known lists the known figures of a kind's parts in the folder, sorted.
func known[T ~float64](f *profiles.Folder, k profiles.Kind, of func(profiles.Part) T) []T {
	var out []T
	for _, p := range f.Parts {
		if p.Kind == k && quantity.Known(of(p)) {
			out = append(out, of(p))
		}
	}
	slices.Sort(out)
	return out
}
