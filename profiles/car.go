package profiles

import (
	"example.com/tripwear/profiles/quantity"
)

// Car is the owner's car as it stands today.
type Car struct {
	Name        string          `need:"yes" doc:"what you call the car"`
	Odometer    quantity.Length `need:"yes" range:"0 mi to 2000000 mi" doc:"today, before the trip"`
	Written     quantity.Length `key:"-"` // the odometer as car.yaml has it, where the logbook goes on from there
	Mass        quantity.Mass   `need:"yes" range:"300 kg to 5000 kg" doc:"as driven: driver, luggage and half a tank"`
	FrontWeight quantity.Share  `need:"yes" range:"25 % to 75 %" doc:"share of the mass on the front axle, from corner scales"`
	Wheelbase   quantity.Length `need:"yes" range:"1.5 m to 4.5 m" doc:"from front to rear axle"`
	Track       struct {
		Front quantity.Length `need:"yes" range:"0.8 m to 2.5 m" doc:"between the middles of the tires"`
		Rear  quantity.Length `need:"yes" range:"0.8 m to 2.5 m" doc:"between the middles of the tires"`
	} `need:"yes"`
	CGHeight  quantity.Length `need:"yes" range:"0.2 m to 1.2 m" doc:"of the center of gravity; 450-550 mm for a low car"`
	Drive     string          `need:"yes" words:"rear front all" doc:"the driven wheels: rear, front or all"`
	Power     quantity.Power  `need:"yes" range:"10 kW to 1500 kW" doc:"at the engine"`
	DragArea  quantity.Area   `need:"yes" range:"0.2 m2 to 3 m2" doc:"drag coefficient times frontal area"`
	RollFront quantity.Share  `range:"20 % to 90 %" doc:"front share of the load transfer in corners; left out, 58 %"`
	Friction  quantity.Number `range:"0.5 to 2" doc:"peak friction of the tires; left out, 1.0"`
	Fuel      struct {
		Tank quantity.Volume  `need:"yes" range:"10 L to 200 L" doc:"what the tank holds"`
		Road quantity.Economy `need:"yes" range:"5 mpg to 150 mpg" doc:"on the highway"`
	} `need:"yes"`
	Boot struct {
		Volume  quantity.Volume `need:"yes" range:"0 L to 3000 L" doc:"what can be packed, luggage included"`
		Payload quantity.Mass   `need:"yes" range:"0 kg to 1500 kg" doc:"what may be packed, luggage included"`
	} `need:"yes"`
	Luggage struct {
		Volume quantity.Volume `range:"0 L to 3000 L" doc:"what travels anyway; the rest is for spares and tools"`
		Mass   quantity.Mass   `range:"0 kg to 1500 kg" doc:"what travels anyway"`
	}
	Alignment Alignments           `words:"LF RF LR RR front rear" doc:"per wheel: negative camber leans the top in, positive toe is toe-in"`
	OilUse    quantity.Number      `range:"0 to 5" doc:"liters per 1,000 km; left out, none"`
	OilTemp   quantity.Temperature `range:"60 C to 180 C" doc:"on circuit, by a gauge; left out, it is assumed"`
	OilCooler bool                 `doc:"true where there is a cooler and no gauge"`
	Usual     quantity.Mileage     `range:"0 mi/month to 20000 mi/month" doc:"driven a month beside trips; left out, what the odometer has made"` // below 0 where it is left out
	Budget    quantity.Allowance   `range:"0 /month to 1000000 /month" doc:"for parts, saved up where it is not spent; left out, no limit"`       // below 0 where it is left out
	Assumed   []string             `words:"front_weight wheelbase track cg_height drag_area roll_front alignment mass power rotors" doc:"keys that are not this car's own but a usual one's"`
	Sources   Sources              `key:"-"` // as written, where some are assumed
	Gauge     Gauge
	Costs     Costs    // the model's unless given
	Fitted    []Fitted `need:"yes"`
	Aside     []Fitted `key:"-"` // off the car, to swap with those at the same places
	Shelf     []Spare
}

// Costs are what things are worth to the owner, in his currency.
type Costs struct {
	Currency string             `doc:"what prices are in"`
	Stranded quantity.Money     `range:"0 to 1000000" doc:"stopped short far from home: tow, lost entry fees, parts in a rush"`
	Hour     quantity.Money     `range:"0 to 10000" doc:"an hour of your own work"`
	Shop     quantity.Money     `range:"0 to 10000" doc:"an hour of a workshop's"`
	Visit    quantity.Money     `range:"0 to 100000" doc:"a stop for work, beside the work itself"`
	Night    quantity.Money     `range:"0 to 100000" doc:"a night away"`
	Fuel     quantity.FuelPrice `range:"0 /L to 100 /L" doc:"the price of fuel"`
}

// Spare is a part on the owner's shelf.
type Spare struct {
	Part     string          `need:"yes" doc:"its id in the list of parts, or a stock part"`
	Quantity quantity.Number `need:"yes" range:"0 to 100" doc:"how many lie there"`
}
