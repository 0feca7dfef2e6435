package lists

import (
	"fmt"
	"math"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
	"example.com/tripwear/wearmodel/tire"
)

// wetFull is the tread against which wet stops are compared: 10/32 in, the
// deepest of the published test.
const wetFull = 10 * 0.0254 / 32

// Rain fills in the legs with rain.
func Rain(p *plan.Plan, f *profiles.Folder) {
	for j := range p.Legs {
		if p.Legs[j].Rain <= 0 {
			continue
		}
		for _, s := range p.Sets {
			if s.Kind == profiles.Tire && s.IsOn(j) {
				p.Legs[j].Wet = append(p.Legs[j].Wet, Wet(s, j, f.Parts[s.Part].Tire))
			}
		}
	}
}

// Wet works out one axle's tires on leg j.
func Wet(s plan.Set, j int, t *profiles.TirePart) plan.Wet {
	w := plan.Wet{Set: s.ID, Name: s.Name, Tread: math.Inf(1)}
	for _, p := range s.Points {
		if left := level(s, p, j); left < w.Tread {
			w.Tread, w.Place, w.Zone = left, p.Place, p.Zone
		}
	}
	w.Tread = math.Max(0, w.Tread)
	w.Planes = tire.Gallaway(plan.WetSpin, float64(t.Pressure), w.Tread, plan.WetWater, plan.WetTexture)
	w.Flooded = tire.Flooded(float64(t.Pressure))
	w.Stop = tire.WetStop(w.Tread) / tire.WetStop(wetFull)
	w.Shallow = w.Tread < float64(t.WetMargin)
	return w
}

// level is a point's median level after leg j as decided: a new set's
// where it goes on before the leg.
func level(s plan.Set, p plan.Point, j int) float64 {
	from := -1
	switch s.Decision.Action {
	case plan.ReplaceBefore:
		from = 0
	case plan.ReplaceAtStop:
		if s.Decision.Leg < j {
			from = s.Decision.Leg + 1
		}
	}
	if from < 0 {
		return p.After[j].P50
	}
	left := p.New
	for _, taken := range p.Loss[from : j+1] {
		left -= taken
	}
	return left
}

// inRain is the line of the checklist for an axle on a wet leg.
func inRain(w plan.Wet, leg string) plan.Check {
	c := plan.Check{Set: w.Set, What: fmt.Sprintf("rain on %s: %s (%s %s)", leg, w.Name, w.Place, w.Zone), Wet: &w}
	if w.Shallow {
		c.What += " are shallow for it: slow down in the wet"
	}
	return c
}
