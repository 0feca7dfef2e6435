// Package kind is the home of the kinds of part: one value a kind, one file
// each, one table of them all. What a kind wears by, what an eye or hand may
// find on it and what that forbids, how it is read, checked, bought and
// fitted stands here; everything else loops over the table.
package kind

import (
	"time"

	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/quantity"
)

// Kind is all that tripwear knows of a kind of part.
type Kind struct {
	ID     profiles.Kind
	Called string // further words that ask for its sets, such as brakes
	Sheet  string // of the workbook; kinds may share one
	Table  string // of the report, where kinds share one, a row a set; "" for one of its own
	Spread string // the model's key for the spread of its rates on circuit; "" where none is assumed

	Critical  bool // past its limit it can hurt someone: the safety cap applies
	Lifetime  bool // it ends by a failure drawn from its life, not by reaching a level
	Apart     bool // every leg has a level of its own, nothing adds up
	Counted   bool // its life is counted: no look tells it
	WheelsOff bool // wheels come off to fit it
	Beds      bool // new ones are bedded in on the road, and cool, before they are worked hard; common practice, no source

	// What swapping a used set takes, where that is less than to fit it new: tires
	// are on wheels of their own. Engineering choice.
	SwapTime  float64 // s
	SwapTools []string

	// LaborWith is the kind on the same axle whose larger job includes this
	// one's, or the other way round; "" where none does.
	LaborWith profiles.Kind

	Rates    []string      // keys of a part that say how fast it wears: an owner's own there is not its class's
	Measures []MeasureInfo // of its points; the set's life is told by the first
	Spreads  func(At) Spreads
	Own      func(profiles.Part) Own                   // what a part says of itself; nil where its kind says it all
	Caught   func(profiles.Caught, Way) quantity.Share // share of crossings that a check which could show them catches; nil where none does
	Points   func(At) []Point
	Hangs    func(At) string // what would settle a refusal that hangs on what is assumed; nil where nothing would
	Unread   func(At) string // how the start of a set that was never read is known

	Beside   func(At) []Beside                                // what else ends its life, beside its points; nil where nothing
	Heated   func(profiles.Part) (most float64, counted bool) // whether its heat cycles are counted, and how many it is given, 0 where nobody says; nil where not
	Findings []Findings                                       // what an eye or hand may find on it
	State    func(At) []Verdict                               // what else its state is known by, such as its age; nil where nothing
	Asks     []Ask                                            // numbers that the form asks of the set beside its measures

	Road    func(RoadAsk, *Wear)    // nil where another kind's does it, or nothing but use counts
	Circuit func(CircuitAsk, *Wear) // the same

	Replaced bool // what became of those that came off teaches how long they last

	Buy   func(profiles.Part) Purchase
	Guess Guess // of a new set whose owner does not know

	Lasts  func(profiles.Part) float64 // grows with how long a part lasts or how much it takes, to order parts by
	Spare  string                      // what a spare set is called in "pack a ..."
	Gauges []Gauge
	Checks []Check
	AtStop string // what follows fitting it at a stop; "" where nothing does
	Order  bool   // a new one is ordered for the next trip when little is left

	Early    string  // what the margin is called of one whose end is not dangerous
	Late     string  // and its limit
	Overdue  float64 // how many sets driving past the owner's margin is worth to him
	Look     string  // what is looked at on the way, in a few words; "" where nothing is
	Watching string  // what watching it means in a word; "" for looking before each session
	AtHome   string  // what is done back home with one past its margin; "" where it is only looked at
	Advice   string  // what an owner measures to do without the kind's defaults
}

// Own is what a part says where its kind does not.
type Own struct {
	Name     string // of its set; "" for the one that its kind gives
	Critical bool
	Stranded float64 // what its failure costs at least
}

// Spreads of a kind's rates, one standard deviation of the logarithm.
type Spreads struct {
	Road, Circuit float64
	Summary       float64 // what a circuit known by its summary alone adds in quadrature
	Assumed       float64 // of both, or of one: what comes of the car's keys that are not its own
}

// At is a part at a place, and when it is asked about.
type At struct {
	Folder  *profiles.Folder
	Part    profiles.Part
	Entry   *profiles.Fitted // what put it there and was read of it since
	Place   string
	End     time.Time // of the trip; zero where it has no date
	Parked  bool      // no trip is walked: End is today
	Circuit bool      // the trip goes to one
	Wet     bool      // a circuit of it is wet, or most of a road leg

	Cycles func() float64 // how often it has been heated on circuits by the end of the trip; nil where no journey says
}

// Point is one thing measured on a part: a tread zone, a pad, a hub.
type Point struct {
	Zone               string // inside, middle, outside; "" where there is only one
	Measure            Measure
	New, Limit, Margin float64
	Gauge              float64 // one standard deviation of a reading; 0 where none is assumed

	What  logbook.What         // of the rows that read it; "" where none does
	Read  *float64             // its level as read; nil where it was not
	Used  *float64             // the share of its life used, as given; nil where it is not
	Bound string               // what its limit is called after "past"; "" for its measure's end
	Said  string               // how its level is known where it was read or given; "" where it never is
	Also  bool                 // beside the place's first point, which the set's life is told by
	Of    func(*Wear) float64  // what a leg takes from it
	Cap   func(Moment) float64 // the most that time, or the leg itself, allows; nil where it does not
}

// Beside ends a part's life whatever its points say.
type Beside struct {
	By   string                                 // what counts
	Used func(m Moment, cycles float64) float64 // share of its life; NaN where nobody knows
}

// Sessions is what a leg adds to heat cycles.
func Sessions(w *Wear) float64 { return w.Sessions }

// Moment is the end of a leg, for what ages.
type Moment struct {
	Age     float64   // days since the part was fitted
	Away    float64   // days since departure
	Ambient float64   // C
	Day     time.Time // zero where the trip has no date
	Circuit bool      // the leg is one
}

// Purchase is what one buys of a part.
type Purchase struct {
	Count int
	As    string  // pair, axle set, hub, fill, bottle
	Fluid float64 // m3 of a fill or a bottle; 0 otherwise
	With  string  // what is bought along; "" where nothing is
}

// Gauge is a tool for reading a kind.
type Gauge struct {
	Name  string
	Reads bool // taken where the checklist orders a reading on the way
}
