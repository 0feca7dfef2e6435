package plan

// Varied is the trip with one thing changed at a time, nominal, as the model has
// it: what a reader needs to follow an owner who asks what if.
type Varied struct {
	Pace        Steps    // share of grip on every circuit, from leg to leg beside its own
	Camber, Toe Steps    // rad, of every wheel beside its own
	Set         [4]Wheel // as the wheels are set
	Right, Left *Variant // every corner to one side; wear lies between them as the left share does
}

// Steps are runs at values that lie evenly about the plan's.
type Steps struct {
	Apart float64   // from one run to the next
	Below int       // how many lie below the plan's
	Runs  []Variant // none where nothing is known
}

// Variant is the trip with something changed: its legs, and every set's points in
// the plan's order with what each leg takes from them.
type Variant struct {
	Legs   []Leg
	Points [][]Point
}

// Wheel is how a wheel is set, rad.
type Wheel struct {
	Place       string
	Camber, Toe float64
}
