// Package synthetic drives a corner list and records it as a satellite
// receiver would, for tests: the truth is known, and nobody's track is used.
package synthetic

import (
	"math"
	"math/rand/v2"
	"sort"

	"example.com/tripwear/wearmodel/duty"
	"example.com/tripwear/wearmodel/duty/trace"
)

// Day is how a circuit is driven and recorded.
type Day struct {
	Rate     float64 // fixes a second
	White    float64 // m, noise of each fix and axis, one standard deviation
	Drift    float64 // m, slow error of each axis, one standard deviation
	DriftT   float64 // s, how long the slow error lasts; 60 where 0
	Dropout  float64 // chance that a fix is lost
	Laps     int     // hot laps a session
	Sessions int     // 1 where 0
	Slow     []int   // laps of the first session, from 0, at 0.85 of the pace
	Rest     float64 // s parked between sessions, recorded
	Lat, Lon float64 // deg, of the start line
	Heading  float64 // rad, of the start line, from east to north
}

// Lap drives a corner list by itself: what the trace should show.
type Lap struct {
	Seconds, Meters float64
	t, s            []float64 // at the ends of the states
	x, y, heading   []float64
}

// NewLap walks a simulated lap from the origin along x.
func NewLap(d duty.Duty) *Lap {
	l := &Lap{t: []float64{0}, s: []float64{0}, x: []float64{0}, y: []float64{0}, heading: []float64{0}}
	var t, s, x, y, h float64
	for _, st := range d.States {
		step := float64(st.V * st.Seconds)
		turn := float64(st.Ay / st.V * st.Seconds)
		x += float64(step * math.Cos(h+float64(turn/2)))
		y += float64(step * math.Sin(h+float64(turn/2)))
		h += turn
		t += st.Seconds
		s += step
		l.t, l.s, l.x, l.y, l.heading = append(l.t, t), append(l.s, s), append(l.x, x), append(l.y, y), append(l.heading, h)
	}
	l.Seconds, l.Meters = t, s
	return l
}

// Miss is how far the end of the lap lies from its start, m.
func (l *Lap) Miss() float64 { return math.Hypot(l.x[len(l.x)-1], l.y[len(l.y)-1]) }

// at is the place at a time of the lap, a little to the left of the line.
func (l *Lap) at(t, left float64) (x, y float64) {
	i := sort.SearchFloat64s(l.t, t)
	i = max(1, min(i, len(l.t)-1))
	f := (t - l.t[i-1]) / (l.t[i] - l.t[i-1])
	h := l.heading[i-1] + float64(f*(l.heading[i]-l.heading[i-1]))
	return l.x[i-1] + float64(f*(l.x[i]-l.x[i-1])) - float64(left*math.Sin(h)), l.y[i-1] + float64(f*(l.y[i]-l.y[i-1])) + float64(left*math.Cos(h))
}

// Record drives a day: parked beside the start line, an out lap, hot laps, an
// in lap, parked again, in every session.
func Record(v duty.Vehicle, segs []duty.Segment, pace float64, day Day, rng *rand.Rand) ([]trace.Fix, error) {
	hotDuty, err := duty.Simulate(v, segs, pace)
	if err != nil {
		return nil, err
	}
	slowDuty, err := duty.Simulate(v, segs, 0.6*pace)
	if err != nil {
		return nil, err
	}
	lateDuty, err := duty.Simulate(v, segs, 0.85*pace)
	if err != nil {
		return nil, err
	}
	hot, slow, late := NewLap(hotDuty), NewLap(slowDuty), NewLap(lateDuty)
	r := recorder{day: day, rng: rng}
	r.driftX, r.driftY = day.Drift*rng.NormFloat64(), day.Drift*rng.NormFloat64()
	r.clock = rng.Float64() / day.Rate
	const pits, merge = 45.0, 15.0 // m beside the line, s to join it
	begin := 0.0
	for session := range max(1, day.Sessions) {
		r.park(slow, begin, max(30, day.Rest), pits)
		begin = r.end
		r.drive(slow, begin, func(t float64) float64 { return pits * math.Max(0, 1-t/merge) })
		begin += slow.Seconds
		for lap := range day.Laps {
			l := hot
			for _, s := range day.Slow {
				if session == 0 && s == lap {
					l = late
				}
			}
			r.drive(l, begin, func(float64) float64 { return 0 })
			begin += l.Seconds
		}
		r.drive(slow, begin, func(t float64) float64 { return pits * math.Max(0, 1-(slow.Seconds-t)/merge) })
		begin += slow.Seconds
		r.end = begin
	}
	r.park(slow, begin, 30, pits)
	return r.fixes, nil
}

type recorder struct {
	day            Day
	rng            *rand.Rand
	fixes          []trace.Fix
	clock          float64 // of the next fix
	end            float64
	driftX, driftY float64
}

func (r *recorder) park(l *Lap, begin, seconds, left float64) {
	for ; r.clock < begin+seconds; r.tick() {
		r.fix(l.at(0, left))
	}
	r.end = begin + seconds
}

func (r *recorder) drive(l *Lap, begin float64, left func(t float64) float64) {
	for ; r.clock < begin+l.Seconds; r.tick() {
		t := r.clock - begin
		r.fix(l.at(t, left(t)))
	}
}

// tick goes on to the next fix; the slow error is an Ornstein-Uhlenbeck process.
func (r *recorder) tick() {
	dt := 1 / r.day.Rate
	r.clock += dt
	hold := r.day.DriftT
	if hold == 0 {
		hold = 60
	}
	keep := math.Exp(-dt / hold)
	fresh := r.day.Drift * math.Sqrt(1-float64(keep*keep))
	r.driftX = float64(keep*r.driftX) + float64(fresh*r.rng.NormFloat64())
	r.driftY = float64(keep*r.driftY) + float64(fresh*r.rng.NormFloat64())
}

func (r *recorder) fix(x, y float64) {
	noiseX, noiseY := float64(r.day.White*r.rng.NormFloat64()), float64(r.day.White*r.rng.NormFloat64())
	if lost := r.rng.Float64() < r.day.Dropout; lost {
		return
	}
	x, y = x+r.driftX+noiseX, y+r.driftY+noiseY
	sin, cos := math.Sincos(r.day.Heading)
	lat, lon := place(r.day.Lat, r.day.Lon, float64(x*cos)-float64(y*sin), float64(x*sin)+float64(y*cos))
	r.fixes = append(r.fixes, trace.Fix{Time: r.clock, Lat: lat, Lon: lon})
}

// place is meters east and north of a place as degrees on WGS84, written
// apart from the reader's own projection so that one checks the other.
func place(lat, lon, east, north float64) (float64, float64) {
	const a, e2 = 6378137.0, 0.00669437999014
	phi := lat * math.Pi / 180
	w2 := 1 - float64(e2*math.Sin(phi)*math.Sin(phi))
	m, n := a*(1-e2)/math.Pow(w2, 1.5), a/math.Sqrt(w2)
	return lat + north/m*180/math.Pi, lon + east/(n*math.Cos(phi))*180/math.Pi
}
