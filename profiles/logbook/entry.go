// Package logbook keeps the owner's logbook.csv: dated rows of what was
// measured, replaced, found and driven. It forgives what spreadsheets do to a
// file, and never loses a row that was acknowledged. It knows the form of a
// row and nothing of the car.
package logbook

import (
	"slices"
	"strings"
	"time"

	"example.com/tripwear/profiles/nearest"
	"example.com/tripwear/profiles/quantity"
)

// What says what a row is about.
type What string

// The words of the column "what".
const (
	Tread      What = "tread"           // depth of one zone of a tire
	Pad        What = "pad"             // friction material at the thinnest end
	Thickness  What = "rotor thickness" // at its thinnest
	Face       What = "rotor face"
	Hub        What = "hub"
	OilLevel   What = "oil level"
	OilAdded   What = "oil added"
	OilChange  What = "oil change" // oil and filter
	Replaced   What = "replaced"   // a new part, its id as value
	Fitted     What = "fitted"     // a used part that lay aside, its id as value; what came off lies aside
	Repair     What = "repair"     // what wore or broke the parts at a place was put right: their history starts anew
	Change     What = "change"     // since then a wheel's parts wear otherwise, or do not although it was asked
	Gauge      What = "gauge"      // another one, or zeroed anew
	Inspection What = "inspection" // what was found, in words
	Probe      What = "probe"      // tread temperature of one zone
	Trip       What = "trip driven"
	Lining     What = "pad wear"
	Water      What = "fluid water"
	Color      What = "fluid color"
	Pedal      What = "pedal"
	Packed     What = "packed"   // a spare went into the trunk, its part's id as value
	Unpacked   What = "unpacked" // it is not in there
	Odometer   What = "odometer" // how far the car has come, nothing else

	TakenBack What = "taken back" // another row, by its number: it plays no part
)

// also are words that older logbooks have, and those that people say.
var also = map[string][]string{
	string(Replaced):  {"renewal"},
	string(Packed):    {"trunk", "boot"},
	string(Unpacked):  {"not packed"},
	string(Repair):    {"fix"},
	string(Tread):     {"tire tread"},
	string(Pad):       {"brake pad"},
	string(Thickness): {"rotor"},
	string(Color):     {"color"},
	"LF":              {"FL", "left front", "front left"},
	"RF":              {"FR", "right front", "front right"},
	"LR":              {"RL", "left rear", "rear left"},
	"RR":              {"right rear", "rear right"},
}

// OneOf is the one of some words, places among them, that somebody wrote in
// whatever spelling; "" where there is none.
func OneOf(words []string, written string) string {
	if word := nearest.Same(written, words); word != "" {
		return word
	}
	for _, word := range words {
		if nearest.Same(written, also[word]) != "" {
			return word
		}
	}
	return ""
}

// WordOf is the word of the column "what" that somebody wrote; false where
// there is none.
func WordOf(written string) (What, bool) {
	if s, ok := specOf(What(written)); ok {
		return s.what, true
	}
	w := What(OneOf(append(Words(), string(TakenBack)), written))
	return w, w != ""
}

// SplitWhat parts a row's word from the value that follows; what no row begins
// with is parted after its first word.
func SplitWhat(text string) (what, value string) {
	text = strings.TrimSpace(text)
	parts := strings.SplitN(text, " ", 4)
	for n := min(len(parts), 3); n > 0; n-- {
		if w, ok := WordOf(strings.Join(parts[:n], " ")); ok && w != TakenBack {
			return string(w), strings.TrimSpace(strings.Join(parts[n:], " "))
		}
	}
	what, value, _ = strings.Cut(text, " ")
	return what, value
}

// Finding is what an eye or a hand found on a part.
type Finding string

// The findings, each list from good to bad.
const (
	Sound Finding = "sound" // tire
	Cut   Finding = "cut"
	Cords Finding = "cords"

	Even      Finding = "even" // pads
	Taper     Finding = "taper"
	Indicator Finding = "indicator" // worn down to it
	Plate     Finding = "plate"     // worn down to the backing plate

	Smooth  Finding = "smooth" // rotor
	Checks  Finding = "checks" // heat checks that a fingernail does not catch
	Catches Finding = "catches"
	Edge    Finding = "edge" // a crack reaches it

	Tight Finding = "tight" // hub
	Play  Finding = "play"
	Rough Finding = "rough"
	Moved Finding = "moved" // the mark on its nut

	Full      Finding = "full" // oil on the dipstick
	BelowFull Finding = "below full"
	BelowAdd  Finding = "below add"

	Clear Finding = "clear" // brake fluid
	Amber Finding = "amber"
	Dark  Finding = "dark"

	Loose     Finding = "loose" // parts of limits alone, which can be sound too
	Split     Finding = "split"
	Leaking   Finding = "leaking"
	Stretched Finding = "stretched"
	Corroded  Finding = "corroded"

	Firm Finding = "firm" // brake pedal
	Long Finding = "long"
	Soft Finding = "soft"
)

// Mends says whether a repair may cure what was found without a new part. Common
// practice, no source.
func (f Finding) Mends() bool {
	return slices.Contains([]Finding{Taper, Play, Moved, Long, Soft}, f)
}

// What may have changed at a wheel.
const (
	Alignment = "alignment"
	Caliper   = "caliper"
	Nothing   = "nothing"
)

// Wheels are the places of the four wheels.
var Wheels = []string{"LF", "RF", "LR", "RR"}

// Fills are the places of oil and brake fluid: a new fill need not say which.
var Fills = []string{"engine", "system"}

// Single are the places where only one part of a kind can be.
var Single = slices.Concat(Fills, []string{"gearbox", "differential", "body", "driver"})

// Zones are the zones of a tread, from the car's side out.
var Zones = []string{"inside", "middle", "outside"}

// Axles are the places that stand for two wheels.
var Axles = map[string][]string{"front": {"LF", "RF"}, "rear": {"LR", "RR"}}

// spec is the form of a row of one kind.
type spec struct {
	what   What
	places []string // nil: none is written
	zones  bool
	kind   *quantity.Kind // of a measured value
	least  float64        // SI, of a measured value
	most   float64
	like   string    // an example of the value, for hints
	words  []string  // of a value in words
	finds  []Finding // what an eye or a hand may find, from good to bad
	form   form
	bench  bool // it may be of a part that lies aside: "RF of pads-track"
}

type form int

const (
	measure form = iota // a number with its unit
	word                // one of the words
	free                // text that must be there
	name                // an id that may be left out
	trip                // a trip's id, and its legs where not all were driven
	number              // of a row
	none
)

var (
	anywhere = slices.Concat(Wheels, []string{"front", "rear"}, Single)
	specs    = []spec{
		{what: Tread, bench: true, places: Wheels, zones: true, kind: quantity.Length(0).Kind(), most: 25e-3, like: "5/32 in"},
		{what: Pad, bench: true, places: Wheels, kind: quantity.Length(0).Kind(), most: 40e-3, like: "6.8 mm"},
		{what: Thickness, bench: true, places: Wheels, kind: quantity.Length(0).Kind(), least: 3e-3, most: 60e-3, like: "21.6 mm"},
		onBench(found(Face, Wheels, Smooth, Checks, Catches, Edge)),
		found(Hub, Wheels, Tight, Play, Rough, Moved),
		onBench(found(Lining, Wheels, Even, Taper, Indicator, Plate)),
		found(Color, []string{"system"}, Clear, Amber, Dark),
		found(Pedal, []string{"system"}, Firm, Long, Soft),
		found(OilLevel, []string{"engine"}, Full, BelowFull, BelowAdd),
		{what: OilAdded, places: []string{"engine"}, kind: quantity.Volume(0).Kind(), most: 30e-3, like: "0.5 qt"},
		{what: OilChange, places: []string{"engine"}, form: name},
		{what: Replaced, places: anywhere, form: name},
		{what: Fitted, places: slices.Concat(Wheels, []string{"front", "rear"}), form: name},
		{what: Repair, places: slices.Concat(Wheels, []string{"front", "rear", "system"}), form: word, words: []string{"tire", "pads", "rotors", "bearing", "fluid"}},
		{what: Change, places: slices.Concat(Wheels, []string{"front", "rear"}), form: word, words: []string{Alignment, Caliper, Nothing}},
		{what: Gauge, form: word, words: []string{string(Tread), string(Pad)}},
		{what: Inspection, bench: true, places: anywhere, form: free, finds: []Finding{Sound, Cut, Cords}},
		{what: Probe, places: Wheels, zones: true, kind: quantity.Temperature(0).Kind(), least: -40, most: 200, like: "185 F"},
		{what: Trip, form: trip},
		{what: Water, places: []string{"system"}, kind: quantity.Share(0).Kind(), most: 0.1, like: "1.2 %"},
		{what: Packed, form: name},
		{what: Unpacked, form: name},
		{what: Odometer, form: none},
		{what: TakenBack, form: number},
	}
)

func found(what What, places []string, finds ...Finding) spec {
	s := spec{what: what, places: places, form: word, finds: finds}
	for _, f := range finds {
		s.words = append(s.words, string(f))
	}
	return s
}

func onBench(s spec) spec {
	s.bench = true
	return s
}

// AddLook adds a row whose value is what an eye or a hand finds on a kind of part
// that is data alone, from good to bad.
func AddLook(what What, places []string, finds ...Finding) {
	specs = append(specs, found(what, places, finds...))
}

// Words lists the words of the column "what" that a person writes: a row is
// taken back by log undo.
func Words() []string {
	var out []string
	for _, s := range specs {
		if s.form != number {
			out = append(out, string(s.what))
		}
	}
	return out
}

// Values lists the words that a row's value is one of; none for the rest.
func Values(w What) []string { s, _ := specOf(w); return slices.Clone(s.words) }

// Findings lists what a row may find, from good to bad; none where it measures.
func Findings(w What) []Finding { s, _ := specOf(w); return slices.Clone(s.finds) }

// Zoned says whether a row is about one zone of a tread.
func Zoned(w What) bool { s, _ := specOf(w); return s.zones }

// Places lists where a row can be about; none where it names no place.
func Places(w What) []string { s, _ := specOf(w); return slices.Clone(s.places) }

func specOf(w What) (spec, bool) {
	for _, s := range specs {
		if s.what == w {
			return s, true
		}
	}
	return spec{}, false
}

// Entry is one row.
type Entry struct {
	Line      int             `json:"line"`   // in the file, the header is 1; 0 where not yet written
	Number    int             `json:"number"` // of the row in the file, 1 is the first after the header; 0 where not yet written
	Date      time.Time       `json:"date"`
	Odometer  quantity.Length `json:"odometer"`
	Mark      string          `json:"mark"` // the odometer as written
	What      What            `json:"what"`
	Place     string          `json:"place"` // LF RF LR RR, front, rear, one of Single or ""
	Part      string          `json:"part"`  // read while it lies aside for the place; "" for the one that is on
	Zone      string          `json:"zone"`  // inside, middle, outside or ""
	Value     float64         `json:"value"`
	Written   string          `json:"written"` // the value as written
	Text      string          `json:"text"`    // a value that is a word, an id or free text
	First     int             `json:"first"`   // first and last leg of a trip driven in part, as the plan counts them; 0 all
	Last      int             `json:"last"`
	Sessions  int             `json:"sessions"`  // of each circuit day driven, where not as many as the trip has; 0 as it has
	Wet       bool            `json:"wet"`       // its circuit days were, whatever the trip has
	Confirmed bool            `json:"confirmed"` // the owner said that an odd row is right
	Note      string          `json:"note"`
}

// Repairs says whether a row is a repair of a kind of part at a place.
func (e Entry) Repairs(kind, place string) bool {
	return e.What == Repair && e.Text == kind && slices.Contains(e.At(), place)
}

// At lists the places a row is about; an axle is its two wheels.
func (e Entry) At() []string {
	if pair, ok := Axles[e.Place]; ok {
		return pair
	}
	if e.Place == "" {
		return nil
	}
	return []string{e.Place}
}

// Where is the place of a row as it is written, with the part that lies aside.
func (e Entry) Where() string {
	if e.Part == "" {
		return e.Place
	}
	return e.Place + of + e.Part
}

// IsOf says whether a row may be of a part that is on, or lies aside, at its
// place: it names that one, or none.
func (e Entry) IsOf(part string) bool { return e.Part == "" || e.Part == part }

// Replaces says whether a row puts a new part on.
func (e Entry) Replaces() bool { return e.What == Replaced || e.What == OilChange }

// Facts is the row without its note and its spelling, to compare with ==.
func (e Entry) Facts() Entry {
	return Entry{
		Date: e.Date.UTC(), Odometer: e.Odometer, What: e.What, Place: e.Place, Part: e.Part,
		Zone: e.Zone, Value: e.Value, Text: e.Text, First: e.First, Last: e.Last, Sessions: e.Sessions, Wet: e.Wet,
	}
}

// Subject is what a row is about, such as tread at LR inside.
func (e Entry) Subject() string {
	words := string(e.What)
	if e.Place != "" {
		words += " at " + e.Where()
	}
	return strings.TrimSpace(words + " " + e.Zone)
}

// String is the row in a line for people.
func (e Entry) String() string {
	words := []string{e.Date.Format(time.DateOnly), "at " + e.Mark + ":", string(e.What)}
	for _, w := range []string{e.Where(), e.Zone, e.Written} {
		if w != "" {
			words = append(words, w)
		}
	}
	return strings.Join(words, " ")
}

// Fault is one thing wrong in the file or in a row to be added.
type Fault struct {
	Line, Column int    // 0 for a row that is not in the file yet
	Field        string // the column's name, "" for the whole row
	What         string
	Expected     string
	Hint         string
}
