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

	fit profiles.Outfit // what its trip says was on
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

	on map[place]Spans // where sets swap
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
	p := &Past{PerMeter: perMeter(m, f)}
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
			if end, err = p.addTrip(m, f, e, way, first, last, end); err != nil {
				return nil, err
			}
		}
	}
	if rows := begun(f); len(rows) > 0 {
		way, err := stages(logbook.Entry{Text: rows[0].Text}) // what is due is as planned
		if err != nil {
			return nil, err
		}
		if err := p.addBegun(m, f, rows, way, end); err != nil {
			return nil, err
		}
	}
	p.lay(f)
	return p, nil
}

// addBegun adds the circuit day that the trip under way is in, by its miles.
func (p *Past) addBegun(m Machine, f *profiles.Folder, rows []logbook.Entry, way Stages, end float64) error {
	b := under(f, rows, way, time.Time{})
	if b == nil || b.Sessions == 0 {
		return nil
	}
	due := way.Legs[b.Driven]
	e := rows[len(rows)-1]
	e.Odometer = quantity.Length(end + due.Meters)
	_, err := p.addTrip(m, f, e, way, b.Driven, b.Driven+1, end)
	return err
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

// addTrip adds some of a trip's legs after an odometer, and gives the odometer they
// end at.
func (p *Past) addTrip(m Machine, f *profiles.Folder, e logbook.Entry, way Stages, first, last int, after float64) (float64, error) {
	legs, begun, meters := way.Legs[first:last], len(p.Drives), 0.0
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
		s := Drive{From: at, To: at + float64(scale*l.Meters), Usage: way.Usages[first+j], Visit: -1, fit: l.Fit}
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
	if err := p.dress(m, f, p.Drives[begun:], way.asked[first:last], legs); err != nil {
		return 0, fmt.Errorf("trip driven %s: %w", e.Text, err)
	}
	return math.Max(end, after), nil
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

// dress works out legs anew that were driven with other parts on than the car's
// own, by the rows of the logbook.
func (p *Past) dress(m Machine, f *profiles.Folder, drives []Drive, asked []profiles.Leg, legs []plan.Leg) error {
	if len(f.Car.Aside) == 0 {
		return nil
	}
	for j := range drives {
		d := &drives[j]
		m, f := m.wearing(f, drivenOn(f, legs[j], (d.From+d.To)/2))
		switch asked[j].Kind {
		case profiles.RoadLeg:
			d.Usage, _ = RoadUsage(m, f.Model, asked[j])
		case profiles.CircuitLeg:
			u, _, err := circuitUsage(m, f, asked[j])
			if err != nil {
				return err
			}
			d.Usage = u
		case profiles.StopLeg:
		}
	}
	return nil
}

// Taken is what the driving between two odometers took from a point by the
// model, where it was on: on roads in all, on circuits visit by visit.
func (p *Past) Taken(of func(*kind.Wear) float64, on Spans, from, to float64) (road float64, circuits []VisitLoss) {
	for _, piece := range on.within(from, to) {
		road += p.taken(of, piece[0], piece[1], &circuits)
	}
	return road, circuits
}

func (p *Past) taken(of func(*kind.Wear) float64, from, to float64, circuits *[]VisitLoss) (road float64) {
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
		if last := len(*circuits) - 1; last >= 0 && (*circuits)[last].Visit == s.Visit {
			for i := range l {
				(*circuits)[last].Loss[i] += l[i]
			}
			continue
		}
		*circuits = append(*circuits, VisitLoss{l, s.Visit, s.Circuit})
	}
	return road + float64(math.Max(0, rest)*of(&p.PerMeter))
}

// Worn is Taken in two sums, at the plan's pace.
func (p *Past) Worn(of func(*kind.Wear) float64, on Spans, from, to float64) (road, circuit float64) {
	road, visits := p.Taken(of, on, from, to)
	for _, v := range visits {
		circuit += v.Loss[1]
	}
	return road, circuit
}

// OnTrips is how much of the way between two odometers was on trips.
func (p *Past) OnTrips(from, to float64) float64 {
	sum := 0.0
	for _, s := range p.between(from, to) {
		sum += float64(s.share(from, to) * (s.To - s.From))
	}
	return sum
}

// Days counts the circuit days driven between two odometers, where a part was on.
func (p *Past) Days(on Spans, from, to float64) float64 {
	n := 0.0
	for _, piece := range on.within(from, to) {
		for _, s := range p.between(piece[0], piece[1]) {
			if s.Visit >= 0 {
				n += s.share(piece[0], piece[1])
			}
		}
	}
	return n
}
