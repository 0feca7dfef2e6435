package trace

import (
	"math"
)

// The WGS84 ellipsoid (NIMA TR8350.2, third edition).
const (
	semiMajor    = 6378137.0
	flattening   = 1 / 298.257223563
	eccentricity = flattening * (2 - flattening) // squared
)

// plane is the local tangent plane at one place: meters east and north, true
// to 1 in 10,000 within 10 km.
type plane struct {
	lat, lon float64 // deg, the origin
	north    float64 // m per deg of latitude
	east     float64 // m per deg of longitude
}

// newPlane takes the radii of curvature in the meridian and in the prime
// vertical. Source: differential geometry of the ellipsoid, as in any textbook
// of geodesy.
func newPlane(lat, lon float64) plane {
	const degree = math.Pi / 180
	sin, cos := math.Sincos(lat * degree)
	w := 1 - float64(eccentricity*sin*sin)
	return plane{
		lat: lat, lon: lon,
		north: semiMajor * (1 - eccentricity) / (w * math.Sqrt(w)) * degree,
		east:  semiMajor / math.Sqrt(w) * cos * degree,
	}
}

// xy is meters east and north of the origin; the date line is no border.
func (p plane) xy(lat, lon float64) (x, y float64) {
	return float64(math.Remainder(lon-p.lon, 360) * p.east), float64((lat - p.lat) * p.north)
}

// Flat lays places of the earth on the plane around the first of them: meters
// east and north of it.
func Flat(lat, lon []float64) (x, y []float64) {
	for i := range lat {
		east, north := newPlane(lat[0], lon[0]).xy(lat[i], lon[i])
		x, y = append(x, east), append(y, north)
	}
	return x, y
}
