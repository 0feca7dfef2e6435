package planner

import (
	"fmt"
	"math"
	"time"

	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
	"example.com/tripwear/wearmodel/bearing"
	"example.com/tripwear/wearmodel/duty"
	"example.com/tripwear/wearmodel/tire"
)

// How a circuit is known.
const (
	ByTrack   = "recorded track"
	ByCorners = "corners"
	BySummary = "summary"
)

// Circuit is what a circuit asks of the folder's car and what it takes from
// the parts fitted. All measures are SI, shares 0-1.
type Circuit struct {
	ID      string `json:"id"`
	Name    string `json:"name"`
	Car     string `json:"car"`
	Known   string `json:"known"` // ByTrack, ByCorners or BySummary
	Reverse bool   `json:"reverse"`
	Wet     bool   `json:"wet"`

	Metres    float64 `json:"metres"`
	LapTime   float64 `json:"lap_time"`
	Pace      float64 `json:"pace"`      // share of grip
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
	Laps     int               `json:"laps"`     // hot laps in a session

	Track *Track         `json:"track"` // where it was found
	View  View           `json:"view"`  // without points by summary
	Segs  []duty.Segment `json:"segs"`
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
	Measure Measure       `json:"measure"`  // of the figures
	PerLap  float64       `json:"per_lap"`  // a hot lap, with its part of the out and in laps
	PerHour float64       `json:"per_hour"` // an hour of sessions
	Share   float64       `json:"share"`    // of the life from new to the limit, an hour
}

// Track is what was found in a recorded track.
type Track struct {
	Laps    []float64 `json:"laps"`    // s, hot laps used
	Dropped []string  `json:"dropped"` // the other laps, each with a word
	OutIn   int       `json:"out_in"`
	Noise   float64   `json:"noise"` // m
	Rate    float64   `json:"rate"`  // fixes a second
	Lost    int       `json:"lost"`  // impossible fixes left out
}

// Drive says how a circuit is to be driven; the zero value is the circuit's
// own lap time, or intermediate where it has none.
type Drive struct {
	Pace         string  // a word or a share of grip
	LapTime      float64 // s; with it no Pace
	Reverse, Wet bool
}

// leg is a day of the model's sessions on a circuit.
func (d Drive) leg(f *profiles.Folder, id string) profiles.Leg {
	c, session := f.Circuits[id], f.Model.Session
	leg := profiles.Leg{
		Kind: profiles.CircuitLeg, Name: id, Days: 1, Pace: d.Pace, Ambient: session.Ambient,
		Sessions: profiles.Sessions{Count: session.PerDay, Each: session.Each},
		LapTime:  quantity.Duration(d.LapTime), Reverse: d.Reverse, Wet: d.Wet,
	}
	if d.Pace == "" && d.LapTime == 0 && c.LapTime == 0 && c.Trace == nil {
		leg.Pace = "intermediate"
	}
	return leg
}

// DescribeCircuit works out one circuit of the folder, by id or name.
func DescribeCircuit(f *profiles.Folder, circuit string, drive Drive) (*Circuit, error) {
	id, err := findCircuit(f, circuit)
	if err != nil {
		return nil, err
	}
	m := build(f)
	leg := drive.leg(f, id)
	c := f.Circuits[id]
	name := func(err error) error { return fmt.Errorf("%s: %w", c.Name, err) }
	d, err := circuitDuty(m, f, leg, 0)
	if err != nil {
		return nil, name(err)
	}
	out := &Circuit{
		ID: id, Name: c.Name, Car: f.Car.Name, Known: known(c), Reverse: leg.Reverse, Wet: leg.Wet,
		Metres: d.Metres, LapTime: d.Seconds, Pace: d.Pace, LeftShare: duty.LeftShare(d),
		TopSpeed: d.TopSpeed, MinSpeed: d.MinSpeed, HeavyBrakings: len(d.Brakings), Sessions: leg.Sessions,
	}
	there := m.on(leg, f.Model)
	out.time(there.Vehicle, d)
	out.load(there, d)
	if out.Segs, _, err = m.corners(f, leg); err != nil {
		return nil, name(err)
	}
	if !c.BySummary() {
		out.direction()
		out.turns(d)
		out.stops(there.Vehicle, d)
		if out.View, err = view(m, f, leg); err != nil {
			return nil, name(err)
		}
	}
	if c.Trace != nil {
		lap, err := m.surveys.of(c.Trace)
		if err != nil {
			return nil, name(err)
		}
		out.ShareSD, out.Track = lap.ShareSD, track(lap)
	}
	if out.Against, err = against(there, f, d); err != nil {
		return nil, name(err)
	}
	return out, out.wear(m, f, leg)
}

// time shares the lap out.
func (c *Circuit) time(v duty.Vehicle, d duty.Duty) {
	const across = 0.1 * duty.G
	for _, s := range d.States {
		share := s.Seconds / d.Seconds
		if v.TractiveForce(s) < 0 {
			c.Braking += share
		} else {
			c.OnPower += share
		}
		if math.Abs(s.Ay) > across {
			c.Cornering += share
		}
	}
}

// load is what the four wheels carry.
func (c *Circuit) load(m machine, d duty.Duty) {
	for _, s := range d.States {
		for p, w := range m.Vehicle.Loads(s) {
			c.Places[p].Mean += w.Fz * s.Seconds / d.Seconds
			c.Places[p].Most = max(c.Places[p].Most, w.Fz)
		}
	}
	tread, hubs := tire.Circuit(m.Vehicle, m.Tires, d), bearing.Circuit(m.Vehicle, m.Hubs, m.Radius, d)
	var allTread, allHubs float64
	for p := range c.Places {
		c.Places[p].Place = duty.Place(p).String()
		allTread, allHubs = allTread+tread[p].Mean, allHubs+hubs[p]
	}
	for p := range c.Places {
		if allTread > 0 && allHubs > 0 {
			c.Places[p].Slip, c.Places[p].Hub = tread[p].Mean/allTread, hubs[p]/allHubs
		}
	}
}

// against compares the lap with the stock reference lap.
func against(m machine, f *profiles.Folder, d duty.Duty) (Ratios, error) {
	ref, err := duty.Simulate(m.Vehicle, segments(f.Reference), d.Pace)
	if err != nil {
		return Ratios{}, err
	}
	perKm := func(d duty.Duty) [4]float64 {
		var out [4]float64
		out[0] = d.BrakeEnergy
		tread, hubs := tire.Circuit(m.Vehicle, m.Tires, d), bearing.Circuit(m.Vehicle, m.Hubs, m.Radius, d)
		for p := range tread {
			out[1] += tread[p].Mean
			out[3] = max(out[3], hubs[p])
		}
		for _, s := range d.States {
			out[2] += float64(math.Abs(s.Ay) * s.Seconds)
		}
		for k := range out {
			out[k] /= d.Metres
		}
		return out
	}
	a, b := perKm(d), perKm(ref)
	return Ratios{Brakes: a[0] / b[0], Tread: a[1] / b[1], Lateral: a[2] / b[2], Hub: a[3] / b[3]}, nil
}

// wear is what a day on the circuit takes from every set, by the lap and hour.
func (c *Circuit) wear(m machine, f *profiles.Folder, leg profiles.Leg) error {
	c0, err := undecided(m, f, profiles.Trip{Legs: []profiles.Leg{leg}, Depart: latest(f, time.Time{})}, Options{}.orDefault())
	if err != nil {
		return err
	}
	day := c0.legs[0]
	c.Laps = day.Laps / day.Sessions
	hours := float64(day.Sessions) * day.SessionTime / 3600
	for _, s := range c0.sets {
		if s.alone {
			continue // brake fluid boils or does not: it does not wear
		}
		w := SetWear{ID: s.ID, Name: s.Name, Kind: s.Kind}
		for _, p := range s.points {
			if share := p.Loss[0] / (p.New - p.Limit) / hours; share > w.Share {
				w.Share, w.PerLap, w.PerHour = share, p.Loss[0]/float64(day.Laps), p.Loss[0]/hours
				w.Where, w.Measure = p.Place, p.Measure
				if p.Zone != "" {
					w.Where += " " + p.Zone
				}
			}
		}
		c.Wear = append(c.Wear, w)
	}
	return nil
}
