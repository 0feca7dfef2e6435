package profiles

import "example.com/tripwear/profiles/quantity"

// Circuit is a place to drive, known by its summary or corner by corner.
type Circuit struct {
	ID            string            `key:"-"`
	Name          string            `need:"yes"`
	Length        quantity.Length   `range:"0.2 km to 100 km"` // by summary
	LapTime       quantity.Duration `range:"10 s to 60 min"`   // the owner's typical lap, 0 if unknown
	LeftShare     quantity.Share    `range:"0 % to 100 %"`     // by summary: share of cornering load taken in left turns
	HeavyBrakings int               `range:"0 to 200"`         // by summary, 0 if unknown
	Corners       []Corner          // corner by corner

	Sources Sources `key:"-"`
}

// Corner is a straight, a turn, or a straight and the turn at its end.
type Corner struct {
	Straight quantity.Length `range:"0 m to 20 km"`
	Turn     quantity.Angle  `as:"turn" range:"-720 deg to 720 deg"` // + left; written "90 deg left"
	Radius   quantity.Length `range:"3 m to 20 km"`
}
