package trace

import (
	"fmt"
	"math"
)

// speeds compares the receiver's speeds with the way between the fixes: an
// error of the unit shows.
func (b *builder) speeds() *Error {
	const (
		radius = 6371e3 // m, mean of the earth: a percent is plenty here
		moving = 10.0   // m/s
		off    = 1.25
	)
	var told, gone float64
	for i := 1; i < len(b.trace.Fixes); i++ {
		a, f := b.trace.Fixes[i-1], b.trace.Fixes[i]
		dt := f.Time - a.Time
		if math.IsNaN(f.Speed) || f.Gap || dt <= 0 || dt > 3 {
			continue
		}
		const degree = math.Pi / 180
		way := float64(radius * degree * math.Hypot(f.Lat-a.Lat, math.Remainder(f.Lon-a.Lon, 360)*math.Cos(f.Lat*degree)))
		if way > moving*dt {
			told, gone = told+float64(f.Speed*dt), gone+way
		}
	}
	if ratio := told / gone; gone > 0 && (ratio > off || ratio < 1/off) {
		return &Error{
			What:     fmt.Sprintf("the speeds say %.1f times the way between the fixes", ratio),
			Expected: "speeds in the unit that the header names",
			Hint:     "correct the unit, or leave the speeds out",
		}
	}
	return nil
}
