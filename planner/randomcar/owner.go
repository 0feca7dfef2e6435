// Package randomcar draws owners for tests: a car folder with its parts, its
// readings, its logbook and a trip to plan, all of it accepted by profiles.
package randomcar

import (
	"fmt"
	"strings"
	"testing/fstest"
	"time"

	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
)

// Trip is the id of the trip to plan.
const Trip = "next"

// Owner is a car folder that can be changed and written again. Lengths are in
// mm, distances in miles.
type Owner struct {
	Classes  map[string]string // stock part by id in parts.yaml
	Odometer int               // as car.yaml has it
	Mass     int               // kg
	Power    int               // hp
	Tank     int               // liters
	Camber   [2]float64        // deg, front and rear
	Toe      [2]float64
	Fitted   []Fitted
	Shelf    []string
	Rows     []Row
	Depart   time.Time
	Legs     []Leg
	Fit      string // what the trip wants on at circuits, in its words; "" where nothing
	Run      string // the model's safety.run; "" for the stock one
}

// Fitted is an item of fitted.
type Fitted struct {
	Part     string
	At       []string
	Since    time.Time
	Odometer int
	Days     int
	Readings []Reading
	Built    string // a tire's week code; "" where it was not read
	Aside    bool   // it swaps with the one at its places
	Miles    int    // driven on it, where it lies aside
}

// Reading is what was measured at a place, or found there where it has no levels.
type Reading struct {
	Key, Place string
	Levels     []float64
	Word       logbook.Finding
}

// Row is a row of the logbook. Every one is confirmed.
type Row struct {
	Date               time.Time
	Odometer           int
	What               logbook.What
	Place, Zone, Value string
}

// Leg is a leg of the trip, in the order of its kinds: road, circuit, stop.
type Leg struct {
	Kind     profiles.LegKind
	Miles    int
	Surface  string
	Rain     int // %
	Circuit  string
	Days     int
	Sessions int
	Minutes  int
	Pace     string
	Wet      bool
	Can      string
	Ambient  int // C
}

// The day on which car.yaml was written. Rows come after it, and the trip
// leaves after the last one.
var written = time.Date(2027, 3, 1, 0, 0, 0, 0, time.UTC)

// Latest is the date and the odometer of the last thing known of the car.
func (o *Owner) Latest() (time.Time, int) {
	day, odometer := written, o.Odometer
	for _, r := range o.Rows {
		if r.Odometer > odometer {
			odometer = r.Odometer
		}
		if r.Date.After(day) {
			day = r.Date
		}
	}
	return day, odometer
}

// Clone is an owner that can be changed without the first one noticing.
func (o *Owner) Clone() *Owner {
	out := *o
	out.Rows, out.Legs = append([]Row(nil), o.Rows...), append([]Leg(nil), o.Legs...)
	out.Fitted = append([]Fitted(nil), o.Fitted...)
	for i := range out.Fitted {
		out.Fitted[i].Readings = append([]Reading(nil), o.Fitted[i].Readings...)
		for j := range out.Fitted[i].Readings {
			r := &out.Fitted[i].Readings[j]
			r.Levels = append([]float64(nil), r.Levels...)
		}
	}
	return &out
}

// Files is the folder as it stands on disk: a circuit and the part list of the
// juniper demo, with the owner's classes of parts, and a short circuit.
func (o *Owner) Files() (fstest.MapFS, error) {
	demo, err := profiles.Demo("juniper")
	if err != nil {
		return nil, err
	}
	out := fstest.MapFS{}
	for _, name := range []string{"parts.yaml", "circuits/quarry-ridge.yaml"} {
		data, err := demo.(interface{ ReadFile(string) ([]byte, error) }).ReadFile(name)
		if err != nil {
			return nil, err
		}
		out[name] = &fstest.MapFile{Data: data}
	}
	parts := string(out["parts.yaml"].Data)
	for id, class := range o.Classes {
		if strings.HasSuffix(id, second) {
			continue
		}
		before, after, _ := strings.Cut(parts, "- id: "+id+"\n")
		_, rest, _ := strings.Cut(after, "\n")
		parts = before + "- id: " + id + "\n    class: " + class + "\n" + rest
	}
	for _, f := range o.Fitted {
		if f.Aside {
			more := map[string]string{
				"tires-front-2": ", radius: 316 mm, tread_width: 195 mm", "tires-rear-2": ", radius: 314 mm, tread_width: 215 mm",
				"rotors-front-2": ", new_thickness: 22 mm, discard: 20.4 mm", "rotors-rear-2": ", new_thickness: 10 mm, discard: 8.4 mm",
			}[f.Part]
			parts += fmt.Sprintf("  - {id: %s, class: %s, name: second set%s}\n", f.Part, o.Classes[f.Part], more)
		}
	}
	out["parts.yaml"] = &fstest.MapFile{Data: []byte(parts)}
	out["circuits/heron-flats.yaml"] = &fstest.MapFile{Data: []byte(shortCircuit)}
	for name, text := range map[string]string{
		"car.yaml": o.car(), "logbook.csv": o.log(), "trips/" + Trip + ".yaml": o.trip(), "trips/day.yaml": drivenTrip,
	} {
		out[name] = &fstest.MapFile{Data: []byte(text)}
	}
	if o.Run != "" {
		out["model.yaml"] = &fstest.MapFile{Data: []byte("safety: {run: " + o.Run + "}\n")}
	}
	return out, nil
}

// shortCircuit has laps that are soon worked out: the same minutes on it are
// more of them.
const shortCircuit = `name: Heron Flats
corners:
  - {straight: 200 m, turn: 120 deg left, radius: 40 m}
  - {straight: 120 m, turn: 60 deg right, radius: 50 m}
  - {straight: 120 m, turn: 120 deg left, radius: 40 m}
  - {straight: 200 m, turn: 90 deg left, radius: 45 m}
  - {straight: 160 m, turn: 90 deg left, radius: 45 m}
`

// drivenTrip is what the logbook's trips were.
const drivenTrip = `trip: A day at the track
depart: 2027-03-01
legs:
  - {road: there, distance: 120 mi}
  - {circuit: heron-flats, sessions: 4 x 20 min, pace: intermediate}
  - {road: back, distance: 120 mi}
`

func (o *Owner) car() string {
	var b strings.Builder
	fmt.Fprintf(&b, `name: Random
odometer: %d mi
mass: %d kg
front_weight: 53 %%
wheelbase: 2510 mm
track: {front: 1490 mm, rear: 1500 mm}
cg_height: 480 mm
drive: rear
power: %d hp
drag_area: 0.66 m2
fuel: {tank: %d L, road: 27 mpg}
boot: {volume: 300 L, payload: 150 kg}
luggage: {volume: 95 L, mass: 40 kg}
alignment:
  LF: {camber: %[5]g deg, toe: %[6]g deg}
  RF: {camber: %[5]g deg, toe: %[6]g deg}
  LR: {camber: %[7]g deg, toe: %[8]g deg}
  RR: {camber: %[7]g deg, toe: %[8]g deg}
costs: {currency: USD, stranded: 1800, hour: 25, shop: 130, visit: 40}
`, o.Odometer, o.Mass, o.Power, o.Tank, o.Camber[0], o.Toe[0], o.Camber[1], o.Toe[1])
	if len(o.Shelf) > 0 {
		b.WriteString("shelf:\n")
	}
	for _, part := range o.Shelf {
		fmt.Fprintf(&b, "  - {part: %s, quantity: 1}\n", part)
	}
	b.WriteString("fitted:\n")
	for _, f := range o.Fitted {
		fmt.Fprintf(&b, "  - part: %s\n    at: [%s]\n    since: {date: %s, odometer: %d mi}\n", f.Part, strings.Join(f.At, ", "), f.Since.Format(time.DateOnly), f.Odometer)
		if f.Days > 0 {
			fmt.Fprintf(&b, "    circuit_days: %d\n", f.Days)
		}
		if f.Aside {
			fmt.Fprintf(&b, "    aside: true\n    distance: %d mi\n", f.Miles)
		}
		if f.Built != "" {
			fmt.Fprintf(&b, "    built: {%s: %s, %s: %s}\n", f.At[0], f.Built, f.At[1], f.Built)
		}
		key := ""
		for _, r := range f.Readings {
			if r.Place == "" {
				fmt.Fprintf(&b, "    %s: %s\n", r.Key, r.Word)
				continue
			}
			if r.Key != key {
				fmt.Fprintf(&b, "    %s:\n", r.Key)
			}
			key = r.Key
			fmt.Fprintf(&b, "      %s: %s\n", r.Place, r.text())
		}
	}
	return b.String()
}

func (r Reading) text() string {
	var levels []string
	for _, l := range r.Levels {
		unit := "mm"
		if r.Key == "used" {
			unit = "%"
		}
		levels = append(levels, fmt.Sprintf("%.2f %s", l, unit))
	}
	switch len(levels) {
	case 0:
		return string(r.Word)
	case 1:
		return levels[0]
	}
	return "[" + strings.Join(levels, ", ") + "]"
}

func (o *Owner) log() string {
	var b strings.Builder
	b.WriteString(strings.Join(logbook.Columns, ",") + "\n")
	for _, r := range o.Rows {
		fmt.Fprintf(&b, "%s,%d mi,%s,%s,%s,%s,yes,\n", r.Date.Format(time.DateOnly), r.Odometer, r.What, r.Place, r.Zone, r.Value)
	}
	return b.String()
}

func (o *Owner) trip() string {
	var b strings.Builder
	fmt.Fprintf(&b, "trip: Next\ndepart: %s\n%slegs:\n", o.Depart.Format(time.DateOnly), o.Fit)
	for i, l := range o.Legs {
		switch l.Kind {
		case profiles.RoadLeg:
			fmt.Fprintf(&b, "  - {road: road %d, distance: %d mi, surface: %s, rain: %d %%, ambient: %d C}\n", i+1, l.Miles, l.Surface, l.Rain, l.Ambient)
		case profiles.CircuitLeg:
			fmt.Fprintf(&b, "  - {circuit: %s, days: %d, sessions: %d x %d min, pace: %s, wet: %t, ambient: %d C}\n", l.Circuit, l.Days, l.Sessions, l.Minutes, l.Pace, l.Wet, l.Ambient)
		case profiles.StopLeg:
			fmt.Fprintf(&b, "  - {stop: stop %d, can: [%s]}\n", i+1, l.Can)
		}
	}
	return b.String()
}
