package profiles

import "example.com/tripwear/profiles/quantity"

// Model holds the numbers of the wear model that belong to no part: embedded
// in stock/model.yaml with tag and source each, and overridden key by key by a
// model.yaml in the car folder.
type Model struct {
	Paces    map[string]quantity.Share // novice, intermediate, advanced, expert
	Surfaces map[string]Surface        // highway, mixed, winding, city

	Tire struct {
		RoadRate  quantity.Number // mg per km per tonne of wheel load at grade 400
		Density   quantity.Number // mg per mm3
		HotFactor quantity.Number
	}
	Oil struct {
		CircuitTemp quantity.Temperature // where there is no gauge
		RoadTemp    quantity.Temperature
	}
	Spread  Spread
	Caught  Caught
	Safety  Safety
	Session struct {
		Rest     quantity.Duration // parked between sessions
		PerDay   int               // sessions a day, unless the leg says
		Each     quantity.Duration
		Ambient  quantity.Temperature
		DayHours quantity.Duration // road driving in one day before the next begins
	}

	Sources Sources
}

// Surface is what a kind of road asks.
type Surface struct {
	Speed  quantity.Speed
	Brakes quantity.Energy // friction braking at 1,300 kg
	Tread  quantity.Number // tread factor
	Oil    quantity.Number // oil factor
}

// Spread holds the prior spreads, one standard deviation of the natural logarithm.
type Spread struct {
	Pace           quantity.Number
	TireRoad       quantity.Number
	TireCircuit    quantity.Number
	PadRoad        quantity.Number
	PadCircuit     quantity.Number
	RotorCrack     quantity.Number
	RotorThickness quantity.Number
	Oil            quantity.Number
	FluidHeat      quantity.Number
	// added in quadrature where a circuit is known by its summary alone
	SummaryTread quantity.Number
	SummaryPads  quantity.Number
	SummaryCrack quantity.Number
	SummaryHub   quantity.Number
}

// Caught holds the share of limit crossings that the plan's own checks catch in time.
type Caught struct {
	Tread, Pads, RotorCrack, Hub quantity.Share
}

// Safety holds the chances that decide between actions.
type Safety struct {
	Cap      quantity.Share // most chance of driving across a limit unnoticed; an owner may lower it
	Run      quantity.Share // at most this chance of the limit: run
	Accept   quantity.Share // at most this chance of being stopped short: watch
	WillFail quantity.Share // at least this chance: it is going to run out, so renew rather than carry
}
