package parts

import (
	"example.com/tripwear/profiles/decode"
	"example.com/tripwear/profiles/quantity"
)

// Part is one set as it is bought, its model values and what it costs to have and to fit.
// Only the block of its own kind is filled.
type Part struct {
	ID    string `need:"yes" as:"id" doc:"a word of your own for the part"`
	Class string `need:"yes" doc:"the stock part whose values it starts from"`
	Kind  Kind   `key:"-"`
	Name  string `need:"yes" doc:"what it is sold as"`

	// What may be unknown. A part without a lead time is sold over any counter.
	Price    quantity.Money    `range:"0 to 1000000" unknown:"absent" doc:"for the set"`
	Volume   quantity.Volume   `range:"0 L to 2000 L" unknown:"absent" doc:"of the set as packed"`
	Weight   quantity.Mass     `range:"0 kg to 500 kg" unknown:"absent" doc:"of the set as packed"`
	LeadTime quantity.Duration `range:"0 days to 730 days" unknown:"written" doc:"from order to delivery, in working days"`

	Fit   []string          `words:"paddock shop home" doc:"where it can be fitted: paddock, shop, home"`
	Hours quantity.Duration `range:"0 h to 100 h" doc:"labor to fit the set"`
	Tools []string          `doc:"what fitting it in the paddock takes along"`

	Tire    *TirePart    `key:"-"`
	Pads    *PadsPart    `key:"-"`
	Rotors  *RotorsPart  `key:"-"`
	Bearing *BearingPart `key:"-"`
	Oil     *OilPart     `key:"-"`
	Fluid   *FluidPart   `key:"-"`
	Limited *LimitedPart `key:"-"`

	Sources decode.Sources `key:"-"` // where each value came from, by its key
}

// TirePart holds the model values of a tire.
type TirePart struct {
	Size       string             `as:"size" doc:"on the sidewall: it gives the radius and the tread's width"`
	Treadwear  quantity.Number    `need:"yes" range:"20 to 1000" doc:"treadwear grade"`
	Radius     quantity.Length    `need:"yes" range:"0.2 m to 0.6 m" doc:"rolling"`
	TreadWidth quantity.Length    `need:"yes" range:"80 mm to 450 mm" doc:"of the tread"`
	Land       quantity.Share     `need:"yes" range:"40 % to 100 %" doc:"share of the tread that is rubber, not groove"`
	Cornering  quantity.Stiffness `need:"yes" range:"0.05 /deg to 0.6 /deg" doc:"cornering stiffness over load"`
	Driving    quantity.Number    `need:"yes" range:"3 to 60" doc:"longitudinal stiffness over load, per unit slip"`
	Abrasion   quantity.Wear      `need:"yes" range:"0.1 mm3/kJ to 100 mm3/kJ" doc:"at grade 200"`
	NewDepth   quantity.Length    `need:"yes" range:"1 mm to 20 mm" doc:"of the tread when new"`
	Limit      quantity.Length    `need:"yes" range:"1.5 mm to 10 mm" safe:"more" doc:"legal end, at the shallowest zone"`
	Margin     quantity.Length    `need:"yes" range:"0 mm to 10 mm" doc:"the owner's earlier end"`
	WetMargin  quantity.Length    `need:"yes" range:"0 mm to 15 mm" doc:"wanted on legs with rain"`
	HeatCycles quantity.Number    `range:"1 to 1000" doc:"sessions on circuit that you give it; left out, they are counted alone"`
	Pressure   quantity.Pressure  `need:"yes" range:"10 psi to 100 psi" doc:"cold, on the road"`
}

// PadsPart holds the model values of one axle's pads.
type PadsPart struct {
	Wear       quantity.Wear        `need:"yes" range:"1 mm3/MJ to 1000 mm3/MJ" doc:"of friction material, cool"`
	Threshold  quantity.Temperature `need:"yes" range:"50 C to 1000 C" doc:"above which wear climbs"`
	Activation quantity.Temperature `need:"yes" range:"0 K to 20000 K" as:"difference" doc:"how steeply wear climbs: B of exp(B(1/Tth-1/T)), such as 3600 K"`
	MaxBulk    quantity.Temperature `need:"yes" range:"100 C to 1200 C" doc:"most that the pad stands"`
	RotorWear  quantity.Wear        `need:"yes" range:"0 mm3/MJ to 500 mm3/MJ" doc:"of the rotor by this pad"`
	Area       quantity.Area        `need:"yes" range:"500 mm2 to 30000 mm2" doc:"friction area of one pad"`
	NewDepth   quantity.Length      `need:"yes" range:"3 mm to 40 mm" doc:"friction material when new"`
	Limit      quantity.Length      `need:"yes" range:"1 mm to 10 mm" safe:"more" doc:"friction material that must be left"`
	Margin     quantity.Length      `need:"yes" range:"0 mm to 15 mm" doc:"your earlier end"`
}

// RotorsPart holds the model values of a pair of rotors.
type RotorsPart struct {
	Diameter      quantity.Length `range:"150 mm to 500 mm" doc:"stamped or measured: with the thickness it gives mass and areas"`
	Inner         quantity.Length `range:"80 mm to 450 mm" doc:"of the rubbed ring"`
	RingMass      quantity.Mass   `need:"yes" range:"1 kg to 30 kg" doc:"of the rubbed ring"`
	Area          quantity.Area   `need:"yes" range:"0.01 m2 to 2 m2" doc:"cooled by air"`
	FaceArea      quantity.Area   `need:"yes" range:"0.01 m2 to 0.5 m2" doc:"one rubbed face"`
	RadiatingArea quantity.Area   `need:"yes" range:"0.01 m2 to 1 m2" doc:"seen from outside"`
	Vented        bool            `need:"yes" doc:"true with vents"`
	Crack         quantity.Number `need:"yes" range:"0.05 to 20" doc:"crack factor of the material and its holes or slots"`
	NewThickness  quantity.Length `need:"yes" range:"4 mm to 60 mm" doc:"when new"`
	Discard       quantity.Length `need:"yes" range:"3 mm to 60 mm" doc:"stamped on the rotor"`
	CrackLimit    quantity.Share  `need:"yes" range:"10 % to 100 %" safe:"less" doc:"100 % is life's end"`
	CrackMargin   quantity.Share  `need:"yes" range:"10 % to 100 %" safe:"less" doc:"your earlier end"`
}

// BearingPart holds the model values of one hub bearing.
type BearingPart struct {
	Offset     quantity.Length `need:"yes" range:"-100 mm to 100 mm" as:"signed" doc:"wheel center plane from the bearing center"`
	Spread     quantity.Length `need:"yes" range:"10 mm to 300 mm" doc:"between the rows' pressure centers"`
	Capacity   quantity.Force  `need:"yes" range:"5 kN to 500 kN" doc:"dynamic load rating of the unit"`
	LoadFactor quantity.Number `need:"yes" range:"1 to 3" doc:"loads of the road over those worked out"`
	Severity   quantity.Number `need:"yes" range:"0.01 to 1" doc:"share of clean-oil life left to it in circuit use"`
	RoadLife   quantity.Length `need:"yes" range:"10000 mi to 200000 mi" safe:"less" doc:"that most reach on the road"`
}

// OilPart holds the model values of one oil fill with its filter.
type OilPart struct {
	Grade    string          `need:"yes" doc:"SAE J300"`
	Quantity quantity.Volume `need:"yes" range:"0.5 L to 30 L" doc:"of a fill"`
	Interval quantity.Length `need:"yes" range:"500 mi to 50000 mi" doc:"where you like to change"`
	Ceiling  quantity.Length `need:"yes" range:"500 mi to 50000 mi" doc:"never beyond: the manual or a laboratory report"`
	Months   quantity.Number `need:"yes" range:"1 to 60" doc:"never longer"`
}

// FluidPart holds the model values of one brake-fluid fill.
type FluidPart struct {
	Grade     string               `need:"yes" doc:"DOT 3, DOT 4, DOT 5.1"`
	Dry       quantity.Temperature `need:"yes" range:"150 C to 400 C" doc:"boiling point, from the bottle"`
	Wet       quantity.Temperature `need:"yes" range:"100 C to 350 C" doc:"boiling point at 3.7 % water, from the bottle"`
	Uptake    quantity.Share       `need:"yes" range:"0 % to 10 %" doc:"water in the first year"`
	HeatThick quantity.Number      `need:"yes" range:"0 to 1" doc:"share of the rotor's rise that reaches it, thick pads"`
	HeatWorn  quantity.Number      `need:"yes" range:"0 to 1" doc:"the same, worn pads"`
	Warn      quantity.Temperature `need:"yes" range:"0 K to 200 K" as:"difference" doc:"wanted below boiling"`
	Quantity  quantity.Volume      `need:"yes" range:"0.1 L to 10 L" doc:"of a fill"`
}
