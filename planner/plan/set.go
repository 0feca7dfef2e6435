package plan

import (
	"slices"
	"strings"
	"time"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/profiles"
)

// Learned is what the logbook teaches of a set's rates, as multiples of the
// model's. Bands hold in 80 of 100.
type Learned struct {
	Readings int        `json:"readings"` // times the set was read, on this part or earlier ones; 0 where nothing was learned
	Borrowed bool       `json:"borrowed"` // never read itself: all comes from the other set of its kind
	Others   int        `json:"others"`   // other cars whose rates it began from
	Road     Multiplier `json:"road"`
	Circuit  Multiplier `json:"circuit"`
}

// Multiplier is a multiple of the model's rate with its 80 % band.
type Multiplier struct {
	Median float64 `json:"median"`
	Low    float64 `json:"low"`
	High   float64 `json:"high"`
	Taught bool    `json:"taught"` // narrower than what is believed without the logbook
}

// Set is what is replaced together, with its projection and decision.
type Set struct {
	ID       string        `json:"id"`   // such as tires-rear, hub-LF
	Name     string        `json:"name"` // such as "rear tires"
	Kind     profiles.Kind `json:"kind"`
	Part     string        `json:"part"` // id of the fitted part
	PartName string        `json:"part_name"`
	On       []bool        `json:"on"`       // by leg, whether it is on the car; null where no other swaps with it
	Critical bool          `json:"critical"` // the safety cap applies
	Stranded float64       `json:"stranded"` // what its failure costs, where that is more than being stopped short usually does
	Caught   float64       `json:"caught"`   // share of crossings, as decided, that the checks on the way catch

	Points []Point   `json:"points"`
	After  []Band    `json:"after"` // set as a whole: share of life left at its worst point, after each leg
	First  int       `json:"first"` // index of the point most often first to its limit
	Most   int       `json:"most"`  // index of the leg that takes most of its life, -1 where none does
	Used   []float64 `json:"used"`

	Read       bool      `json:"read"`        // a gauge, an eye or a hand has told of this part
	Measured   string    `json:"measured"`    // how the starting state is known
	MeasuredOn time.Time `json:"measured_on"` // the day of its oldest reading; zero where it is car.yaml\'s
	Driven     float64   `json:"driven"`      // m since that reading, before the trip
	Learned    Learned   `json:"learned"`     // what the logbook teaches of its rates
	Stop       []string  `json:"stop"`        // what was found that forbids driving on it as it is, place by place
	Seen       []string  `json:"seen"`        // what else was found
	Doubts     []string  `json:"doubts"`      // readings doubted and rows not used, each with why
	Decision   Decision  `json:"decision"`

	// Spreads of the wear rates, one standard deviation of the logarithm: on
	// the road, on a circuit known corner by corner, and what a circuit known
	// by its summary alone adds in quadrature.
	RoadSpread    float64 `json:"road_spread"`
	CircuitSpread float64 `json:"circuit_spread"`
	SummarySpread float64 `json:"summary_spread"`
}

// IsOn says whether the set is on the car during a leg.
func (s *Set) IsOn(leg int) bool { return s.On == nil || s.On[leg] }

// Swaps says whether another set is on during some leg.
func (s *Set) Swaps() bool { return slices.Contains(s.On, false) }

// Point is one thing measured on a set: a tread zone, a pad, a rotor face, a hub.
type Point struct {
	Place   string       `json:"place"`
	Zone    string       `json:"zone"` // inside, middle, outside; "" where there is only one
	Measure kind.Measure `json:"measure"`
	New     float64      `json:"new"`
	Start   float64      `json:"start"`
	Limit   float64      `json:"limit"`
	Margin  float64      `json:"margin"`
	Loss    []float64    `json:"loss"`  // nominal, per leg
	After   []Band       `json:"after"` // level after each leg, as the car stands, nothing replaced

	Slow    []float64  `json:"slow"`
	Fast    []float64  `json:"fast"`    // Loss at one spread of pace below and above; nil for the boil margin
	Prior   [2]float64 `json:"prior"`   // nominal wear before the trip that nobody measured, already off Start: road, circuit
	Gauge   float64    `json:"gauge"`   // one standard deviation of Start as read; 0 where it was not measured
	Reading float64    `json:"reading"` // one standard deviation of a new reading; 0 where none is assumed
	Cap     []float64  `json:"cap"`     // level that the months allow after each leg; nil where time does not count
}

// Where is a point's place, with its zone where it has one.
func (p Point) Where() string { return strings.TrimSpace(p.Place + " " + p.Zone) }

// Band is a projected level with its chances.
type Band struct {
	P5      float64 `json:"p5"`
	P50     float64 `json:"p50"`
	P95     float64 `json:"p95"`
	PLimit  float64 `json:"p_limit"`  // chance that the limit was crossed by then
	PMargin float64 `json:"p_margin"` // chance that the margin was crossed by then
}
