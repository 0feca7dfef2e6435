package planner

import (
	"fmt"
	"time"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/profiles/quantity"
)

// Where an item is bought or brought.
const (
	BuyBefore   = "before leaving"
	BuyCarry    = "carry"
	BuyOnTheWay = "on the way"
)

// Item is something to buy or to pack.
type Item struct {
	Set     string // "" for what belongs to no set: oil for topping up
	Part    string
	Name    string
	Count   int     // of As
	As      string  // what one buys: pair, axle set, hub, fill, bottle of 0.5 L
	Fluid   float64 // m3, of an oil fill; 0 otherwise
	With    string  // what is bought along, such as "filter and drain washer"; "" where nothing is
	Wheels  bool    // wheels come off to fit it
	Buy     string  // before leaving, carry, on the way
	Price   float64
	OnShelf bool
	OrderBy time.Time // zero where no lead time is known
	Late    bool      // ordered today it would not arrive before departure
	Volume  float64   // m3
	Mass    float64   // kg
	Tools   []string
}

// Quantity says how much of an item one buys: "1 axle set", "4.8 qt, filter
// and drain washer", "2 bottles of 0.5 L".
func (it Item) Quantity(u quantity.System) string {
	what := fmt.Sprintf("%d %s", it.Count, plural(it.Count, it.As))
	if it.Fluid > 0 {
		what = u.OilVolume(quantity.Volume(it.Fluid))
	}
	if it.With != "" {
		what += ", " + it.With
	}
	return what
}

// plural is what n of a thing are called.
func plural(n int, one string) string {
	switch {
	case n == 1:
		return one
	case one == kind.Bottle:
		return "bottles of 0.5 L"
	case one == kind.LiterBottle:
		return "bottles of 1 L"
	default:
		return one + "s"
	}
}

// Total is what the items of one occasion cost, those on the shelf left out.
type Total struct {
	Buy   string
	Price float64
}

// Tool is something to take along for work or checks on the way.
type Tool struct {
	Name string
	For  []string
}

// Boot is the room there is and the room the packing takes.
type Boot struct {
	Volume, Payload       float64 // m3, kg: as given, luggage taken off
	UsedVolume, UsedMass  float64
	Fits                  bool
	LuggageVol, LuggageKg float64
}
