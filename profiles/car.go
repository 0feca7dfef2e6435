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
	Name        string          `need:"yes"`
	Odometer    quantity.Length `need:"yes" range:"0 mi to 2000000 mi"`
	Written     quantity.Length `key:"-"`                              // the odometer as car.yaml has it, where the logbook goes on from there
	Mass        quantity.Mass   `need:"yes" range:"300 kg to 5000 kg"` // as driven, driver and half a tank
	FrontWeight quantity.Share  `need:"yes" range:"25 % to 75 %"`
	Wheelbase   quantity.Length `need:"yes" range:"1.5 m to 4.5 m"`
	Track       struct {
		Front quantity.Length `need:"yes" range:"0.8 m to 2.5 m"`
		Rear  quantity.Length `need:"yes" range:"0.8 m to 2.5 m"`
	} `need:"yes"`
	CGHeight  quantity.Length `need:"yes" range:"0.2 m to 1.2 m"`
	Drive     string          `need:"yes" words:"rear front all"` // rear, front or all
	Power     quantity.Power  `need:"yes" range:"10 kW to 1500 kW"`
	DragArea  quantity.Area   `need:"yes" range:"0.2 m2 to 3 m2"`
	RollFront quantity.Share  `range:"20 % to 90 %"` // front share of lateral load transfer; 58 % unless given
	Friction  quantity.Number `range:"0.5 to 2"`     // peak tire friction; 1.0 unless given
	Fuel      struct {
		Tank quantity.Volume  `need:"yes" range:"10 L to 200 L"`
		Road quantity.Economy `need:"yes" range:"5 mpg to 150 mpg"`
	} `need:"yes"`
	Boot struct {
		Volume  quantity.Volume `need:"yes" range:"0 L to 3000 L"`
		Payload quantity.Mass   `need:"yes" range:"0 kg to 1500 kg"`
	} `need:"yes"`
	Luggage struct {
		Volume quantity.Volume `range:"0 L to 3000 L"`
		Mass   quantity.Mass   `range:"0 kg to 1500 kg"`
	}
	Alignment Alignments           `words:"LF RF LR RR front rear"` // by place, LF RF LR RR; written also by axle, see Alignment
	OilUse    quantity.Number      `range:"0 to 5"`                 // liters per 1,000 km, 0 unless given
	OilTemp   quantity.Temperature `range:"60 C to 180 C"`          // of the oil on circuit by the car's gauge; 0 without one
	OilCooler bool                 // no gauge, but a cooler
	Assumed   []string             `words:"front_weight wheelbase track cg_height drag_area roll_front alignment mass power rotors"` // keys that are not this car's own
	Sources   Sources              `key:"-"`                                                                                         // as written, where some are assumed
	Gauge     Gauge
	Costs     Costs    // the model's unless given
	Fitted    []Fitted `need:"yes"`
	Aside     []Fitted `key:"-"` // off the car, to swap with those at the same places
	Shelf     []Spare
}

// Costs are what things are worth to the owner, in his currency.
type Costs struct {
	Currency string
	Stranded quantity.Money     `range:"0 to 1000000"` // being stopped short: tow, lost entry fees, parts in a rush
	Hour     quantity.Money     `range:"0 to 10000"`   // an hour of his own work
	Shop     quantity.Money     `range:"0 to 10000"`   // an hour of a workshop's
	Visit    quantity.Money     `range:"0 to 100000"`  // what a stop for work costs beside the work: waiting, the detour
	Night    quantity.Money     `range:"0 to 100000"`  // a night away
	Fuel     quantity.FuelPrice `range:"0 /L to 100 /L"`
}

// Gauge is how well the owner measures: one standard deviation.
type Gauge struct {
	Tread quantity.Length `range:"0.01 mm to 2 mm"` // 0.2 mm a zone unless given
	Pad   quantity.Length `range:"0.01 mm to 3 mm"` // 0.3 mm unless given
}

// Fitted is a part on the car, with what was last measured of it.
type Fitted struct {
	Part  string   `need:"yes"`
	At    []string `need:"yes" from:"kinds"` // wheels, "system" (brake fluid), or another place of logbook.Single
	Since struct {
		Date     time.Time       `unknown:"written"`
		Odometer quantity.Length `need:"yes" range:"0 mi to 2000000 mi" unknown:"written"`

		Undated   bool `key:"-"` // the owner does not know the day
		Unmetered bool `key:"-"` // nor the odometer, which is then 0: the part may be as old as the car
	} `need:"yes"`
	Aside       bool            // off the car: it swaps with the one at the same places
	Distance    quantity.Length `range:"0 mi to 2000000 mi"` // driven on it so far, where it was off the car at times
	CircuitDays quantity.Number `range:"0 to 1000"`          // circuit days driven on it so far

	Tread     map[string][]quantity.Length `from:"kinds" range:"0 mm to 25 mm"` // per place: inside, middle, outside
	Pad       map[string]quantity.Length   `from:"kinds" range:"0 mm to 40 mm"` // per place: thinnest friction material
	Thickness map[string]quantity.Length   `from:"kinds" range:"3 mm to 60 mm"` // per place: rotor thickness
	Used      map[string]quantity.Share    `from:"kinds" range:"0 % to 1000 %"` // per place: rotor crack life used so far, or hub life used so far in L10 shares
	Water     quantity.Share               `range:"0 % to 10 %"`                // brake fluid's water, if measured

	// What an eye or a hand found.
	Face   map[string]logbook.Finding        `from:"kinds"`                        // rotor, per place
	Feel   map[string]logbook.Finding        `from:"kinds"`                        // hub at 12 and 6 o'clock, its nut mark, per place
	Found  map[string]logbook.Finding        `from:"kinds" as:"finding"`           // tire, or a kind without a key of its own, per place
	Bought time.Time                         `from:"kinds"`                        // part of limits alone that ages from then, such as a helmet
	Built  map[string]string                 `from:"kinds" as:"week"`              // tire or part of limits alone, per place: the week code on it, such as 2324
	Lining map[string]logbook.Finding        `from:"kinds"`                        // pads, per place: worn aslant, down to the indicator, down to the backing plate
	Probe  map[string][]quantity.Temperature `from:"kinds" range:"-40 C to 200 C"` // tire, per place: inside, middle, outside, straight from the circuit
	Color  logbook.Finding                   `from:"kinds" was:"colour"`           // brake fluid
	Pedal  logbook.Finding                   `from:"kinds"`                        // brake pedal

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
	Part     string          `need:"yes"`
	Quantity quantity.Number `need:"yes" range:"0 to 100"`
}
