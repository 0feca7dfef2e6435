package plan

import (
	"fmt"
	"slices"
	"time"

	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/nearest"
)

// Events is which of several events to go to.
type Events struct {
	Candidates []Event `json:"candidates"` // by date
	Weekends   int     `json:"weekends"`   // so many are picked; 0 for any number
	Spend      float64 `json:"spend"`      // they may take so much out of the purse; 0 for any
	Sparing    string  `json:"sparing"`    // the wheel that they are to spare; "" where money counts
	Tried      int     `json:"tried"`      // sets planned as a season
	Proved     bool    `json:"proved"`     // no set that was not tried is better
	Season     *Season `json:"season"`     // of those picked; nil where no set will do
}

// Event is what one event gives and takes, planned from today's car.
type Event struct {
	Trip   string    `json:"trip"`
	TripID string    `json:"trip_id"`
	Depart time.Time `json:"depart"`
	Back   time.Time `json:"back"`
	Picked bool      `json:"picked"`
	Hours  float64   `json:"hours"` // on circuit
	Fixed  float64   `json:"fixed"` // fees, fuel and nights
	Life   float64   `json:"life"`  // worn off the parts, at their prices
	Risk   float64   `json:"risk"`  // expected cost of being stopped short, by itself
	Wheel  string    `json:"wheel"` // whose tread it takes most of
	Tread  float64   `json:"tread"` // that share of its life
	Share  float64   `json:"share"` // of the tread's life at the wheel to be spared
}

// mostEvents is from how many trips events are picked. Engineering choice.
const mostEvents = 20

// Wrong says what cannot be asked of so many trips, and what can; "" for nothing.
func (e Events) Wrong(trips int) (what, hint string) {
	switch {
	case trips > mostEvents:
		return fmt.Sprintf("%d trips are more than events can be picked from", trips), fmt.Sprintf("name at most %d, or take fewer days with --from and --to", mostEvents)
	case !(e.Spend >= 0), e.Weekends < 0, e.Weekends > trips, e.Weekends == 0 && e.Spend == 0:
		return fmt.Sprintf("--weekends takes a number from 1 to %d, the trips with a circuit, or --spend an amount", trips), "tripwear season --weekends 1"
	case e.Sparing != "" && !slices.Contains(logbook.Wheels, e.Sparing):
		return fmt.Sprintf("--sparing %q is not taken, expected %s", e.Sparing, nearest.OneOf(logbook.Wheels)), "tripwear season --weekends 1 --sparing RF"
	}
	return "", ""
}

// Hour is what an hour on the circuit costs.
func (e Event) Hour() float64 { return (e.Fixed + e.Life + e.Risk) / e.Hours }
