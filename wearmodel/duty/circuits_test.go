package duty

import (
	"math"

	"pgregory.net/rapid"
)

const deg = math.Pi / 180

// corner is a straight and a turn, degrees + left.
func corner(straight, turn, radius float64) Segment {
	return Segment{Straight: straight, Turn: turn * deg, Radius: radius}
}

// reference is a lap of 4,080 m with 300 degrees of turning per km, invented.
func reference() []Segment {
	return []Segment{
		corner(157.410, -15, 600), corner(164.119, 130, 30), corner(15, -60, 150), corner(15, 10, 1000),
		corner(15, 139, 90), corner(15, 14, 800), corner(43.152, -75, 60), corner(15, -45, 130),
		corner(15, -20, 500), corner(15, -12, 900), corner(15, -80, 40), corner(203.228, 95, 45),
		corner(15, 60, 100), corner(15, 22, 450), corner(15, 18, 400), corner(15, 89, 85),
		corner(203.562, -110, 35), corner(15, 55, 120), corner(15.486, 70, 70),
		corner(190.306, -15, 700), corner(190.260, 90, 55),
	}
}

// heronFlats is a circuit of 3.5 km, invented.
func heronFlats() []Segment {
	return []Segment{
		corner(582.646, 90, 60), corner(208.518, 70, 120), corner(172.435, -80, 40),
		corner(197.686, 100, 50), corner(304.983, -60, 85), corner(210.171, 130, 80),
		corner(389.678, 80, 40), corner(278.752, -50, 70), corner(306.902, 80, 55),
	}
}

// middling is a rear-drive car of 1300 kg and 200 kW.
func middling() Vehicle {
	return Vehicle{
		Mass: 1300, FrontShare: 0.53, Wheelbase: 2.60, TrackFront: 1.50, TrackRear: 1.50, CGHeight: 0.50,
		Drive: RearDrive, Power: 200e3, DragArea: 0.66, RollFront: 0.58, Friction: 1,
		Rolling: 0.013, AirDensity: 1.20, Driveline: 0.87, Rotating: 1.04,
	}
}

// anyCircuit draws a corner list; it need not close.
func anyCircuit(t *rapid.T) []Segment {
	segs := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) Segment {
		return corner(
			rapid.Float64Range(0, 500).Draw(t, "straight"),
			rapid.Float64Range(5, 180).Draw(t, "turn")*float64(rapid.SampledFrom([]int{-1, 1}).Draw(t, "side")),
			rapid.Float64Range(8, 400).Draw(t, "radius"))
	}), 1, 8).Draw(t, "circuit")
	return segs
}

// anyVehicle draws a car.
func anyVehicle(t *rapid.T) Vehicle {
	v := middling()
	v.Mass = rapid.Float64Range(600, 2400).Draw(t, "mass")
	v.Power = rapid.Float64Range(40e3, 500e3).Draw(t, "power")
	v.FrontShare = rapid.Float64Range(0.4, 0.65).Draw(t, "front share")
	v.Friction = rapid.Float64Range(0.7, 1.4).Draw(t, "friction")
	v.CGHeight = rapid.Float64Range(0.35, 0.65).Draw(t, "height")
	v.Drive = rapid.SampledFrom([]Drive{RearDrive, FrontDrive, AllDrive}).Draw(t, "drive")
	return v
}

// within says whether got is want to a relative tolerance.
func within(got, want, rel float64) bool { return math.Abs(got-want) <= rel*math.Abs(want) }
