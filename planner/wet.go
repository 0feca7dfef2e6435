package planner

import (
	"fmt"
	"math"

	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
	"example.com/tripwear/wearmodel/tire"
)

// The road that hydroplaning is worked out for: heavy rain on an ordinary
// surface, and the wheel slowed by a tenth. Engineering choices.
const (
	WetWater   = 0.10 * 0.0254 // m of water over the texture
	WetTexture = 0.03 * 0.0254 // m, mean depth of the texture
	wetSpin    = 0.10
)

// wetFull is the tread against which wet stops are compared: 10/32 in, the
// deepest of the published test.
const wetFull = 10 * 0.0254 / 32

// Wet is what the tread of one axle means on a leg with rain, at the end of
// the leg, as decided: with what is renewed before it.
type Wet struct {
	Set     string  `json:"set"`
	Name    string  `json:"name"`
	Place   string  `json:"place"`
	Zone    string  `json:"zone"`
	Tread   float64 `json:"tread"`   // m, of the shallowest zone, median
	Planes  float64 `json:"planes"`  // m/s, where hydroplaning begins in WetWater of water
	Flooded float64 `json:"flooded"` // m/s, the same on water deeper than the tread
	Stop    float64 `json:"stop"`    // wet stop from 60 mph against that of a 10/32 in tread
	Shallow bool    `json:"shallow"` // below the depth wanted in rain
}

// rain fills in the legs with rain.
func rain(p *Plan, f *profiles.Folder) {
	for j := range p.Legs {
		if p.Legs[j].Rain <= 0 {
			continue
		}
		for _, s := range p.Sets {
			if s.Kind == profiles.Tire {
				p.Legs[j].Wet = append(p.Legs[j].Wet, wet(s, j, f.Parts[s.Part].Tire))
			}
		}
	}
}

// wet works out one axle's tires on leg j.
func wet(s Set, j int, t *profiles.TirePart) Wet {
	w := Wet{Set: s.ID, Name: s.Name, Tread: math.Inf(1)}
	for _, p := range s.Points {
		if left := s.level(p, j); left < w.Tread {
			w.Tread, w.Place, w.Zone = left, p.Place, p.Zone
		}
	}
	w.Tread = math.Max(0, w.Tread)
	w.Planes = tire.Gallaway(wetSpin, float64(t.Pressure), w.Tread, WetWater, WetTexture)
	w.Flooded = tire.Flooded(float64(t.Pressure))
	w.Stop = tire.WetStop(w.Tread) / tire.WetStop(wetFull)
	w.Shallow = w.Tread < float64(t.WetMargin)
	return w
}

// level is a point's median level after leg j as decided: a renewed set's
// where it goes on before the leg.
func (s Set) level(p Point, j int) float64 {
	from := -1
	switch s.Decision.Action {
	case RenewBefore:
		from = 0
	case RenewAtStop:
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
func (w Wet) inRain(leg string) Check {
	c := Check{Set: w.Set, What: fmt.Sprintf("rain on %s: %s (%s %s)", leg, w.Name, w.Place, w.Zone), Wet: &w}
	if w.Shallow {
		c.What += " are shallow for it: slow down in the wet"
	}
	return c
}

// say completes a check with the speed at which the tires hydroplane.
func (w Wet) say(what string, u quantity.System) string {
	s := fmt.Sprintf("%s: hydroplaning begins about %s in %s of water", what, quantity.Velocity[u].Text(w.Planes), quantity.Water[u].Text(WetWater))
	if w.Shallow {
		s += fmt.Sprintf("; wet stops take about %.1f times the distance of full tread", w.Stop)
	}
	return s
}
