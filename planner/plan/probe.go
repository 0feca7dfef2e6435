package plan

// Wearing is how the measured depths of a wheel's zones compare.
type Wearing string

// The comparisons.
const (
	NotMeasured Wearing = "not measured"
	Evenly      Wearing = "even"
	InsideLow   Wearing = "lowest inside"
	MiddleLow   Wearing = "lowest in the middle"
	OutsideLow  Wearing = "lowest outside"
)

// Probing is what a wheel's tread temperatures say, checked against its
// measured wear.
type Probing struct {
	Place    string     `json:"place"`
	Heat     [3]float64 `json:"heat"`    // C: inside, middle, outside
	Spread   float64    `json:"spread"`  // K
	Concern  string     `json:"concern"` // fine, watch or act
	Wear     Wearing    `json:"wear"`
	Pressure float64    `json:"pressure"`  // Pa to change the pressure by before the next reading; 0 to leave it
	Camber   float64    `json:"camber"`    // rad to change the camber by, negative for more negative; 0 to leave it
	Why      string     `json:"why"`       // what the advice, or its absence, rests on
	Loss     [3]float64 `json:"loss"`      // m: what the trip takes by zone as the car is set
	Would    [3]float64 `json:"would"`     // the same with the camber changed; zero where it is left
	Trips    float64    `json:"trips"`     // such trips that the tread lasts, to the limit at the first zone
	TripsNew float64    `json:"trips_new"` // the same with the camber changed
}
