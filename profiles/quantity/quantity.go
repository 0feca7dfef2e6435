// Package quantity parses and prints the measures people write, such as
// "6/32 in", "612 mi", "240 F" or "5 x 20 min". Inside the program every
// measure is a plain number in the unit named beside its type.
package quantity

// The kinds of measure a profile may hold.
type (
	Length      float64 // m
	Mass        float64 // kg
	Volume      float64 // m3
	Area        float64 // m2
	Duration    float64 // s
	Speed       float64 // m/s
	Power       float64 // W
	Pressure    float64 // Pa
	Force       float64 // N
	Temperature float64 // degrees Celsius
	Angle       float64 // rad
	Share       float64 // 0-1, written in percent
	Stiffness   float64 // per rad: cornering stiffness over load, written "0.25 /deg"
	Economy     float64 // m per m3 of fuel, written "27 mpg", "9 L/100km", "11 km/L"
	Wear        float64 // m3 per J, written "20 mm3/MJ" or "6.5 mm3/kJ"
	Energy      float64 // J per m, written "0.03 MJ/km"
	Number      float64 // plain number without a unit
	Viscosity   float64 // mm2/s, kinematic
	Neutral     float64 // mg KOH per g of oil: a base or acid number
	Trace       float64 // ppm by mass
	Money       float64 // in the owner's currency, written without a unit
	FuelPrice   float64 // in the owner's currency per m3, written "3.80 /gal" or "1.75 /L"
	Mileage     float64 // m a month, written "600 mi/month"
	Allowance   float64 // in the owner's currency a month, written "400 /month"
)
