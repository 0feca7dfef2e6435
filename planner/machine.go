package planner

import (
	"example.com/tripwear/planner/kind"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/trace"
	"example.com/tripwear/wearmodel/duty"
)

// machine is the car as the wear models see it, with the laps worked out so
// far.
type machine struct {
	kind.Machine
	surveys *surveys
	known   *lapMemory
}

func build(f *profiles.Folder) machine {
	return machine{
		Machine: kind.NewMachine(f),
		surveys: &surveys{laps: map[*trace.Trace]surveyed{}},
		known:   &lapMemory{duties: map[driving]func() (duty.Duty, error){}},
	}
}

// segments turns a circuit's corners into the lap simulation's.
func segments(corners []profiles.Corner) []duty.Segment {
	out := make([]duty.Segment, len(corners))
	for i, c := range corners {
		out[i] = duty.Segment{Straight: float64(c.Straight), Turn: float64(c.Turn), Radius: float64(c.Radius)}
	}
	return out
}
