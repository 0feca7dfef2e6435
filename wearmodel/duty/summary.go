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
	LapTime       float64 // s, the owner's typical lap; 0 if not known
	Pace          float64 // share of grip used; 0 if not known; wins over LapTime
	HeavyBrakings int     // per lap; 0 if not known
}

// How a summary bends the reference lap. Engineering choices, from invented circuits.
const (
	usualBrakings = 2.2     // heavy brakings per km
	fewestRatio   = 0.5     // clamp on brakings over usual
	mostRatio     = 2.0     //
	sizePower     = 0.25    // of that ratio, by which the reference lap shrinks
	leastTurning  = 0.6     // clamp on turning over the reference's
	straightBelow = 0.1 * G // m/s2 of |ay|
	minLap        = 300.0   // m, assumed
	brakingsPerKm = 20.0    // at most, assumed
)

// FromSummary makes the duty of a circuit of which only a summary is known:
// the reference lap driven by this car, bent to the summary's length, lap time,
// brakings and left share, each of which comes out exactly. Duty.Pace is the
// pace used.
//
// States are no longer in the order of the lap, and their distance need not
// add up to the length; drive energy is what braking, air drag and rolling
// take away. Engineering choice. On invented circuits the braking energy, the
// slip energy of the tires and the lateral impulse come within about 15 % of
// the corner list's where the pace is known (one standard deviation); where it
// is fitted to the lap time, slip energy within 30 %.
func FromSummary(v Vehicle, reference []Segment, s Summary) (Duty, error) {
	if err := s.check(); err != nil {
		return Duty{}, err
	}
	if err := checkSegments(reference); err != nil {
		return Duty{}, fmt.Errorf("reference lap: %w", err)
	}
	reference = s.sized(reference)
	scale := s.Meters / Length(reference)
	if s.Pace == 0 {
		pace, err := FitPace(v, reference, s.LapTime/scale)
		if reach := (*LapTimeError)(nil); errors.As(err, &reach) {
			return Duty{}, &LapTimeError{s.LapTime, reach.Fastest * scale, reach.Slowest * scale}
		}
		if err != nil {
			return Duty{}, err
		}
		s.Pace = pace
	} else {
		s.LapTime = 0
	}
	ref, err := Simulate(v, reference, s.Pace)
	if err != nil {
		return Duty{}, err
	}
	d := Duty{
		Seconds: ref.Seconds * scale, Meters: s.Meters,
		TopSpeed: ref.TopSpeed, MinSpeed: ref.MinSpeed, Pace: s.Pace,
	}
	if s.LapTime > 0 {
		d.Seconds = s.LapTime // what the fit found, to the last digit
	}
	if err := d.bend(v, ref, s, turningRatio(reference, s)); err != nil {
		return Duty{}, err
	}
	d.BrakeEnergy = ref.BrakeEnergy * scale
	d.DriveEnergy = d.BrakeEnergy + v.resisted(d.States)
	d.Brakings = s.brakings(v, ref, scale, d.Seconds)
	return d, nil
}

// check says which of the summary's values is impossible.
func (s Summary) check() error {
	switch {
	case !(s.Meters >= minLap && s.Meters <= maxLength):
		return fmt.Errorf("a lap of %g m is outside %g to %g m", s.Meters, minLap, maxLength)
	case !(s.LeftShare >= 0 && s.LeftShare <= 1):
		return fmt.Errorf("a left share of %g is outside 0 to 1", s.LeftShare)
	case !(s.LapTime >= 0) || math.IsInf(s.LapTime, 1):
		return fmt.Errorf("a lap time of %g s is not possible", s.LapTime)
	case s.Pace == 0 && s.LapTime == 0:
		return errors.New("a circuit without corners needs a lap time or a pace")
	case s.HeavyBrakings < 0 || float64(s.HeavyBrakings) > brakingsPerKm*s.Meters/1000:
		return fmt.Errorf("%d heavy brakings on a lap of %.4g km are not possible", s.HeavyBrakings, s.Meters/1000)
	}
	return nil
}

// sized is the reference lap made smaller or larger by the number of heavy
// brakings: more of them a km are corners that lie closer together and are
// tighter. On invented circuits the size that gives the lap time falls with
// about the root of their number (correlation 0.76); a smaller power keeps a
// quick car, which brakes more often on the same circuit, from shrinking it
// too much. Engineering choice.
func (s Summary) sized(reference []Segment) []Segment {
	if s.HeavyBrakings == 0 {
		return reference
	}
	ratio := float64(s.HeavyBrakings) / (usualBrakings * s.Meters / 1000)
	size := math.Pow(math.Min(mostRatio, math.Max(fewestRatio, ratio)), -sizePower)
	sized := make([]Segment, len(reference))
	for i, seg := range reference {
		seg.Straight *= size
		seg.Radius *= size
		sized[i] = seg
	}
	return sized
}

// turningRatio is the turning per km over the reference lap's. A closed plan
// turns 360 degrees to one side in all, so a lopsided circuit cannot have much
// turning: left plus right is at most 180 degrees over |left share - 0.5|.
func turningRatio(reference []Segment, s Summary) float64 {
	turning := 0.0
	for _, seg := range reference {
		turning += math.Abs(seg.Turn)
	}
	usual := turning / Length(reference) * s.Meters
	possible := math.Pi / math.Abs(s.LeftShare-0.5) // +Inf where both sides are equal
	return math.Max(leastTurning, math.Min(1, possible/usual))
}

// bend sets the states: cornering by turning, the time this frees to the
// straights, and each corner split to both sides.
func (d *Duty) bend(v Vehicle, ref Duty, s Summary, turning float64) error {
	scale := s.Meters / ref.Meters
	factor := func(x State) float64 {
		switch {
		case v.TractiveForce(x) < 0:
			return scale
		case math.Abs(x.Ay) > straightBelow:
			return scale * turning
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
// times the reference lap's.
func (s Summary) brakings(v Vehicle, ref Duty, ratio, lapTime float64) []Braking {
	if len(ref.Brakings) == 0 {
		return nil
	}
	n := s.HeavyBrakings
	if n == 0 {
		n = max(1, int(math.Round(float64(len(ref.Brakings))*s.Meters/ref.Meters)))
	}
	want, got := 0.0, 0.0
	for _, b := range ref.Brakings {
		want += float64(ratio * v.BrakingEnergy(b))
	}
	list := make([]Braking, n)
	for i := range list {
		list[i] = ref.Brakings[i%len(ref.Brakings)]
		list[i].Start = lapTime * float64(i) / float64(n)
		got += v.BrakingEnergy(list[i])
	}
	if got > 0 {
		for i := range list {
			list[i].Factor = want / got
		}
	}
	return list
}
