package tire

import (
	"math"

	"pgregory.net/rapid"

	"example.com/tripwear/wearmodel/duty"
)

// juniper is a light rear-drive sports car, 172 hp.
var juniper = duty.Vehicle{
	Mass: 1385, FrontShare: 0.53, Wheelbase: 2.51, TrackFront: 1.49, TrackRear: 1.50,
	CGHeight: 0.48, Drive: duty.RearDrive, Power: 172 * 745.7, DragArea: 0.66,
	RollFront: 0.58, Friction: 1.0,
	Rolling: 0.013, AirDensity: 1.20, Driveline: 0.87, Rotating: 1.04,
}

// tread200 is a 200-treadwear tread of one size.
func tread200(radius, width float64) Tread {
	return Tread{
		Grade: 200, Radius: radius, Width: width, Land: 0.75,
		Cornering: 0.25 / deg, Driving: 15, Friction: 1.0,
		Abrasion: 6.5e-12, HotFactor: 2.0, RoadRate: 68e-12, Density: 1130,
	}
}

// onJuniper is its set, aligned for both road and circuit.
func onJuniper() [4]Fitted {
	front := Fitted{tread200(0.316, 0.195), Setting{Camber: -1.5 * deg, Toe: 0.05 * deg}}
	rear := Fitted{tread200(0.314, 0.215), Setting{Camber: -1.8 * deg, Toe: 0.12 * deg}}
	return [4]Fitted{front, front, rear, rear}
}

// each gives every wheel a change.
func each(car [4]Fitted, change func(*Fitted)) [4]Fitted {
	for i := range car {
		change(&car[i])
	}
	return car
}

// highway is a kilometer of it.
var highway = duty.Duty{
	States: []duty.State{{Seconds: 1000 / 31.0, V: 31}},
	Meters: 1000, Seconds: 1000 / 31.0,
}

// cornering is a hundred meters at one speed round a left turn.
func cornering(v, g float64) duty.Duty {
	return duty.Duty{States: []duty.State{{Seconds: 100 / v, V: v, Ay: g * duty.G}}, Meters: 100}
}

// frictionless is a car that corners without needing any drive, and without
// load transfer, so that every wheel uses the same share of its grip.
func frictionless() duty.Vehicle {
	v := juniper
	v.DragArea, v.Rolling, v.CGHeight = 0, 0, 0
	return v
}

func drawDuty(t *rapid.T) duty.Duty {
	d := duty.Duty{Meters: rapid.Float64Range(0, 5000).Draw(t, "meters")}
	d.States = rapid.SliceOfN(rapid.Custom(func(t *rapid.T) duty.State {
		return duty.State{
			Seconds: rapid.Float64Range(0, 20).Draw(t, "seconds"),
			V:       rapid.Float64Range(1, 70).Draw(t, "v"),
			Ax:      rapid.Float64Range(-10, 5).Draw(t, "ax"),
			Ay:      rapid.Float64Range(-12, 12).Draw(t, "ay"),
		}
	}), 0, 8).Draw(t, "states")
	return d
}

func drawCar(t *rapid.T) [4]Fitted {
	return each(onJuniper(), func(f *Fitted) {
		f.Grade = rapid.Float64Range(40, 800).Draw(t, "grade")
		f.Camber = rapid.Float64Range(-4, 2).Draw(t, "camber") * deg
		f.Toe = rapid.Float64Range(-0.5, 0.5).Draw(t, "toe") * deg
	})
}

func mirrored(d duty.Duty) duty.Duty {
	states := make([]duty.State, len(d.States))
	for i, s := range d.States {
		s.Ay = -s.Ay
		states[i] = s
	}
	d.States = states
	return d
}

// bothWays runs a circuit and a road model alike.
var bothWays = map[string]func(duty.Vehicle, [4]Fitted, duty.Duty) [4]Rate{
	"circuit": Circuit,
	"road": func(v duty.Vehicle, car [4]Fitted, d duty.Duty) [4]Rate {
		return Road(v, car, d, 1.2)
	},
}

func mean(z [3]float64) float64 { return (z[0] + z[1] + z[2]) / 3 }

func finite(r Rate) bool {
	for _, x := range append([]float64{r.Mean}, r.Zones[:]...) {
		if !(x >= 0) || math.IsInf(x, 0) {
			return false
		}
	}
	return true
}
