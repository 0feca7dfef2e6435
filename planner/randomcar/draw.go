package randomcar

import (
	"fmt"
	"slices"
	"strings"

	"pgregory.net/rapid"

	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
)

// classes are the stock parts that a part of the list may be.
var classes = map[string][]string{
	"tires-front":  {"tire-200", "tire-100", "tire-300", "tire-400", "tire-500"},
	"tires-rear":   {"tire-200", "tire-100", "tire-300", "tire-400", "tire-500"},
	"pads-front":   {"pads-street-performance-front", "pads-street-front", "pads-track-front"},
	"pads-rear":    {"pads-street-performance-rear", "pads-street-rear", "pads-track-rear"},
	"rotors-front": {"rotors-plain-front", "rotors-high-carbon-front", "rotors-slotted-front", "rotors-drilled-front"},
	"rotors-rear":  {"rotors-plain-rear", "rotors-high-carbon-rear", "rotors-slotted-rear", "rotors-drilled-rear"},
	"fluid":        {"fluid-dot-4", "fluid-dot-3", "fluid-dot-5.1"},
}

// fitting is how a part of the list is fitted and read.
type fitting struct {
	part        string
	at          []string
	key         string // of its levels; "" where none is read
	values      int
	least, most float64 // level
	finds       string  // key of what is found
	row         logbook.What
}

var fittings = []fitting{
	{"tires-front", logbook.Axles["front"], "tread", 3, 1.2, 5.5, "found", logbook.Inspection},
	{"tires-rear", logbook.Axles["rear"], "tread", 3, 1.2, 5.5, "found", logbook.Inspection},
	{"pads-front", logbook.Axles["front"], "pad", 1, 1.5, 11, "lining", logbook.Lining},
	{"pads-rear", logbook.Axles["rear"], "pad", 1, 1.5, 9, "lining", logbook.Lining},
	{"rotors-front", logbook.Axles["front"], "thickness", 1, 20.2, 22, "face", logbook.Face},
	{"rotors-rear", logbook.Axles["rear"], "thickness", 1, 8.2, 10, "face", logbook.Face},
	{"hub-front", []string{"LF"}, "used", 1, 0, 90, "feel", logbook.Hub},
	{"hub-front", []string{"RF"}, "used", 1, 0, 90, "feel", logbook.Hub},
	{"hub-rear", []string{"LR"}, "used", 1, 0, 90, "feel", logbook.Hub},
	{"hub-rear", []string{"RR"}, "used", 1, 0, 90, "feel", logbook.Hub},
	{part: "oil", at: []string{"engine"}},
	{part: "fluid", at: []string{"system"}},
}

// counted are stock parts with limits alone, on some cars.
var counted = []fitting{
	{part: "wheel-studs", at: logbook.Axles["front"]}, {part: "hub-flange", at: []string{"RF"}},
	{part: "spark-plugs", at: []string{"engine"}}, {part: "coolant", at: []string{"engine"}},
	{part: "gearbox-oil", at: []string{"gearbox"}}, {part: "brake-hoses", at: logbook.Axles["rear"]},
}

// levelRows are the rows that measure a level, by the key of the reading.
var levelRows = map[string]logbook.What{"tread": logbook.Tread, "pad": logbook.Pad, "thickness": logbook.Thickness}

// Draw draws an owner, with a logbook of up to the given number of rows.
func Draw(t *rapid.T, rows int) *Owner {
	o := &Owner{
		Classes:  map[string]string{},
		Odometer: 50_000 + draw(t, "odometer", 0, 100_000),
		Mass:     draw(t, "mass", 1000, 1800), Power: draw(t, "power", 100, 400), Tank: draw(t, "tank", 40, 80),
		Camber: [2]float64{-float64(draw(t, "front camber", 0, 6)) / 2, -float64(draw(t, "rear camber", 0, 6)) / 2},
		Toe:    [2]float64{float64(draw(t, "front toe", -2, 2)) / 10, float64(draw(t, "rear toe", -2, 2)) / 10},
	}
	for _, id := range []string{"tires-front", "tires-rear", "pads-front", "pads-rear", "rotors-front", "rotors-rear", "fluid"} {
		o.Classes[id] = rapid.SampledFrom(classes[id]).Draw(t, id)
		if rapid.IntRange(0, 7).Draw(t, "on the shelf") == 7 {
			o.Shelf = append(o.Shelf, id)
		}
	}
	for _, f := range fittings {
		o.Fitted = append(o.Fitted, drawFitted(t, o, f))
	}
	for range draw(t, "rows", 0, rows) {
		o.Rows = append(o.Rows, drawRow(t, o))
	}
	day, _ := o.Latest()
	o.Depart = day.AddDate(0, 0, 20)
	for range draw(t, "legs", 1, 12) {
		o.Legs = append(o.Legs, drawLeg(t))
	}
	if !slices.ContainsFunc(o.Legs, func(l Leg) bool { return l.Kind != profiles.StopLeg }) {
		o.Legs = append(o.Legs, Leg{Kind: profiles.RoadLeg, Miles: 100, Surface: "highway", Ambient: 20})
	}
	for _, f := range counted {
		if draw(t, "is on the car", 0, 2) == 2 {
			e := drawFitted(t, o, f)
			e.Since, e.Odometer, e.Days = e.Since.AddDate(0, 0, -draw(t, "more days on", 0, 2000)), e.Odometer-draw(t, "more miles on", 0, 30_000), draw(t, "days on it", 0, 26)
			o.Fitted = append(o.Fitted, e)
		}
	}
	drawAside(t, o)
	return o
}

// second ends the id of a set that lies aside.
const second = "-2"

// drawAside gives some owners a second set of an axle, aside: for circuits, for all
// of the trip or for none of it, perhaps on the car by the logbook, or read there.
func drawAside(t *rapid.T, o *Owner) {
	f := fittings[draw(t, "second set", 0, 11)%6]
	if draw(t, "has one", 0, 2) < 2 {
		return
	}
	first := f.part
	f.part += second
	e := drawFitted(t, o, f)
	e.Aside, e.Miles = true, draw(t, "miles on the second set", 0, 9000)
	o.Classes[f.part] = rapid.SampledFrom(classes[first]).Draw(t, f.part)
	o.Fitted = append(o.Fitted, e)
	axle := map[string]string{"LF": "front", "LR": "rear"}[f.at[0]]
	if draw(t, "goes on", 0, 3) == 3 {
		day, odometer := o.Latest()
		o.Rows = append(o.Rows, Row{Date: day, Odometer: odometer + draw(t, "miles before it goes on", 0, 300), What: logbook.Fitted, Place: axle, Value: f.part})
	}
	if what := levelRows[f.key]; draw(t, "is read on the bench", 0, 2) == 2 {
		day, odometer := o.Latest()
		r := Row{Date: day, Odometer: odometer, What: what, Place: f.at[0] + " of " + f.part, Value: fmt.Sprintf("%.2f mm", level(t, f, "on the bench"))}
		if f.values == 3 {
			r.Zone = rapid.SampledFrom(logbook.Zones).Draw(t, "zone read")
		}
		o.Rows = append(o.Rows, r)
	}
	if wants := draw(t, "wants on", 0, 2); wants > 0 {
		kind, _, _ := strings.Cut(first, "-")
		o.Fit = fmt.Sprintf("fit: {%s %s: %s}\n", axle, kind, []string{first, f.part}[wants-1])
	}
}

func draw(t *rapid.T, what string, least, most int) int {
	return rapid.IntRange(least, most).Draw(t, what)
}

func drawFitted(t *rapid.T, o *Owner, f fitting) Fitted {
	out := Fitted{
		Part: f.part, At: f.at, Since: written.AddDate(0, 0, -draw(t, "days on", 0, 900)),
		Odometer: o.Odometer - draw(t, "miles on", 0, 9000), Days: draw(t, "circuit days", 0, 6),
	}
	if f.key == "tread" && draw(t, "week code", 0, 3) == 3 {
		out.Built = fmt.Sprintf("%02d%02d", draw(t, "week", 1, 52), draw(t, "year", 16, 26))
	}
	if f.key != "" && draw(t, "is read", 0, 3) > 0 {
		for _, place := range f.at {
			r := Reading{Key: f.key, Place: place}
			level := level(t, f, "level")
			for range f.values {
				r.Levels = append(r.Levels, clamp(f, level+float64(draw(t, "uneven", -3, 3))/10))
			}
			out.Readings = append(out.Readings, r)
		}
	}
	if f.finds != "" && draw(t, "is looked at", 0, 11) == 11 {
		finds := logbook.Findings(f.row)
		out.Readings = append(out.Readings, Reading{Key: f.finds, Place: f.at[0], Word: finds[draw(t, "found", 0, len(finds)-2)]})
	}
	return out
}

// level draws a level, nearer to new than to worn out.
func level(t *rapid.T, f fitting, what string) float64 {
	return f.most - (f.most-f.least)*float64(draw(t, what, 0, 100))/100
}

func clamp(f fitting, level float64) float64 { return min(f.most, max(f.least, level)) }

// drawRow is what happens next: a trip, or something read, found or done at
// most a few hundred miles further on.
func drawRow(t *rapid.T, o *Owner) Row {
	day, odometer := o.Latest()
	r := Row{Date: day.AddDate(0, 0, draw(t, "days", 0, 20)), Odometer: odometer + draw(t, "miles", 0, 400)}
	f := fittings[draw(t, "part", 0, 9)]
	r.Place = rapid.SampledFrom(f.at).Draw(t, "place")
	switch draw(t, "what", 0, 7) {
	case 0:
		r.What, r.Place, r.Value, r.Odometer = logbook.Trip, "", "day", max(r.Odometer, odometer+260)
	case 1:
		r.What, r.Place = logbook.Odometer, ""
	case 2:
		r.What, r.Value = logbook.Replaced, f.part
		if len(f.at) == 2 {
			r.Place = map[string]string{"LF": "front", "LR": "rear"}[f.at[0]]
		}
	case 3:
		r.What, r.Value = logbook.Repair, map[string]string{"found": "tire", "lining": "pads", "face": "rotors", "feel": "bearing"}[f.finds]
	case 4:
		finds := logbook.Findings(f.row)
		r.What, r.Value = f.row, string(finds[max(0, draw(t, "finds", -6, len(finds)-1))])
	}
	if r.What == "" {
		return o.read(t, f, r)
	}
	return r
}

// read completes a row that measures: what was read last, less some wear, with
// the gauge's noise and now and then a wrong figure.
func (o *Owner) read(t *rapid.T, f fitting, r Row) Row {
	what, ok := levelRows[f.key]
	if !ok {
		r.What, r.Place = logbook.Odometer, ""
		return r
	}
	r.What = what
	if f.values == 3 {
		r.Zone = rapid.SampledFrom(logbook.Zones).Draw(t, "zone")
	}
	v := o.last(f, r) + float64(draw(t, "change", -8, 2))/10*(f.most-f.least)/10
	if draw(t, "outlier", 0, 15) == 15 {
		v = level(t, f, "wrong")
	}
	r.Value = fmt.Sprintf("%.2f mm", clamp(f, v))
	return r
}

// last is the last level that was read where a row reads.
func (o *Owner) last(f fitting, r Row) float64 {
	for _, old := range slices.Backward(o.Rows) {
		if old.What == r.What && old.Place == r.Place && old.Zone == r.Zone {
			var v float64
			fmt.Sscanf(old.Value, "%f", &v)
			return v
		}
	}
	for _, e := range o.Fitted {
		for _, had := range e.Readings {
			if had.Key == f.key && had.Place == r.Place {
				return had.Levels[max(0, slices.Index(logbook.Zones, r.Zone))]
			}
		}
	}
	return f.most
}

func drawLeg(t *rapid.T) Leg {
	l := Leg{Ambient: draw(t, "ambient", 0, 35)}
	switch draw(t, "leg", 0, 5) {
	case 0, 1, 2:
		l.Kind, l.Miles, l.Rain = profiles.RoadLeg, draw(t, "distance", 5, 900), 10*max(0, draw(t, "rain", -10, 10))
		l.Surface = rapid.SampledFrom([]string{"highway", "mixed", "winding", "city"}).Draw(t, "surface")
	case 3, 4:
		l.Kind, l.Days, l.Sessions, l.Minutes = profiles.CircuitLeg, draw(t, "days there", 1, 3), draw(t, "sessions", 1, 6), draw(t, "minutes", 15, 25)
		l.Circuit = rapid.SampledFrom([]string{"heron-flats", "quarry-ridge"}).Draw(t, "circuit")
		l.Pace = rapid.SampledFrom([]string{"novice", "intermediate", "advanced"}).Draw(t, "pace")
		l.Wet = draw(t, "wet", 0, 5) == 5
	case 5:
		l.Kind, l.Can = profiles.StopLeg, rapid.SampledFrom([]string{"shop", "paddock", "\"shop\", parts"}).Draw(t, "can")
	}
	return l
}
