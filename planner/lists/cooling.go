package lists

import (
	"math"
	"slices"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/projection"
	"example.com/tripwear/planner/trip"
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

// Coolings works out the fluid's margin for every circuit visit of the trip.
func Coolings(m trip.Machine, outing profiles.Trip, w *trip.Journey, sets []*projection.Set) ([]plan.Cooling, error) {
	i := slices.IndexFunc(sets, func(s *projection.Set) bool { return s.Kind == profiles.Fluid })
	if i < 0 {
		return nil, nil
	}
	s, f := sets[i], w.Folder
	at := w.At(kind.Fluid, "system")
	fill := kind.Fill(at.Part.Fluid)
	var out []plan.Cooling
	j := -1 // leg of the plan
	for _, leg := range outing.Legs {
		if leg.Kind != profiles.CircuitLeg {
			j++
			continue
		}
		j += leg.Days
		d, err := trip.CircuitDuty(m, f, leg, 0)
		if err != nil {
			return nil, err
		}
		there, ambient, worn := m.OnLeg(leg, f.Model), float64(leg.Ambient), w.Usages[j].Nominal().PadsWorn
		heat := func(axles [2]brake.Axle, count int, each float64) float64 {
			sessions := make([]brake.Session, count)
			for k := range sessions {
				sessions[k] = brake.Session{Laps: duty.HotLaps(each, d.Seconds, trip.SlowLaps(leg)), Rest: float64(f.Model.Session.Rest)}
			}
			var bulk [2]float64
			for i, a := range axles {
				bulk[i] = brake.Run(there.Vehicle, a, d, sessions, ambient).Bulk
			}
			return fill.Hottest(bulk, ambient, worn) - ambient
		}
		n, each := leg.Sessions.Count, float64(leg.Sessions.Each)
		now := s.Levels[0].Ceiling[j]
		c := plan.Cooling{Leg: j, Years: w.Moment(at, j).Age / (12 * kind.Month), Thin: s.After[j].PMargin > float64(f.Model.Safety.Run)}
		for k := range n {
			c.BySession = append(c.BySession, now-heat(there.Axles, k+1, each))
		}
		c.Margin = c.BySession[n-1]
		c.Flushed = s.Replacement.Levels[0].Ceiling[j] - heat(there.Axles, n, each)
		ducted := there.Axles
		ducted[0].Rotor.Area *= ductArea
		c.Ducted = now - heat(ducted, n, each)
		if short := math.Floor(shorter*each/300) * 300; short >= shortSession && duty.HotLaps(short, d.Seconds, trip.SlowLaps(leg)) > 0 {
			c.ShortTime, c.Shorter = short, now-heat(there.Axles, n, short)
		}
		out = append(out, c)
	}
	return out, nil
}
