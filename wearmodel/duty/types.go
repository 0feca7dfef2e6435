package duty

// G is standard gravity, m/s2 (ISO 80000-3).
const G = 9.80665

// Place is one corner of the car.
type Place int

// The four places, in the order in which one walks round the car's listing.
const (
	LF Place = iota
	RF
	LR
	RR
)

// Places lists all four.
var Places = [4]Place{LF, RF, LR, RR}

// String returns LF, RF, LR or RR.
func (p Place) String() string { return [...]string{"LF", "RF", "LR", "RR"}[p] }

// Left says whether the place is on the left-hand side.
func (p Place) Left() bool { return p == LF || p == LR }

// Front says whether the place is on the front axle.
func (p Place) Front() bool { return p == LF || p == RF }

// Mirror is the place across the car on the same axle.
func (p Place) Mirror() Place { return p ^ 1 }

// Drive says which wheels drive.
type Drive int

// The driven axles.
const (
	RearDrive Drive = iota
	FrontDrive
	AllDrive
)

// Vehicle is the car as the mechanics see it.
type Vehicle struct {
	Mass       float64 // kg, as driven
	FrontShare float64 // static share of weight on the front axle, 0-1
	Wheelbase  float64 // m
	TrackFront float64 // m
	TrackRear  float64 // m
	CGHeight   float64 // m
	Drive      Drive
	Power      float64 // W at the crank
	DragArea   float64 // m2, CdA
	RollFront  float64 // share of lateral load transfer taken by the front axle
	Friction   float64 // peak tire friction coefficient

	Rolling    float64 // rolling resistance coefficient, 0.013
	AirDensity float64 // kg/m3, 1.20
	Driveline  float64 // share of crank power that reaches the road, 0.87
	Rotating   float64 // mass factor for rotating parts, 1.04
}

// State is a stretch of time during which the car does one thing.
type State struct {
	Seconds float64 // s per unit of the duty (a lap or a kilometer)
	V       float64 // m/s
	Ax      float64 // m/s2, + speeding up
	Ay      float64 // m/s2, + in a left turn
}

// Braking is one heavy use of the brakes on a lap.
type Braking struct {
	From, To float64 // m/s
	Decel    float64 // m/s2, positive
	Start    float64 // s from the start of the lap
	Factor   float64 // multiplies the event's energy; less than 1 where it is hardly a heavy one, otherwise fitted to a summary
}

// Duty is what one lap of a circuit, or one kilometer of road, asks of the car.
type Duty struct {
	States   []State
	Brakings []Braking // circuits only, in order of Start
	Seconds  float64   // s per unit
	Meters   float64   // m per unit

	DriveEnergy float64 // J per unit at the driven wheels
	BrakeEnergy float64 // J per unit into the friction brakes; for a road the only brake figure there is
	TopSpeed    float64 // m/s
	MinSpeed    float64 // m/s
	Pace        float64 // share of grip used; 0 on the road
}

// Segment is one piece of a circuit: a straight, a turn, or a straight followed by a turn.
type Segment struct {
	Straight float64 `json:"straight"` // m, 0 if none
	Turn     float64 `json:"turn"`     // rad, + left, 0 if none
	Radius   float64 `json:"radius"`   // m, > 0 where Turn is not 0
}

// Wheel is what one wheel carries in one state.
type Wheel struct {
	Fz float64 // N, load, never negative
	Fx float64 // N, + drives, - brakes
	Fy float64 // N, signed like ay: + pushes the car to the left
}
