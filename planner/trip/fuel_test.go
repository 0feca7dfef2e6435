package trip

import (
	"math"
	"testing"

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
