package bearing

import (
	"math"
)

// induced is the axial load that a radial one makes in a row at a contact
// angle of 40 degrees, as a share of it. ISO 281, makers' handbooks.
const induced = 1.14

// Rows gives the equivalent loads (N) of the hub's outer and inner row from
// the wheel's load (N, before LoadFactor), the road's side force on the tire
// towards the car's center (N, + on an outside wheel) and the rolling radius
// (m). Statics of a back-to-back pair; the load factor stands for a rough
// road's impacts (1.2, engineering choice).
func (h Hub) Rows(load, inward, radius float64) (outer, inner float64) {
	vertical := h.LoadFactor * load
	moment := float64(h.Offset*vertical) - float64(radius*inward)
	radialOuter := math.Abs(float64(vertical/2) + float64(moment/h.Spread))
	radialInner := math.Abs(float64(vertical/2) - float64(moment/h.Spread))
	sideOuter, sideInner := float64(induced*radialOuter), float64(induced*radialInner)

	axialOuter := max(sideOuter, sideInner+inward)
	axialInner := max(sideInner, sideOuter-inward)
	return SingleRow40.Equivalent(radialOuter, axialOuter),
		SingleRow40.Equivalent(radialInner, axialInner)
}
