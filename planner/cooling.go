package planner

import (
	"math"
	"slices"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/profiles"
	"example.com/tripwear/wearmodel/brake"
	"example.com/tripwear/wearmodel/duty"
)

// What is tried where the fluid runs short of margin. Engineering choices.
const (
	ductArea     = 1.5  // ducts cool the front rotors as this many times the area would
	shorter      = 0.75 // of a session's time
	shortSession = 600  // s, the shortest that is suggested
)

// Cooling is the margin between brake fluid and boiling on the last day of a
// circuit visit, nominal, and what would widen it. Temperatures are K.
type Cooling struct {
	Leg       int       `json:"leg"`
	Years     float64   `json:"years"`      // the fluid's age then
	Margin    float64   `json:"margin"`     // at the hottest session
	BySession []float64 `json:"by_session"` // lowest so far, session by session
	Thin      bool      `json:"thin"`       // the chance of running below the wanted margin is more than small
	Flushed   float64   `json:"flushed"`    // with fluid changed before leaving
	Ducted    float64   `json:"ducted"`     // with ducts to the front rotors
	Shorter   float64   `json:"shorter"`    // with sessions of ShortTime
	ShortTime float64   `json:"short_time"` // s; 0 where the sessions are short already
}

// coolings works out the fluid's margin for every circuit visit of the trip.
func coolings(m machine, trip profiles.Trip, w *journey, sets []*set) ([]Cooling, error) {
	i := slices.IndexFunc(sets, func(s *set) bool { return s.Kind == profiles.Fluid })
	if i < 0 {
		return nil, nil
	}
	s, f := sets[i], w.folder
	at := w.at(kind.Fluid, "system")
	fill := kind.Fill(at.Part.Fluid)
	var out []Cooling
	j := -1 // leg of the plan
	for _, leg := range trip.Legs {
		if leg.Kind != profiles.CircuitLeg {
			j++
			continue
		}
		j += leg.Days
		d, err := circuitDuty(m, f, leg, 0)
		if err != nil {
			return nil, err
		}
		there, ambient, worn := m.on(leg, f.Model), float64(leg.Ambient), w.usages[j].nominal().PadsWorn
		heat := func(axles [2]brake.Axle, count int, each float64) float64 {
			sessions := make([]brake.Session, count)
			for k := range sessions {
				sessions[k] = brake.Session{Laps: duty.HotLaps(each, d.Seconds, slowLaps(leg)), Rest: float64(f.Model.Session.Rest)}
			}
			bulk := ambient
			for _, a := range axles {
				bulk = math.Max(bulk, brake.Run(there.Vehicle, a, d, sessions, ambient).Bulk)
			}
			return fill.Temperature(brake.Outcome{Bulk: bulk}, ambient, worn) - ambient
		}
		n, each := leg.Sessions.Count, float64(leg.Sessions.Each)
		now := s.points[0].cap[j]
		c := Cooling{Leg: j, Years: w.moment(at, j).Age / (12 * kind.Month), Thin: s.After[j].PMargin > float64(f.Model.Safety.Run)}
		for k := range n {
			c.BySession = append(c.BySession, now-heat(there.Axles, k+1, each))
		}
		c.Margin = c.BySession[n-1]
		c.Flushed = s.fresh.points[0].cap[j] - heat(there.Axles, n, each)
		ducted := there.Axles
		ducted[0].Rotor.Area *= ductArea
		c.Ducted = now - heat(ducted, n, each)
		if short := math.Floor(shorter*each/300) * 300; short >= shortSession && duty.HotLaps(short, d.Seconds, slowLaps(leg)) > 0 {
			c.ShortTime, c.Shorter = short, now-heat(there.Axles, n, short)
		}
		out = append(out, c)
	}
	return out, nil
}
