package trace

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"example.com/tripwear/wearmodel/duty"
)

// Lap is a circuit as a trace shows it.
type Lap struct {
	Segments  []duty.Segment // a corner list that closes, from the start line found
	Line      [][2]float64   // m east and north of the start, evenly spaced, for a drawing
	Seconds   float64        // median of the hot laps used
	Meters    float64
	LeftShare float64 // of the cornering load at the measured speeds
	ShareSD   float64 // one standard deviation of it
	Harder    float64 // the laps recorded brake more than one driven on Segments, by this factor
	HarderSD  float64 // one standard deviation of its logarithm

	Used    []float64 // s, the hot laps used, in order
	Dropped []Dropped // the laps not used, and why
	OutIn   int       // laps from and to the pits
	Noise   float64   // m, spread of the fixes across the line
	Period  float64   // s between fixes
	Lost    int       // fixes left out as impossible

	Elsewhere float64 // m, a lap of another circuit that was driven far from this one; 0 where none was
	Against   int     // laps driven the other way round
}

var (
	errNoLap = errors.New("no lap found: the trace does not come round to the same place in the same direction twice")
	errOpen  = errors.New("the laps do not make a closed line: the fixes are too rough or too few")
)

// Survey finds the lap of a trace: where it begins, which laps are hot laps,
// and the corner list that all of them together drive. It needs a fix a second
// at least (RateError).
//
// On lines of real circuits driven by another program and recorded at 1 to 10
// fixes a second with 0.5 to 3 m of noise, eight laps give the lap time within
// 0.1 %, the length within 0.05 % and the left share within 0.0025 (one standard
// deviation; two laps within 0.0035). With a pace fitted to the lap time the
// braking energy times Harder is within HarderSD.
//
// Several recordings of one circuit, each with its own rate and its own errors,
// are one fit. One without a hot lap of that circuit is an error.
func Survey(recordings ...[]Fix) (*Lap, error) {
	fixes, begins, period, err := join(recordings)
	if err != nil {
		return nil, err
	}
	origin := newPlane(fixes[0].Lat, fixes[0].Lon)
	tr := lay(fixes, origin, period)
	o := tr.outline()
	g, length := o.findGate()
	const far = 5e3 // m, beyond which the plane is laid anew
	if length > 0 && math.Hypot(g.x, g.y) > far {
		tr = lay(fixes, newPlane(origin.lat+g.y/origin.north, origin.lon+g.x/origin.east), period)
		o = tr.outline()
		g, length = o.findGate()
	}
	if length == 0 {
		o.least = shortLap
		if _, short := o.findGate(); short > 0 {
			return nil, fmt.Errorf("the laps are about %.0f m long, and a circuit has at least %.0f m", math.Round(short/10)*10, leastLap)
		}
	}
	if length == 0 || length > duty.MaxLength {
		return nil, errNoLap
	}
	parts, outIn := tr.laps(o, g, length)
	f, parts := tr.fitOneWay(o, parts)
	if !slices.ContainsFunc(parts, part.hot) {
		return nil, errNoLap
	}
	for n, from := range begins {
		to := append(begins, math.Inf(1))[n+1]
		if !slices.ContainsFunc(parts, func(p part) bool { return p.hot() && p.from >= from && p.to < to }) {
			return nil, fmt.Errorf("recording %d has no hot lap of the circuit that the others are of", n+1)
		}
	}
	lap := &Lap{Period: period, OutIn: outIn, Lost: tr.dropped}
	for _, p := range parts {
		if p.hot() {
			lap.Used = append(lap.Used, p.seconds())
		} else {
			lap.Dropped = append(lap.Dropped, Dropped{p.from - tr.t[0], p.seconds(), p.why})
		}
	}
	lap.Seconds = median(append([]float64(nil), lap.Used...))

	if f == nil {
		return nil, errOpen
	}
	_, lap.Elsewhere = o.beyond(f.line).findGate()
	if back := o.try(gate{g.x, g.y, -g.ux, -g.uy}); back.like(length) {
		lap.Against = len(back.times)
	}
	f.speed = f.paced()
	h := f.halve()
	// The slow errors have taken some of every bend: from here on the fixes are
	// taken as they are.
	f.folds = f.gather(make([]slow, len(f.slow)))
	lap.LeftShare, lap.ShareSD = f.leftShare(h)
	lap.Segments = segments(f.stretches(h))
	if len(lap.Segments) == 0 || !duty.Closes(lap.Segments) {
		return nil, errOpen
	}
	lap.Harder, lap.HarderSD = f.harder(lap.Segments), harderSD
	lap.Noise, lap.Meters = f.noise, f.total()
	for k := range f.x {
		lap.Line = append(lap.Line, [2]float64{f.x[k] - f.x[0], f.y[k] - f.y[0]})
	}
	return lap, nil
}

// join puts recordings one after the other, whatever their clocks say, and gives
// the time at which each begins and the median time between fixes.
func join(recordings [][]Fix) (fixes []Fix, begins []float64, period float64, err error) {
	for n, r := range recordings {
		in := func(err error) error {
			if slow := (*RateError)(nil); len(recordings) == 1 || errors.As(err, &slow) {
				return err
			}
			return fmt.Errorf("recording %d: %w", n+1, err)
		}
		if _, err := check(r); err != nil {
			return nil, nil, 0, in(err)
		}
		r = thin(r)
		if _, err := check(r); err != nil {
			return nil, nil, 0, in(err)
		}
		later := 0.0
		if n > 0 {
			const apart = 60 // s
			later = fixes[len(fixes)-1].Time + apart - r[0].Time
		}
		begins = append(begins, r[0].Time+later)
		if n == 0 && len(recordings) == 1 {
			fixes = r
			break
		}
		for i, f := range r {
			f.Time += later
			f.Gap = f.Gap || i == 0
			fixes = append(fixes, f)
		}
	}
	period, err = check(fixes)
	return fixes, begins, period, err
}

// fitSoundly fits the line and checks it: it must close in direction, be about
// as long as the laps, and have nearly all fixes beside it. Where it does not,
// a stiffer one is tried; nil where none is sound.
func fitSoundly(tr *track, o *outline, parts []part) *fitted {
	const (
		lengthOff = 0.03 // the outline cuts corners, and noise makes it longer
		astray    = 0.1  // of the fixes
	)
	var hot []float64 // m; a slow lap has more of the noise in its length
	for _, p := range parts {
		if p.hot() {
			hot = append(hot, p.meters)
		}
	}
	length := median(hot)
	for _, most := range []float64{mostSwing, usualSwing, usualSwing / 3} {
		l, places, laps := start(tr, o, parts, length)
		f := l.fit(places, laps, most)
		beside, turned := 0.0, 0.0
		for _, s := range f.sights {
			beside += s.weight
		}
		for _, t := range f.turn {
			turned += t
		}
		if math.IsNaN(f.noise) || !(math.Abs(f.total()/length-1) < lengthOff) || beside < (1-astray)*float64(len(places)) {
			continue
		}
		if duty.Closes([]duty.Segment{{Turn: turned, Radius: 1}}) {
			return f
		}
	}
	return nil
}
