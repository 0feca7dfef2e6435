package circuits

import (
	"fmt"
	"math"
	"strings"

	"example.com/tripwear/planner/plan"
)

// File is the circuit as a profile of its own: what goes into
// circuits/ID.yaml, so that a recorded track is needed once. It is written corner
// by corner, in the direction and with the lap time that the circuit was
// described with; one known by a map names the file of that map, and has a lap
// time where the owner gave one.
func File(c *plan.Circuit, mapFile string, lapTime float64) (string, error) {
	if c.Map != nil {
		text := fmt.Sprintf("# From a map: a recording saved under this name takes its place.\nname: %q\ntrack: %s\n", c.Name, mapFile)
		if lapTime > 0 {
			text += lapTimeLine(lapTime)
		}
		return text, nil
	}
	if len(c.Segs) == 0 {
		return "", fmt.Errorf("%s is known by its summary alone and has no corners to write", c.Name)
	}
	var b strings.Builder
	fmt.Fprintf(&b, "# Corner by corner, from the %s", map[string]string{plan.ByTrack: "recorded track", plan.ByCorners: "corner list"}[c.Known])
	if c.Track != nil {
		fmt.Fprintf(&b, ": %d hot laps, left share %.1f +- %.1f %%", len(c.Track.Laps), 100*c.LeftShare, 100*c.ShareSD)
	}
	fmt.Fprintf(&b, ".\nname: %q\n", c.Name)
	b.WriteString(lapTimeLine(c.LapTime))
	if c.Harder != 1 {
		fmt.Fprintf(&b, "# The recording's line takes the edge off the sharpest bends.\nbraking: %.1f %%\n", 100*c.Harder)
	}
	b.WriteString("corners:\n")
	for _, s := range c.Segs {
		var keys []string
		if s.Straight > 0 {
			keys = append(keys, fmt.Sprintf("straight: %.2f m", s.Straight))
		}
		if s.Turn != 0 {
			side := "left"
			if s.Turn < 0 {
				side = "right"
			}
			keys = append(keys, fmt.Sprintf("turn: %.3f deg %s, radius: %.2f m", math.Abs(s.Turn)*180/math.Pi, side, s.Radius))
		}
		fmt.Fprintf(&b, "  - {%s}\n", strings.Join(keys, ", "))
	}
	return b.String(), nil
}

// lapTimeLine is a lap time, s, as a circuit's file has it.
func lapTimeLine(seconds float64) string {
	tenths := math.Round(seconds * 10)
	return fmt.Sprintf("lap_time: %.0f:%04.1f\n", math.Floor(tenths/600), math.Mod(tenths, 600)/10)
}
