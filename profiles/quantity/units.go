package quantity

import (
	"cmp"
	"strconv"
	"strings"
)

// Unit is a unit of measure and how it turns into SI.
type Unit struct {
	Name    string
	scale   float64 // SI per unit
	zero    float64 // added before scaling
	inverse bool    // the SI value is scale over the number
}

// SI turns a number of the unit into the SI value.
func (u Unit) SI(x float64) float64 {
	if u.inverse {
		return u.scale / x
	}
	return (x + u.zero) * u.scale
}

// Of turns an SI value into a number of the unit.
func (u Unit) Of(si float64) float64 {
	if u.inverse {
		return u.scale / si
	}
	return si/u.scale - u.zero
}

// Exact factors: the international yard and pound of 1959 and the US gallon
// of 231 cubic inches, as in NIST SP 811, appendix B.
const (
	inch   = 0.0254         // m
	foot   = 12 * inch      // m
	mile   = 1609.344       // m
	pound  = 0.45359237     // kg
	gallon = 3.785411784e-3 // m3

	gravity    = 9.80665                        // m/s2, standard
	poundForce = pound * gravity                // N
	psi        = poundForce / (inch * inch)     // Pa, 6894.757 in NIST SP 811
	horsepower = 550 * foot * pound * gravity   // W, mechanical: 745.69987
	metricHP   = 75 * gravity                   // W, 735.49875
	liter      = 1e-3                           // m3
	degree     = 3.14159265358979323846 / 180.0 // rad
	fahrenheit = 1 / 1.8                        // K per degree
	freezing   = -32                            // from degrees Fahrenheit
	weeks      = 365.2425 / 7 / 12              // in a month
)

// Kind is a kind of measure: its name, the units it may be written in, and
// whether it can be negative.
type Kind struct {
	Name      string
	Units     []Unit
	Signed    bool
	suggest   []string // units to suggest first where one is missing
	clock     bool     // may be written m:ss
	fractions bool     // may be written 6/32 in
	absolute  bool     // ends at absolute zero
	literal   bool     // a share below 1 is a percentage all the same
	least     float64  // what is plausible, for the suggestion; both 0 where anything is
	most      float64
}

// Within is the kind where values from least to most (SI) are plausible: it
// then suggests only units that give one.
func (k *Kind) Within(least, most float64) *Kind {
	within := *k
	within.least, within.most = min(least, most), max(least, most)
	return &within
}

// Literal is the kind where a share without a unit, such as 0.05, is taken to
// lack its percent sign rather than to be a fraction.
func (k *Kind) Literal() *Kind {
	literal := *k
	literal.literal = true
	return &literal
}

// Measured is a measure that people write with its unit.
type Measured interface {
	~float64
	Kind() *Kind
}

var (
	lengths = &Kind{Name: "length", fractions: true, suggest: []string{"mi", "km"}, Units: []Unit{
		{Name: "mi", scale: mile}, {Name: "km", scale: 1000}, {Name: "m", scale: 1},
		{Name: "cm", scale: 0.01}, {Name: "mm", scale: 0.001}, {Name: "in", scale: inch}, {Name: "ft", scale: foot},
	}}
	masses = &Kind{Name: "mass", suggest: []string{"lb", "kg"}, Units: []Unit{
		{Name: "kg", scale: 1}, {Name: "lb", scale: pound}, {Name: "g", scale: 0.001}, {Name: "t", scale: 1000},
	}}
	volumes = &Kind{Name: "volume", suggest: []string{"gal", "L"}, Units: []Unit{
		{Name: "L", scale: liter}, {Name: "mL", scale: 0.001 * liter}, {Name: "qt", scale: gallon / 4},
		{Name: "gal", scale: gallon}, {Name: "cu ft", scale: foot * foot * foot},
	}}
	areas = &Kind{Name: "area", suggest: []string{"m2", "ft2"}, Units: []Unit{
		{Name: "m2", scale: 1}, {Name: "cm2", scale: 1e-4}, {Name: "mm2", scale: 1e-6},
		{Name: "in2", scale: inch * inch}, {Name: "ft2", scale: foot * foot},
	}}
	durations = &Kind{Name: "duration", clock: true, suggest: []string{"min", "h"}, Units: []Unit{
		{Name: "s", scale: 1}, {Name: "min", scale: 60}, {Name: "h", scale: 3600},
		{Name: "day", scale: 86400}, {Name: "days", scale: 86400},
	}}
	speeds = &Kind{Name: "speed", suggest: []string{"mph", "km/h"}, Units: []Unit{
		{Name: "mph", scale: mile / 3600}, {Name: "km/h", scale: 1 / 3.6}, {Name: "m/s", scale: 1},
	}}
	powers = &Kind{Name: "power", suggest: []string{"hp", "kW"}, Units: []Unit{
		{Name: "hp", scale: horsepower}, {Name: "kW", scale: 1000}, {Name: "PS", scale: metricHP}, {Name: "W", scale: 1},
	}}
	pressures = &Kind{Name: "pressure", suggest: []string{"psi", "bar"}, Units: []Unit{
		{Name: "psi", scale: psi}, {Name: "bar", scale: 1e5}, {Name: "kPa", scale: 1000},
	}}
	forces = &Kind{Name: "force", suggest: []string{"lbf", "kN"}, Units: []Unit{
		{Name: "kN", scale: 1000}, {Name: "N", scale: 1}, {Name: "lbf", scale: poundForce},
	}}
	temperatures = &Kind{Name: "temperature", absolute: true, Signed: true, suggest: []string{"F", "C"}, Units: []Unit{
		{Name: "F", scale: fahrenheit, zero: freezing}, {Name: "C", scale: 1}, {Name: "K", scale: 1, zero: absoluteZero},
	}}
	angles = &Kind{Name: "angle", Signed: true, suggest: []string{"deg", "min"}, Units: []Unit{
		{Name: "deg", scale: degree}, {Name: "min", scale: degree / 60}, {Name: "rad", scale: 1},
	}}
	shares = &Kind{Name: "share", suggest: []string{"%"}, Units: []Unit{{Name: "%", scale: 0.01}}}

	stiffnesses = &Kind{Name: "stiffness", suggest: []string{"/deg"}, Units: []Unit{
		{Name: "/deg", scale: 1 / degree}, {Name: "/rad", scale: 1},
	}}
	economies = &Kind{Name: "fuel economy", suggest: []string{"mpg", "L/100km"}, Units: []Unit{
		{Name: "mpg", scale: mile / gallon}, {Name: "L/100km", scale: 1e5 / liter, inverse: true},
		{Name: "km/L", scale: 1000 / liter},
	}}
	wears = &Kind{Name: "wear", suggest: []string{"mm3/MJ", "mm3/kJ"}, Units: []Unit{
		{Name: "mm3/MJ", scale: 1e-15}, {Name: "mm3/kJ", scale: 1e-12},
	}}
	energies    = &Kind{Name: "energy", suggest: []string{"MJ/km"}, Units: []Unit{{Name: "MJ/km", scale: 1000}}}
	viscosities = &Kind{Name: "viscosity", suggest: []string{"mm2/s", "cSt"}, Units: []Unit{{Name: "mm2/s", scale: 1}, {Name: "cSt", scale: 1}}}
	neutrals    = &Kind{Name: "base or acid number", suggest: []string{"mg KOH/g"}, Units: []Unit{{Name: "mg KOH/g", scale: 1}, {Name: "mgKOH/g", scale: 1}}}
	traces      = &Kind{Name: "trace", suggest: []string{"ppm"}, Units: []Unit{{Name: "ppm", scale: 1}, {Name: "mg/kg", scale: 1}}}

	numbers = &Kind{Name: "number"}
	moneys  = &Kind{Name: "price"}

	fuelPrices = &Kind{Name: "fuel price", suggest: []string{"/gal", "/L"}, Units: []Unit{
		{Name: "/gal", scale: 1 / gallon}, {Name: "/L", scale: 1 / liter},
	}}

	mileages = &Kind{Name: "mileage", suggest: []string{"mi/month", "km/month"}, Units: []Unit{
		{Name: "mi/month", scale: mile}, {Name: "km/month", scale: 1000}, {Name: "mi/year", scale: mile / 12.0},
		{Name: "km/year", scale: 1000 / 12.0}, {Name: "mi/week", scale: mile * weeks}, {Name: "km/week", scale: 1000 * weeks},
	}}
	allowances = &Kind{Name: "allowance", suggest: []string{"/month"}, Units: []Unit{
		{Name: "/month", scale: 1}, {Name: "/year", scale: 1 / 12.0},
	}}

	// Offset is a length with a sign: a distance to either side of a plane.
	Offset = &Kind{Name: "offset", fractions: true, Signed: true, suggest: []string{"mm", "in"}, Units: lengths.Units}

	// Difference is a difference of temperatures, which has no zero to shift.
	Difference = &Kind{Name: "temperature difference", Signed: true, suggest: []string{"K"}, Units: []Unit{
		{Name: "K", scale: 1}, {Name: "F", scale: fahrenheit},
	}}
)

// spoken are other names of units, small and without spaces and dots.
var spoken = map[string]string{
	"mile": "mi", "miles": "mi", "kilometer": "km", "kilometers": "km", "kilometre": "km", "kilometres": "km", "kms": "km",
	"meter": "m", "meters": "m", "metre": "m", "metres": "m", "centimeters": "cm", "centimetres": "cm",
	"millimeter": "mm", "millimeters": "mm", "millimetre": "mm", "millimetres": "mm",
	`"`: "in", "”": "in", "″": "in", "''": "in", "inch": "in", "inches": "in", "foot": "ft", "feet": "ft", "'": "ft", "’": "ft", "′": "ft",
	"lbs": "lb", "pound": "lb", "pounds": "lb", "kgs": "kg", "kilo": "kg", "kilos": "kg", "kilogram": "kg", "kilograms": "kg",
	"liter": "l", "liters": "l", "litre": "l", "litres": "l", "quart": "qt", "quarts": "qt", "gallon": "gal", "gallons": "gal",
	"second": "s", "seconds": "s", "sec": "s", "secs": "s", "minute": "min", "minutes": "min", "mins": "min",
	"hour": "h", "hours": "h", "hr": "h", "hrs": "h", "kph": "km/h", "kmh": "km/h", "bars": "bar",
	"°": "deg", "degree": "deg", "degrees": "deg", "°f": "f", "degf": "f", "fahrenheit": "f", "°c": "c", "degc": "c", "celsius": "c",
	"percent": "%",
}

// named says whether a unit has a name, in whatever spelling.
func (u Unit) named(name string) bool {
	plain := strings.ToLower(strings.NewReplacer(" ", "", ".", "").Replace(name))
	return cmp.Or(spoken[plain], plain) == strings.ToLower(strings.ReplaceAll(u.Name, " ", ""))
}

const absoluteZero = -273.15 // deg C

// Kind lists the units that a measure may be written in.
func (Length) Kind() *Kind      { return lengths }
func (Mass) Kind() *Kind        { return masses }
func (Volume) Kind() *Kind      { return volumes }
func (Area) Kind() *Kind        { return areas }
func (Duration) Kind() *Kind    { return durations }
func (Speed) Kind() *Kind       { return speeds }
func (Power) Kind() *Kind       { return powers }
func (Pressure) Kind() *Kind    { return pressures }
func (Force) Kind() *Kind       { return forces }
func (Temperature) Kind() *Kind { return temperatures }
func (Angle) Kind() *Kind       { return angles }
func (Share) Kind() *Kind       { return shares }
func (Stiffness) Kind() *Kind   { return stiffnesses }
func (Economy) Kind() *Kind     { return economies }
func (Wear) Kind() *Kind        { return wears }
func (Energy) Kind() *Kind      { return energies }
func (Viscosity) Kind() *Kind   { return viscosities }
func (Neutral) Kind() *Kind     { return neutrals }
func (Trace) Kind() *Kind       { return traces }
func (Number) Kind() *Kind      { return numbers }
func (Money) Kind() *Kind       { return moneys }
func (FuelPrice) Kind() *Kind   { return fuelPrices }
func (Mileage) Kind() *Kind     { return mileages }
func (Allowance) Kind() *Kind   { return allowances }

// Format prints an SI value in the unit to four digits, for messages about
// ranges; the zero Unit prints the plain number.
func (u Unit) Format(si float64) string {
	if u.scale == 0 {
		return fourDigits(si)
	}
	return fourDigits(u.Of(si)) + " " + u.Name
}

func fourDigits(x float64) string {
	rounded, _ := strconv.ParseFloat(strconv.FormatFloat(x, 'g', 4, 64), 64) // its own output parses
	return strconv.FormatFloat(rounded, 'f', -1, 64)
}
