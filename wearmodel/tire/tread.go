package tire

import (
	"math"

	"example.com/tripwear/wearmodel/duty"
)

// The treadwear grades at which Tread's two rates are stated.
const (
	abrasionGrade = 200
	roadGrade     = 400
)

// overGrip lifts the brush model's peak friction above the car's, so that a
// car at full grip does not sit on the model's pole. Engineering choice.
const overGrip = 1.10

// Tread is a tire as its wear sees it. Every field must be positive.
//
// Sources of usual values: Land 0.75, Abrasion 6.5 mm3/kJ and HotFactor 2.0,
// engineering choices, set so that a 200-treadwear set lasts as long as common
// practice says; Cornering 0.25 per degree for a low 200-treadwear tire and
// 0.16 for an ordinary one, from published ranges; Driving 15, from memory;
// RoadRate 68 mg per km and tonne, Sustainability 2024 16(2) 522; Density
// 1.13 mg/mm3, assumed.
type Tread struct {
	Grade     float64 // treadwear grade, used as a ratio only
	Radius    float64 // m, rolling
	Width     float64 // m, of the tread
	Land      float64 // share of the tread that is rubber, 0-1
	Cornering float64 // cornering stiffness over load, per rad
	Driving   float64 // longitudinal stiffness over load, per unit slip
	Friction  float64 // the car's peak friction on this tire
	Abrasion  float64 // m3 lost per J of slip at grade 200, cool
	HotFactor float64 // multiplies Abrasion on a circuit
	RoadRate  float64 // kg lost per m per kg of wheel load at grade 400
	Density   float64 // kg/m3 of the rubber
}

// Setting is the alignment of one wheel.
type Setting struct {
	Camber float64 // rad, negative leans the top in
	Toe    float64 // rad, of this wheel, positive is toe-in
}

// Fitted is a tire at one place on the car.
type Fitted struct {
	Tread
	Setting
}

// Zone is a third of the tread's width.
type Zone int

// The zones, from the car's center outwards.
const (
	Inside Zone = iota
	Middle
	Outside
)

// Rate is the depth of tread (m) lost per unit of a duty: a lap, or a
// kilometer of road. The mean of Zones is Mean.
type Rate struct {
	Mean  float64
	Zones [3]float64 // inside, middle, outside
}

// area is the rubber (m2) on the ground in one turn of the wheel.
func (t Tread) area() float64 { return 2 * math.Pi * t.Radius * t.Width * t.Land }

// abrasion is the volume (m3) lost per J of slip when cool. A softer tread,
// by its grade, loses more in proportion. Engineering choice.
func (t Tread) abrasion() float64 { return t.Abrasion * abrasionGrade / t.Grade }

// brush is the tire as the slip model sees it.
func (t Tread) brush() duty.Brush {
	return duty.Brush{
		Friction:  overGrip * t.Friction,
		Cornering: t.Cornering,
		Driving:   t.Driving,
	}
}
