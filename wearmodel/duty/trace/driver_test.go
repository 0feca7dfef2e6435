package trace_test

import (
	"math"
	"math/rand/v2"

	"example.com/tripwear/wearmodel/duty/trace"
)

// driver laps a closed line meter by meter and records what a receiver would
// give. It is a program of its own: nothing of the reader or of the lap
// simulation is in it, so that it may judge both.
type driver struct {
	step            float64   // m
	x, y, k         []float64 // k + left
	v, clock        []float64 // clock is one longer
	share           float64   // left turns' part of the integral of |ay| dt
	brake           float64   // J a lap
	meters, seconds float64
}

// Its car: 1,385 kg and 172 hp, rear drive.
const (
	driverMass, driverPower  = 1385.0, 172 * 745.7 * 0.87
	driverDrag, driverRoll   = 0.66 * 1.20 / 2, 0.013 * 1385 * 9.80665
	driverRear, driverHeight = 0.47, 0.48 / 2.51
)

// spline is the second derivatives of a periodic cubic spline whose knots are
// one apart in each of the steps h.
func spline(v, h []float64) []float64 {
	n := len(v)
	m := make([]float64, n)
	for range 60 { // the system's diagonal outweighs the rest by two
		for i := range m {
			a, b := (i+n-1)%n, (i+1)%n
			m[i] = (6*((v[b]-v[i])/h[i]-(v[i]-v[a])/h[a]) - h[a]*m[a] - h[i]*m[b]) / (2 * (h[a] + h[i]))
		}
	}
	return m
}

// drive laps the line through the points at a pace.
func drive(px, py []float64, pace float64) *driver {
	n := len(px)
	h := make([]float64, n)
	for i := range h {
		j := (i + 1) % n
		h[i] = math.Hypot(px[j]-px[i], py[j]-py[i])
	}
	mx, my := spline(px, h), spline(py, h)
	at := func(v, m []float64, i int, s float64) (p, d, dd float64) {
		j := (i + 1) % n
		a, b := h[i]-s, s
		p = (m[i]*a*a*a+m[j]*b*b*b)/(6*h[i]) + (v[i]/h[i]-m[i]*h[i]/6)*a + (v[j]/h[i]-m[j]*h[i]/6)*b
		d = (-m[i]*a*a+m[j]*b*b)/(2*h[i]) + (v[j]-v[i])/h[i] - (m[j]-m[i])*h[i]/6
		return p, d, (m[i]*a + m[j]*b) / h[i]
	}
	// A fine walk gives the way; the meters are taken from it.
	type spot struct{ s, x, y, k float64 }
	var fine []spot
	gone := 0.0
	const parts = 40
	for i := range h {
		for q := range parts {
			x, dx, ddx := at(px, mx, i, h[i]*float64(q)/parts)
			y, dy, ddy := at(py, my, i, h[i]*float64(q)/parts)
			if len(fine) > 0 {
				last := fine[len(fine)-1]
				gone += math.Hypot(x-last.x, y-last.y)
			}
			fine = append(fine, spot{gone, x, y, (dx*ddy - dy*ddx) / math.Pow(dx*dx+dy*dy, 1.5)})
		}
	}
	gone += math.Hypot(fine[0].x-fine[len(fine)-1].x, fine[0].y-fine[len(fine)-1].y)
	cells := int(math.Round(gone))
	d := &driver{step: gone / float64(cells), meters: gone}
	f := 0
	for c := range cells {
		for f+1 < len(fine) && fine[f+1].s <= d.step*float64(c) {
			f++
		}
		d.x, d.y, d.k = append(d.x, fine[f].x), append(d.y, fine[f].y), append(d.k, fine[f].k)
	}
	d.lap(pace)
	return d
}

// lap drives as fast as pace allows: the speed that every bend allows, then
// what the engine reaches and what the brakes can stop, twice round.
func (d *driver) lap(pace float64) {
	n := len(d.k)
	grip := pace * 9.80665
	d.v = make([]float64, n)
	for i, k := range d.k {
		d.v[i] = math.Min(90, math.Sqrt(grip/math.Max(1e-9, math.Abs(k))))
	}
	free := func(i int, v float64) float64 {
		use := v * v * math.Abs(d.k[i]) / grip
		return math.Sqrt(math.Max(0, 1-use*use))
	}
	for i := range 2 * n {
		a, b := i%n, (i+1)%n
		v := d.v[a]
		resist := (driverDrag*v*v + driverRoll) / driverMass
		push := math.Min(grip*driverRear/(1-pace*driverHeight)*free(a, v)-resist, (pace*driverPower/v/driverMass-resist)/1.04)
		d.v[b] = math.Min(d.v[b], math.Sqrt(v*v+2*push*d.step))
	}
	for i := 2 * n; i > 0; i-- {
		a, b := (i-1)%n, i%n
		v := d.v[b]
		d.v[a] = math.Min(d.v[a], math.Sqrt(v*v+2*d.step*(grip*free(b, v)+(driverDrag*v*v+driverRoll)/driverMass)))
	}
	d.clock = make([]float64, n+1)
	left, load := 0.0, 0.0
	d.brake = 0
	for i, v := range d.v {
		w := d.v[(i+1)%n]
		mean := (v + w) / 2
		d.clock[i+1] = d.clock[i] + d.step/mean
		force := 1.04*driverMass*(w*w-v*v)/(2*d.step) + driverDrag*(v*v+w*w)/2 + driverRoll
		d.brake += math.Max(0, -force) * d.step
		load += math.Abs(d.k[i]) * mean
		left += math.Max(0, d.k[i]) * mean
	}
	d.share, d.seconds = left/load, d.clock[n]
}

// outing is how a session is driven and recorded.
type outing struct {
	rate, white      float64 // fixes a second; m on each axis
	drift, driftTime float64 // m, s: a slow error
	laps             int     // hot ones
	pace, line       float64 // by how much laps differ: share of the time, m across
	reach            float64 // m, over which the line wanders
}

// judged is a session with the issue's own figures.
func judged(rate, white float64, laps int, rng *rand.Rand) outing {
	return outing{rate, white, 1 + rng.Float64(), 30 + 60*rng.Float64(), laps, 0.008, 0.6, 30 + 50*rng.Float64()}
}

// record drives from the pits and back, and gives the hot laps' times.
func (d *driver) record(o outing, rng *rand.Rand) (fixes []trace.Fix, times []float64) {
	n := len(d.k)
	// How far the car is to the left of the line, meter by meter of the session.
	whole := n * (o.laps + 3)
	wander := make([]float64, whole)
	half := int(3 * o.reach)
	kernel, sum := make([]float64, 2*half+1), 0.0
	for i := range kernel {
		u := float64(i-half) / o.reach
		kernel[i] = math.Exp(-u * u)
		sum += kernel[i] * kernel[i]
	}
	const every = 10 // m between the shocks
	for i := 0; i < whole; i += every {
		shock := o.line * rng.NormFloat64() / math.Sqrt(sum/every)
		for q, w := range kernel {
			if at := i + q - half; at >= 0 && at < whole {
				wander[at] += shock * w
			}
		}
	}
	const slow, parked, pits, merge = 1.35, 40.0, 25.0, 12.0
	now := parked
	cell := 0
	var when []float64 // at which every cell of the session begins
	start := 0.4 + 0.2*rng.Float64()
	for lap := -1; lap <= o.laps; lap++ {
		scale := math.Exp(o.pace * rng.NormFloat64())
		if lap < 0 || lap == o.laps {
			scale = slow
		} else {
			times = append(times, scale*d.seconds)
		}
		for i := range n {
			when = append(when, now)
			now += scale * (d.clock[i+1] - d.clock[i])
		}
	}
	when = append(when, now)
	ex, ey := o.drift*rng.NormFloat64(), o.drift*rng.NormFloat64()
	keep := math.Exp(-1 / (o.rate * o.driftTime))
	fresh := o.drift * math.Sqrt(1-keep*keep)
	heading := 2 * math.Pi * rng.Float64()
	lat0, lon0 := -60+120*rng.Float64(), 360*rng.Float64()-180
	for t := start; t < now+parked; t += 1 / o.rate {
		for cell+1 < len(when) && when[cell+1] <= t {
			cell++
		}
		c, f := cell, 0.0
		switch {
		case t < parked:
			c = 0
		case cell+1 >= len(when):
			c = len(when) - 2
		default:
			f = (t - when[cell]) / (when[cell+1] - when[cell])
		}
		i, j := c%n, (c+1)%n
		dx, dy := d.x[j]-d.x[i], d.y[j]-d.y[i]
		aside := wander[c] + pits*math.Max(0, math.Max(1-math.Max(0, t-parked)/merge, 1-math.Max(0, now-t)/merge))
		x := d.x[i] + f*dx - aside*dy/d.step
		y := d.y[i] + f*dy + aside*dx/d.step
		ex, ey = keep*ex+fresh*rng.NormFloat64(), keep*ey+fresh*rng.NormFloat64()
		x, y = x+ex+o.white*rng.NormFloat64(), y+ey+o.white*rng.NormFloat64()
		sin, cos := math.Sincos(heading)
		lat, lon := globe(lat0, lon0, x*cos-y*sin, x*sin+y*cos)
		fixes = append(fixes, trace.Fix{Time: t, Lat: lat, Lon: lon})
	}
	return fixes, times
}

// globe is meters east and north of a place as degrees on WGS84.
func globe(lat, lon, east, north float64) (float64, float64) {
	const a, e2, rad = 6378137.0, 0.00669437999014, math.Pi / 180
	w2 := 1 - e2*math.Pow(math.Sin(lat*rad), 2)
	return lat + north*math.Pow(w2, 1.5)/(a*(1-e2))/rad, lon + east*math.Sqrt(w2)/(a*math.Cos(lat*rad))/rad
}
