package trip

import (
	"math"
	"slices"
	"time"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/quantity"
)

// When a trip counts as under way, in days. Engineering choices.
const (
	overdue = 3  // after it should have ended
	shifted = 14 // from its file's dates
)

// Begun is a trip that the logbook has begun and not ended.
type Begun struct {
	Trip     profiles.Trip
	Legs     []plan.Leg // of the whole trip, as planned
	Driven   int        // of them, by the logbook
	Sessions int        // of the circuit day that is due: driven by its miles
	Share    float64    // of the road that is due: driven
	Day      time.Time  // on which the last leg driven ended
	Ends     []float64  // odometer at the end of each leg driven; the first is where the trip began
	days     []plan.Day
}

// Under is the trip that the logbook has begun; nil where it has none, or where
// the rows after it, or today, lie past what the trip had left. Without today it
// is the day of the last row.
func Under(m Machine, f *profiles.Folder, today time.Time) (*Begun, error) {
	rows := begun(f)
	if len(rows) == 0 {
		return nil, nil
	}
	s, err := Itinerary(m, f, f.Trips[rows[0].Text])
	if err != nil {
		return nil, err
	}
	return under(f, rows, s, today), nil
}

// begun is the rows of the drive that the logbook's last row of a trip leaves
// unfinished, in the order driven.
func begun(f *profiles.Folder) []logbook.Entry {
	var rows []logbook.Entry
	for _, e := range slices.Backward(f.Log) {
		if e.What != logbook.Trip {
			continue
		}
		if n := len(rows); n > 0 && (e.Text != rows[0].Text || e.Last == 0 || e.Last >= rows[0].First) {
			break
		}
		if e.Last == 0 {
			return nil // driven whole
		}
		rows = slices.Insert(rows, 0, e)
	}
	return rows
}

// under is where a drive stands.
func under(f *profiles.Folder, rows []logbook.Entry, s Stages, today time.Time) *Begun {
	last := rows[len(rows)-1]
	b := &Begun{Trip: f.Trips[last.Text], Legs: s.Legs, Driven: last.Last, Day: last.Date, days: s.days}
	if b.Driven >= len(b.Legs) {
		return nil
	}
	from := 0
	for _, e := range rows {
		meters := 0.0
		for _, l := range b.Legs[from:e.Last] {
			meters += l.Meters
		}
		at, scale := float64(e.Odometer)-meters, 1.0
		if from > 0 {
			at = b.Ends[from]
			scale = (float64(e.Odometer) - at) / math.Max(1, meters)
		} else {
			b.Ends = []float64{at}
		}
		for _, l := range b.Legs[from:e.Last] {
			at += float64(scale * l.Meters)
			b.Ends = append(b.Ends, at)
		}
		from = e.Last
	}
	left := b.Legs[len(b.Legs)-1].EndDay - b.Legs[b.Driven-1].EndDay
	off := b.Day.Sub(b.Legs[b.Driven-1].End.Truncate(day))
	if newest := NewestDay(f); newest.After(today) {
		today = newest
	}
	if off.Abs() > shifted*day || today.Sub(b.Day) > time.Duration(math.Ceil(left)+overdue)*day {
		return nil
	}
	due, past := b.Legs[b.Driven], float64(f.Car.Odometer)-b.Ends[b.Driven]
	if share := math.Min(1, math.Max(0, past)/math.Max(1, due.Meters)); due.Kind == profiles.CircuitLeg {
		b.Sessions = int(math.Round(share * float64(due.Sessions)))
	} else if due.Kind == profiles.RoadLeg {
		b.Share = share
	}
	return b
}

// NewestDay is the day of the logbook's last row; zero where it has none.
func NewestDay(f *profiles.Folder) time.Time {
	var newest time.Time
	for _, e := range f.Log {
		if e.Date.After(newest) {
			newest = e.Date
		}
	}
	return newest
}

// At is where on the trip an odometer is: the leg, and the share of it driven.
// Before the trip it is leg 0 at no share; what lies past the legs driven is on
// the one that is due.
func (b *Begun) At(odometer float64) (leg int, share float64) {
	for j := range b.Driven {
		if to := b.Ends[j+1]; odometer < to {
			return j, math.Max(0, (odometer-b.Ends[j])/(to-b.Ends[j]))
		}
	}
	return b.Driven, math.Min(1, (odometer-b.Ends[b.Driven])/math.Max(1, b.Legs[b.Driven].Meters))
}

// Slack is the share of the first leg within which a row at home may lie past
// the odometer at which the trip began by the plan's miles. Engineering choice.
const Slack = 0.1

// AtHome says whether a row of the logbook is from before the trip.
func (b *Begun) AtHome(e logbook.Entry) bool {
	return float64(e.Odometer) <= b.home()
}

// home is the odometer up to which a row may be from before the trip.
func (b *Begun) home() float64 { return b.Ends[0] + float64(Slack*b.Legs[0].Meters) }

// Rest is what is left of the trip on a day: from the first leg that is not
// driven, a circuit visit from its first day that is not, that day from its first
// session that is not.
func (b *Begun) Rest(f *profiles.Folder, today time.Time) profiles.Trip {
	newest := NewestDay(f)
	rest := b.Trip.Clone()
	rest.Depart, rest.Legs = newest, nil
	if start := b.Legs[b.Driven].Start; !start.IsZero() && today.After(newest) && !today.After(start) {
		rest.Depart = today
	}
	rest.Under = b.where(rest.Depart)
	rest.Under.Left = b.left(f)
	n := 0
	for _, leg := range b.Trip.Clone().Legs {
		days := max(1, leg.Days)
		gone := min(days, max(0, b.Driven-n))
		n += days
		if gone == days {
			continue
		}
		due := len(rest.Legs) == 0
		switch leg.Kind {
		case profiles.RoadLeg:
			if due {
				leg.Distance *= quantity.Length(1 - b.Share)
			}
			rest.Legs = append(rest.Legs, leg)
		case profiles.StopLeg:
			rest.Legs = append(rest.Legs, leg)
		case profiles.CircuitLeg:
			sessions := 0
			if due {
				sessions = b.Sessions
			}
			rest.Legs = append(rest.Legs, visitLeft(leg, gone, sessions)...)
		}
	}
	return rest
}

// visitLeft is what is left of a visit: the day that is under way by itself.
func visitLeft(leg profiles.Leg, gone, sessions int) []profiles.Leg {
	all := max(1, leg.Days)
	after := func(days int) profiles.Leg {
		l := leg
		l.Gone, l.Days = days, all-days
		if days > 0 {
			l.Fee = 0
		}
		if !l.Date.IsZero() {
			l.Date = l.Date.AddDate(0, 0, days)
		}
		return l
	}
	if sessions == 0 {
		return []profiles.Leg{after(gone)}
	}
	var out []profiles.Leg
	if today := after(gone); sessions < leg.Sessions.Count {
		today.Days, today.After, today.Fee = 1, all-gone-1, 0
		today.Sessions.Count -= sessions
		out = append(out, today)
	}
	if gone+1 < all {
		out = append(out, after(gone+1))
	}
	return out
}

// where is where the car stands on a day.
func (b *Begun) where(day time.Time) *profiles.Under {
	last, due := b.Legs[b.Driven-1], b.Legs[b.Driven]
	switch {
	case b.Sessions > 0 && b.Sessions == due.Sessions:
		return &profiles.Under{Place: due.Name, Can: paddock, Hour: circuitDay, Circuit: true}
	case b.Sessions > 0:
		return &profiles.Under{Place: due.Name, Can: paddock}
	case b.Share > 0:
		return &profiles.Under{Place: due.Name}
	}
	u := &profiles.Under{Place: last.Name, Circuit: last.Kind == profiles.CircuitLeg}
	switch {
	case last.Kind == profiles.StopLeg:
		u.Can = last.Can
	case last.Kind == profiles.CircuitLeg, due.Kind == profiles.CircuitLeg:
		u.Can = paddock
	}
	if day.Equal(b.Day) {
		whole, hour := math.Modf(last.EndDay)
		u.Hour = math.Max(0, float64(24*hour)-morning)
		if last.Kind == profiles.RoadLeg {
			u.Driving = b.days[int(whole)].Driving
		}
	}
	return u
}

var paddock = []string{"paddock"}

// Due is the leg that is due: of the trip under way, or the first of the one that
// leaves about a day.
type Due struct {
	Trip     string // id
	Leg      int    // as the plan counts, from 1
	Name     string
	From     float64 // odometer at its start
	Meters   float64
	Sessions int // of a circuit day
}

// NextDue is the leg that is due on a day; nil where no trip is under way and none,
// or more than one, leaves about then.
func NextDue(m Machine, f *profiles.Folder, today time.Time) (*Due, error) {
	b, err := Under(m, f, today)
	if err != nil {
		return nil, err
	}
	if b != nil {
		l := b.Legs[b.Driven]
		return &Due{b.Trip.ID, b.Driven + 1, l.Name, b.Ends[b.Driven], l.Meters, l.Sessions}, nil
	}
	var leaves []string
	for id, t := range f.Trips {
		if off := today.Sub(t.Depart); !t.Depart.IsZero() && off.Abs() <= shifted*day {
			leaves = append(leaves, id)
		}
	}
	if len(leaves) != 1 {
		return nil, nil
	}
	s, err := Itinerary(m, f, f.Trips[leaves[0]])
	if err != nil {
		return nil, err
	}
	l := s.Legs[0]
	return &Due{leaves[0], 1, l.Name, float64(f.Car.Odometer), l.Meters, l.Sessions}, nil
}
