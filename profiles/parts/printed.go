package parts

import (
	"fmt"
	"math"
	"strings"

	"example.com/tripwear/profiles/decode"
	"example.com/tripwear/profiles/quantity"
)

// What is printed on a part stands for what its owner would have to measure:
// the size on a tire's sidewall, a rotor's diameter and thickness. What he gives
// beside it counts before it.

// owned are the sources of a part's values, to know the owner's by, and to put
// in those of what follows from them.
type owned decode.Sources

// follows puts a value in that its owner did not give.
func (o owned) follows(key string, put func(), from, tag, text string) {
	if o[key].Tag == decode.Owner {
		return
	}
	put()
	o[key] = decode.Source{Value: "by the " + from, Tag: tag, Text: text, Position: o[from].Position}
}

// Geometry of a tire by its size.
const (
	rolling    = 3.05 / (2 * math.Pi) // rolling radius over the diameter: ETRTO's rolling circumference is 3.05 diameters
	treadShare = 0.94                 // tread's width over the section's
	inch       = 25.4e-3              // m
)

func (t *TirePart) bySize(o owned) {
	var width, height, rim float64 // mm, % of it, in
	size := strings.NewReplacer("P", "", " Z", "", "Z", "", " R", "R").Replace(t.Size)
	if n, _ := fmt.Sscanf(size, "%f/%fR%f", &width, &height, &rim); n < 3 {
		return // it has none: its form is checked
	}
	diameter := float64(rim*inch) + float64(2*width/1000*height/100)
	o.follows("radius", func() { t.Radius = quantity.Length(rolling * diameter) },
		"size", "from memory", "a rolling circumference of 3.05 diameters, ETRTO")
	o.follows("tread_width", func() { t.TreadWidth = quantity.Length(treadShare * width / 1000) },
		"size", "from memory", "94 % of the section, as low tires have")
}

// Geometry of a rotor by its diameter: a pad leaves the inner 65 % of it free,
// vents take a third of the ring's iron, and what air and surroundings reach
// goes with the two rubbed faces. Engineering choices.
const (
	ringInner  = 0.65
	ventedIron = 0.68
	castIron   = 7200.0 // kg/m3; from memory

	ventedAir, solidAir   = 2.35, 1.57 // cooled area over both faces
	ventedGlow, solidGlow = 1.18, 1.29 // radiating area over both faces
)

func (r *RotorsPart) byDiameter(o owned) {
	if r.Diameter == 0 {
		return
	}
	outer, inner := float64(r.Diameter), float64(r.Inner)
	if inner == 0 {
		inner = ringInner * outer
	}
	face := math.Pi / 4 * (float64(outer*outer) - float64(inner*inner))
	iron, air, glow := 1.0, solidAir, solidGlow
	if r.Vented {
		iron, air, glow = ventedIron, ventedAir, ventedGlow
	}
	put := func(key string, put func()) {
		o.follows(key, put, "diameter", "engineering choice", "ours: a ring of cast iron of this diameter and thickness")
	}
	put("ring_mass", func() { r.RingMass = quantity.Mass(castIron * iron * face * float64(r.NewThickness)) })
	put("face_area", func() { r.FaceArea = quantity.Area(face) })
	put("area", func() { r.Area = quantity.Area(air * 2 * face) })
	put("radiating_area", func() { r.RadiatingArea = quantity.Area(glow * 2 * face) })
}

// ByPrint is the key by which an owner gives what his part lacks without
// measuring anything: the given one where there is none.
func (p *Part) ByPrint(lacks string) string {
	if p.Kind == Tire {
		return "size"
	}
	return lacks
}

// Lacking says how an owner gives what his part lacks.
func (p *Part) Lacking() string {
	if p.Kind == Tire {
		return "give its size as on the sidewall, such as size: 205/50R16"
	}
	return "give it here, since it differs from car to car"
}

// Printed puts in what follows from what is printed on the part.
func (p *Part) Printed() {
	if put := p.Kind.Info().print; put != nil {
		put(p, owned(p.Sources))
	}
}
