package profiles

import "example.com/tripwear/profiles/quantity"

// Model holds the numbers of the wear model that belong to no part: embedded
// in stock/model.yaml with tag and source each, and overridden key by key by a
// model.yaml in the car folder.
type Model struct {
	Paces    map[string]quantity.Share `words:"novice intermediate advanced expert" range:"30 % to 105 %"` // novice, intermediate, advanced, expert
	Surfaces map[string]Surface        `words:"highway mixed winding city"`                                // highway, mixed, winding, city

	Tire struct {
		RoadRate  quantity.Number `range:"1 to 1000"` // mg per km per tonne of wheel load at grade 400
		Density   quantity.Number `range:"0.5 to 2"`  // mg per mm3
		HotFactor quantity.Number `range:"0.5 to 10"`
	}
	Oil struct {
		CircuitTemp quantity.Temperature `range:"60 C to 180 C"` // where there is no gauge
		RoadTemp    quantity.Temperature `range:"60 C to 180 C"`
	}
	Spread  Spread
	Caught  Caught
	Safety  Safety
	Costs   Costs // an owner's car.yaml has the last word
	Session struct {
		Rest     quantity.Duration    `range:"0 min to 24 h"` // parked between sessions
		PerDay   int                  `range:"1 to 20"`       // sessions a day, unless the leg says
		Each     quantity.Duration    `range:"5 min to 8 h"`
		Ambient  quantity.Temperature `range:"-40 C to 60 C"`
		DayHours quantity.Duration    `range:"1 h to 24 h"` // road driving in one day before the next begins
	}

	Sources Sources `key:"-"`
}

// Surface is what a kind of road asks.
type Surface struct {
	Speed  quantity.Speed  `range:"1 m/s to 80 m/s"`
	Brakes quantity.Energy `range:"0 MJ/km to 5 MJ/km"` // friction braking at 1,300 kg
	Tread  quantity.Number `range:"0.1 to 20"`          // tread factor
	Oil    quantity.Number `range:"0.5 to 20"`          // oil factor
}

// Spread holds the prior spreads, one standard deviation of the natural logarithm.
type Spread struct {
	Pace           quantity.Number `range:"0 to 2"`
	TireRoad       quantity.Number `range:"0 to 2"`
	TireCircuit    quantity.Number `range:"0 to 2"`
	PadRoad        quantity.Number `range:"0 to 2"`
	PadCircuit     quantity.Number `range:"0 to 2"`
	RotorCrack     quantity.Number `range:"0 to 2"`
	RotorThickness quantity.Number `range:"0 to 2"`
	Oil            quantity.Number `range:"0 to 2"`
	FluidHeat      quantity.Number `range:"0 to 2"`
	// added in quadrature where a circuit is known by its summary alone
	SummaryTread quantity.Number `range:"0 to 2"`
	SummaryPads  quantity.Number `range:"0 to 2"`
	SummaryCrack quantity.Number `range:"0 to 2"`
	SummaryHub   quantity.Number `range:"0 to 2"`
}

// Caught holds the share of limit crossings that the plan's own checks catch in time.
type Caught struct {
	Tread      quantity.Share `range:"0 % to 100 %"`
	Pads       quantity.Share `range:"0 % to 100 %"`
	RotorCrack quantity.Share `range:"0 % to 100 %"`
	Hub        quantity.Share `range:"0 % to 100 %"`
}

// Safety holds the chances that bound the actions.
type Safety struct {
	Cap quantity.Share `range:"0 % to 2 %"`  // most chance of driving across a limit unnoticed; an owner may lower it
	Run quantity.Share `range:"0 % to 50 %"` // at most this chance of the limit: run, not watch
}
