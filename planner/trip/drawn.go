package trip

import (
	"errors"
	"fmt"

	"example.com/tripwear/profiles"
	"example.com/tripwear/wearmodel/duty/line"
	survey "example.com/tripwear/wearmodel/duty/trace"
)

// Drawn finds the line that a car takes where a map is all that is known of a
// circuit, once for each map.
func (m Machine) Drawn(c profiles.Circuit) (*line.Lap, error) {
	l := c.Map
	return m.drawn.of(l, func() (*line.Lap, error) {
		x, y := make([]float64, len(l.Points)), make([]float64, len(l.Points))
		for i, p := range l.Points {
			x[i], y[i] = p.X, p.Y
		}
		if !l.Plane {
			x, y = survey.Flat(y, x)
		}
		places := make([]line.Place, len(l.Points))
		for i, p := range l.Points {
			places[i] = line.Place{X: x[i], Y: y[i], Right: p.Right, Left: p.Left}
		}
		lap, err := line.Drive(places)
		if wrong := (*line.Wrong)(nil); errors.As(err, &wrong) {
			err = profiles.Errors{{Position: profiles.Position{File: c.File}, What: fmt.Sprintf("line %q: %s", l.Name, wrong.What), Expected: wrong.Expected, Hint: wrong.Hint}}
		}
		return lap, err
	})
}
