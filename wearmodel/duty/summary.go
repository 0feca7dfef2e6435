package duty

import (
	"errors"
	"fmt"
	"math"
)

// Summary is what an owner knows of a circuit without its corners.
type Summary struct {
	Meters        float64 // m
	LeftShare     float64 // 0-1, share of cornering load in left turns
	HeavyBrakings int     // per lap; 0 if not known
	Pace          float64 // share of grip used
	Size          float64 // of corners and straights over the usual; 0 if not known, which is 1
}

// How a summary bends the reference lap. Engineering choices: with them the
// wear of a day comes out right in the mean over 60 invented circuits driven
// with ramps into their corners; 15 real ones judge them, see TestSummaries of
// planner/trip.
const (
	usualBrakings = 2.3     // heavy brakings per km
	fewestRatio   = 0.2     // clamp on brakings over usual
	mostRatio     = 2.0     //
	sizePower     = 0.5     // of that ratio, by which the reference lap shrinks
	energyPower   = 1.0 / 3 // of that ratio, by which it brakes more beside
	heavyShare    = 0.96    // of the reference lap's heavy brakings; it brakes later and harder than a driven line
	cornering     = 1.05    // of its time in corners
	usualSize     = 1.1     // of its corners and straights: with ramps into its corners it would be as much faster
	straightBelow = 0.1 * G // m/s2 of |ay|
	minLap        = 300.0   // m, assumed
	brakingsPerKm = 20.0    // at most, assumed
)

// FromSummary makes the duty of a circuit of which only a summary is known:
// the reference lap driven by this car, bent to the summary's length, size,
// brakings and left share. Length, share and number come out exactly.
//
// States are no longer in the order of the lap, and their distance need not
// add up to the length; drive energy is what braking, air drag and rolling
// take away. Engineering choice.
func FromSummary(v Vehicle, reference []Segment, s Summary) (Duty, error) {
	if err := s.check(reference); err != nil {
		return Duty{}, err
	}
	reference = s.sized(reference)
	scale := s.Meters / Length(reference)
	ref, err := Simulate(v, reference, s.Pace)
	if err != nil {
		return Duty{}, err
	}
	d := Duty{
		Seconds: ref.Seconds * scale, Meters: s.Meters,
		TopSpeed: ref.TopSpeed, MinSpeed: ref.MinSpeed, Pace: s.Pace,
	}
	harder := scale * math.Pow(s.ratio(), energyPower)
	if err := d.bend(v, ref, s, harder); err != nil {
		return Duty{}, err
	}
	d.BrakeEnergy = ref.BrakeEnergy * harder
	d.DriveEnergy = d.BrakeEnergy + v.resisted(d.States)
	d.Brakings = s.brakings(v, ref, heavyShare*harder, d.Seconds)
	return d, nil
}

// check says which of the summary's values is impossible.
func (s Summary) check(reference []Segment) error {
	switch {
	case !(s.Meters >= minLap && s.Meters <= MaxLength):
		return fmt.Errorf("a lap of %g m is outside %g to %g m", s.Meters, minLap, MaxLength)
	case !(s.LeftShare >= 0 && s.LeftShare <= 1):
		return fmt.Errorf("a left share of %g is outside 0 to 1", s.LeftShare)
	case s.HeavyBrakings < 0 || float64(s.HeavyBrakings) > brakingsPerKm*s.Meters/1000:
		return fmt.Errorf("%d heavy brakings on a lap of %.4g km are not possible", s.HeavyBrakings, s.Meters/1000)
	case !(s.Size == 0 || s.Size >= smallest && s.Size <= largest):
		return fmt.Errorf("a size of %g is outside %g to %g", s.Size, smallest, largest)
	}
	if err := checkSegments(reference); err != nil {
		return fmt.Errorf("reference lap: %w", err)
	}
	return nil
}

// sized is the reference lap made smaller or larger: to a driven line's speed,
// by the summary's size, and by the number of heavy brakings, since more of them a km are corners
// that lie closer together and are tighter.
func (s Summary) sized(reference []Segment) []Segment {
	size := usualSize * math.Pow(s.ratio(), -sizePower)
	if s.Size > 0 {
		size *= s.Size
	}
	sized := make([]Segment, len(reference))
	for i, seg := range reference {
		seg.Straight *= size
		seg.Radius *= size
		sized[i] = seg
	}
	return sized
}

// ratio is the number of heavy brakings over the usual one.
func (s Summary) ratio() float64 {
	if s.HeavyBrakings == 0 {
		return 1
	}
	ratio := float64(s.HeavyBrakings) / (usualBrakings * s.Meters / 1000)
	return math.Min(mostRatio, math.Max(fewestRatio, ratio))
}

// bend sets the states: braking and cornering by their shares, what time this
// takes from the straights, and each corner split to both sides.
func (d *Duty) bend(v Vehicle, ref Duty, s Summary, harder float64) error {
	factor := func(x State) float64 {
		switch {
		case v.TractiveForce(x) < 0:
			return harder
		case math.Abs(x.Ay) > straightBelow:
			return s.Meters / ref.Meters * cornering
		}
		return 0
	}
	fixed, straight := 0.0, 0.0
	for _, x := range ref.States {
		if f := factor(x); f > 0 {
			fixed += float64(x.Seconds * f)
		} else {
			straight += x.Seconds
		}
	}
	if !(d.Seconds > fixed && straight > 0) {
		return errors.New("the reference lap has too few straights to be bent to this circuit")
	}
	stretch := (d.Seconds - fixed) / straight

	d.States = make([]State, 0, 2*len(ref.States))
	for _, x := range ref.States {
		f := factor(x)
		if f == 0 {
			f = stretch
		}
		x.Seconds *= f
		if x.Ay == 0 {
			d.States = append(d.States, x)
			continue
		}
		left, right := x, x
		left.Ay, right.Ay = math.Abs(x.Ay), -math.Abs(x.Ay)
		left.Seconds, right.Seconds = x.Seconds*s.LeftShare, x.Seconds*(1-s.LeftShare)
		if left.Seconds > 0 {
			d.States = append(d.States, left)
		}
		if right.Seconds > 0 {
			d.States = append(d.States, right)
		}
	}
	return nil
}

// resisted is the energy (J) that air drag and rolling take in the states.
func (v Vehicle) resisted(states []State) float64 {
	sum := 0.0
	for _, x := range states {
		sum += float64((float64(v.dragFactor()*x.V*x.V) + v.rollingForce()) * x.V * x.Seconds)
	}
	return sum
}

// brakings repeats the reference lap's brakings in order to the number asked
// for, evenly over the lap, with one factor so that their energy is ratio
// times the reference lap's. Where no number is asked for, the last counts as
// much as the circuit is longer, so that no meter makes a difference.
func (s Summary) brakings(v Vehicle, ref Duty, ratio, lapTime float64) []Braking {
	if len(ref.Brakings) == 0 {
		return nil
	}
	n := float64(s.HeavyBrakings)
	if n == 0 {
		n = float64(len(ref.Brakings)) * s.Meters / ref.Meters
	}
	want, got := 0.0, 0.0
	for _, b := range ref.Brakings {
		want += float64(ratio * v.BrakingEnergy(b))
	}
	list := make([]Braking, int(math.Ceil(n)))
	for i := range list {
		b := ref.Brakings[i%len(ref.Brakings)]
		b.Start = lapTime * float64(i) / n
		b.Factor *= math.Min(1, n-float64(i))
		got += v.BrakingEnergy(b)
		list[i] = b
	}
	if got > 0 {
		for i := range list {
			list[i].Factor *= want / got
		}
	}
	return list
}
