package plan

import (
	"fmt"

	"example.com/tripwear/profiles/quantity"
)

// The road that hydroplaning is worked out for: heavy rain on an ordinary
// surface, and the wheel slowed by a tenth. Engineering choices.
const (
	WetWater   = 0.10 * 0.0254 // m of water over the texture
	WetTexture = 0.03 * 0.0254 // m, mean depth of the texture
	WetSpin    = 0.10
)

// Wet is what the tread of one axle means on a leg with rain, at the end of
// the leg, as decided: with what is replaced before it.
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

// say completes a check with the speed at which the tires hydroplane.
func (w Wet) say(what string, u quantity.System) string {
	s := fmt.Sprintf("%s: hydroplaning begins about %s in %s of water", what, quantity.Velocity[u].Text(w.Planes), quantity.Water[u].Text(WetWater))
	if w.Shallow {
		s += fmt.Sprintf("; wet stops take about %.1f times the distance of full tread", w.Stop)
	}
	return s
}
