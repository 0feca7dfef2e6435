package profiles

import (
	"maps"
	"reflect"
	"slices"
	"time"

	"example.com/tripwear/profiles/decode"
	"example.com/tripwear/profiles/logbook"
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

// Gauge is how well the owner measures: one standard deviation.
type Gauge struct {
	Tread quantity.Length `range:"0.01 mm to 2 mm" doc:"how well you measure: two readings in three fall within this; left out, 0.2 mm"`
	Pad   quantity.Length `range:"0.01 mm to 3 mm" doc:"the same of pads; left out, 0.3 mm"`
}

// Fitted is a part on the car, with what was last measured of it.
type Fitted struct {
	Part  string   `need:"yes" doc:"its id in the list of parts, or a stock part"`
	At    []string `need:"yes" from:"kinds" doc:"its places: LF RF LR RR, engine, system, gearbox, differential, body, driver"`
	Since struct {
		Date     time.Time       `unknown:"written" doc:"when it went on"`
		Odometer quantity.Length `need:"yes" range:"0 mi to 2000000 mi" unknown:"written" doc:"what the odometer said then"`

		Undated   bool `key:"-"` // the owner does not know the day
		Unmetered bool `key:"-"` // nor the odometer, which is then 0: the part may be as old as the car
	} `need:"yes"`
	Aside       bool            `doc:"off the car: it swaps with the one at the same places"`
	Distance    quantity.Length `range:"0 mi to 2000000 mi" doc:"driven on it so far, where it was off the car at times"`
	CircuitDays quantity.Number `range:"0 to 1000" doc:"circuit days driven on it so far"`

	Tread     map[string][]quantity.Length `from:"kinds" range:"0 mm to 25 mm" doc:"inside, middle, outside"`
	Pad       map[string]quantity.Length   `from:"kinds" range:"0 mm to 40 mm" doc:"friction material at the thinnest end"`
	Thickness map[string]quantity.Length   `from:"kinds" range:"3 mm to 60 mm" doc:"of the rotor, at its thinnest"`
	Used      map[string]quantity.Share    `from:"kinds" range:"0 % to 1000 %" doc:"crack life of a rotor, or life of a hub; left out, it is estimated"`
	Water     quantity.Share               `range:"0 % to 10 %" doc:"of brake fluid, with a tester; left out, estimated from the date"`

	// What an eye or a hand found.
	Face   map[string]logbook.Finding        `from:"kinds" doc:"of a rotor: smooth, checks, catches (a fingernail) or edge (a crack at it)"`
	Feel   map[string]logbook.Finding        `from:"kinds" doc:"of a hub: tight, play (at 12 and 6), rough or moved (the mark on its nut)"`
	Found  map[string]logbook.Finding        `from:"kinds" as:"finding" doc:"of a tire: sound, cut or cords; of others their words"`
	Bought time.Time                         `from:"kinds" doc:"of a part of limits alone that ages from then, such as a helmet"`
	Built  map[string]string                 `from:"kinds" as:"week" doc:"the week code on the sidewall, such as 2324"`
	Lining map[string]logbook.Finding        `from:"kinds" doc:"of pads: even, taper, indicator or plate"`
	Probe  map[string][]quantity.Temperature `from:"kinds" range:"-40 C to 200 C" doc:"tread temperatures straight from a session: inside, middle, outside"`
	Color  logbook.Finding                   `from:"kinds" was:"colour" doc:"of brake fluid: clear, amber or dark"`
	Pedal  logbook.Finding                   `from:"kinds" doc:"of the brake: firm, long or soft"`

	Logged bool            `key:"-"` // the logbook put it on new; CircuitDays and car.yaml know nothing of it
	Partly bool            `key:"-"` // Distance is given: it was off the car at times
	Seen   map[string]Seen `key:"-"` // by SeenKey: when the logbook's readings were taken; those of car.yaml are of its odometer
}

// Seen is when something was read or found.
type Seen struct {
	Date     time.Time
	Odometer quantity.Length
	New      bool // not read: new when it went on
}

// SeenKey is the key of Fitted.Seen: what was measured, where, and in which zone.
func SeenKey(what logbook.What, place, zone string) string {
	if zone != "" {
		zone = " " + zone
	}
	return string(what) + " " + place + zone
}

// Finding is what was found of a row of the logbook at a place; "" where
// nothing was, or car.yaml does not hold it.
func (e *Fitted) Finding(row logbook.What, place string) logbook.Finding {
	_, r, _ := readingOf(row)
	if r.Key == "" {
		return ""
	}
	switch v := e.value(r.Key).Interface().(type) {
	case map[string]logbook.Finding:
		return v[place]
	case logbook.Finding:
		return v
	}
	return ""
}

// value is the field that has a key.
func (e *Fitted) value(key string) reflect.Value {
	return reflect.ValueOf(e).Elem().Field(fittedField[key])
}

// only is a copy of the entry at some of its places.
func (e Fitted) only(at []string) Fitted {
	e.At, e.Seen = slices.Clone(at), maps.Clone(e.Seen)
	for _, key := range fittedKeys() {
		held := e.value(key)
		if held.Kind() != reflect.Map || held.IsNil() {
			continue
		}
		kept := reflect.MakeMap(held.Type())
		for _, place := range at {
			v := held.MapIndex(reflect.ValueOf(place))
			if v.IsValid() && v.Kind() == reflect.Slice {
				v = reflect.AppendSlice(reflect.Zero(v.Type()), v)
			}
			if v.IsValid() {
				kept.SetMapIndex(reflect.ValueOf(place), v)
			}
		}
		held.Set(kept)
	}
	return e
}

// fittedField is where each key of Fitted stands.
var fittedField = func() map[string]int {
	out, typ := map[string]int{}, reflect.TypeFor[Fitted]()
	for i := range typ.NumField() {
		out[decode.Snake(typ.Field(i).Name)] = i
	}
	return out
}()

// Spare is a part on the owner's shelf.
type Spare struct {
	Part     string          `need:"yes" doc:"its id in the list of parts, or a stock part"`
	Quantity quantity.Number `need:"yes" range:"0 to 100" doc:"how many lie there"`
}
