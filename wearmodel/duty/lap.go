package duty

import (
	"math"
	"slices"
)

// Simulate drives one flying lap of a circuit at a pace (the share of the grip
// that is used, 0.2-1.3) and gives one state for each cell of at most a meter.
//
// Energies come from the tractive force at the wheels, so that over a lap
// driving is braking plus air drag plus rolling; a lap that does not close
// (see Closes) is still driven end to start. Cells of a meter cost 0.01 % of
// the lap time; the pace, which the driver chooses, matters far more.
func Simulate(v Vehicle, segs []Segment, pace float64) (Duty, error) {
	if err := checkSegments(segs); err != nil {
		return Duty{}, err
	}
	l, err := v.limits(pace)
	if err != nil {
		return Duty{}, err
	}
	t := cut(segs)
	t.solve(l)
	d := t.duty(l)
	d.DriveEnergy *= v.Mass
	d.BrakeEnergy *= v.Mass
	d.Pace = pace
	return d, nil
}

// Harder is the duty with more on the brakes by a factor, which the engine makes
// good: of a lap whose corners are known too smoothly.
func (d Duty) Harder(factor float64) Duty {
	d.DriveEnergy += float64(d.BrakeEnergy * (factor - 1))
	d.BrakeEnergy *= factor
	d.Brakings = slices.Clone(d.Brakings)
	for i := range d.Brakings {
		d.Brakings[i].Factor *= factor
	}
	return d
}

// duty reads the solved track out, with energies per kilogram.
func (t *track) duty(l limits) Duty {
	d := Duty{States: make([]State, len(t.u)-1)}
	lowest, highest := math.Inf(1), 0.0
	for _, p := range t.pieces {
		nodes := t.nodes(p)
		states := d.States[p.first : p.first+p.cells]
		half := 1 / (2 * p.ds)
		from, fromU := math.Sqrt(nodes[0]), nodes[0]
		seconds, driven, braked := 0.0, 0.0, 0.0
		for i := range states {
			toU := nodes[i+1]
			to := math.Sqrt(toU)
			speed, u := (from+to)/2, (fromU+toU)/2
			s := State{Seconds: p.ds / speed, V: speed, Ax: (toU - fromU) * half, Ay: p.curvature * u}
			states[i] = s
			seconds += s.Seconds
			if force := float64(l.rotating*s.Ax) + float64(l.drag*u) + l.rolling; force > 0 {
				driven += force
			} else {
				braked -= force
			}
			lowest, highest = min(lowest, toU), max(highest, toU)
			from, fromU = to, toU
		}
		d.Seconds += seconds
		d.DriveEnergy += float64(driven * p.ds)
		d.BrakeEnergy += float64(braked * p.ds)
		d.Meters += float64(p.ds * float64(p.cells))
	}
	d.MinSpeed, d.TopSpeed = math.Sqrt(lowest), math.Sqrt(highest)
	d.Brakings = brakings(d.States)
	return d
}
