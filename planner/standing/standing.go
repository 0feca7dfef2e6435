package standing

import (
	"math"
	"slices"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/trip"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
)

// Before is the car folder as it was when a trip began: without the rows of the
// logbook from then on.
func Before(f *profiles.Folder, b *trip.Begun) *profiles.Folder {
	return f.With(slices.DeleteFunc(slices.Clone(f.Log), func(e logbook.Entry) bool { return !b.AtHome(e) }))
}

// Tell completes where a plan of the rest of a trip stands. left is the plan of
// the whole trip as it was before leaving.
func Tell(p, left *plan.Plan, f *profiles.Folder, b *trip.Begun) {
	s := p.Standing
	s.Driven, s.Legs, s.Day = b.Driven, len(b.Legs), p.Depart
	if due := b.Legs[b.Driven]; b.Sessions > 0 && b.Sessions < due.Sessions {
		s.Sessions, s.Of = b.Sessions, due.Sessions
	}
	s.Odometer = math.Max(float64(f.Car.Odometer), b.Ends[b.Driven])
	s.Left, s.Days, _ = p.Driven()
	s.Trunk = Trunk(left, f, b)
	for _, set := range left.Sets {
		if d := set.Decision; d.Action != plan.Run && d.Action != plan.Watch && d.Action != plan.DoNotTake {
			one := plan.Decided{Set: set.ID, Name: set.Name, Action: d.Action}
			if d.Action == plan.ReplaceAtStop {
				one.Stop = left.Legs[d.Leg].Name
			}
			if e, ok := fitted(f, b, set, math.Inf(1)); ok {
				one.Done, one.Row = e.Date, e.Number
			}
			s.Decided = append(s.Decided, one)
		}
		s.Foretold = append(s.Foretold, foretold(set, f, b)...)
	}
}

// fitted is the last row since departure that puts a new part of a set on, up
// to an odometer.
func fitted(f *profiles.Folder, b *trip.Begun, set plan.Set, upTo float64) (logbook.Entry, bool) {
	for _, e := range slices.Backward(f.Log) {
		if e.Replaces() && !b.AtHome(e) && float64(e.Odometer) <= upTo && f.KindReplaced(e) == set.Kind && slices.Contains(e.At(), set.Points[0].Place) {
			return e, true
		}
	}
	return logbook.Entry{}, false
}

// Trunk is what was packed by the plan made before leaving, less what went on
// since, as the logbook's rows of the trunk correct it.
func Trunk(left *plan.Plan, f *profiles.Folder, b *trip.Begun) []plan.Item {
	var out []plan.Item
	for _, it := range left.Packing {
		used := false
		for _, set := range left.Sets {
			if set.ID == it.Set && set.Decision.Action != plan.ReplaceBefore {
				_, used = fitted(f, b, set, math.Inf(1))
			}
		}
		if !used {
			out = append(out, it)
		}
	}
	for _, e := range f.Log {
		if float64(e.Odometer) < b.Ends[0]-float64(trip.Slack*b.Legs[0].Meters) {
			continue // of another trip
		}
		at := slices.IndexFunc(out, func(it plan.Item) bool { return it.Part == e.Text })
		switch {
		case e.What == logbook.Unpacked && at >= 0:
			out = slices.Delete(out, at, at+1)
		case e.What == logbook.Packed && at < 0:
			for _, set := range left.Sets {
				if set.Part == e.Text {
					out = append(out, plan.Item{Set: set.ID, Part: set.Part, Name: set.PartName, Count: 1})
					break
				}
			}
		}
	}
	return out
}

// OnTheRoad is the car folder with what the trunk holds as its shelf.
func OnTheRoad(f *profiles.Folder, trunk []plan.Item) *profiles.Folder {
	out := f.Clone()
	out.Car.Shelf = nil
	for _, it := range trunk {
		if it.Set != "" { // not the oil for topping up
			out.Car.Shelf = append(out.Car.Shelf, profiles.Spare{Part: it.Part, Quantity: 1})
		}
	}
	return out
}

// foretold is the last reading since departure of each point of a set, beside
// what was expected.
func foretold(set plan.Set, f *profiles.Folder, b *trip.Begun) []plan.Foretold {
	var out []plan.Foretold
	for _, p := range set.Points {
		info := p.Measure.Info()
		for _, e := range slices.Backward(f.Log) {
			if !info.Length || info.Form.Row != e.What || e.Place != p.Place || !e.IsOf(set.Part) || e.Zone != p.Zone || b.AtHome(e) {
				continue
			}
			out = append(out, expected(set, p, e, f, b))
			break
		}
	}
	return out
}

// expected puts a reading beside what the plan made before leaving expected of
// its point there: of the part that was on by then.
func expected(set plan.Set, p plan.Point, e logbook.Entry, f *profiles.Folder, b *trip.Begun) plan.Foretold {
	out := plan.Foretold{Set: set.ID, Place: p.Place, Zone: p.Zone, Measure: p.Measure, Date: e.Date, Row: e.Number, Read: e.Value}
	leg, share := b.At(float64(e.Odometer))
	level, from, since := p.Start, 0, 0.0
	on, replaced := fitted(f, b, set, float64(e.Odometer))
	if replaced || set.Decision.Action == plan.ReplaceBefore {
		level = p.New
	}
	if replaced {
		from, since = b.At(float64(on.Odometer))
	}
	for j := from; j <= leg; j++ {
		lost := p.Loss[j]
		if j == leg {
			lost *= share
		}
		level -= lost
		if j == from {
			level += float64(since * p.Loss[j])
		}
	}
	out.Expected = math.Max(0, level)
	below, above := spread(p, leg, share)
	out.Low, out.High = math.Max(0, level-below), level+above
	return out
}

// spread is how far below and above what is expected nine cases in ten lie
// within a leg, by the bands at its ends and the gauge.
func spread(p plan.Point, leg int, share float64) (below, above float64) {
	const ninety = 1.645 // standard deviations either side
	gauge := float64(ninety * math.Max(p.Gauge, p.Reading))
	from, to := [2]float64{}, [2]float64{p.After[leg].P50 - p.After[leg].P5, p.After[leg].P95 - p.After[leg].P50}
	if leg > 0 {
		from = [2]float64{p.After[leg-1].P50 - p.After[leg-1].P5, p.After[leg-1].P95 - p.After[leg-1].P50}
	}
	at := func(i int) float64 { return math.Hypot(gauge, from[i]+float64(share*(to[i]-from[i]))) }
	return at(0), at(1)
}
