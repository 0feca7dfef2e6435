package brake

import (
	"math"
	"testing"
)

// A ventilated disc turning alone, Int. J. Thermal Sci. 47 (2008). The model
// lies 20-10 % above it (the car's wind), as its comment says: the tolerance.
func TestVentedFilm(t *testing.T) {
	const radius = 0.316 // m, of the tire that turns the disc
	for _, row := range []struct{ rpm, film float64 }{{342, 27.0}, {684, 52.7}, {1025, 78.3}} {
		v := row.rpm * 2 * math.Pi / 60 * radius
		got := Rotor{Vented: true}.film(v)
		near(t, "film", got, row.film, 0.20)
		if got < row.film {
			t.Errorf("%.0f rpm: film %.1f below the bare disc's %.1f", row.rpm, got, row.film)
		}
	}
}

// Stefan-Boltzmann at emissivity 0.8 and 25 deg C, computed.
func TestRadiation(t *testing.T) {
	for _, row := range []struct{ temp, want float64 }{{200, 10.94}, {400, 23.88}, {600, 45.23}} {
		near(t, "radiation", radiation(row.temp, 25), row.want, 5e-4)
	}
}

// The steady temperature sheds exactly the power, by conservation.
func TestBalance(t *testing.T) {
	r := front().Rotor
	for _, power := range []float64{0, 10, 5e3, 1e5} {
		temp := r.balance(power, 28, 24)
		near(t, "power shed", r.conductance(28, temp, 24)*(temp-24), power, 1e-8)
	}
}

// Parked cooling against small steps of the same heat balance. The one-value
// conductance of the model is good to 15 % of the rise left after 20 min.
func TestPark(t *testing.T) {
	r := front().Rotor
	const step = 0.1
	rise := 500.0
	for range int(1200 / step) {
		rise -= step * rise * r.conductance(0, 24+rise, 24) / r.capacity()
	}
	near(t, "rise after 20 min", r.park(500, 1200, 24), rise, 0.15)
	near(t, "no rest", r.park(500, 0, 24), 500, 0)
}
