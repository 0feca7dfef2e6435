package brake

// Pad is the friction material of one axle's pads.
type Pad struct {
	Wear       float64 // m3 of material lost per J rubbed into one rotor, while cool
	Threshold  float64 // deg C of the rotor above which wear climbs
	Activation float64 // K, B of exp(B (1/threshold - 1/T))
	MaxBulk    float64 // deg C, the hottest session mean the maker allows
	RotorWear  float64 // m3 of rotor lost per J, both faces together
	Area       float64 // m2 of friction material of one pad
}

// Rotor is one disc.
type Rotor struct {
	RingMass      float64 // kg of the rubbed ring, without the hat
	Area          float64 // m2 cooled by air
	FaceArea      float64 // m2 of one rubbed face, not of both
	RadiatingArea float64 // m2 that sees the surroundings
	Vented        bool
	Crack         float64 // crack factor of material, slots or holes; 1 is a plain blank
}

// Axle is one axle's brakes: two rotors, each with two pads.
type Axle struct {
	Pad
	Rotor
	Front bool
}

// Session is a run of hot laps and the rest after it.
type Session struct {
	Laps float64 // hot laps, the last perhaps a part of one; out and in laps heat no brakes
	Rest float64 // s parked before the next session; with none, the two are one
}

// Outcome is what a duty took from one wheel's brake of an axle.
type Outcome struct {
	PadMean     float64 // m of friction material lost, mean over the wheel's pads
	PadThinnest float64 // m lost by the thinnest pad
	Crack       float64 // damage of the rotor; 1 is the limit
	Thickness   float64 // m of rotor lost, both faces together
	Peak        float64 // deg C, the hottest the rotor's bulk was after a braking; 0 for a road
	Face        float64 // deg C, the hottest a face flashed up to at a braking; 0 for a road
	Bulk        float64 // deg C, the highest time-mean of the rotor over a session; 0 for a road
	Energy      float64 // J rubbed into the rotor's two faces and its pads
}

// share is the axle's share of a braking at a deceleration, from the front's.
func (a Axle) share(front float64) float64 {
	if a.Front {
		return front
	}
	return 1 - front
}
