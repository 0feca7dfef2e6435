package kind

import (
	"strings"
	"testing"

	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
)

// A strong or heavy car has larger rotors than a mid-size one, unless their size
// is given; while it is assumed a refusal says what would settle it.
func TestAssumedSize(t *testing.T) {
	stock := profiles.Part{Rotors: &profiles.RotorsPart{RingMass: 7, Area: 0.2, FaceArea: 0.04, RadiatingArea: 0.1}}
	printed := profiles.Part{Rotors: &profiles.RotorsPart{RingMass: 7, Diameter: 0.33}}
	weighed := profiles.Part{Rotors: &profiles.RotorsPart{RingMass: 7}, Sources: profiles.Sources{"ring_mass": {Tag: "owner"}}}
	for _, c := range []struct {
		what        string
		part        profiles.Part
		mass, power float64
		least, most float64 // kg
		settles     bool
	}{
		{"a mid-size car", stock, 1300, 150e3, 7, 7, true},
		{"400 hp", stock, 1400, 298e3, 8.5, 9.5, true},
		{"two tonnes", stock, 2000, 150e3, 10, 10, true},
		{"its diameter is given", printed, 2000, 298e3, 7, 7, false},
		{"its ring is weighed", weighed, 2000, 298e3, 7, 7, false},
	} {
		var f profiles.Folder
		f.Car.Mass, f.Car.Power = quantity.Mass(c.mass), quantity.Power(c.power)
		part := c.part
		part.Kind = profiles.Rotors
		f.Parts = map[string]profiles.Part{"r": part}
		f.Car.Fitted = []profiles.Fitted{{Part: "r", At: []string{"LF", "RF"}}}
		if got := sized(f.Car, c.part).RingMass; got < c.least-1e-9 || got > c.most+1e-9 {
			t.Errorf("%s: %.2f kg", c.what, got)
		}
		if said := onSize(At{Folder: &f}, "LF"); strings.Contains(said, "front rotors") != c.settles {
			t.Errorf("%s: %q", c.what, said)
		}
	}
}
