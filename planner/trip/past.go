package trip

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"sort"
	"time"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/quantity"
)

// Drive is a piece of past driving along the odometer.
type Drive struct {
	From, To float64 // m
	Usage    Usage
	Visit    int    // which circuit visit of the logbook; -1 on a road
	Circuit  string // where it is known by its summary alone, otherwise ""
}

// Past is what the car has driven by the logbook. Miles that no trip accounts
// for count as highway.
type Past struct {
	Drives   []Drive // in the order driven, none over another
	PerMeter kind.Wear
	Visits   int
	Circuits []Circuit
	TooLong  []string // in words: trips longer than the odometer allows
	visiting string   // the circuit of the last leg; "" where that was none
}

// Circuit is one that was driven on.
type Circuit struct {
	Name    string
	Summary bool // known by its summary alone
}

// longerThanOdometer is how many times longer than the odometer says a trip may
// be without a warning. Engineering choice.
const longerThanOdometer = 1.15

// NewPast lays the trips driven along the odometer: each ends at its row's
// odometer, its legs one after another before that. Trips in known, by id
// and how they were driven, are not worked out again.
func NewPast(m Machine, f *profiles.Folder, known map[string]Stages) (*Past, error) {
	road, _ := RoadUsage(m, f.Model, profiles.Leg{Kind: profiles.RoadLeg, Distance: 1, Surface: "highway"})
	p := &Past{PerMeter: *road.Nominal()}
	stages := func(e logbook.Entry) (Stages, error) {
		outing, key := asDriven(f.Trips[e.Text], e)
		way, ok := known[key]
		if !ok {
			var err error
			if way, err = Itinerary(m, f, outing); err != nil {
				return Stages{}, fmt.Errorf("trip driven %s: %w", e.Text, err)
			}
			known[key] = way
		}
		return way, nil
	}
	end := 0.0
	for _, e := range f.Log {
		if e.What != logbook.Trip {
			continue
		}
		way, err := stages(e)
		if err != nil {
			return nil, err
		}
		first, last := 0, len(way.Legs)
		if e.First > 0 {
			first, last = e.First-1, min(e.Last, last)
		}
		if first < last {
			end = p.addTrip(e, way.Legs[first:last], way.Usages[first:last], end)
		}
	}
	if rows := begun(f); len(rows) > 0 {
		way, err := stages(logbook.Entry{Text: rows[0].Text}) // what is due is as planned
		if err != nil {
			return nil, err
		}
		p.addBegun(f, rows, way, end)
	}
	return p, nil
}

// addBegun adds the circuit day that the trip under way is in, by its miles.
func (p *Past) addBegun(f *profiles.Folder, rows []logbook.Entry, way Stages, end float64) {
	b := under(f, rows, way, time.Time{})
	if b == nil || b.Sessions == 0 {
		return
	}
	due := way.Legs[b.Driven]
	e := rows[len(rows)-1]
	e.Odometer = quantity.Length(end + due.Meters)
	p.addTrip(e, way.Legs[b.Driven:b.Driven+1], way.Usages[b.Driven:b.Driven+1], end)
}

// asDriven is a trip as a row says that it was driven, with a name of its own.
func asDriven(t profiles.Trip, e logbook.Entry) (profiles.Trip, string) {
	if e.Sessions == 0 && !e.Wet {
		return t, e.Text
	}
	t.Legs = slices.Clone(t.Legs)
	for i := range t.Legs {
		if l := &t.Legs[i]; l.Kind == profiles.CircuitLeg {
			l.Sessions.Count, l.Wet = cmp.Or(e.Sessions, l.Sessions.Count), l.Wet || e.Wet
		}
	}
	return t, fmt.Sprint(e.Text, " ", e.Sessions, " ", e.Wet)
}

// addTrip adds a trip's legs after an odometer, and gives the odometer they end at.
func (p *Past) addTrip(e logbook.Entry, legs []plan.Leg, usages []Usage, after float64) float64 {
	meters := 0.0
	for _, l := range legs {
		meters += l.Meters
	}
	end := float64(e.Odometer)
	at := math.Max(after, end-meters)
	if meters > float64(longerThanOdometer*(end-at))+1 {
		p.TooLong = append(p.TooLong, fmt.Sprintf("%s: the trip is longer than the odometer moved", e))
	}
	scale := (end - at) / math.Max(1, meters)
	for j, l := range legs {
		s := Drive{From: at, To: at + float64(scale*l.Meters), Usage: usages[j], Visit: -1}
		before := p.visiting
		if p.visiting = l.Circuit; l.Kind == profiles.CircuitLeg {
			if before != l.Circuit || l.Day == 1 {
				p.Visits++
			}
			s.Visit, s.Circuit = p.Visits-1, l.Circuit
			if !slices.ContainsFunc(p.Circuits, func(c Circuit) bool { return c.Name == l.Circuit }) {
				p.Circuits = append(p.Circuits, Circuit{l.Circuit, l.BySummary})
			}
		}
		p.Drives = append(p.Drives, s)
		at = s.To
	}
	return math.Max(end, after)
}

// share is how much of a piece lies past one odometer and up to another.
func (s Drive) share(from, to float64) float64 {
	if s.To > s.From {
		return math.Max(0, math.Min(to, s.To)-math.Max(from, s.From)) / (s.To - s.From)
	}
	if from < s.To && s.To <= to {
		return 1
	}
	return 0
}

// between is the drives that may have a share past one odometer and up to
// another.
func (p *Past) between(from, to float64) []Drive {
	first := sort.Search(len(p.Drives), func(i int) bool { return p.Drives[i].To > from })
	last := sort.Search(len(p.Drives), func(i int) bool { return p.Drives[i].From > to })
	return p.Drives[first:max(first, last)]
}

// VisitLoss is what a circuit visit took from a point.
type VisitLoss struct {
	Loss    Loss
	Visit   int
	Circuit string
}

// Taken is what the driving between two odometers took from a point by the
// model: on roads in all, on circuits visit by visit.
func (p *Past) Taken(of func(*kind.Wear) float64, from, to float64) (road float64, circuits []VisitLoss) {
	rest := math.Max(0, to-from)
	for _, s := range p.between(from, to) {
		share := s.share(from, to)
		if share == 0 {
			continue
		}
		rest -= float64(share * (s.To - s.From))
		if s.Visit < 0 {
			road += float64(share * of(s.Usage.Nominal()))
			continue
		}
		l := Loss{share * of(&s.Usage.At[0]), share * of(&s.Usage.At[1]), share * of(&s.Usage.At[2])}
		if last := len(circuits) - 1; last >= 0 && circuits[last].Visit == s.Visit {
			for i := range l {
				circuits[last].Loss[i] += l[i]
			}
			continue
		}
		circuits = append(circuits, VisitLoss{l, s.Visit, s.Circuit})
	}
	return road + float64(math.Max(0, rest)*of(&p.PerMeter)), circuits
}

// Worn is Taken in two sums, at the plan's pace.
func (p *Past) Worn(of func(*kind.Wear) float64, from, to float64) (road, circuit float64) {
	road, visits := p.Taken(of, from, to)
	for _, v := range visits {
		circuit += v.Loss[1]
	}
	return road, circuit
}

// Days counts the circuit days driven between two odometers.
func (p *Past) Days(from, to float64) float64 {
	n := 0.0
	for _, s := range p.between(from, to) {
		if s.Visit >= 0 {
			n += s.share(from, to)
		}
	}
	return n
}
