package plan

import (
	"example.com/tripwear/planner/kind"
	"example.com/tripwear/profiles"
	"example.com/tripwear/wearmodel/duty"
)

// How a circuit is known.
const (
	ByTrack   = "recorded track"
	ByMap     = "map"
	ByCorners = "corners"
	BySummary = "summary"
)

// Circuit is what a circuit asks of the folder's car and what it takes from
// the parts fitted. All measures are SI, shares 0-1.
type Circuit struct {
	ID      string `json:"id"`
	Name    string `json:"name"`
	Car     string `json:"car"`
	Known   string `json:"known"` // ByTrack, ByMap, ByCorners or BySummary
	Reverse bool   `json:"reverse"`
	Wet     bool   `json:"wet"`

	Meters    float64 `json:"metres"`
	LapTime   float64 `json:"lap_time"`
	Pace      float64 `json:"pace"`      // share of grip
	Told      *Told   `json:"told"`      // where a lap time alone tells pace and circuit
	Direction string  `json:"direction"` // clockwise, anticlockwise, both ways (it crosses itself), "" where unknown
	LeftShare float64 `json:"left_share"`
	ShareSD   float64 `json:"share_sd"` // one standard deviation of it; 0 where it is given, not found
	TopSpeed  float64 `json:"top_speed"`
	MinSpeed  float64 `json:"min_speed"`

	Turns         []Turn `json:"turns"`    // none by summary
	Brakings      []Stop `json:"brakings"` // none by summary
	HeavyBrakings int    `json:"heavy_brakings"`

	Braking   float64 `json:"braking"`   // share of the lap's time on the brakes
	OnPower   float64 `json:"on_power"`  // share of it under power
	Cornering float64 `json:"cornering"` // share of it with more than 0.1 g across, whatever else is done

	Places   [4]PlaceLoad      `json:"places"`
	Against  Ratios            `json:"against"`
	Wear     []SetWear         `json:"wear"`
	Sessions profiles.Sessions `json:"sessions"` // that the wear by the hour is for
	Laps     float64           `json:"laps"`     // hot laps in a session

	Track *Track         `json:"track"` // where it was found
	Map   *Map           `json:"map"`   // likewise
	View  View           `json:"view"`  // without points by summary
	Segs  []duty.Segment `json:"segs"`

	Harder  float64 `json:"harder"`   // by what factor it takes more braking than a lap of Segs: a recording smooths its corners
	ByPower float64 `json:"by_power"` // the share that its braking gains where car.yaml has a tenth more power; 0 where no recorded lap tells the pace
	BrakeSD float64 `json:"brake_sd"` // one standard deviation of ln of its braking energy; 0 where it is given, not found
}

// Turn is one corner as the car drives it.
type Turn struct {
	At     float64 `json:"at"` // m from the start to where it begins
	Left   bool    `json:"left"`
	Angle  float64 `json:"angle"`  // rad
	Radius float64 `json:"radius"` // m, of its tightest part
	Apex   float64 `json:"apex"`   // m/s, slowest in it
}

// Stop is one heavy use of the brakes.
type Stop struct {
	At     float64 `json:"at"` // m from the start
	From   float64 `json:"from"`
	To     float64 `json:"to"`     // m/s
	Decel  float64 `json:"decel"`  // m/s2
	Energy float64 `json:"energy"` // J into the brakes
}

// PlaceLoad is what one wheel carries on a lap.
type PlaceLoad struct {
	Place string  `json:"place"`
	Mean  float64 `json:"mean"` // N, over the lap's time
	Most  float64 `json:"most"` // N
	Slip  float64 `json:"slip"` // share of the four wheels' tread wear
	Hub   float64 `json:"hub"`  // share of the four hubs' wear
}

// Ratios compare a km of the circuit with one of the stock reference lap, by
// the same car at the same pace.
type Ratios struct {
	Brakes  float64 `json:"brakes"`
	Tread   float64 `json:"tread"`
	Lateral float64 `json:"lateral"`
	Hub     float64 `json:"hub"`
}

// SetWear is what the circuit takes from a set's point that goes first.
type SetWear struct {
	ID      string        `json:"id"`
	Name    string        `json:"name"`
	Kind    profiles.Kind `json:"kind"`
	Where   string        `json:"where"`    // place and zone
	Measure kind.Measure  `json:"measure"`  // of the figures
	PerLap  float64       `json:"per_lap"`  // a hot lap, with its part of the out and in laps
	PerHour float64       `json:"per_hour"` // an hour of sessions
	Share   float64       `json:"share"`    // of the life from new to the limit, an hour
}

// Track is what was found in a recorded track.
type Track struct {
	Laps      []float64 `json:"laps"`    // s, hot laps used
	Dropped   []string  `json:"dropped"` // the other laps, each with a word
	OutIn     int       `json:"out_in"`
	Noise     float64   `json:"noise"`     // m
	Rate      float64   `json:"rate"`      // fixes a second
	Lost      int       `json:"lost"`      // impossible fixes left out
	Elsewhere float64   `json:"elsewhere"` // m, a lap of another circuit that it holds too; 0 where it does not
	Against   int       `json:"against"`   // laps the other way round, not used
	Held      bool      `json:"held"`      // no pace of this car gives the laps recorded: the nearest is taken
	Lat       float64   `json:"lat"`       // deg, of its first fix
	Lon       float64   `json:"lon"`
}

// Map is what a map without times holds, and what is not known by it.
type Map struct {
	Line    string   `json:"line"`    // its name
	Points  int      `json:"points"`  // of it
	Gap     float64  `json:"gap"`     // m between its ends, closed by a straight
	Widths  bool     `json:"widths"`  // the map has them
	Assumed float64  `json:"assumed"` // m to either side, where it does not
	Lat     *float64 `json:"lat"`     // deg, of its first point; null where the map is in a plane
	Lon     *float64 `json:"lon"`
	TimeSD  float64  `json:"time_sd"` // one standard deviation of ln lap time at the pace
}

// Ranking orders a folder's circuits by what an hour on each takes, most first.
type Ranking struct {
	Car      string   `json:"car"`
	What     string   `json:"what"` // in words: the set, or the corner of the car
	Circuits []Ranked `json:"circuits"`
	Left     []string `json:"left"` // circuits that the car cannot be driven on as written, each with the reason
}

// Ranked is one circuit's place in it.
type Ranked struct {
	ID        string  `json:"id"`
	Name      string  `json:"name"`
	Known     string  `json:"known"`
	LeftShare float64 `json:"left_share"`
	LapTime   float64 `json:"lap_time"`
	Pace      float64 `json:"pace"`
	PerHour   float64 `json:"per_hour"` // share of life from new to the limit, an hour; of a corner, of its parts together
	Most      string  `json:"most"`     // the part that loses most of it, and where
}

// View is a circuit of the trip seen from above: a closed lap, its first point
// not repeated at the end.
type View struct {
	ID      string      `json:"id"` // of the circuit
	Name    string      `json:"name"`
	Reverse bool        `json:"reverse"` // driven the other way round
	North   bool        `json:"north"`   // y is north, as a recorded track has it
	Points  []ViewPoint `json:"points"`
}

// ViewPoint is a place on a lap with what the car does there.
type ViewPoint struct {
	X    float64 `json:"x"`
	Y    float64 `json:"y"`    // m; the first point is 0, 0; without a recorded track the lap sets off along x
	V    float64 `json:"v"`    // m/s
	Load float64 `json:"load"` // m/s2, lateral, + in a left turn, which loads the right-hand wheels
}

// From says where a circuit's figures come from.
func (c *Circuit) From() string {
	switch c.Known {
	case ByTrack:
		return "from a recorded track"
	case ByMap:
		return "from a map"
	case ByCorners:
		return "by its corners"
	}
	return "known by its " + c.Known
}
