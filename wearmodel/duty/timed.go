package duty

import (
	"fmt"
	"math"
)

// Usual is what is known of a driver and of circuits before a lap time is.
type Usual struct {
	Pace    float64 // share of grip used
	PaceSD  float64 // sd of its ln; 0 where this very pace goes with the lap time
	SpeedSD float64 // sd of ln of how fast circuits of a kind are at one pace; 0 where the size is known
}

// Timed is a summary with the pace and the size that its lap time tells.
type Timed struct {
	Summary
	Faster float64 // than a usual circuit with so many brakings at this pace; 0.04 is 4 %
	Held   bool    // the pace at the end of its range, the rest of the lap time put on the circuit
}

const (
	// speedPower is by what power of the pace a lap gets faster: about the root,
	// on the reference lap as on real ones.
	speedPower = 0.45
	// Sizes of a circuit over the usual that are looked for. Assumed.
	smallest = 0.25
	largest  = 4.0
)

// Timed gives a summary the pace and the size at which its lap takes so many
// seconds. A lap time tells two things at once, how fast the driver is and how
// fast the circuit: what it differs by from the usual is shared between them
// by their variances. Engineering choice. No true lap time is refused: past the
// range of paces the pace is held and the rest goes to the circuit. A lap time
// that no size gives is a *LapTimeError.
func (s Summary) Timed(v Vehicle, reference []Segment, lapTime float64, usual Usual) (Timed, error) {
	if err := s.check(reference); err != nil {
		return Timed{}, err
	}
	if !(lapTime > 0) || math.IsInf(lapTime, 1) {
		return Timed{}, fmt.Errorf("a lap time of %g s is not possible", lapTime)
	}
	var failed error
	// late is ln of a lap over the one asked for; it falls with pace and size.
	late := func(logPace, logSize float64) float64 {
		l, err := v.limits(math.Exp(logPace))
		if err != nil {
			failed = err
			return 0
		}
		s.Size = math.Exp(logSize)
		sized := s.sized(reference)
		t := cut(sized)
		t.solve(l)
		return math.Log(t.seconds() * s.Meters / Length(sized) / lapTime)
	}
	pace, size := math.Log(usual.Pace), 0.0
	if s.Size > 0 {
		size = math.Log(s.Size)
	}
	sizes := func(late func(size float64) float64) (float64, bool) {
		return crossing(late, math.Log(smallest), math.Log(largest))
	}
	out, held := Timed{}, usual.PaceSD == 0
	if !held {
		byPace, bySpeed := speedPower*usual.PaceSD, usual.SpeedSD
		if bySpeed > 0 {
			ofPace := late(pace, size) / (1 + bySpeed*bySpeed/(byPace*byPace))
			size, _ = sizes(func(size float64) float64 { return late(pace, size) - ofPace })
		}
		var ok bool
		pace, ok = crossing(func(pace float64) float64 { return late(pace, size) }, math.Log(slowestFit), math.Log(fastestFit))
		held, out.Held = !ok, !ok
	}
	if held && failed == nil {
		var ok bool
		if size, ok = sizes(func(size float64) float64 { return late(pace, size) }); !ok {
			return Timed{}, &LapTimeError{
				LapTime: lapTime, Slowest: lapTime * math.Exp(late(math.Log(slowestFit), math.Log(smallest))),
				Fastest: lapTime * math.Exp(late(math.Log(fastestFit), math.Log(largest))),
			}
		}
	}
	out.Faster = math.Exp(late(pace, 0)-late(pace, size)) - 1
	out.Summary = s
	out.Pace, out.Size = math.Exp(pace), math.Exp(size)
	return out, failed
}
