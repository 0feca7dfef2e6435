package profiles

import (
	"time"

	"example.com/tripwear/profiles/quantity"
)

// Car is the owner's car as it stands today.
type Car struct {
	Name        string
	Odometer    quantity.Length
	Mass        quantity.Mass // as driven, driver and half a tank
	FrontWeight quantity.Share
	Wheelbase   quantity.Length
	Track       struct{ Front, Rear quantity.Length }
	CGHeight    quantity.Length
	Drive       string // rear, front or all
	Power       quantity.Power
	DragArea    quantity.Area
	RollFront   quantity.Share  // front share of lateral load transfer; 58 % unless given
	Friction    quantity.Number // peak tire friction; 1.0 unless given
	Fuel        struct {
		Tank quantity.Volume
		Road quantity.Economy
	}
	Boot struct {
		Volume  quantity.Volume
		Payload quantity.Mass
	}
	Luggage struct {
		Volume quantity.Volume
		Mass   quantity.Mass
	}
	Alignment map[string]Alignment // by place; LF RF LR RR
	OilUse    quantity.Number      // litres per 1,000 km, 0 unless given
	Gauge     Gauge
	Fitted    []Fitted
	Shelf     []Spare

	sources Sources
}

// Alignment is one wheel's static setting.
type Alignment struct {
	Camber quantity.Angle // negative leans the top in
	Toe    quantity.Angle // positive is toe-in
}

// Gauge is how well the owner measures: one standard deviation.
type Gauge struct {
	Tread quantity.Length // 0.2 mm a zone unless given
	Pad   quantity.Length // 0.3 mm unless given
}

// Fitted is a part on the car, with what was last measured of it.
type Fitted struct {
	Part  string
	At    []string // places, or "engine", "system" (brake fluid)
	Since struct {
		Date     time.Time
		Odometer quantity.Length
	}
	CircuitDays quantity.Number // circuit days driven on it so far

	Tread     map[string][]quantity.Length // per place: inside, middle, outside
	Pad       map[string]quantity.Length   // per place: thinnest friction material
	Thickness map[string]quantity.Length   // per place: rotor thickness
	Used      map[string]quantity.Share    // per place: rotor crack life used so far, or hub life used so far in L10 shares
	Water     quantity.Share               // brake fluid's water, if measured

	pos Position
}

// Spare is a part on the owner's shelf.
type Spare struct {
	Part     string
	Quantity quantity.Number
}
