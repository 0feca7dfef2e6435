package profiles

import "example.com/tripwear/profiles/quantity"

// Kind is the kind of a part.
type Kind string

// The kinds of part tripwear follows.
const (
	Tire    Kind = "tire"
	Pads    Kind = "pads"
	Rotors  Kind = "rotors"
	Bearing Kind = "bearing"
	Oil     Kind = "oil"
	Fluid   Kind = "fluid"
)

// Part is one set as it is bought, its model values and what it costs to have and to fit.
// Only the block of its own kind is filled.
type Part struct {
	ID    string
	Class string // the stock part whose values it starts from
	Kind  Kind
	Name  string

	Price    quantity.Money    // for the set
	Volume   quantity.Volume   // of the set as packed
	Weight   quantity.Mass     // of the set as packed
	LeadTime quantity.Duration // from order to delivery
	Fit      []string          // where it can be fitted: paddock, shop, home
	Hours    quantity.Duration // labour to fit the set
	Tools    []string          // what fitting it in the paddock takes along

	Tire    *TirePart
	Pads    *PadsPart
	Rotors  *RotorsPart
	Bearing *BearingPart
	Oil     *OilPart
	Fluid   *FluidPart

	Sources Sources // where each value came from, by its key
}

// TirePart holds the model values of a tire.
type TirePart struct {
	Treadwear  quantity.Number // treadwear grade
	Radius     quantity.Length // rolling radius
	TreadWidth quantity.Length
	Land       quantity.Share // share of the tread that is rubber, not groove
	Cornering  quantity.Stiffness
	Driving    quantity.Number // longitudinal stiffness over load, per unit slip
	Abrasion   quantity.Wear   // at grade 200
	NewDepth   quantity.Length
	Limit      quantity.Length // legal end, at the shallowest zone
	Margin     quantity.Length // the owner's earlier end
	WetMargin  quantity.Length // wanted on legs with rain
	Pressure   quantity.Pressure
}

// PadsPart holds the model values of one axle's pads.
type PadsPart struct {
	Wear       quantity.Wear        // of friction material, cool
	Threshold  quantity.Temperature // above which wear climbs
	Activation quantity.Temperature // B of exp(B(1/Tth-1/T)), kelvin; written "3600 K"
	MaxBulk    quantity.Temperature
	RotorWear  quantity.Wear
	Area       quantity.Area   // friction area of one pad
	NewDepth   quantity.Length // friction material
	Limit      quantity.Length
	Margin     quantity.Length
}

// RotorsPart holds the model values of a pair of rotors.
type RotorsPart struct {
	RingMass      quantity.Mass
	Area          quantity.Area // cooled by air
	FaceArea      quantity.Area // one rubbed face
	RadiatingArea quantity.Area
	Vented        bool
	Crack         quantity.Number // crack factor of the material and its holes or slots
	NewThickness  quantity.Length
	Discard       quantity.Length // stamped minimum thickness
	CrackLimit    quantity.Share  // 100 % is life's end
	CrackMargin   quantity.Share
}

// BearingPart holds the model values of one hub bearing.
type BearingPart struct {
	Offset     quantity.Length // wheel centre plane from the bearing centre
	Spread     quantity.Length // between the rows' pressure centres
	Capacity   quantity.Force  // dynamic load rating of the unit
	LoadFactor quantity.Number
	Severity   quantity.Number // share of clean-oil life left to it in circuit use
	RoadLife   quantity.Length
}

// OilPart holds the model values of one oil fill with its filter.
type OilPart struct {
	Grade    string // SAE J300
	Quantity quantity.Volume
	Interval quantity.Length // where the owner likes to change
	Ceiling  quantity.Length // never beyond
	Months   quantity.Number // time limit
}

// FluidPart holds the model values of one brake-fluid fill.
type FluidPart struct {
	Grade     string // DOT 3, DOT 4, DOT 5.1
	Dry       quantity.Temperature
	Wet       quantity.Temperature // at 3.7 % water
	Uptake    quantity.Share       // water per year
	HeatThick quantity.Number      // share of the rotor's rise that reaches it, thick pads
	HeatWorn  quantity.Number      // the same, worn pads
	Warn      quantity.Temperature // wanted margin, K
	Quantity  quantity.Volume
}
