package workbook

import (
	"fmt"
	"slices"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/workbook/expr"
	"example.com/tripwear/profiles/quantity"
)

// unit is how a measure is shown: its name in the header, the digits it
// deserves, and the figure from SI.
type unit struct {
	name   string
	format string
	of     func(float64) float64
}

// units are the measures of one workbook, with the same units and digits as
// quantity prints.
type units struct {
	system                                                               quantity.System
	distance, tread, pad, thickness, fuel, oil, boot, mass, heat, warmth unit
	share, chance, speed                                                 unit
}

// from is the unit that profiles know by a name.
func from(kind *quantity.Kind, name string) func(float64) float64 {
	at := slices.IndexFunc(kind.Units, func(u quantity.Unit) bool { return u.Name == name })
	return kind.Units[at].Of
}

func unitsOf(system quantity.System) units {
	length, volume := quantity.Length(0).Kind(), quantity.Volume(0).Kind()
	mass, temperature := quantity.Mass(0).Kind(), quantity.Temperature(0).Kind()
	u := units{
		system:    system,
		distance:  unit{"km", asWhole, from(length, "km")},
		tread:     unit{"mm", asTenth, orNone(from(length, "mm"))},
		pad:       unit{"mm", asTenth, orNone(from(length, "mm"))},
		thickness: unit{"mm", asHundred, orNone(from(length, "mm"))},
		fuel:      unit{"L", asWhole, from(volume, "L")},
		oil:       unit{"L", asTenth, from(volume, "L")},
		boot:      unit{"L", asWhole, from(volume, "L")},
		mass:      unit{"kg", asWhole, from(mass, "kg")},
		heat:      unit{"°C", asWhole, from(temperature, "C")},
		warmth:    unit{"°C", asWhole, itself}, // a difference
		share:     unit{"%", asShare, orNone(itself)},
		chance:    unit{"%", asChance, itself},
		speed:     unit{"km/h", asWhole, from(quantity.Speed(0).Kind(), "km/h")},
	}
	if system == quantity.US {
		inch, fahrenheit := from(length, "in"), from(temperature, "F")
		u.distance = unit{"mi", asWhole, from(length, "mi")}
		u.speed = unit{"mph", asWhole, from(quantity.Speed(0).Kind(), "mph")}
		u.tread = unit{"1/32 in", asTenth, orNone(func(v float64) float64 { return 32 * inch(v) })}
		u.fuel = unit{"gal", asTenth, from(volume, "gal")}
		u.oil = unit{"qt", asTenth, from(volume, "qt")}
		u.mass = unit{"lb", asWhole, from(mass, "lb")}
		u.heat = unit{"°F", asWhole, fahrenheit}
		u.warmth = unit{"°F", asWhole, func(k float64) float64 { return fahrenheit(k) - fahrenheit(0) }}
	}
	return u
}

// orNone keeps a level at none or more: what is worn through has nothing left,
// however far past it the projection runs.
func orNone(of func(float64) float64) func(float64) float64 {
	return func(v float64) float64 { return max(0, of(v)) }
}

// in is a numeric cell in a unit.
func (u unit) in(l look, v float64) cell { return number(l, u.format, u.of(v)) }

// head is a column head with its unit.
func (u unit) head(name string) string { return name + ", " + u.name }

// called is the unit's name beside a figure.
func (u unit) called() string { return choose(u.format == asShare, "life", u.name) }

// digits is how many decimals a unit shows.
func (u unit) digits() int {
	switch u.format {
	case asTenth:
		return 1
	case asHundred:
		return 2
	}
	return 0
}

// factor takes an SI measure to the unit, without holding it to none or more.
func (u unit) factor() float64 { return u.of(1) }

// percent says whether the unit's figures are shares.
func (u unit) percent() bool { return u.format == asShare || u.format == asChance }

// between is a live band between two levels, never below none.
func (u unit) between(l look, lo, hi expr.X) cell {
	band := `FIXED(MAX(0,a),c,TRUE)&" – "&FIXED(MAX(0,b),c,TRUE)`
	if u.percent() {
		band = `FIXED(100*MAX(0,a),c,TRUE)&" – "&FIXED(100*MAX(0,b),c,TRUE)`
	}
	l.across = "center"
	return live(l, "", expr.F(band, lo, hi, expr.Num(u.digits())))
}

// band prints a 5-95 % band of the draws.
func (u unit) band(b plan.Band) string {
	lo, hi := u.of(b.P5), u.of(b.P95)
	if !finite(lo) || !finite(hi) {
		return "–"
	}
	scale := choose(u.percent(), 100.0, 1)
	return fmt.Sprintf("%.*f – %.*f", u.digits(), lo*scale, u.digits(), hi*scale)
}

// itself is a measure that is shown as it is.
func itself(v float64) float64 { return v }
