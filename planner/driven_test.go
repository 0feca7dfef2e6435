package planner

import (
	"math"
	"testing"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/quantity"
)

// hubWear is a usage that takes so much from every hub.
func hubWear(circuit bool, taken float64) usage {
	u := usage{circuit: circuit}
	for i := range u.at {
		u.at[i].Hub = [4]float64{taken, taken, taken, taken}
	}
	return u
}

func ofRF(w *kind.Wear) float64 { return w.Hub[1] }

// A trip has to fit the odometer: 115 km written down as 100 is let pass, 116
// is said. A stop at a workshop drives nothing and is never too long.
func TestTripFitsOdometer(t *testing.T) {
	for _, c := range []struct {
		what     string
		km       float64
		odometer float64 // km
		said     int
	}{
		{"as driven", 100, 100, 0},
		{"a detour left out of the trip", 115, 100, 0},
		{"too long", 116, 100, 1},
		{"nothing driven", 0, 0, 0},
		{"a metre on the spot", 0.001, 0, 0},
		{"two metres on the spot", 0.002, 0, 1},
	} {
		p := &past{}
		after := 5e6
		end := p.lay(logbook.Entry{What: logbook.Trip, Odometer: 5e6 + 1000*quantity.Length(c.odometer)}, []Leg{{Kind: profiles.RoadLeg, Metres: c.km * 1000}}, []usage{{}}, after)
		if len(p.squeezed) != c.said || end != after+c.odometer*1000 {
			t.Errorf("%s: ends at %.0f m, said %q", c.what, end, p.squeezed)
		}
	}
}

// Trips lie along the odometer, each up to its own row: 150 km driven up to
// 1,150 km began at 1,000. One that is longer than the odometer moved is
// squeezed in after the one before.
func TestTripsAlongTheOdometer(t *testing.T) {
	legs := []Leg{{Kind: profiles.RoadLeg, Metres: 100e3}, {Kind: profiles.CircuitLeg, Circuit: "ring", Day: 1, Metres: 50e3}}
	usages := []usage{hubWear(false, 0.1), hubWear(true, 0.3)}
	p := &past{}
	end := p.lay(logbook.Entry{Odometer: 1150e3}, legs, usages, 0)
	end = p.lay(logbook.Entry{Odometer: 1270e3}, legs, usages, end)
	want := [][2]float64{{1000, 1100}, {1100, 1150}, {1150, 1230}, {1230, 1270}}
	for i, s := range p.drives {
		if math.Abs(s.from/1000-want[i][0]) > 1e-9 || math.Abs(s.to/1000-want[i][1]) > 1e-9 {
			t.Errorf("piece %d from %.1f to %.1f km, want %v", i+1, s.from/1000, s.to/1000, want[i])
		}
	}
	if end != 1270e3 || p.visits != 2 || p.drives[1].visit != 0 || p.drives[3].visit != 1 || p.drives[2].visit != -1 {
		t.Errorf("ends at %g, %d visits", end, p.visits)
	}
}

// Two days at a circuit are one visit, another circuit or another weekend is
// the next.
func TestVisits(t *testing.T) {
	day := func(circuit string, n int) Leg {
		return Leg{Kind: profiles.CircuitLeg, Circuit: circuit, Day: n, Metres: 1000, BySummary: true}
	}
	p := &past{}
	legs := []Leg{day("ring", 1), day("ring", 2), day("oval", 1), day("ring", 1), day("ring", 1)}
	p.lay(logbook.Entry{Odometer: 5000}, legs, make([]usage, len(legs)), 0)
	for i, want := range []int{0, 0, 1, 2, 3} {
		if got := p.drives[i].visit; got != want || p.drives[i].circuit != legs[i].Circuit {
			t.Errorf("day %d is of visit %d, want %d", i+1, got, want)
		}
	}
	if p.visits != 4 || len(p.circuits) != 2 {
		t.Errorf("%d visits of %q", p.visits, p.circuits)
	}
}

// What was taken between two odometers is summed piece by piece, by the share
// of it that lies between, and miles that no trip tells of count by the metre.
// From 50 to 220 km here: half of a road, all of a day, half of another, and
// 60 km that nobody wrote down.
func TestTakenByHand(t *testing.T) {
	per := kind.Wear{}
	per.Hub[1] = 1e-6
	p := &past{perMetre: per, visits: 2, drives: []drove{
		{from: 0, to: 100e3, usage: hubWear(false, 0.1), visit: -1},
		{from: 100e3, to: 140e3, usage: hubWear(true, 0.3), visit: 0},
		{from: 200e3, to: 240e3, usage: hubWear(true, 0.8), visit: 1, circuit: "ring"},
	}}
	road, visits := p.taken(ofRF, 50e3, 220e3)
	if math.Abs(road-(0.05+0.06)) > 1e-12 || len(visits) != 2 || math.Abs(visits[0].loss[1]-0.3) > 1e-12 || math.Abs(visits[1].loss[1]-0.4) > 1e-12 || visits[1].circuit != "ring" {
		t.Errorf("road %.4f, visits %+v", road, visits)
	}
	if road, circuit := p.worn(ofRF, 50e3, 220e3); math.Abs(road-0.11) > 1e-12 || math.Abs(circuit-0.7) > 1e-12 {
		t.Errorf("road %.4f, circuits %.4f", road, circuit)
	}
	if d := p.days(50e3, 220e3); math.Abs(d-1.5) > 1e-12 {
		t.Errorf("%.2f days on circuits", d)
	}
}

// A day of no length, where the odometer did not move, counts once: up to its
// reading, not past it.
func TestDayOfNoLength(t *testing.T) {
	p := &past{drives: []drove{{from: 100, to: 100, usage: hubWear(true, 0.3), visit: 0}}}
	for _, c := range [][3]float64{{0, 99, 0}, {0, 100, 1}, {99, 101, 1}, {100, 101, 0}} {
		if got := p.days(c[0], c[1]); got != c[2] {
			t.Errorf("from %g to %g m: %g days, want %g", c[0], c[1], got, c[2])
		}
	}
}

// The age of a hub that the logbook put on is what its roads and its circuits
// took together. One that car.yaml has goes on from the life used that is
// given there, or counts the days that the logbook does not tell of: evenly
// over the miles before, in full after them.
func TestAge(t *testing.T) {
	f, _ := demo(t, "juniper")
	written := float64(f.AsWritten().Odometer)
	per := kind.Wear{}
	per.Hub[1] = 1e-9
	day := hubWear(true, 0.01)
	w := &journey{folder: f, perDay: *day.nominal()}
	w.past = &past{perMetre: per, visits: 2, drives: []drove{
		{from: written - 50e3, to: written - 40e3, usage: hubWear(true, 0.02), visit: 0},
		{from: written + 10e3, to: written + 20e3, usage: hubWear(true, 0.2), visit: 1},
	}}
	from := written - 100e3
	used := &profiles.Fitted{Used: map[string]quantity.Share{"RF": 0.4}}
	three := &profiles.Fitted{CircuitDays: 3} // one is in the logbook
	for _, c := range []struct {
		what string
		l    life
		at   float64 // m past what car.yaml says
		want float64
	}{
		{"logged", life{from: from, logged: true}, 20e3, 100e-6 + 0.22},
		{"half-way through the life used", life{from: from, entry: used}, -50e3, 0.2},
		{"at the life used", life{from: from, entry: used}, 0, 0.4},
		{"a weekend after it", life{from: from, entry: used}, 20e3, 0.4 + 10e-6 + 0.2},
		{"half-way, one of two days", life{from: from, entry: three}, -50e3, 50e-6 + 0.01},
		{"two days besides the logbook's", life{from: from, entry: three}, 0, 90e-6 + 0.02 + 0.02},
		{"and a weekend after", life{from: from, entry: three}, 20e3, 100e-6 + 0.22 + 0.02},
		{"put on at the last moment", life{from: written, entry: three}, 0, 0.03},
	} {
		if got := ageAt(w, c.l, ofRF, "RF", written+c.at); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%s: age %.6f, want %.6f", c.what, got, c.want)
		}
	}
}
