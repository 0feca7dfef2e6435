package planner

import (
	"cmp"
	"math"
	"slices"
	"time"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/projection"
	"example.com/tripwear/planner/trip"
	"example.com/tripwear/profiles"
)

// Inventory lists what is on the car, what is used of it by which limit, and
// when that limit comes at the usual miles and circuit days a month. It is
// nominal; what counts each circuit leg for itself, as the brake fluid, is left
// out.
func Inventory(f *profiles.Folder, o Options) (*plan.Inventory, error) {
	m := trip.NewMachine(f)
	w, err := trip.BeforeTrip(m, f)
	if err != nil {
		return nil, err
	}
	w.Depart = today(f, o)
	l, err := o.learned(m, w)
	if err != nil {
		return nil, err
	}
	out := inventory(w, o)
	for _, s := range projection.NewSets(w, l.Posterior) {
		if !s.PerLeg {
			out.Parts = append(out.Parts, inUse(s, out))
		}
	}
	slices.SortStableFunc(out.Parts, func(a, b plan.InUse) int {
		if a.Due.IsZero() != b.Due.IsZero() {
			return map[bool]int{true: 1, false: -1}[a.Due.IsZero()]
		}
		return cmp.Or(a.Due.Compare(b.Due), cmp.Compare(b.Used, a.Used))
	})
	return out, nil
}

// inventory is the car's day, its odometer and its usual use.
func inventory(w *trip.Journey, o Options) *plan.Inventory {
	f := w.Folder
	out := &plan.Inventory{Car: f.Car.Name, Day: today(f, o), Odometer: float64(f.Car.Odometer)}
	usual(out, w)
	return out
}

func today(f *profiles.Folder, o Options) time.Time {
	day := trip.Latest(f, o.Today)
	if last := trip.NewestDay(f); last.After(day) {
		return last
	}
	return day
}

// usual is the use since the part that has been on longest went on, beside its
// trips what the owner says, and the most circuit days a month of any part that
// is on for a year: of those before not every entry knows.
func usual(out *plan.Inventory, w *trip.Journey) {
	days := func(w *kind.Wear) float64 { return w.Days }
	longest, onTrips := 0.0, 0.0
	for i := range w.Folder.Car.Fitted {
		e := &w.Folder.Car.Fitted[i]
		months := out.Day.Sub(e.Since.Date).Hours() / 24 / kind.Month
		if e.Since.Date.IsZero() || e.Since.Unmetered || months < 1 {
			continue
		}
		if months > longest {
			longest, out.Since = months, e.Since.Date
			out.Meters = (out.Odometer - float64(e.Since.Odometer)) / months
			onTrips = w.Past.OnTrips(float64(e.Since.Odometer), out.Odometer) / months
		}
		if _, driven, _ := w.SinceFitted(kind.At{Entry: e}, days); months >= 12 {
			out.Days = max(out.Days, driven/months)
		}
	}
	out.Everyday = max(0, out.Meters-onTrips)
	if own := float64(w.Folder.Car.Usual); own >= 0 {
		out.Everyday, out.Meters, out.Given = own, own+onTrips, true
	}
}

// inUse is what is used of a set at the point where its limit comes first.
func inUse(s *projection.Set, at *plan.Inventory) plan.InUse {
	out := plan.InUse{Set: s.ID, Name: s.Name, Kind: s.Kind, Part: s.Part, PartName: s.PartName, Measured: s.Measured, Notes: slices.Concat(s.Stop, s.Seen)}
	first := math.Inf(1)
	meters, days := at.Meters, at.Days
	if s.Way.Past.On(s.Way.At(s.Spec, s.Levels[0].Place)) != nil {
		meters, days = own(s, at)
	}
	comesFirst := func(by string, left func(months float64) float64) {
		months := comes(left)
		if used := 1 - left(0); months < first || months == first && used > out.Used || out.By == "" {
			first, out.Used, out.By = months, used, by
		}
	}
	for _, p := range s.Levels {
		a := s.Way.At(s.Spec, p.Place)
		comesFirst(p.Where(), func(months float64) float64 {
			level := p.Start - float64(months*(float64(meters*s.Rates.OnRoads(p.Place, p.Zone)*p.Spec.Of(&s.Way.PerMeter))+float64(days*s.Rates.OnCircuit(p.Place, p.Zone, "")*p.Spec.Of(&s.Way.PerDay))))
			if p.Spec.Cap != nil {
				level = min(level, p.Spec.Cap(momentAfter(a, at, months)))
			}
			return (level - p.Limit) / (p.New - p.Limit)
		})
	}
	for _, place := range s.Places() {
		beside(s, place, &out, at, days, comesFirst)
	}
	if !math.IsInf(first, 1) && !s.Lifetime { // which fails by chance
		out.Due = at.Day.Add(time.Duration(first * kind.Month * 24 * float64(time.Hour))).Truncate(24 * time.Hour)
	}
	return out
}

// beside is what else ends a set's life at a place, and how often it was heated.
func beside(s *projection.Set, place string, out *plan.InUse, at *plan.Inventory, days float64, comesFirst func(string, func(float64) float64)) {
	a := s.Way.At(s.Spec, place)
	cycles := 0.0
	if s.Spec.Heated != nil {
		if most, counted := s.Spec.Heated(a.Part); counted {
			cycles = a.Cycles()
			if out.Cycles == nil || cycles > *out.Cycles {
				out.Cycles, out.Most = &cycles, most
			}
		}
	}
	if s.Spec.Beside == nil {
		return
	}
	for _, b := range s.Spec.Beside(a) {
		if used := func(months float64) float64 {
			return b.Used(momentAfter(a, at, months), cycles+float64(months*days*s.Way.PerDay.Sessions))
		}; !math.IsNaN(used(0)) {
			comesFirst(place+" "+b.By, func(months float64) float64 { return 1 - used(months) })
		}
	}
}

// momentAfter is a part some months after the inventory's day, at a circuit.
func momentAfter(a kind.At, at *plan.Inventory, months float64) kind.Moment {
	day := float64(months * kind.Month)
	return kind.Moment{
		Age: kind.AgeAtDeparture(a.Entry, at.Day) + day, Away: day, Circuit: true,
		Day: at.Day.Add(time.Duration(day * 24 * float64(time.Hour))),
	}
}

// own is the use a month of a set that swaps with another, in m and circuit days,
// since it first went on.
func own(s *projection.Set, at *plan.Inventory) (meters, days float64) {
	a := s.Way.At(s.Spec, s.Levels[0].Place)
	months := at.Day.Sub(a.Entry.Since.Date).Hours() / 24 / kind.Month
	if a.Entry.Since.Date.IsZero() || months < 1 {
		return 0, 0
	}
	road, circuit, _ := s.Way.SinceFitted(a, func(w *kind.Wear) float64 { return w.Meters })
	_, days, _ = s.Way.SinceFitted(a, func(w *kind.Wear) float64 { return w.Days })
	return (road + circuit) / months, days / months
}

// comes is when nothing is left, in months, if that is within what is looked
// ahead. What is left never grows.
func comes(left func(months float64) float64) float64 {
	lo, hi := 0.0, 12.0*plan.Ahead
	switch {
	case left(lo) <= 0:
		return 0
	case left(hi) > 0:
		return math.Inf(1)
	}
	for range 40 {
		if mid := (lo + hi) / 2; left(mid) > 0 {
			lo = mid
		} else {
			hi = mid
		}
	}
	return hi
}
