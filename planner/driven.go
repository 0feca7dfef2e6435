package planner

import (
	"fmt"
	"math"
	"sort"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
)

// drove is a piece of past driving along the odometer.
type drove struct {
	from, to float64 // m
	usage    usage
	visit    int    // which circuit visit of the logbook; -1 on a road
	circuit  string // where it is known by its summary alone, otherwise ""
}

// past is what the car has driven by the logbook. Miles that no trip accounts
// for count as highway.
type past struct {
	drives   []drove // in the order driven, none over another
	perMetre kind.Wear
	visits   int
	circuits []string // known by their summary alone
	squeezed []string // trips longer than the odometer allows
}

// tooLong is how much longer than the odometer says a trip may be before it
// is said. Engineering choice.
const tooLong = 1.15

// newPast lays the trips driven along the odometer: each ends at its row's
// odometer, its legs before that one after another. What is known already of
// trips by their ids is not worked out again.
func newPast(m machine, f *profiles.Folder, known map[string]stages) (*past, error) {
	road, _ := roadUsage(m, f.Model, profiles.Leg{Kind: profiles.RoadLeg, Distance: 1, Surface: "highway"})
	p := &past{perMetre: *road.nominal()}
	end := 0.0
	for _, e := range f.Log {
		if e.What != logbook.Trip {
			continue
		}
		way, ok := known[e.Text]
		if !ok {
			var err error
			if way, err = itinerary(m, f, f.Trips[e.Text]); err != nil {
				return nil, fmt.Errorf("trip driven %s: %w", e.Text, err)
			}
			known[e.Text] = way
		}
		first, last := 0, len(way.legs)
		if e.First > 0 {
			first, last = e.First-1, min(e.Last, last)
		}
		if first < last {
			end = p.lay(e, way.legs[first:last], way.usages[first:last], end)
		}
	}
	return p, nil
}

// lay adds a trip's legs after an odometer, and gives the odometer they end at.
func (p *past) lay(e logbook.Entry, legs []Leg, usages []usage, after float64) float64 {
	metres := 0.0
	for _, l := range legs {
		metres += l.Metres
	}
	end := float64(e.Odometer)
	at := math.Max(after, end-metres)
	if metres > float64(tooLong*(end-at))+1 {
		p.squeezed = append(p.squeezed, fmt.Sprintf("%s: the trip is longer than the odometer moved", e))
	}
	scale := (end - at) / math.Max(1, metres)
	visit := ""
	for j, l := range legs {
		s := drove{from: at, to: at + float64(scale*l.Metres), usage: usages[j], visit: -1}
		if l.Kind == profiles.CircuitLeg {
			if visit != l.Circuit || l.Day == 1 {
				p.visits++
			}
			visit, s.visit = l.Circuit, p.visits-1
			if l.BySummary {
				s.circuit = l.Circuit
				p.bySummary(l.Circuit)
			}
		}
		p.drives = append(p.drives, s)
		at = s.to
	}
	return math.Max(end, after)
}

func (p *past) bySummary(circuit string) {
	for _, c := range p.circuits {
		if c == circuit {
			return
		}
	}
	p.circuits = append(p.circuits, circuit)
}

// share is how much of a piece lies past one odometer and up to another.
func (s drove) share(from, to float64) float64 {
	if s.to > s.from {
		return math.Max(0, math.Min(to, s.to)-math.Max(from, s.from)) / (s.to - s.from)
	}
	if from < s.to && s.to <= to {
		return 1
	}
	return 0
}

// between is the drives that may have a share past one odometer and up to
// another.
func (p *past) between(from, to float64) []drove {
	first := sort.Search(len(p.drives), func(i int) bool { return p.drives[i].to > from })
	last := sort.Search(len(p.drives), func(i int) bool { return p.drives[i].from > to })
	return p.drives[first:max(first, last)]
}

// onCircuit is what a circuit visit took from a point.
type onCircuit struct {
	loss    loss
	visit   int
	circuit string
}

// taken is what the driving between two odometers took from a point by the
// model: on roads in all, on circuits visit by visit.
func (p *past) taken(of func(*kind.Wear) float64, from, to float64) (road float64, circuits []onCircuit) {
	rest := math.Max(0, to-from)
	for _, s := range p.between(from, to) {
		share := s.share(from, to)
		if share == 0 {
			continue
		}
		rest -= float64(share * (s.to - s.from))
		if s.visit < 0 {
			road += float64(share * of(s.usage.nominal()))
			continue
		}
		l := loss{share * of(&s.usage.at[0]), share * of(&s.usage.at[1]), share * of(&s.usage.at[2])}
		if last := len(circuits) - 1; last >= 0 && circuits[last].visit == s.visit {
			for i := range l {
				circuits[last].loss[i] += l[i]
			}
			continue
		}
		circuits = append(circuits, onCircuit{l, s.visit, s.circuit})
	}
	return road + float64(math.Max(0, rest)*of(&p.perMetre)), circuits
}

// worn is taken in two sums.
func (p *past) worn(of func(*kind.Wear) float64, from, to float64) (road, circuit float64) {
	road, visits := p.taken(of, from, to)
	for _, v := range visits {
		circuit += v.loss[1]
	}
	return road, circuit
}

// days counts the circuit days driven between two odometers.
func (p *past) days(from, to float64) float64 {
	n := 0.0
	for _, s := range p.between(from, to) {
		if s.visit >= 0 {
			n += s.share(from, to)
		}
	}
	return n
}
