package plan

import (
	"fmt"
	"time"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/profiles/quantity"
)

// Where an item is bought or brought.
const (
	BuyBefore   = "before leaving"
	BuyBring    = "bring"
	BuyOnTheWay = "on the way"
)

// Item is something to buy or to pack.
type Item struct {
	Set      string    `json:"set"` // "" for what belongs to no set: oil for topping up
	Part     string    `json:"part"`
	Name     string    `json:"name"`
	Count    int       `json:"count"`  // of As
	As       string    `json:"as"`     // what one buys: pair, axle set, hub, fill, bottle
	Fluid    float64   `json:"fluid"`  // m3, of an oil fill or of one bottle; 0 otherwise
	With     string    `json:"with"`   // what is bought along, such as "filter and drain washer"; "" where nothing is
	Wheels   bool      `json:"wheels"` // wheels come off to fit it
	Buy      string    `json:"buy"`    // before leaving, bring, on the way
	Price    float64   `json:"price"`  // not a number where it is unknown, as the volume and the mass
	OnShelf  bool      `json:"on_shelf"`
	OrderBy  time.Time `json:"order_by"`  // zero where no lead time is known
	ThereBy  time.Time `json:"there_by"`  // when it has to have come; zero likewise
	ThereFor string    `json:"there_for"` // what is done with it from then to departure: "to be fitted at home"
	Late     bool      `json:"late"`      // ordered today it would not be there by then
	Volume   float64   `json:"volume"`    // m3
	Mass     float64   `json:"mass"`      // kg
	Tools    []string  `json:"tools"`
}

// Quantity says how much of an item one buys: "1 axle set", "4.8 qt, filter
// and drain washer", "2 bottles of 0.5 qt".
func (it Item) Quantity(u quantity.System) string {
	what := fmt.Sprintf("%d %s", it.Count, Plural(it.Count, it.As))
	switch size := quantity.OilFill[u].Text(it.Fluid); {
	case it.As == kind.Bottle:
		what += " of " + size
	case it.Fluid > 0:
		what = size
	}
	if it.With != "" {
		what += ", " + it.With
	}
	return what
}

// Plural is the word for n of a thing.
func Plural(n int, one string) string {
	if n == 1 {
		return one
	}
	return one + "s"
}

// Total is what the items of one occasion cost, those on the shelf left out.
type Total struct {
	Buy   string  `json:"buy"`
	Price float64 `json:"price"` // of those whose price is known

	Unpriced int `json:"unpriced"` // items whose price is unknown
}

// Tool is something to take along for work or checks on the way.
type Tool struct {
	Name string   `json:"name"`
	For  []string `json:"for"`
}

// TrunkSlack is what rounding may leave of a trunk that is just full.
const TrunkSlack = 1e-9

// Boot is the room there is and the room the packing takes.
type Boot struct {
	Volume     float64 `json:"volume"`  // m3, as given, luggage taken off
	Payload    float64 `json:"payload"` // kg
	UsedVolume float64 `json:"used_volume"`
	UsedMass   float64 `json:"used_mass"`
	Fits       bool    `json:"fits"`    // what is known of the packing does
	Unknown    int     `json:"unknown"` // packed items whose volume or weight is unknown
	LuggageVol float64 `json:"luggage_vol"`
	LuggageKg  float64 `json:"luggage_kg"`
}

// Room is what of the trunk is taken beside the luggage: 0.38 of 3.00 cu ft, 21 of
// 110 lb; or by how much the luggage alone is too much for it.
func (b Boot) Room(units quantity.System) string {
	of := func(d quantity.Display, used, most float64) string {
		if most < 0 {
			return "the luggage alone " + d.Text(-most) + " over"
		}
		return d.Number(used) + " of " + d.Text(most)
	}
	return of(quantity.Boot[units], b.UsedVolume, b.Volume) + ", " + of(quantity.Weight[units], b.UsedMass, b.Payload)
}

// Overfull is the first leg before which something is swapped that the trunk has
// no room to bring; "" where it has, or where nothing is swapped on the way.
func (p *Plan) Overfull() string {
	for _, s := range p.Swaps {
		if s.Leg > 0 && !p.Boot.Fits {
			return p.Legs[s.Leg].Name
		}
	}
	return ""
}

// ToPay is what an item still costs.
func (it Item) ToPay() float64 {
	if it.OnShelf {
		return 0
	}
	return it.Price
}
