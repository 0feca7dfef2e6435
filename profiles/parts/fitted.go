package parts

import (
	"cmp"
	"maps"
	"reflect"
	"slices"
	"time"

	"example.com/tripwear/profiles/decode"
	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/quantity"
)

// Fitted is a part on the car, with what was last measured of it.
type Fitted struct {
	Part  string   `need:"yes" doc:"its id in the list of parts, or a stock part"`
	At    []string `need:"yes" from:"kinds" doc:"its places: LF RF LR RR, engine, system, gearbox, differential, body, driver"`
	Since struct {
		Date     time.Time       `unknown:"written" doc:"when it went on; where unknown, oil and fluid count as five years old"`
		Odometer quantity.Length `need:"yes" range:"0 mi to 2000000 mi" unknown:"written" doc:"what the odometer said then; where unknown, any of the car's miles may be on it, and a hub bearing has them all"`

		Undated   bool `key:"-"` // the owner does not know the day
		Unmetered bool `key:"-"` // nor the odometer, which is then 0: the part may be as old as the car
	} `need:"yes"`
	Aside       bool            `doc:"off the car: it swaps with the one at the same places"`
	Distance    quantity.Length `range:"0 mi to 2000000 mi" doc:"driven on it so far, where it was off the car at times"`
	CircuitDays quantity.Number `range:"0 to 1000" doc:"circuit days driven on it so far"`
	HeatCycles  quantity.Number `range:"0 to 10000" doc:"sessions on circuit so far; left out, the usual ones of its circuit days"`

	Tread     map[string][]quantity.Length `from:"kinds" range:"0 mm to 25 mm" doc:"inside, middle, outside"`
	Pad       map[string]quantity.Length   `from:"kinds" range:"0 mm to 40 mm" doc:"friction material at the thinnest end"`
	Thickness map[string]quantity.Length   `from:"kinds" range:"3 mm to 60 mm" doc:"of the rotor, at its thinnest"`
	Used      map[string]quantity.Share    `from:"kinds" range:"0 % to 1000 %" doc:"crack life of a rotor, or life of a hub; left out, it is estimated"`
	Grade     string                       `words:"dot-3 dot-4 dot-5.1 unknown" doc:"of the brake fluid that is in now, where the part is what goes in next; unknown is taken as DOT 3"`
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

	Logged bool              `key:"-"` // the logbook put it on new; CircuitDays and car.yaml know nothing of it
	Partly bool              `key:"-"` // Distance is given: it was off the car at times
	Lines  map[string]string `key:"-"` // by key, or key and place: where the car's file gives it
	Seen   map[string]Seen   `key:"-"` // by SeenKey: when the logbook's readings were taken; those of car.yaml are of its odometer
}

// Seen is when something was read or found.
type Seen struct {
	Date     time.Time
	Odometer quantity.Length
	Where    string // the row of the logbook
	New      bool   // not read: new when it went on
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
	_, r, _ := ReadingOf(row)
	if r.Key == "" {
		return ""
	}
	switch v := e.Value(r.Key).Interface().(type) {
	case map[string]logbook.Finding:
		return v[place]
	case logbook.Finding:
		return v
	}
	return ""
}

// Note keeps where the car's file gives a reading or a finding.
func (e *Fitted) Note(key string, at decode.Position) {
	if at.File != "" {
		e.Lines = With(e.Lines, key, at.Told())
	}
}

// Source is where a reading or a finding is written; "" where that is not known.
func (e *Fitted) Source(row logbook.What, place, zone string) string {
	if seen, ok := e.Seen[SeenKey(row, place, zone)]; ok {
		return seen.Where
	}
	_, r, _ := ReadingOf(row)
	return cmp.Or(e.Lines[r.Key+" "+place], e.Lines[r.Key])
}

// Value is the field that has a key.
func (e *Fitted) Value(key string) reflect.Value {
	return reflect.ValueOf(e).Elem().Field(fittedField[key])
}

// Only is a copy of the entry at some of its places.
func (e Fitted) Only(at []string) Fitted {
	e.At, e.Seen = slices.Clone(at), maps.Clone(e.Seen)
	for _, key := range FittedKeys() {
		held := e.Value(key)
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

// Words gives a key its words: the places of the kinds that have it, and what
// may be found on those.
func (e Fitted) Words(key string) (words, each []string) {
	finds := KindInfo{}.Finds(key)
	switch {
	case key == "at":
		return Places(), nil // where any kind may be
	case e.Value(key).Kind() != reflect.Map:
		return finds, nil
	}
	for _, k := range kinds {
		if k.Has(key) {
			words = Union(words, k.Places())
		}
	}
	return words, finds
}

// Zone puts a reading of one zone beside the others, which are new where they
// were never read.
func (e *Fitted) Zone(r logbook.Entry, depths []quantity.Length, unused quantity.Length) []quantity.Length {
	depths = slices.Clone(depths)
	if len(depths) != len(logbook.Zones) {
		depths = slices.Repeat([]quantity.Length{unused}, len(logbook.Zones))
		for _, z := range logbook.Zones {
			if key := SeenKey(r.What, r.Place, z); z != r.Zone {
				e.Seen[key] = Seen{Date: e.Since.Date, Odometer: e.Since.Odometer, New: true}
			}
		}
	}
	depths[slices.Index(logbook.Zones, r.Zone)] = quantity.Length(r.Value)
	return depths
}

// Has says whether car.yaml has what a row of the logbook reads.
func (e *Fitted) Has(r logbook.Entry) bool {
	if _, logged := e.Seen[SeenKey(r.What, r.Place, r.Zone)]; logged {
		return false
	}
	_, reading, _ := ReadingOf(r.What)
	v := e.Value(reading.Key)
	if v.Kind() == reflect.Map {
		return v.MapIndex(reflect.ValueOf(r.Place)).IsValid()
	}
	return !v.IsZero()
}

// With sets a key of a map that may not be there yet.
func With[V any](m map[string]V, key string, v V) map[string]V {
	if m == nil {
		m = map[string]V{}
	}
	m[key] = v
	return m
}
