package brake

import (
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/tripwear/wearmodel/duty"
)

// stepped is a march of one braking a lap with a given rise (K), cooling (1/s) and lap (s).
func stepped(rise, cooling, seconds float64) *march {
	return &march{
		axle:    front(),
		stops:   []stop{{energy: 1, rise: rise, cool: seconds}},
		keeps:   []float64{math.Exp(-cooling * seconds)},
		cooling: cooling,
		seconds: seconds,
	}
}

// Repeated stops, Newcomb 1960 form: 100 K each, 0.004/s, 60 s apart.
func TestRepeatedStops(t *testing.T) {
	m := stepped(100, 0.004, 60)
	for _, want := range []float64{100, 178.663, 240.541} {
		m.lap(1)
		near(t, "peak", m.out.Peak, want, 1e-5)
	}
	for range 200 {
		m.lap(1)
	}
	near(t, "limit", m.out.Peak, 468.665, 1e-5)
}

// The mean rise of a periodic lap is the sum of its rises over cooling and lap
// time, whatever the pattern; the lap's start is the closed geometric sum.
func TestPeriodicLap(t *testing.T) {
	for _, a := range []Axle{front(), rear()} {
		d := lap()
		m := newMarch(a, a.stops(car(), d), d, 24)
		for range 400 {
			m.lap(1)
		}
		m.laps, m.area = 0, 0
		m.lap(1)
		var sum, start, whole float64
		whole = 1
		for i, s := range m.stops {
			sum += s.rise
			start = (start + s.rise) * m.keeps[i]
			whole *= m.keeps[i]
		}
		near(t, "mean rise", m.area/d.Seconds, sum/(m.cooling*d.Seconds), 1e-9)
		near(t, "start", m.rise, start/(1-whole), 1e-9)
		mean := 24 + m.area/d.Seconds
		near(t, "fixed point", m.cooling*a.capacity(), a.conductance(d.Meters/d.Seconds, mean, 24), 1e-6)
	}
}

// A lap n of a session starts at u0 (1-R^n): the geometric sum.
func TestLapStart(t *testing.T) {
	a, d := front(), lap()
	m := newMarch(a, a.stops(car(), d), d, 24)
	m.lap(1)
	first := m.rise
	for range 4 {
		m.lap(1)
	}
	whole := m.keeps[0] * m.keeps[1] * m.keeps[2]
	near(t, "after five laps", m.rise, first*(1-math.Pow(whole, 5))/(1-whole), 1e-9)
}

func TestNothingDriven(t *testing.T) {
	for name, d := range map[string]duty.Duty{"no lap": {}, "no braking": {Seconds: 100, Meters: 3000}, "no time": {Brakings: lap().Brakings}} {
		got := Run(car(), front(), d, []Session{{Laps: 10, Rest: 60}}, 20)
		if want := (Outcome{Peak: 20, Face: 20, Bulk: 20}); got != want {
			t.Errorf("%s: got %+v", name, got)
		}
	}
	if got, want := Run(car(), front(), lap(), nil, 20), (Outcome{Peak: 20, Face: 20, Bulk: 20}); got != want {
		t.Errorf("no sessions: got %+v", got)
	}
}

// Only a rest lets a rotor cool and its cracks grow by a cycle.
func TestRestCools(t *testing.T) {
	rested := Run(car(), front(), lap(), []Session{{7, 2400}, {7, 0}}, 24)
	through := Run(car(), front(), lap(), []Session{{14, 0}}, 24)
	if rested.Peak > through.Peak || rested.PadMean >= through.PadMean {
		t.Errorf("a rest did not cool: %+v, without %+v", rested, through)
	}
	near(t, "energy", rested.Energy, through.Energy, 1e-12)
}

// The day's last session counts whether or not a rest is written down after
// it, and a rest after it takes nothing. By definition.
func TestLastSessionEnds(t *testing.T) {
	bare := Run(car(), front(), lap(), []Session{{7, 2400}, {7, 0}}, 24)
	parked := Run(car(), front(), lap(), []Session{{7, 2400}, {7, 1200}}, 24)
	if diff := cmp.Diff(parked, bare); diff != "" {
		t.Errorf("with a rest (-), without (+):\n%s", diff)
	}
}

// A session's mean rise over ambient is its area over its time: one braking of
// 100 K on a lap of 60 s at 0.004/s leaves 100 (1 - exp(-0.24)) / 0.24 = 88.905
// K, and one braking of 100 K is 1/150 of (100/525)^3 heat cycles, 46.07e-6.
// By hand.
func TestOneLapSession(t *testing.T) {
	m := stepped(100, 0.004, 60)
	m.ambient = 24
	m.lap(1)
	before := m.out.Crack
	m.rest(0)
	near(t, "session mean", m.out.Bulk, 24+88.905, 1e-5)
	near(t, "heat cycle", m.out.Crack-before, 46.07e-6, 1e-4)

	twice := front()
	twice.Crack = 2
	m = stepped(100, 0.004, 60)
	m.axle = twice
	m.lap(1)
	before = m.out.Crack
	m.rest(0)
	near(t, "heat cycle, a factor of 2", m.out.Crack-before, 92.14e-6, 1e-4)
}

func BenchmarkRunWeekend(b *testing.B) {
	v, a, d := car(), front(), lap()
	day := []Session{{7, 2400}, {7, 2400}, {7, 2400}, {7, 2400}, {7, 43200}}
	weekend := append(append([]Session(nil), day...), day...)
	for b.Loop() {
		Run(v, a, d, weekend, 24)
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/70, "ns/lap")
}
