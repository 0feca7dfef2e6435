package workbook

import (
	"example.com/tripwear/planner"
	"example.com/tripwear/profiles/quantity"
)

// unit is how a measure is shown: its name in the header, the digits it
// deserves, and the figure from SI.
type unit struct {
	name   string
	format string
	of     func(float64) float64
}

// times is the conversion by a factor: one of the unit is so many SI units.
func times(one float64) func(float64) float64 { return func(v float64) float64 { return v / one } }

// Exact by definition: international yard and pound of 1959, US gallon of 231 cubic inches.
const (
	metre    = 1.0
	inch     = 0.0254
	mile     = 1609.344
	pound    = 0.45359237
	gallon   = 231 * inch * inch * inch
	quart    = gallon / 4
	litre    = 1e-3
	thousand = 1e3
)

// units are the measures of one workbook.
type units struct {
	distance, tread, pad, thickness, fuel, oil, boot, mass, heat, warmth unit
	share, chance                                                        unit
}

func unitsOf(system quantity.System) units {
	mm := times(metre / thousand)
	same := times(1)
	u := units{
		distance:  unit{"km", asWhole, times(thousand)},
		tread:     unit{"mm", asTenth, mm},
		pad:       unit{"mm", asTenth, mm},
		thickness: unit{"mm", asHundred, mm},
		fuel:      unit{"L", asWhole, times(litre)},
		oil:       unit{"L", asTenth, times(litre)},
		boot:      unit{"L", asWhole, times(litre)},
		mass:      unit{"kg", asWhole, same},
		heat:      unit{"°C", asWhole, same},
		warmth:    unit{"°C", asWhole, same}, // a difference
		share:     unit{"%", asShare, same},
		chance:    unit{"%", asChance, same},
	}
	if system == quantity.US {
		u.distance = unit{"mi", asWhole, times(mile)}
		u.tread = unit{"1/32 in", asTenth, times(inch / 32)}
		u.fuel = unit{"gal", asTenth, times(gallon)}
		u.oil = unit{"qt", asTenth, times(quart)}
		u.mass = unit{"lb", asWhole, times(pound)}
		u.heat = unit{"°F", asWhole, func(c float64) float64 { return c*9/5 + 32 }}
		u.warmth = unit{"°F", asWhole, func(k float64) float64 { return k * 9 / 5 }}
	}
	return u
}

// level is the unit of a point's level.
func (u units) level(m planner.Measure) unit {
	switch m {
	case planner.Tread:
		return u.tread
	case planner.PadLining:
		return u.pad
	case planner.Thickness:
		return u.thickness
	case planner.OilLife:
		return u.distance
	case planner.BoilMargin:
		return u.warmth
	case planner.HubLife:
		return unit{"L10 lives", asHundred, times(1)}
	default:
		return u.share
	}
}

// in is a numeric cell in a unit.
func (u unit) in(l look, v float64) cell { return number(l, u.format, u.of(v)) }

// head is a column head with its unit.
func (u unit) head(name string) string { return name + ", " + u.name }
