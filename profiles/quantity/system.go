package quantity

import (
	"fmt"
	"math"

	"example.com/tripwear/profiles/nearest"
)

// System is the family of units that results are shown in.
type System int

// The two systems.
const (
	US System = iota
	Metric
)

// ParseSystem reads "us" or "metric".
func ParseSystem(s string) (System, error) {
	switch s {
	case "us":
		return US, nil
	case "metric":
		return Metric, nil
	}
	return US, &Error{fmt.Sprintf("unknown units %q", short(s)) + nearest.Meant(s, []string{"us", "metric"}), "us or metric"}
}

// String is the word that ParseSystem reads.
func (s System) String() string {
	if s == Metric {
		return "metric"
	}
	return "us"
}

// Distance is whole miles or kilometres.
func (s System) Distance(l Length) string {
	if s == Metric {
		return show(float64(l)/1000, 0, "km")
	}
	return show(float64(l)/mile, 0, "mi")
}

// Tread is a tread depth in tenths: "5.2/32 in" or "4.1 mm".
func (s System) Tread(l Length) string {
	if s == Metric {
		return show(float64(l)*1000, 1, "mm")
	}
	return plain(float64(l)/(inch/32), 1) + "/32 in"
}

// Pad is a pad thickness, in tenths of a millimetre in both systems.
func (s System) Pad(l Length) string { return show(float64(l)*1000, 1, "mm") }

// Thickness is a rotor thickness, in hundredths of a millimetre in both
// systems, as it is stamped on the rotor.
func (s System) Thickness(l Length) string { return show(float64(l)*1000, 2, "mm") }

// Temperature is whole degrees.
func (s System) Temperature(t Temperature) string {
	if s == Metric {
		return show(float64(t), 0, "C")
	}
	return show(float64(float64(t)*1.8)+32, 0, "F")
}

// Speed is whole miles or kilometres an hour.
func (s System) Speed(v Speed) string {
	if s == Metric {
		return show(float64(v)*3.6, 0, "km/h")
	}
	return show(float64(v)*3600/mile, 0, "mph")
}

// FuelVolume is tenths of a gallon or whole litres.
func (s System) FuelVolume(v Volume) string {
	if s == Metric {
		return show(float64(v)/litre, 0, "L")
	}
	return show(float64(v)/gallon, 1, "gal")
}

// OilVolume is tenths of a quart or of a litre.
func (s System) OilVolume(v Volume) string {
	if s == Metric {
		return show(float64(v)/litre, 1, "L")
	}
	return show(float64(v)/(gallon/4), 1, "qt")
}

// Mass is whole pounds or kilograms.
func (s System) Mass(m Mass) string {
	if s == Metric {
		return show(float64(m), 0, "kg")
	}
	return show(float64(m)/pound, 0, "lb")
}

// BootVolume is whole litres in both systems.
func (s System) BootVolume(v Volume) string { return show(float64(v)/litre, 0, "L") }

// Lap is a lap time in tenths of a second, "1:51.2".
func (s System) Lap(d Duration) string {
	tenths := math.Round(float64(d) * 10)
	minutes := math.Floor(tenths / 600)
	return fmt.Sprintf("%.0f:%04.1f", minutes, (tenths-float64(600*minutes))/10)
}

// Hours is tenths of an hour.
func (s System) Hours(d Duration) string { return show(float64(d)/3600, 1, "h") }

// Percent is a whole percentage.
func (s System) Percent(p Share) string { return show(float64(p)*100, 0, "%") }

func show(x float64, decimals int, unit string) string { return plain(x, decimals) + " " + unit }

// plain prints a number with its decimals, and never a negative zero.
func plain(x float64, decimals int) string {
	scale := math.Pow(10, float64(decimals))
	if math.Round(x*scale) == 0 {
		x = 0
	}
	return fmt.Sprintf("%.*f", decimals, x)
}

// TemperatureUnit is the unit of Temperature and Degrees.
func (s System) TemperatureUnit() string {
	if s == Metric {
		return "C"
	}
	return "F"
}

// Degrees is a temperature in the system's degrees, rounded to a multiple of a step.
func (s System) Degrees(t Temperature, step float64) float64 {
	v := float64(t)
	if s == US {
		v = float64(v*1.8) + 32
	}
	return math.Round(v/step) * step
}
