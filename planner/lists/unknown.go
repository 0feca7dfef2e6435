package lists

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
)

// unknowns says what of the parts nobody knows, and what the choice reckoned
// with in its place.
func unknowns(p *plan.Plan, f *profiles.Folder) []string {
	var out, prices, rooms, leads []string
	seen := map[string]bool{}
	for _, s := range p.Sets {
		part := f.Parts[s.Part]
		if seen[s.Part] {
			continue
		}
		seen[s.Part] = true
		if guess := kind.Filled(f, part); !quantity.Known(part.Price) {
			prices = append(prices, fmt.Sprintf("%s %.0f (%.0f to %.0f%s)", s.Name, float64(guess.Price), float64(guess.Price)/kind.GuessWide, float64(guess.Price)*kind.GuessWide, turned(p, s.Part)))
		}
		packed := slices.ContainsFunc(p.Packing, func(it plan.Item) bool { return it.Part == s.Part })
		if packed && (!quantity.Known(part.Volume) || !quantity.Known(part.Weight)) {
			rooms = append(rooms, part.Name)
		}
		if ordered := slices.ContainsFunc(p.Shopping, func(it plan.Item) bool { return it.Part == s.Part && !it.OnShelf }); ordered && !quantity.Known(part.LeadTime) {
			leads = append(leads, fmt.Sprintf("%s %.0f days", part.Name, float64(kind.Filled(f, part).LeadTime)/86400))
		}
	}
	say := func(list []string, format string) {
		if len(list) > 0 {
			out = append(out, fmt.Sprintf(format, strings.Join(list, ", ")))
		}
	}
	say(prices, "Prices not known, for which the choice reckons with a guess, from the other parts of the kind or from the shop's hour: %s. No sum counts them.")
	say(rooms, "The room that %s takes is not known, so it is not known whether the trunk holds the packing: measure the boxes.")
	var worth []string
	for _, v := range p.Worth {
		worth = append(worth, v.Say(p.Currency))
	}
	say(worth, "What it saves to know before leaving, on average: %s.")
	say(leads, "Deliveries not known, taken as: %s. Ask before you count on them.")
	return out
}

// turned says what the decision would be at the ends of a guessed price.
func turned(p *plan.Plan, part string) string {
	out, saving := "", 0.0
	for _, t := range p.Choice.Turns {
		if t.Part != part {
			continue
		}
		what := string(t.Action)
		if t.Action == plan.ReplaceAtStop {
			what = "replace at " + p.Legs[t.Leg].Name
		}
		if t.Spare {
			what += " and bring a spare"
		}
		out += fmt.Sprintf("; at %.0f %s: %s", t.Price, t.Name, what)
		saving = max(saving, t.Saving)
	}
	if out == "" {
		return "; neither turns a decision"
	}
	return out + fmt.Sprintf(", which saves up to %.0f: ask before you order", saving)
}

// Past says that a departure lies before today.
func Past(p *plan.Plan, today time.Time) []string {
	if today.IsZero() || p.Standing != nil || p.Depart.IsZero() || !p.Depart.Before(today) {
		return nil
	}
	const day = "2 Jan 2006"
	return []string{fmt.Sprintf("The trip leaves on %s, and today is %s: the departure is in the past. Correct depart in %s, or your computer's clock; ages and order dates follow it.", p.Depart.Format(day), today.Format(day), "trips/"+p.TripID+".yaml")}
}
