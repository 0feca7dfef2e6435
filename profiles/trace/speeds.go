package trace

import (
	"fmt"
	"math"
)

// speeds compares the receiver's speeds with the way between the fixes: an
// error of the unit shows, and lat and lon exchanged, by which left becomes right
// and the way is as long as told in no direction.
func (b *builder) speeds() *Error {
	const (
		moving  = 10.0 // m/s
		off     = 1.25
		clearer = 3.0 // times the misfit squared
	)
	var told, gone, misfit, exchanged float64
	for i := 1; i < len(b.trace.Fixes); i++ {
		a, f := b.trace.Fixes[i-1], b.trace.Fixes[i]
		dt := f.Time - a.Time
		if math.IsNaN(f.Speed) || f.Gap || dt <= 0 || dt > 3 {
			continue
		}
		if way := apart(a.Lat, a.Lon, f.Lat, f.Lon); way > moving*dt {
			told, gone = told+float64(f.Speed*dt), gone+way
			wrong, other := f.Speed-way/dt, f.Speed-apart(a.Lon, a.Lat, f.Lon, f.Lat)/dt
			misfit, exchanged = misfit+float64(wrong*wrong), exchanged+float64(other*other)
		}
	}
	if gone > 0 && misfit > clearer*exchanged && math.Abs(b.trace.Fixes[0].Lon) < mostLat {
		return &Error{
			What:     "the speeds fit the way between the fixes only with lat and lon exchanged",
			Expected: "latitudes under lat, longitudes under lon",
			Hint:     "exchange their names in the header: as it is, left turns are taken for right ones",
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

// apart is how far two near places are apart, m.
func apart(lat, lon, toLat, toLon float64) float64 {
	const radius, degree = 6371e3, math.Pi / 180 // m, mean of the earth: a percent is plenty here
	return radius * degree * math.Hypot(toLat-lat, math.Remainder(toLon-lon, 360)*math.Cos(toLat*degree))
}
