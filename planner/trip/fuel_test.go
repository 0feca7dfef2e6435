package trip

import (
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
	"example.com/tripwear/wearmodel/duty"
)

// By hand: 200 km at 10 km a liter take 20 L, two fifths of a tank of 50. A
// car without a fuel figure is said to use none, never without end; without a
// tank the fuel is not counted in tanks. A circuit day keeps what its laps burn.
func TestFuelFor(t *testing.T) {
	for _, c := range []struct {
		what       string
		kind       profiles.LegKind
		road, tank float64
		used, want float64 // m3 and tanks
	}{
		{"road", profiles.RoadLeg, 10e6, 50e-3, 20e-3, 0.4},
		{"road without a figure", profiles.RoadLeg, 0, 50e-3, 0, 0},
		{"road without a tank", profiles.RoadLeg, 10e6, 0, 20e-3, 0},
		{"circuit", profiles.CircuitLeg, 10e6, 50e-3, 35e-3, 0.7},
	} {
		l := plan.Leg{Kind: c.kind, Meters: 200e3}
		if c.kind == profiles.CircuitLeg {
			l.FuelUsed = 35e-3
		}
		var car profiles.Car
		car.Fuel.Road, car.Fuel.Tank = quantity.Economy(c.road), quantity.Volume(c.tank)
		fuelFor(&l, car)
		if math.Abs(l.FuelUsed-c.used) > 1e-12 || math.Abs(l.Tanks-c.want) > 1e-12 {
			t.Errorf("%s: %.4f m3, %.3f tanks; want %.4f and %.3f", c.what, l.FuelUsed, l.Tanks, c.used, c.want)
		}
	}
}

// The fuel of a lap is its energy at the wheels through a driveline that passes
// on 87 %, an engine of 28 % and gasoline of 32.2 MJ a liter: 7.84392 MJ take
// a liter.
func TestFuelPerLap(t *testing.T) {
	if got := fuelPerLap(duty.Duty{DriveEnergy: 2 * 7.84392e6}); math.Abs(got-2e-3) > 1e-9 {
		t.Errorf("%.6f L, want 2", 1000*got)
	}
}

// Of 400 km of road 100 in the rain half the time are an eighth; circuits do
// not count, and a trip without roads is dry.
func TestWetShare(t *testing.T) {
	circuit := plan.Leg{Kind: profiles.CircuitLeg, Meters: 100e3, Rain: 1}
	legs := []plan.Leg{{Kind: profiles.RoadLeg, Meters: 300e3}, circuit, {Kind: profiles.RoadLeg, Meters: 100e3, Rain: 0.5}}
	if got := WetShare(legs); math.Abs(got-0.125) > 1e-12 {
		t.Errorf("%.3f of the road is wet, want 0.125", got)
	}
	if got := WetShare([]plan.Leg{circuit}); got != 0 {
		t.Errorf("no road, yet %.3f of it is wet", got)
	}
}

// TestFuelStops by hand: a tank of 60 L of which 54 L are used, and 10 L per
// 100 km, which is 540 km from full to the reserve.
func TestFuelStops(t *testing.T) {
	const perMetre = 10e-3 / 100e3
	road := func(km float64) plan.Leg {
		return plan.Leg{Kind: profiles.RoadLeg, Meters: km * 1000, FuelUsed: km * 1000 * perMetre}
	}
	circuit := func(liters float64) plan.Leg { return plan.Leg{Kind: profiles.CircuitLeg, FuelUsed: liters * 1e-3} }
	for _, c := range []struct {
		what  string
		legs  []plan.Leg
		stops []int
		at    [][]float64 // km
	}{
		{"within the range", []plan.Leg{road(500)}, []int{0}, [][]float64{nil}},
		{"to the reserve and no further", []plan.Leg{road(540)}, []int{0}, [][]float64{nil}},
		{"twice on the way", []plan.Leg{road(1200)}, []int{2}, [][]float64{{540, 1080}}},
		{"what is left goes on to the next leg", []plan.Leg{road(400), road(400)}, []int{0, 1}, [][]float64{nil, {140}}},
		// 40 L gone, 14 left; the day takes 50 and leaves 18, which is 180 km.
		{"a circuit day fills up once", []plan.Leg{road(400), circuit(50), road(200)}, []int{0, 1, 1}, [][]float64{nil, nil, {180}}},
		{"a day of more than two tanks", []plan.Leg{circuit(120)}, []int{2}, [][]float64{nil}},
	} {
		refuel(c.legs, 60e-3)
		for j, l := range c.legs {
			var at []float64
			for _, m := range l.RefuelAt {
				at = append(at, m/1000)
			}
			if l.Refuels != c.stops[j] || !cmp.Equal(at, c.at[j], cmpopts.EquateApprox(1e-9, 1e-6), cmpopts.EquateEmpty()) {
				t.Errorf("%s, leg %d: %d stops at %v km, want %d at %v", c.what, j+1, l.Refuels, at, c.stops[j], c.at[j])
			}
		}
	}
}

// TestFuelProperties: the tank never falls below its reserve, and no stop is
// made before it is reached.
func TestFuelProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tank := rapid.Float64Range(0.01, 0.2).Draw(t, "tank")
		legs := make([]plan.Leg, rapid.IntRange(1, 8).Draw(t, "legs"))
		for j := range legs {
			legs[j] = plan.Leg{Kind: profiles.RoadLeg, Meters: 1e5, FuelUsed: rapid.Float64Range(0, 1).Draw(t, "used")}
		}
		refuel(legs, tank)
		usable, since, used := (1-reserve)*tank, 0.0, 0.0
		stops := 0
		for _, l := range legs {
			before := 0.0
			for _, m := range l.RefuelAt {
				share := m / l.Meters
				since += (share - before) * l.FuelUsed
				if math.Abs(since-usable) > 1e-9 {
					t.Fatalf("filled up after %g of %g m3", since, usable)
				}
				since, before = 0, share
			}
			since += (1 - before) * l.FuelUsed
			if since > usable+1e-9 {
				t.Fatalf("%g m3 since the last stop, %g usable", since, usable)
			}
			used += l.FuelUsed
			stops += l.Refuels
		}
		if float64(stops+1)*usable < used-1e-9 {
			t.Fatalf("%d stops for %g m3", stops, used)
		}
	})
}
