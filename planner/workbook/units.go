package workbook

import (
	"fmt"
	"slices"
	"strings"

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

// units are the measures of one workbook, with the units and digits that
// quantity prints.
type units struct {
	system                                                                quantity.System
	distance, tread, pad, thickness, fuel, oil, trunk, mass, heat, warmth unit
	share, chance, speed, ground                                          unit
}

// decimals are the formats by how many decimals they show.
var decimals = []string{asWhole, asTenth, asHundred}

func unitsOf(system quantity.System) units {
	in := func(shown quantity.Shown) unit {
		d := shown[system]
		return unit{d.Name, decimals[d.Decimals], d.Of}
	}
	u := units{
		system:   system,
		distance: in(quantity.Distance), fuel: in(quantity.Fuel), oil: in(quantity.OilFill), trunk: in(quantity.Boot), mass: in(quantity.Weight),
		speed: in(quantity.Velocity), ground: in(quantity.Ground), heat: in(quantity.Heat), warmth: in(quantity.Warmth),
		tread: in(quantity.Tread).orNone(), pad: in(quantity.Pad).orNone(), thickness: in(quantity.Thickness).orNone(),
		share: unit{"%", asShare, itself}.orNone(), chance: unit{"%", asChance, itself},
	}
	u.heat.name = "°" + u.heat.name
	u.warmth.name = u.heat.name
	if strings.HasPrefix(u.tread.name, "/") {
		u.tread.name = "1" + u.tread.name
	}
	return u
}

// orNone keeps a level at none or more: what is worn through has nothing left,
// however far past it the projection runs.
func (u unit) orNone() unit {
	of := u.of
	u.of = func(v float64) float64 { return max(0, of(v)) }
	return u
}

// in is a numeric cell in a unit.
func (u unit) in(l look, v float64) cell { return number(l, u.format, u.of(v)) }

// head is a column head with its unit.
func (u unit) head(name string) string { return name + ", " + u.name }

// called is the unit's name beside a figure.
func (u unit) called() string { return choose(u.format == asShare, "life", u.name) }

// digits is how many decimals a unit shows.
func (u unit) digits() int { return max(0, slices.Index(decimals, u.format)) }

// factor takes an SI measure to the unit, without holding it to none or more.
func (u unit) factor() float64 { return u.of(1) }

// percent says whether the unit's figures are shares.
func (u unit) percent() bool { return u.format == asShare || u.format == asChance }

// between is a live band between two levels, never below none.
func (u unit) between(l look, lo, hi expr.X) cell {
	band := `FIXED(MAX(0,a),c,TRUE)&"–"&FIXED(MAX(0,b),c,TRUE)`
	if u.percent() {
		band = `FIXED(100*MAX(0,a),c,TRUE)&"–"&FIXED(100*MAX(0,b),c,TRUE)`
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
