package card

import (
	"fmt"
	"math"
	"strings"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
)

// Lap is a circuit from above, with the turns that load each side.
type Lap struct {
	Name, Side    string
	Width, Height string
	Label, Note   string
	Shapes        []Shape
	Texts         []Text
}

// What of a lap counts as a turn, and the room for it. Engineering choices.
const (
	turning  = 0.3 * 9.80665 // m/s2 across
	lapSize  = 260.0
	lapSpace = 14.0
)

// lap is the first circuit of the trip whose line is known; nil where none is.
func (b builder) lap() *Lap {
	for _, v := range b.Circuits {
		if len(v.Points) > 2 {
			return b.drawn(v)
		}
	}
	return nil
}

func (b builder) drawn(v plan.View) *Lap {
	minX, minY, maxX, maxY := math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for _, p := range v.Points {
		minX, maxX = math.Min(minX, p.X), math.Max(maxX, p.X)
		minY, maxY = math.Min(minY, p.Y), math.Max(maxY, p.Y)
	}
	scale := lapSize / math.Max(1, math.Max(maxX-minX, maxY-minY))
	spot := func(i int) string {
		p := v.Points[i%len(v.Points)]
		return at(lapSpace+float64((p.X-minX)*scale), lapSpace+float64((maxY-p.Y)*scale))
	}
	out := &Lap{
		Name: v.Name, Width: num(float64((maxX-minX)*scale) + 2*lapSpace), Height: num(float64((maxY-minY)*scale) + 2*lapSpace),
	}
	var whole []string
	for i := range v.Points {
		whole = append(whole, spot(i))
	}
	out.Shapes = append(out.Shapes, Shape{"tk", d("M" + strings.Join(whole, "L") + "Z")})
	lefts, rights := 0, 0
	for i := 0; i < len(v.Points); i++ {
		side := math.Copysign(1, v.Points[i].Load)
		if math.Abs(v.Points[i].Load) < turning {
			continue
		}
		run := []string{spot(i)}
		for i+1 < len(v.Points) && v.Points[i+1].Load*side >= turning {
			i++
			run = append(run, spot(i))
		}
		path := d("M" + strings.Join(append(run, spot(i+1)), "L"))
		if side > 0 {
			lefts++
			out.Shapes = append(out.Shapes, Shape{"tl", path})
		} else {
			rights++
			out.Shapes = append(out.Shapes, Shape{"tro", path}, Shape{"tri", path})
		}
	}
	p := v.Points[0]
	x, y := lapSpace+float64((p.X-minX)*scale), lapSpace+float64((maxY-p.Y)*scale)
	out.Shapes = append(out.Shapes, Shape{"st", d("M" + at(x, y-8) + "V" + num(y+8))})
	out.Texts = append(out.Texts, Text{num(x + 6), num(y - 6), "t", "start"})
	for _, l := range b.Legs {
		if l.Kind != profiles.CircuitLeg || l.Circuit != v.Name {
			continue
		}
		share, turns := l.LeftShare, "left"
		out.Side = "right"
		if share < 0.5 {
			share, turns, out.Side = 1-share, "right", "left"
		}
		out.Note = fmt.Sprintf("Thick: %d left turns, which load the right side. Hollow: %d right turns, which load the left. %.0f %% of the cornering load is in %s turns. A lap of %s.",
			lefts, rights, 100*share, turns, quantity.Lap(l.LapTime))
		break
	}
	out.Label = fmt.Sprintf("%s from above. %s", v.Name, out.Note)
	return out
}
