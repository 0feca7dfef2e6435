package profiles

import (
	"fmt"
	"reflect"
	"slices"
	"time"

	"go.yaml.in/yaml/v4"

	"example.com/tripwear/profiles/decode"
	"example.com/tripwear/profiles/nearest"
	"example.com/tripwear/profiles/quantity"
)

// Trip is an itinerary.
type Trip struct {
	ID     string    `key:"-"`
	Name   string    `need:"yes" key:"trip" doc:"what you call the trip"`
	Depart time.Time `need:"yes" doc:"the day it leaves"`
	Fit    Outfit    `doc:"what is on at circuits, where sets swap and the leg does not say"`
	Legs   []Leg     `need:"yes"`
	// DrivingDay is the most road driving in a day; the model's unless given.
	DrivingDay quantity.Duration `range:"1 h to 24 h" doc:"most road driving in a day; left out, about 9 h"`

	Under *Under `key:"-"` // of the rest of a trip: where it goes on from; nil at home
}

// Under is where a trip that is under way goes on from.
type Under struct {
	Place   string   // the leg that was driven last, or is being driven
	Can     []string // what can be done there, as at a stop
	Hour    float64  // h since the morning
	Driving float64  // h on the road today
	Circuit bool     // the day was spent on a circuit
	Left    Outfit   // what was on when it left, where sets swap
}

// LegKind says what a leg is.
type LegKind string

// The three kinds of leg.
const (
	RoadLeg    LegKind = "road"
	CircuitLeg LegKind = "circuit"
	StopLeg    LegKind = "stop"
)

// Fields lists the keys of a kind of leg; the first names it.
func (k LegKind) Fields() []decode.Field {
	var leg Leg
	name := decode.Field{Key: string(k), Value: reflect.ValueOf(&leg.Name).Elem(), Need: true}
	return slices.Insert(slices.DeleteFunc(decode.FieldsIn(&leg), func(f decode.Field) bool { return !slices.Contains(f.On, string(k)) }), 0, name)
}

// Leg is one part of a trip: a road, a circuit or a stop. The key that names it decides the kind.
type Leg struct {
	Kind LegKind `key:"-"`
	Name string  `key:"-"` // of the road or stop; for a circuit its id

	At Position `key:"-"` // in its trip's file; empty for a leg that no file holds

	// road
	Distance quantity.Length `need:"yes" range:"0 mi to 10000 mi" on:"road" doc:"how far"`
	Surface  string          `on:"road" doc:"highway, mixed, winding or city; left out, highway"`
	Rain     quantity.Share  `on:"road circuit" range:"0 % to 100 %" doc:"the chance of it"`

	Fit Outfit `on:"road circuit" doc:"what is on, where sets swap"`

	// circuit
	Days     int               `on:"circuit" range:"1 to 14" doc:"circuit days; left out, 1"`
	Gone     int               `key:"-"` // days of the visit before these
	After    int               `key:"-"` // and after them, which are a leg of their own
	Date     time.Time         `on:"circuit" doc:"its first day, where it is fixed"`
	Sessions Sessions          `on:"circuit" doc:"of a day, such as 5 x 20 min"`
	Pace     string            `on:"circuit" doc:"novice, intermediate, advanced, expert, or a share of grip such as 80 %"`
	LapTime  quantity.Duration `on:"circuit" range:"10 s to 60 min" doc:"the lap expected on this visit; without it or a pace, the circuit's"`
	CoolDown int               `on:"circuit" range:"0 to 5" doc:"slow laps at the end of every session, beside the in lap"`
	Reverse  bool              `on:"circuit" doc:"true where it is driven the other way round"`
	Wet      bool              `on:"circuit" doc:"true on a wet circuit"`

	// stop
	Can  []string          `need:"yes" on:"stop" words:"shop paddock parts" doc:"what can be done there"`
	Stay quantity.Duration `on:"stop" range:"0 h to 60 days" doc:"how long the car stands there"`
	Open Hours             `on:"stop" doc:"when the work can be done; left out, always"`

	Fee quantity.Money `on:"road circuit stop" range:"0 to 1000000" doc:"the entry fee, a toll, or what a stop charges"`

	Ambient quantity.Temperature `on:"road circuit stop" range:"-40 C to 60 C" doc:"of the air; left out, 20 C"`
}

// Sessions is a circuit day's running, written "5 x 20 min".
type Sessions struct {
	Count int               `json:"count"`
	Each  quantity.Duration `json:"each"`
}

// Like is how the sessions of a day are written.
func (Sessions) Like() string { return "sessions such as 5 x 20 min" }

// Read reads sessions.
func (s *Sessions) Read(text string, _ decode.Field) *quantity.Error {
	count, each, err := quantity.ParseSessions(text)
	if err == nil && (count > 20 || each < 300 || each > 8*3600) {
		err = &quantity.Error{What: text + " is out of range", Expected: "1 to 20 sessions of 5 min to 8 h"}
	}
	if err == nil {
		*s = Sessions{count, each}
	}
	return err
}

// Hours are when a stop is open.
type Hours struct{ Spans []quantity.Span }

// Like is how opening hours are written.
func (Hours) Like() string { return quantity.HoursLike }

// Read reads opening hours.
func (h *Hours) Read(text string, _ decode.Field) (err *quantity.Error) {
	h.Spans, err = quantity.ParseHours(text)
	return err
}

// Decode decodes a leg: the key road, circuit or stop names it and decides which
// other keys it may have.
func (leg *Leg) Decode(d *decode.Decoder, n *yaml.Node, path string, _ decode.Field) {
	kinds := []string{string(RoadLeg), string(CircuitLeg), string(StopLeg)}
	const hint = "write {road: Home to the circuit, distance: 612 mi}, {circuit: heron-flats} or {stop: Workshop, can: [shop]}"
	if n.Kind != yaml.MappingNode {
		d.Fail(n, "a leg is "+decode.Form(n), "a mapping with one of the keys "+nearest.OneOf(kinds), hint)
		return
	}
	var given []string
	for key := range decode.Pairs(n) {
		if slices.Contains(kinds, key.Value) {
			given = append(given, key.Value)
		}
	}
	if len(given) != 1 {
		what := "a leg without a kind"
		if len(given) > 1 {
			what = "a leg that is " + given[0] + " and " + given[1]
		}
		d.Fail(n, what, "one of the keys "+nearest.OneOf(kinds), hint)
		return
	}
	leg.Kind = LegKind(given[0])
	name := decode.Field{Key: given[0], Value: reflect.ValueOf(&leg.Name).Elem(), Need: true}
	own, other := []decode.Field{name}, []decode.Field(nil)
	for _, f := range decode.FieldsIn(leg) {
		if slices.Contains(f.On, given[0]) {
			own = append(own, f)
		} else {
			other = append(other, f)
		}
	}
	rest := *n
	rest.Content = nil
	for key, value := range decode.Pairs(n) {
		if f := decode.Find(other, key.Value); f != nil {
			d.Fail(key, fmt.Sprintf("key %q is not for a %s leg", key.Value, given[0]), nearest.OneOf(decode.Keys(own)), fmt.Sprintf("it belongs to a %s leg", nearest.OneOf(f.On)))
			continue
		}
		rest.Content = append(rest.Content, key, value)
	}
	d.Mapping(&rest, path, own)
}
