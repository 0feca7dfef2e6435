package profiles

import (
	"fmt"
	"reflect"
	"slices"
	"time"

	"go.yaml.in/yaml/v4"

	"example.com/tripwear/profiles/nearest"
	"example.com/tripwear/profiles/quantity"
)

// Trip is an itinerary.
type Trip struct {
	ID     string    `key:"-"`
	Name   string    `need:"yes" key:"trip"` // key "trip"
	Depart time.Time `need:"yes"`
	Legs   []Leg     `need:"yes"`
	// DrivingDay is the most road driving in a day; the model's unless given.
	DrivingDay quantity.Duration `range:"1 h to 24 h"`
}

// LegKind says what a leg is.
type LegKind string

// The three kinds of leg.
const (
	RoadLeg    LegKind = "road"
	CircuitLeg LegKind = "circuit"
	StopLeg    LegKind = "stop"
)

// Leg is one part of a trip: a road, a circuit or a stop. The key that names it decides the kind.
type Leg struct {
	Kind LegKind `key:"-"`
	Name string  `key:"-"` // of the road or stop; for a circuit its id

	At Position `key:"-"` // in its trip's file; empty for a leg that no file holds

	// road
	Distance quantity.Length `need:"yes" range:"0 mi to 10000 mi" on:"road"`
	Surface  string          `on:"road"` // highway (default), mixed, winding, city
	Rain     quantity.Share  `on:"road circuit" range:"0 % to 100 %"`

	// circuit
	Days     int               `on:"circuit" range:"1 to 14"` // 1 unless given
	Date     time.Time         `on:"circuit"`                 // its first day, where it is fixed
	Sessions Sessions          `on:"circuit"`
	Pace     string            `on:"circuit"`                        // novice, intermediate, advanced, expert, or a share such as "80 %"; "" if by lap time
	LapTime  quantity.Duration `on:"circuit" range:"10 s to 60 min"` // the lap expected on this visit; without it or a pace, the circuit's
	CoolDown int               `on:"circuit" range:"0 to 5"`         // slow laps at the end of every session, beside the in lap
	Reverse  bool              `on:"circuit"`                        // driven the other way round
	Wet      bool              `on:"circuit"`                        // on a wet circuit

	// stop
	Can  []string          `need:"yes" on:"stop" words:"shop paddock parts"` // what can be done there: shop, paddock, parts
	Stay quantity.Duration `on:"stop" range:"0 h to 60 days"`                // how long the car stands there

	Fee quantity.Money `on:"road circuit stop" range:"0 to 1000000"` // entry fee of the visit, toll, what the stop charges

	Ambient quantity.Temperature `on:"road circuit stop" range:"-40 C to 60 C"` // 20 C unless given
}

// Sessions is a circuit day's running, written "5 x 20 min".
type Sessions struct {
	Count int               `json:"count"`
	Each  quantity.Duration `json:"each"`
}

// leg decodes a leg: the key road, circuit or stop names it and decides which
// other keys it may have.
func (d *decoder) leg(n *yaml.Node, path string, f field) {
	kinds := []string{string(RoadLeg), string(CircuitLeg), string(StopLeg)}
	const hint = "write {road: Home to the circuit, distance: 612 mi}, {circuit: heron-flats} or {stop: Workshop, can: [shop]}"
	if n.Kind != yaml.MappingNode {
		d.fail(n, "a leg is "+form(n), "a mapping with one of the keys "+nearest.OneOf(kinds), hint)
		return
	}
	leg := f.value.Addr().Interface().(*Leg)
	var given []string
	for key := range pairs(n) {
		if slices.Contains(kinds, key.Value) {
			given = append(given, key.Value)
		}
	}
	if len(given) != 1 {
		what := "a leg without a kind"
		if len(given) > 1 {
			what = "a leg that is " + given[0] + " and " + given[1]
		}
		d.fail(n, what, "one of the keys "+nearest.OneOf(kinds), hint)
		return
	}
	leg.Kind = LegKind(given[0])
	name := field{key: given[0], value: reflect.ValueOf(&leg.Name).Elem(), need: true}
	own, other := []field{name}, []field(nil)
	for _, f := range fieldsOf(f.value) {
		if slices.Contains(f.on, given[0]) {
			own = append(own, f)
		} else {
			other = append(other, f)
		}
	}
	rest := *n
	rest.Content = nil
	for key, value := range pairs(n) {
		if f := find(other, key.Value); f != nil {
			d.fail(key, fmt.Sprintf("key %q is not for a %s leg", key.Value, given[0]), nearest.OneOf(keys(own)), fmt.Sprintf("it belongs to a %s leg", nearest.OneOf(f.on)))
			continue
		}
		rest.Content = append(rest.Content, key, value)
	}
	d.mapping(&rest, path, own)
}
