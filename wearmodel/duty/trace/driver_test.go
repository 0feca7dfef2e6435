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
	heading          float64 // rounds, of the circuit
}

// judged is a session with the issue's own figures.
func judged(rate, white float64, laps int, rng *rand.Rand) outing {
	return outing{rate, white, 1 + rng.Float64(), 30 + 60*rng.Float64(), laps, 0.008, 0.6, 30 + 50*rng.Float64(), rng.Float64()}
}

// record drives from the pits and back, and gives the hot laps' times.
func (d *driver) record(o outing, rng *rand.Rand) (fixes []trace.Fix, times []float64) {
	const slow = 1.35
	stint := []stintLap{{d, slow}}
	for range o.laps {
		scale := math.Exp(o.pace * rng.NormFloat64())
		stint = append(stint, stintLap{d, scale})
		times = append(times, scale*d.seconds)
	}
	return recordStint(append(stint, stintLap{d, slow}), o, rng, -60+120*rng.Float64(), 360*rng.Float64()-180), times
}

// stintLap is a lap with the factor on its time.
type stintLap struct {
	*driver
	scale float64
}

// recordStint drives laps one after the other, from the pits and back.
func recordStint(stint []stintLap, o outing, rng *rand.Rand, lat0, lon0 float64) (fixes []trace.Fix) {
	const parked, pits, merge = 40.0, 25.0, 12.0
	now := parked
	// Every meter of the stint: where, which way, and when.
	var x, y, dx, dy, when []float64
	for _, l := range stint {
		n := len(l.k)
		for i := range n {
			j := (i + 1) % n
			x, y = append(x, l.x[i]), append(y, l.y[i])
			dx, dy = append(dx, (l.x[j]-l.x[i])/l.step), append(dy, (l.y[j]-l.y[i])/l.step)
			when = append(when, now)
			now += l.scale * (l.clock[i+1] - l.clock[i])
		}
	}
	when = append(when, now)
	// How far the car is to the left of the line.
	wander := make([]float64, len(x))
	half := int(3 * o.reach)
	kernel, sum := make([]float64, 2*half+1), 0.0
	for i := range kernel {
		u := float64(i-half) / o.reach
		kernel[i] = math.Exp(-u * u)
		sum += kernel[i] * kernel[i]
	}
	const every = 10 // m between the shocks
	for i := 0; i < len(x); i += every {
		shock := o.line * rng.NormFloat64() / math.Sqrt(sum/every)
		for q, w := range kernel {
			if at := i + q - half; at >= 0 && at < len(x) {
				wander[at] += shock * w
			}
		}
	}
	ex, ey := o.drift*rng.NormFloat64(), o.drift*rng.NormFloat64()
	keep := math.Exp(-1 / (o.rate * o.driftTime))
	fresh := o.drift * math.Sqrt(1-keep*keep)
	heading := 2 * math.Pi * o.heading
	cell := 0
	for t := 0.4 + 0.2*rng.Float64(); t < now+parked; t += 1 / o.rate {
		for cell+1 < len(when) && when[cell+1] <= t {
			cell++
		}
		c, f := min(cell, len(x)-1), 0.0
		if t >= parked && cell < len(x) {
			f = (t - when[c]) / (when[c+1] - when[c])
		}
		aside := wander[c] + pits*math.Max(0, math.Max(1-math.Max(0, t-parked)/merge, 1-math.Max(0, now-t)/merge))
		px, py := x[c]+f*stint[0].step*dx[c]-aside*dy[c], y[c]+f*stint[0].step*dy[c]+aside*dx[c]
		ex, ey = keep*ex+fresh*rng.NormFloat64(), keep*ey+fresh*rng.NormFloat64()
		px, py = px+ex+o.white*rng.NormFloat64(), py+ey+o.white*rng.NormFloat64()
		sin, cos := math.Sincos(heading)
		lat, lon := globe(lat0, lon0, px*cos-py*sin, px*sin+py*cos)
		fixes = append(fixes, trace.Fix{Time: t, Lat: lat, Lon: lon})
	}
	return fixes
}

// globe is meters east and north of a place as degrees on WGS84.
func globe(lat, lon, east, north float64) (float64, float64) {
	const a, e2, rad = 6378137.0, 0.00669437999014, math.Pi / 180
	w2 := 1 - e2*math.Pow(math.Sin(lat*rad), 2)
	return lat + north*math.Pow(w2, 1.5)/(a*(1-e2))/rad, lon + east*math.Sqrt(w2)/(a*math.Cos(lat*rad))/rad
}
