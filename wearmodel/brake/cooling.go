package brake

import (
	"math"
)

// Cooling of a rotor. The film coefficient of a vented rotor lies 10-20 %
// above the ventilated disc of Int. J. Thermal Sci. 47 (2008), measured
// alone on a spindle, because a rotor on a car also meets the car's wind.
const (
	filmStill  = 5.0 // W/m2K at rest; engineering choice, the order of free convection
	filmVented = 2.4 // W/m2K per m/s of road speed; engineering choice
	filmSolid  = 1.7 // the same without vents; engineering choice

	emissivity = 0.8       // of oxidised cast iron; from memory of handbook tables
	boltzmann  = 5.6704e-8 // W/m2K4, Stefan-Boltzmann (CODATA, rounded)
	toHub      = 2.0       // W/K into the hat and hub; engineering choice

	heatCapacity = 535.0  // J/kgK of cast iron when hot; from memory, Limpert
	conduction   = 45.0   // W/mK of cast iron; from memory, Limpert
	density      = 7200.0 // kg/m3 of cast iron; from memory, Limpert

	zero = 273.15 // K at 0 deg C
)

// capacity is the heat that warms the rotor by one kelvin, J/K.
func (r Rotor) capacity() float64 { return r.RingMass * heatCapacity }

// film is the air's heat transfer coefficient (W/m2K) at a road speed (m/s).
func (r Rotor) film(v float64) float64 {
	if r.Vented {
		return filmStill + float64(filmVented*v)
	}
	return filmStill + float64(filmSolid*v)
}

// radiation is the radiative heat transfer coefficient (W/m2K) between a
// surface and surroundings (deg C). Stefan-Boltzmann law, a black room.
func radiation(temp, ambient float64) float64 {
	t, a := temp+zero, ambient+zero
	return emissivity * boltzmann * (float64(t*t) + float64(a*a)) * (t + a)
}

// conductance is the heat (W/K) the rotor loses per kelvin above ambient at a
// road speed (m/s) and temperature (deg C).
func (r Rotor) conductance(v, temp, ambient float64) float64 {
	return float64(r.Area*r.film(v)) + float64(r.RadiatingArea*radiation(temp, ambient)) + toHub
}

// steps are the most steps a fixed point takes; Newton's method, from above on
// a convex function, needs about six.
const steps = 50

// balance is the temperature (deg C) at which the rotor sheds a steady power
// (W): a (T-Ta) + e (T^4-Ta^4) = P, solved by Newton's method.
func (r Rotor) balance(power, v, ambient float64) float64 {
	a := float64(r.Area*r.film(v)) + toHub
	e := r.RadiatingArea * emissivity * boltzmann
	ta := ambient + zero
	t := ta + power/a
	for range steps {
		next := t - (float64(a*(t-ta))+float64(e*(float64(t*t*t*t)-float64(ta*ta*ta*ta)))-power)/(a+float64(4*e*t*t*t))
		if t-next < 1e-13*t {
			break
		}
		t = next
	}
	return t - zero
}

// park cools the rotor from a rise over ambient (K) for some seconds at rest
// and gives the rise left. The conductance is taken at the mean temperature of
// the rest.
func (r Rotor) park(rise, seconds, ambient float64) float64 {
	if seconds <= 0 || rise <= 0 {
		return rise
	}
	mean := rise
	left := rise
	for range steps {
		x := r.conductance(0, ambient+mean, ambient) * seconds / r.capacity()
		left = rise * math.Exp(-x)
		next := -rise * math.Expm1(-x) / x
		if math.Abs(next-mean) < 1e-6 {
			break
		}
		mean = next
	}
	return left
}
