package parts

import (
	"math"
	"testing"

	"example.com/tripwear/profiles/decode"
	"example.com/tripwear/profiles/quantity"
)

// Sizes and what tire makers' tables print of them: revolutions per mile, from
// memory, within 2 %; the tread is some 10-20 mm narrower than the section.
func TestTireBySize(t *testing.T) {
	for size, revs := range map[string]float64{
		"205/50R16": 860, "P205/50 ZR 16 87W": 860, "225/45R17": 834, "245/40R18": 816, "195/65R15": 828,
	} {
		p := TirePart{Size: size}
		p.bySize(owned{})
		if got := 1609.344 / (2 * math.Pi * float64(p.Radius)); math.Abs(got/revs-1) > 0.02 {
			t.Errorf("%s: %.0f revolutions a mile, tables %.0f", size, got, revs)
		}
	}
	p := TirePart{Size: "205/50R16", Radius: 0.3}
	p.bySize(owned{"radius": {Tag: decode.Owner}})
	if p.Radius != 0.3 || p.TreadWidth < 0.185 || p.TreadWidth > 0.195 {
		t.Errorf("the owner's own radius: %+v", p)
	}
}

// Rings of rotors by their diameter and thickness, from memory of scales and
// data sheets, within a sixth: what is given is not worked out.
func TestRotorByDiameter(t *testing.T) {
	for _, row := range []struct {
		diameter, thickness quantity.Length
		vented              bool
		ring                float64 // kg
	}{{0.286, 0.022, true, 4.3}, {0.355, 0.032, true, 8.5}, {0.276, 0.010, false, 2.6}} {
		r := RotorsPart{Diameter: row.diameter, NewThickness: row.thickness, Vented: row.vented, Area: 1}
		r.byDiameter(owned{"area": {Tag: decode.Owner}})
		if math.Abs(float64(r.RingMass)/row.ring-1) > 1.0/6 || r.Area != 1 {
			t.Errorf("%v: ring of %.1f kg, want %.1f", row, r.RingMass, row.ring)
		}
		if half := float64(row.diameter) / 2; float64(r.FaceArea) > math.Pi*half*half || r.RadiatingArea < 2*r.FaceArea {
			t.Errorf("%v: %+v", row, r)
		}
	}
}
