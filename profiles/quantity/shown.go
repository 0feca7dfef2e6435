package quantity

import (
	"fmt"
	"math"
	"strings"
)

// Display is how results show a measure: its unit, whose name stands after a
// number, and the decimals it deserves.
type Display struct {
	Unit
	Decimals int
	Words    string // the unit in a heading
}

// Shown is a measure's display in each system: Tread[Metric].Text(0.0041).
type Shown [2]Display

// What results show, from SI values. What has one display is stamped or sold
// so in both systems.
var (
	Distance  = shown(in("mi", mile, 0), in("km", 1000, 0))
	Hundreds  = shown(in("hundred miles", 100*mile, 0), in("hundred km", 100e3, 0))
	LapLength = shown(in("mi", mile, 2), in("km", 1000, 2))
	Ground    = shown(in("ft", foot, 0), in("m", 1, 0))                // along a lap, and radii
	FixSpread = shown(in("ft", foot, 0), in("m", 1, 1))                // of a recording about its line
	Drift     = shown(in("ft/mi", foot/mile, 0), in("m/km", 0.001, 0)) // sideways, of the way driven
	Velocity  = shown(in("mph", mile/3600, 0), in("km/h", 1/3.6, 0))
	Tread     = shown(thirtySeconds(1), in("mm", 0.001, 1))
	TreadRule = shown(thirtySeconds(0), in("mm", 0.001, 1)) // a depth that a rule names
	Pad       = both(in("mm", 0.001, 1))
	Thickness = both(in("mm", 0.001, 2)) // of a rotor
	Water     = shown(in("in", inch, 2), in("mm", 0.001, 1))
	Fuel      = shown(in("gal", gallon, 1), in("L", liter, 0))
	OilFill   = shown(in("qt", gallon/4, 1), in("L", liter, 1))
	Boot      = shown(in("cu ft", foot*foot*foot, 2), in("L", liter, 0))
	Weight    = shown(in("lb", pound, 0), in("kg", 1, 0))
	WheelLoad = shown(in("lb", poundForce, 0), in("kg", gravity, 0)) // as a scale shows a force
	Heat      = shown(Display{Unit{Name: "F", scale: fahrenheit, zero: freezing}, 0, "F"}, in("C", 1, 0))
	Warmth    = shown(in("F", fahrenheit, 0), in("K", 1, 0)) // a difference
	Inflation = shown(in("psi", psi, 0), in("bar", 1e5, 2))
	TurnAngle = both(in("deg", degree, 0))
	Camber    = both(in("deg", degree, 1))
	Slowing   = both(in("g", gravity, 2))
	BrakeHeat = both(in("kJ", 1000, 0))
	Percent   = both(in("%", 0.01, 0))
)

func shown(us, metric Display) Shown { return Shown{US: us, Metric: metric} }

func both(d Display) Shown { return shown(d, d) }

func in(name string, scale float64, decimals int) Display {
	return Display{Unit{Name: name, scale: scale}, decimals, name}
}

func thirtySeconds(decimals int) Display {
	return Display{Unit{Name: "/32 in", scale: inch / 32}, decimals, "32nds of an inch"}
}

// Number is a value's number alone, and never a negative zero.
func (d Display) Number(si float64) string {
	x := d.Of(si)
	if math.Round(x*math.Pow(10, float64(d.Decimals))) == 0 {
		x = 0
	}
	return fmt.Sprintf("%.*f", d.Decimals, x)
}

// Up is a value that must be there at least, rounded up, with its unit; a hair
// above a shown figure, as arithmetic leaves it, is that figure.
func (d Display) Up(si float64) string {
	step := math.Pow(10, float64(d.Decimals))
	return d.after(fmt.Sprintf("%.*f", d.Decimals, math.Ceil(float64(d.Of(si)*step)-1e-6)/step))
}

// Down is what is left of something, to a number of decimals, rounded down.
func Down(x float64, decimals int) string {
	step := math.Pow(10, float64(decimals))
	return fmt.Sprintf("%.*f", decimals, math.Floor(float64(x*step)+1e-6)/step)
}

// Text is a value with its unit.
func (d Display) Text(si float64) string { return d.after(d.Number(si)) }

// Both is a value with its unit in either system, for what is written down
// before it is known who reads it: 2/32 in (1.6 mm).
func (s Shown) Both(si float64) string { return inBoth(s[US].Text(si), s[Metric].Text(si)) }

// BothUp is Both of what something needs, rounded up.
func (s Shown) BothUp(si float64) string { return inBoth(s[US].Up(si), s[Metric].Up(si)) }

// BothUnder is Both of what is under a limit; a hair under it, it is rounded down.
func (s Shown) BothUnder(si, limit float64) string {
	if si < limit && s.Both(si) == s.Both(limit) {
		return inBoth(s[US].down(si), s[Metric].down(si))
	}
	return s.Both(si)
}

func (d Display) down(si float64) string { return d.after(Down(d.Of(si), d.Decimals)) }

func inBoth(us, metric string) string {
	if us == metric {
		return us
	}
	return us + " (" + metric + ")"
}

// Range is two values with one unit.
func (d Display) Range(low, high float64) string { return d.Number(low) + "-" + d.Text(high) }

// Change is a value with its sign, and its unit.
func (d Display) Change(si float64) string {
	return d.after(fmt.Sprintf("%+.*f", d.Decimals, d.Of(si)))
}

// Figures is a value to n significant figures, with its unit.
func (d Display) Figures(si float64, n int) string { return d.after(fmt.Sprintf("%.*g", n, d.Of(si))) }

// Nearest is a value's number to the nearest multiple of a step.
func (d Display) Nearest(si, step float64) string {
	return fmt.Sprintf("%.0f", math.Round(d.Of(si)/step)*step)
}

func (d Display) after(number string) string {
	if strings.HasPrefix(d.Name, "/") {
		return number + d.Name
	}
	return number + " " + d.Name
}

// Lap is a lap time in tenths of a second, "1:51.2".
func Lap(seconds float64) string {
	tenths := math.Round(seconds * 10)
	minutes := math.Floor(tenths / 600)
	return fmt.Sprintf("%.0f:%04.1f", minutes, (tenths-float64(600*minutes))/10)
}
