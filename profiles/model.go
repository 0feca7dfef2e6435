package profiles

import (
	"strconv"
	"strings"

	"example.com/tripwear/profiles/quantity"
)

// Model holds the numbers of the wear model that belong to no part: embedded
// in stock/model.yaml with tag and source each, and overridden key by key by a
// model.yaml in the car folder.
type Model struct {
	Paces    map[string]quantity.Share `words:"novice intermediate advanced expert" range:"30 % to 105 %" doc:"the share of grip that a pace is"`
	Surfaces map[string]Surface        `words:"highway mixed winding city"` // highway, mixed, winding, city

	Tire struct {
		RoadRate  quantity.Number `range:"1 to 1000" doc:"mg per km per tonne of wheel load at grade 400"`
		Density   quantity.Number `range:"0.5 to 2" doc:"mg per mm3"`
		HotFactor quantity.Number `range:"0.5 to 10" doc:"wear of a tire that runs hot"`
		WetGrip   quantity.Share  `range:"20 % to 100 %" doc:"of the dry friction, on a wet circuit"`
	}
	Oil struct {
		CircuitRise quantity.Temperature `range:"20 K to 150 K" as:"difference" doc:"over ambient, at 150 kW and a pace of 80 %, where there is no gauge"`
		CircuitMost quantity.Temperature `range:"100 C to 180 C" doc:"most that is assumed there"`
		Cooler      quantity.Temperature `range:"0 K to 60 K" as:"difference" doc:"what a cooler takes off"`
		RoadTemp    quantity.Temperature `range:"60 C to 180 C" doc:"of the oil on the road"`
	}
	OilReport OilCriteria
	Spread    Spread
	Caught    Caught
	Safety    Safety
	Costs     Costs // an owner's car.yaml has the last word
	Session   struct {
		Rest     quantity.Duration    `range:"0 min to 24 h" doc:"parked between sessions"`
		PerDay   int                  `range:"1 to 20" doc:"sessions a day, unless the leg says"`
		Each     quantity.Duration    `range:"5 min to 8 h" doc:"of a session, unless the leg says"`
		Ambient  quantity.Temperature `range:"-40 C to 60 C" doc:"of the air, unless the leg says"`
		DayHours quantity.Duration    `range:"1 h to 24 h" doc:"road driving in one day before the next begins"`
	}

	Sources Sources `key:"-"`
}

// OilCriteria are the limits that a report on used oil is read by.
type OilCriteria struct {
	Thinner     quantity.Share   `range:"0 % to 100 %" doc:"of the viscosity at 100 C against new: flagged beyond"`
	Thicker     quantity.Share   `range:"0 % to 200 %" doc:"the same above"`
	StopThinner quantity.Share   `range:"0 % to 100 %" doc:"not run on beyond"`
	StopThicker quantity.Share   `range:"0 % to 200 %" doc:"the same above"`
	BaseShare   quantity.Share   `range:"0 % to 100 %" doc:"least base number, of new"`
	BaseLeast   quantity.Neutral `range:"0 mg KOH/g to 20 mg KOH/g" doc:"least base number"`
	Fuel        quantity.Share   `range:"0 % to 40 %" doc:"flagged beyond"`
	Water       quantity.Share   `range:"0 % to 30 %" doc:"flagged beyond"`
	Iron        quantity.Trace   `range:"0 ppm to 5000 ppm" doc:"flagged beyond, in all"`
	Chromium    quantity.Trace   `range:"0 ppm to 1000 ppm" doc:"flagged beyond, in all"`
	Copper      quantity.Trace   `range:"0 ppm to 5000 ppm" doc:"flagged beyond, in all"`
	Tin         quantity.Trace   `range:"0 ppm to 1000 ppm" doc:"flagged beyond, in all"`
	Lead        quantity.Trace   `range:"0 ppm to 5000 ppm" doc:"flagged beyond, in all"`
	Aluminium   quantity.Trace   `range:"0 ppm to 1000 ppm" doc:"flagged beyond, in all"`
	Silicon     quantity.Trace   `range:"0 ppm to 2000 ppm" doc:"flagged beyond, in all"`
	Line        quantity.Share   `range:"10 % to 100 %" doc:"of the way to the first limit that is supported"`
	Turn        quantity.Share   `range:"10 % to 100 %" doc:"share of the distance at which a metal begins to come faster that is supported"`
	Step        quantity.Number  `range:"1 to 2" doc:"most that one report lengthens the interval by, beyond what was on the fill"`
}

// Surface is what a kind of road asks.
type Surface struct {
	Speed  quantity.Speed  `range:"1 m/s to 80 m/s" doc:"on it"`
	Brakes quantity.Energy `range:"0 MJ/km to 5 MJ/km" doc:"friction braking at 1,300 kg"`
	Tread  quantity.Number `range:"0.1 to 20" doc:"tread factor"`
	Oil    quantity.Number `range:"0.5 to 20" doc:"oil factor"`
}

// Spread holds the prior spreads, one standard deviation of the natural logarithm.
type Spread struct {
	Pace           quantity.Number `range:"0.02 to 2" safe:"more" doc:"one standard deviation of the logarithm"`
	TireRoad       quantity.Number `range:"0.05 to 2" safe:"more" doc:"one standard deviation of the logarithm"`
	TireCircuit    quantity.Number `range:"0.05 to 2" safe:"more" doc:"one standard deviation of the logarithm"`
	PadRoad        quantity.Number `range:"0.05 to 2" safe:"more" doc:"one standard deviation of the logarithm"`
	PadCircuit     quantity.Number `range:"0.05 to 2" safe:"more" doc:"one standard deviation of the logarithm"`
	RotorCrack     quantity.Number `range:"0.05 to 2" safe:"more" doc:"one standard deviation of the logarithm"`
	RotorThickness quantity.Number `range:"0.05 to 2" safe:"more" doc:"one standard deviation of the logarithm"`
	RotorSize      quantity.Number `range:"0 to 2" doc:"of a size that is assumed, for each unit of ln it is scaled by"`
	Oil            quantity.Number `range:"0.05 to 2" safe:"more" doc:"one standard deviation of the logarithm"`
	HubRoad        quantity.Number `range:"0.05 to 2" safe:"more" doc:"one standard deviation of the logarithm"`
	OilHeat        quantity.Number `range:"0.05 to 2" safe:"more" doc:"added in quadrature on circuit where no gauge reads it"`
	FluidHeat      quantity.Number `range:"0.05 to 2" safe:"more" doc:"one standard deviation of the logarithm"`
	UsualPace      quantity.Number `range:"0.01 to 2" doc:"of owners of whom no pace is known"`
	SummarySpeed   quantity.Number `range:"0.001 to 2" doc:"of circuits with so many brakings, at one pace"`
	TimedPace      quantity.Number `range:"0.02 to 2" safe:"more" doc:"of the pace that a lap time alone tells"`
	// added in quadrature where a circuit is known by its summary alone
	SummaryTread quantity.Number `range:"0.05 to 2" safe:"more" doc:"added in quadrature where a circuit is known by its summary alone"`
	SummaryPads  quantity.Number `range:"0.05 to 2" safe:"more" doc:"added in quadrature where a circuit is known by its summary alone"`
	SummaryCrack quantity.Number `range:"0.05 to 2" safe:"more" doc:"added in quadrature where a circuit is known by its summary alone"`
	SummaryHub   quantity.Number `range:"0.05 to 2" safe:"more" doc:"added in quadrature where a circuit is known by its summary alone"`
}

// Caught holds the share of limit crossings that one check catches which is
// made after the margin was passed and before the limit is.
type Caught struct {
	Tread      quantity.Share `range:"0 % to 95 %" safe:"less" doc:"a gauge reading written down"`
	Pads       quantity.Share `range:"0 % to 90 %" safe:"less" doc:"a gauge reading written down"`
	Look       quantity.Share `range:"0 % to 75 %" safe:"less" doc:"of tread or pads, without a gauge"`
	RotorCrack quantity.Share `range:"0 % to 65 %" safe:"less" doc:"a look at the rotors"`
	Hub        quantity.Share `range:"0 % to 50 %" safe:"less" doc:"a hand on the wheel"`
}

// Safety holds the chances that bound the actions.
type Safety struct {
	Cap quantity.Share `range:"0 % to 2 %" safe:"less" doc:"most chance of driving across a limit unnoticed; an owner may lower it"`
	Run quantity.Share `range:"0 % to 2 %" safe:"less" doc:"under this chance of the limit: run, not watch"`
}

// Pace is the share of grip that a leg's pace stands for, 0 for none: one of the
// model's words, or a share such as "80 %".
func (m Model) Pace(pace string) float64 {
	if share, ok := m.Paces[pace]; ok {
		return float64(share)
	}
	percent, err := strconv.ParseFloat(strings.TrimSpace(strings.TrimSuffix(pace, "%")), 64)
	if err != nil {
		return 0
	}
	return percent / 100
}
