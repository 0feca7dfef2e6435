package bearing

import (
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"example.com/tripwear/wearmodel/duty"
)

const mile = 1609.344

var plain = Hub{Offset: 5e-3, Spread: 60e-3, Capacity: 60e3, LoadFactor: 1.2, Severity: 0.10, RoadLife: 100000 * mile}

var car = duty.Vehicle{
	Mass: 1385, FrontShare: 0.53, Wheelbase: 2.51, TrackFront: 1.49, TrackRear: 1.50,
	CGHeight: 0.48, Power: 172 * 745.7, DragArea: 0.66, RollFront: 0.58, Friction: 1.0,
	Rolling: 0.013, AirDensity: 1.20, Driveline: 0.87, Rotating: 1.04,
}

func all(h Hub) [4]Hub { return [4]Hub{h, h, h, h} }

func each(r float64) [4]float64 { return [4]float64{r, r, r, r} }

func lap(s ...duty.State) duty.Duty { return duty.Duty{States: s} }

// Distances that the hubs of a 1300 kg car with h/t of 1/3 last in a steady
// 0.5 g corner on a smooth road. Statics, from an independent program; the
// rolling radius of 0.310 m is inferred from its loads.
func TestHubInASteadyCorner(t *testing.T) {
	const radius, speed = 0.310, 20.0
	v := duty.Vehicle{Mass: 1300, FrontShare: 0.5, Wheelbase: 2.6, TrackFront: 1.5, TrackRear: 1.5, CGHeight: 0.5, RollFront: 0.5}
	h := plain
	h.LoadFactor, h.Severity = 1, 1
	left := duty.State{Seconds: 1, V: speed, Ay: 0.5 * duty.G}

	w := v.Loads(left)[duty.RF]
	outer, inner := h.Rows(w.Fz, w.Fy, radius)
	near(t, "outer row, N", outer, 12470, 1e-4)
	near(t, "inner row, N", inner, 12749, 1e-4)

	share := Circuit(v, all(h), each(radius), lap(left))
	near(t, "outside wheel, km", speed/1000/share[duty.RF], 30818, 1e-4)
	near(t, "inside wheel, km", speed/1000/share[duty.LF], 209278, 1e-4)
}

// ISO 281, mean of varying loads: 65 % of the turns at 1859 N and 35 % at
// 12,749 N tire a row like 9001.8 N throughout. Maker's handbook, computed.
func TestCubicMean(t *testing.T) {
	damage := 0.65/L10(60e3, 1859) + 0.35/L10(60e3, 12749)
	near(t, "damage", damage, 1/L10(60e3, 9001.8), 1e-4)
}

// Field life of car hub bearings 80,000-118,000 mi: bearing maker's bulletin.
func TestRoad(t *testing.T) {
	for _, miles := range []float64{80000, 118000} {
		if share := Road(plain, miles*mile); share < 0.75 || share > 1.25 {
			t.Errorf("%v mi use up %v of L10", miles, share)
		}
	}
	near(t, "612 mi", Road(plain, 612*mile), 0.00612, 1e-12)
}

// Fatigue on a straight road is negligible beside what hubs fail of in the
// field: the reason for a field life there. Statics.
func TestStraightRoadFatigueIsSmall(t *testing.T) {
	h := plain
	h.Severity = 1
	km := Circuit(car, all(h), each(0.316), lap(duty.State{Seconds: 1000 / 31.0, V: 31}))
	for p, share := range km {
		if field := Road(h, 1000); share > field/2 {
			t.Errorf("%v: %v of L10 per km by fatigue, %v in the field", duty.Place(p), share, field)
		}
	}
}

func states(t *rapid.T) []duty.State {
	return rapid.SliceOfN(rapid.Custom(func(t *rapid.T) duty.State {
		return duty.State{
			Seconds: rapid.Float64Range(0, 20).Draw(t, "seconds"),
			V:       rapid.Float64Range(1, 70).Draw(t, "v"),
			Ax:      rapid.Float64Range(-10, 5).Draw(t, "ax"),
			Ay:      rapid.Float64Range(-12, 12).Draw(t, "ay"),
		}
	}), 0, 8).Draw(t, "states")
}

func TestCircuitProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		radius := each(0.316)
		ss := states(t)
		got := Circuit(car, all(plain), radius, lap(ss...))
		for p, d := range got {
			if !(d >= 0) || math.IsInf(d, 0) {
				t.Fatalf("%v: %v", duty.Place(p), d)
			}
		}

		mirrored := make([]duty.State, len(ss))
		for i, s := range ss {
			s.Ay = -s.Ay
			mirrored[i] = s
		}
		other := Circuit(car, all(plain), radius, lap(mirrored...))
		for _, p := range duty.Places {
			if other[p.Mirror()] != got[p] {
				t.Errorf("%v: %v, across the car in the mirror %v", p, got[p], other[p.Mirror()])
			}
		}

		twice := Circuit(car, all(plain), radius, lap(append(ss, ss...)...))
		stronger := plain
		stronger.Capacity = 70e3
		clean := plain
		clean.Severity = 0.2
		weaker := Circuit(car, all(stronger), radius, lap(ss...))
		cleaner := Circuit(car, all(clean), radius, lap(ss...))
		for p, d := range got {
			near(t, "two laps", twice[p], 2*d, 1e-9)
			near(t, "half the severity", cleaner[p], d/2, 1e-9)
			near(t, "capacity cubed", weaker[p], d*math.Pow(6.0/7, 3), 1e-9)
		}
	})
}

func TestNoDutyNoDamage(t *testing.T) {
	if diff := cmp.Diff([4]float64{}, Circuit(car, all(plain), each(0.316), duty.Duty{})); diff != "" {
		t.Error(diff)
	}
	if Road(plain, 0) != 0 {
		t.Error("no road uses up a hub")
	}
}

// The outside hub pays for cornering, and more the harder the corner; so a
// circuit of left turns uses up the right-hand hubs. Statics.
func TestOutsideHubPays(t *testing.T) {
	last := [4]float64{}
	for _, g := range []float64{0.3, 0.5, 0.7, 0.9} {
		got := Circuit(car, all(plain), each(0.316), lap(duty.State{Seconds: 10, V: 25, Ay: g * duty.G}))
		if got[duty.RF] <= got[duty.LF] || got[duty.RR] <= got[duty.LR] {
			t.Errorf("%v g left: %v", g, got)
		}
		if got[duty.RF] <= last[duty.RF] || got[duty.RR] <= last[duty.RR] {
			t.Errorf("%v g left costs no more than less: %v, %v", g, got, last)
		}
		last = got
	}
}
