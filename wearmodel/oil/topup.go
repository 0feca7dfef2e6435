package oil

// circuitThirst is how much more oil an equivalent mile on circuit burns than
// a mile of road. Engineering choice.
const circuitThirst = 3.0

// TopUp is the oil (m3) to expect to add over meters of road and an equivalent
// circuit distance (m), where an owner sees rate (m3 per m of road) go.
func TopUp(rate, road, circuitEquivalent float64) float64 {
	return rate * (road + float64(circuitThirst*circuitEquivalent))
}
