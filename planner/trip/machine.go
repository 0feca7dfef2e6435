package trip

import (
	"example.com/tripwear/planner/kind"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/trace"
	"example.com/tripwear/wearmodel/duty"
)

// Machine is the car as the wear models see it, with the laps worked out so
// far.
type Machine struct {
	kind.Machine
	Surveys *surveyCache
	duties  *dutyCache
}

func NewMachine(f *profiles.Folder) Machine {
	return Machine{
		Machine: kind.NewMachine(f),
		Surveys: &surveyCache{laps: map[*trace.Trace]surveyResult{}},
		duties:  &dutyCache{duties: map[dutyKey]func() (duty.Duty, error){}},
	}
}

// Segments turns a circuit's corners into the lap simulation's.
func Segments(corners []profiles.Corner) []duty.Segment {
	out := make([]duty.Segment, len(corners))
	for i, c := range corners {
		out[i] = duty.Segment{Straight: float64(c.Straight), Turn: float64(c.Turn), Radius: float64(c.Radius)}
	}
	return out
}
