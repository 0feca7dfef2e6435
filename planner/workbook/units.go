package workbook

import (
	"slices"

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
	same := func(v float64) float64 { return v }
	u := units{
		system:    system,
		distance:  unit{"km", asWhole, from(length, "km")},
		tread:     unit{"mm", asTenth, worn(from(length, "mm"))},
		pad:       unit{"mm", asTenth, worn(from(length, "mm"))},
		thickness: unit{"mm", asHundred, worn(from(length, "mm"))},
		fuel:      unit{"L", asWhole, from(volume, "L")},
		oil:       unit{"L", asTenth, from(volume, "L")},
		boot:      unit{"L", asWhole, from(volume, "L")},
		mass:      unit{"kg", asWhole, from(mass, "kg")},
		heat:      unit{"°C", asWhole, from(temperature, "C")},
		warmth:    unit{"°C", asWhole, same}, // a difference
		share:     unit{"%", asShare, worn(same)},
		chance:    unit{"%", asChance, same},
		speed:     unit{"km/h", asWhole, from(quantity.Speed(0).Kind(), "km/h")},
	}
	if system == quantity.US {
		inch, fahrenheit := from(length, "in"), from(temperature, "F")
		u.distance = unit{"mi", asWhole, from(length, "mi")}
		u.speed = unit{"mph", asWhole, from(quantity.Speed(0).Kind(), "mph")}
		u.tread = unit{"1/32 in", asTenth, worn(func(v float64) float64 { return 32 * inch(v) })}
		u.fuel = unit{"gal", asTenth, from(volume, "gal")}
		u.oil = unit{"qt", asTenth, from(volume, "qt")}
		u.mass = unit{"lb", asWhole, from(mass, "lb")}
		u.heat = unit{"°F", asWhole, fahrenheit}
		u.warmth = unit{"°F", asWhole, func(k float64) float64 { return fahrenheit(k) - fahrenheit(0) }}
	}
	return u
}

// worn keeps a level at none or more: what is worn through has nothing left,
// however far past it the projection runs.
func worn(of func(float64) float64) func(float64) float64 {
	return func(v float64) float64 { return max(0, of(v)) }
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
		return unit{"L10 lives", asHundred, func(v float64) float64 { return v }}
	default:
		return u.share
	}
}

// in is a numeric cell in a unit.
func (u unit) in(l look, v float64) cell { return number(l, u.format, u.of(v)) }

// head is a column head with its unit.
func (u unit) head(name string) string { return name + ", " + u.name }
