package profiles

import "example.com/tripwear/profiles/quantity"

// Circuit is a place to drive, known by its summary or corner by corner.
type Circuit struct {
	ID            string
	Name          string
	Length        quantity.Length   // by summary
	LapTime       quantity.Duration // the owner's typical lap, 0 if unknown
	LeftShare     quantity.Share    // by summary: share of cornering load taken in left turns
	HeavyBrakings int               // by summary, 0 if unknown
	Corners       []Corner          // corner by corner

	Sources Sources
}

// Corner is a straight, a turn, or a straight and the turn at its end.
type Corner struct {
	Straight quantity.Length
	Turn     quantity.Angle // + left; written "90 deg left"
	Radius   quantity.Length
}
