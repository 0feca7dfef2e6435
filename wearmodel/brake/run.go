package brake

import (
	"math"

	"example.com/tripwear/wearmodel/duty"
)

// Run marches one rotor of the axle through sessions of a lap, from a start at
// ambient (deg C), and adds up what the laps take. The part's masses and areas
// must be above zero. Between brakings the rotor cools at the lap's mean
// speed, with the conductance at the mean temperature of a long run of laps.
func Run(v duty.Vehicle, a Axle, d duty.Duty, sessions []Session, ambient float64) Outcome {
	out := Outcome{Peak: ambient, Face: ambient, Bulk: ambient}
	stops := a.stops(v, d)
	if len(stops) == 0 || d.Seconds <= 0 {
		return out
	}
	m := newMarch(a, stops, d, ambient)
	for i, s := range sessions {
		for left := s.Laps; left > 0; left-- {
			m.lap(math.Min(1, left))
		}
		if s.Rest > 0 || i == len(sessions)-1 {
			m.rest(s.Rest)
		}
	}
	m.out.PadThinnest = thinnest * m.out.PadMean
	m.out.Thickness = a.thickness(m.out.Energy)
	return m.out
}

// march is a rotor on its way through a day.
type march struct {
	axle    Axle
	stops   []stop
	keeps   []float64 // share of the rise left at the next braking
	ambient float64   // deg C
	cooling float64   // 1/s
	seconds float64   // of a lap

	rise  float64 // K over ambient, before the next braking
	laps  float64 // of the session so far
	area  float64 // K s, the rise over the session's time
	worst float64 // K, the session's highest rise
	out   Outcome
}

func newMarch(a Axle, stops []stop, d duty.Duty, ambient float64) *march {
	m := &march{axle: a, stops: stops, ambient: ambient, seconds: d.Seconds}
	m.out.Peak, m.out.Face, m.out.Bulk = ambient, ambient, ambient
	heat := 0.0
	for _, s := range stops {
		heat += float64(s.rise * a.capacity())
	}
	speed := d.Meters / d.Seconds
	mean := a.balance(heat/d.Seconds, speed, ambient)
	m.cooling = a.conductance(speed, mean, ambient) / a.capacity()
	m.keeps = make([]float64, len(stops))
	for i, s := range stops {
		m.keeps[i] = math.Exp(-m.cooling * s.cool)
	}
	return m
}

// lap drives one lap, or a part of one: that part of what the lap takes, of the
// heat it leaves, and of how far its peak stands over the session's.
func (m *march) lap(part float64) {
	m.laps += part
	start, soFar := m.rise, math.Max(m.worst, m.rise)
	worst, face := soFar, m.out.Face
	for i, s := range m.stops {
		before := m.rise
		after := before + s.rise
		peak := m.ambient + after
		m.out.Energy += float64(part * s.energy)
		m.out.PadMean += part * m.axle.rate((m.ambient+before+peak)/2) * s.energy / (2 * m.axle.Pad.Area)
		m.out.Crack += float64(part * m.axle.Crack * crackStop(s.surface, peak))
		face = math.Max(face, math.Max(peak, m.ambient+before+s.surface))
		worst = math.Max(worst, after)
		m.area += part * after * (1 - m.keeps[i]) / m.cooling
		m.rise = after * m.keeps[i]
	}
	m.rise = start + float64(part*(m.rise-start))
	m.worst = soFar + float64(part*(worst-soFar))
	m.out.Peak = math.Max(m.out.Peak, m.ambient+m.worst)
	m.out.Face += float64(part * (face - m.out.Face))
}

// rest ends a session and parks the car.
func (m *march) rest(seconds float64) {
	if m.laps > 0 {
		m.out.Bulk = math.Max(m.out.Bulk, m.ambient+m.area/(m.laps*m.seconds))
		m.out.Crack += float64(m.axle.Crack * crackCycle(m.worst))
	}
	m.laps, m.area, m.worst = 0, 0, 0
	m.rise = m.axle.park(m.rise, seconds, m.ambient)
}
