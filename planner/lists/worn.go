package lists

import (
	"math"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
)

// LifeWorn is the life that a trip wears off the parts, at their prices.
func LifeWorn(f *profiles.Folder, p *plan.Plan) float64 {
	sum := 0.0
	for _, s := range p.Sets {
		if kind.Of(s.Kind).Apart {
			continue // heat, not wear
		}
		most := 0.0
		for _, p := range s.Points {
			most = math.Max(most, Taken(p)/(p.New-p.Limit))
		}
		sum += float64(most * float64(kind.Filled(f, f.Parts[s.Part]).Price))
	}
	return sum
}

// Taken is what the whole trip takes from a point, nominal; of a boiling
// margin, whose legs stand alone, the most that one takes.
func Taken(p plan.Point) float64 {
	sum, most := 0.0, 0.0
	for _, l := range p.Loss {
		sum, most = sum+l, math.Max(most, l)
	}
	if p.Measure == kind.BoilMargin {
		return most
	}
	return sum
}
