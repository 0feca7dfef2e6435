package kind

// When a check is made, beside the stops with work.
const (
	Before  = "before leaving"
	Fuel    = "at each fuel stop"
	Session = "before each session"
	Night   = "after each circuit day"
	Home    = "back home"
)

// Who says of which sets a check is made.
type Who int

// The sets of a check.
const (
	Every     Who = iota
	Watched       // whose decision counts on checks on the way
	Unwatched     // the others
	Weakest       // of the kind's, the one likeliest to fail
)

// Check is an inspection that the checklist orders.
type Check struct {
	When  string
	Who   Who
	Reads Measure // what a gauge reads, with what to expect; "" where nothing is read
	Looks Measure // the measure whose worst point is named, where nothing is read
	Say   func(Looked) string
}

// Looked is what a check's sentence is made of.
type Looked struct {
	Set, Place, Zone string
	Life             string // expected back home
	Fail             string // chance to fail on the trip
	Why              string // why this one
	Spare            string // what to do with a spare that is along; "" without one
}
