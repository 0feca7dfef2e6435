package trip

import (
	"fmt"
	"sync"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/trace"
	"example.com/tripwear/wearmodel/duty"
	"example.com/tripwear/wearmodel/duty/line"
	survey "example.com/tripwear/wearmodel/duty/trace"
)

// Machine is the car as the wear models see it, with the laps and the circuit
// days worked out so far.
type Machine struct {
	kind.Machine
	surveys *cache[*trace.Trace, *survey.Lap]
	drawn   *cache[*trace.Line, *line.Lap]
	duties  *cache[dutyKey, duty.Duty]
	days    *cache[dayKey, [3]kind.Wear]
	times   *cache[timedKey, duty.Timed]
	outfits *cache[string, dressed]
	nominal bool    // circuits are worked out at the plan's pace alone
	side    float64 // to which all their corners go: above 0 left, below 0 right, 0 as they do
}

// NewMachine is the car of a folder.
func NewMachine(f *profiles.Folder) Machine { return Machine{Machine: kind.NewMachine(f)}.afresh() }

func (m Machine) afresh() Machine {
	m.surveys, m.drawn = newCache[*trace.Trace, *survey.Lap](), newCache[*trace.Line, *line.Lap]()
	m.duties, m.days = newCache[dutyKey, duty.Duty](), newCache[dayKey, [3]kind.Wear]()
	m.times, m.outfits = newCache[timedKey, duty.Timed](), newCache[string, dressed]()
	return m
}

// dressed is the car with other parts on.
type dressed struct {
	Machine
	folder *profiles.Folder
}

// wearing is the car of a folder with other parts on, where sets swap: the same
// one where those are on.
func (m Machine) wearing(f *profiles.Folder, o profiles.Outfit) (Machine, *profiles.Folder) {
	if len(o) == 0 || len(f.Car.Aside) == 0 {
		return m, f
	}
	on, _ := m.outfits.of(fmt.Sprint(o), func() (dressed, error) { // a map prints in the order of its keys
		if other := f.Wearing(o); other != f {
			return dressed{m.With(other), other}, nil
		}
		return dressed{m, f}, nil
	})
	return on.Machine, on.folder
}

// Nominal is the machine with nothing worked out yet and no word of how pace
// matters: what one circuit among many takes, and then is forgotten.
func (m Machine) Nominal() Machine {
	m.nominal = true
	return m.afresh()
}

// OneSided is the nominal machine on circuits whose corners all go to one side.
func (m Machine) OneSided(side float64) Machine {
	m.side = side
	return m.Nominal()
}

// With is the car of a folder that differs in its parts or the model's wear, but
// not in its circuits, its paces or what a lap is driven with: the laps driven
// so far are shared with it.
func (m Machine) With(f *profiles.Folder) Machine {
	m.Machine, m.days, m.outfits = kind.NewMachine(f), newCache[dayKey, [3]kind.Wear](), newCache[string, dressed]()
	return m
}

// cache keeps what is worked out once: legs on one circuit, the view from above
// and the fluid's margin ask for the same laps.
type cache[K comparable, V any] struct {
	sync.Mutex
	made map[K]func() (V, error)
}

func newCache[K comparable, V any]() *cache[K, V] {
	return &cache[K, V]{made: map[K]func() (V, error){}}
}

// of gives a value, worked out by whoever asks first.
func (c *cache[K, V]) of(key K, work func() (V, error)) (V, error) {
	c.Lock()
	once, ok := c.made[key]
	if !ok {
		once = sync.OnceValues(work)
		c.made[key] = once
	}
	c.Unlock()
	return once()
}

// Segments turns a circuit's corners into the lap simulation's.
func Segments(corners []profiles.Corner) []duty.Segment {
	out := make([]duty.Segment, len(corners))
	for i, c := range corners {
		out[i] = duty.Segment{Straight: float64(c.Straight), Turn: float64(c.Turn), Radius: float64(c.Radius)}
	}
	return out
}
