package trip

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/floats/scalar"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/quantity"
)

// hubWear is a usage that takes so much from every hub.
func hubWear(circuit bool, taken float64) Usage {
	u := Usage{Circuit: circuit}
	for i := range u.At {
		u.At[i].Hub = [4]float64{taken, taken, taken, taken}
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
		{"a meter on the spot", 0.001, 0, 0},
		{"two meters on the spot", 0.002, 0, 1},
	} {
		p := &Past{}
		after := 5e6
		end := added(t, p, logbook.Entry{What: logbook.Trip, Odometer: 5e6 + 1000*quantity.Length(c.odometer)}, []plan.Leg{{Kind: profiles.RoadLeg, Meters: c.km * 1000}}, []Usage{{}}, after)
		if len(p.TooLong) != c.said || end != after+c.odometer*1000 {
			t.Errorf("%s: ends at %.0f m, said %q", c.what, end, p.TooLong)
		}
	}
}

// Trips lie along the odometer, each up to its own row: 150 km driven up to
// 1,150 km began at 1,000. One that is longer than the odometer moved is
// squeezed in after the one before.
func TestTripsAlongTheOdometer(t *testing.T) {
	legs := []plan.Leg{{Kind: profiles.RoadLeg, Meters: 100e3}, {Kind: profiles.CircuitLeg, Circuit: "ring", Day: 1, Meters: 50e3}}
	usages := []Usage{hubWear(false, 0.1), hubWear(true, 0.3)}
	p := &Past{}
	end := added(t, p, logbook.Entry{Odometer: 1150e3}, legs, usages, 0)
	end = added(t, p, logbook.Entry{Odometer: 1270e3}, legs, usages, end)
	want := [][2]float64{{1000, 1100}, {1100, 1150}, {1150, 1230}, {1230, 1270}}
	for i, s := range p.Drives {
		if math.Abs(s.From/1000-want[i][0]) > 1e-9 || math.Abs(s.To/1000-want[i][1]) > 1e-9 {
			t.Errorf("piece %d from %.1f to %.1f km, want %v", i+1, s.From/1000, s.To/1000, want[i])
		}
	}
	if end != 1270e3 || p.Visits != 2 || p.Drives[1].Visit != 0 || p.Drives[3].Visit != 1 || p.Drives[2].Visit != -1 {
		t.Errorf("ends at %g, %d visits", end, p.Visits)
	}
}

// Two days at a circuit are one visit, another circuit or another weekend is
// the next.
func TestVisits(t *testing.T) {
	day := func(circuit string, n int) plan.Leg {
		return plan.Leg{Kind: profiles.CircuitLeg, Circuit: circuit, Day: n, Meters: 1000, BySummary: true}
	}
	p := &Past{}
	legs := []plan.Leg{day("ring", 1), day("ring", 2), day("oval", 1), day("ring", 1), day("ring", 1)}
	added(t, p, logbook.Entry{Odometer: 5000}, legs, make([]Usage, len(legs)), 0)
	for i, want := range []int{0, 0, 1, 2, 3} {
		if got := p.Drives[i].Visit; got != want || p.Drives[i].Circuit != legs[i].Circuit {
			t.Errorf("day %d is of visit %d, want %d", i+1, got, want)
		}
	}
	if p.Visits != 4 || len(p.Circuits) != 2 {
		t.Errorf("%d visits of %v", p.Visits, p.Circuits)
	}
}

// What was taken between two odometers is summed piece by piece, by the share
// of it that lies between, and miles that no trip tells of count by the meter.
// From 50 to 220 km here: half of a road, all of a day, half of another, and
// 60 km that nobody wrote down.
func TestTakenByHand(t *testing.T) {
	per := kind.Wear{}
	per.Hub[1] = 1e-6
	p := &Past{PerMeter: per, Visits: 2, Drives: []Drive{
		{From: 0, To: 100e3, Usage: hubWear(false, 0.1), Visit: -1},
		{From: 100e3, To: 140e3, Usage: hubWear(true, 0.3), Visit: 0},
		{From: 200e3, To: 240e3, Usage: hubWear(true, 0.8), Visit: 1, Circuit: "ring"},
	}}
	road, visits := p.Taken(ofRF, nil, 50e3, 220e3)
	if math.Abs(road-(0.05+0.06)) > 1e-12 || len(visits) != 2 || math.Abs(visits[0].Loss[1]-0.3) > 1e-12 || math.Abs(visits[1].Loss[1]-0.4) > 1e-12 || visits[1].Circuit != "ring" {
		t.Errorf("road %.4f, visits %+v", road, visits)
	}
	if road, circuit := p.Worn(ofRF, nil, 50e3, 220e3); math.Abs(road-0.11) > 1e-12 || math.Abs(circuit-0.7) > 1e-12 {
		t.Errorf("road %.4f, circuits %.4f", road, circuit)
	}
	if d := p.Days(nil, 50e3, 220e3); math.Abs(d-1.5) > 1e-12 {
		t.Errorf("%.2f days on circuits", d)
	}
}

// A day of no length, where the odometer did not move, counts once: up to its
// reading, not past it.
func TestDayOfNoLength(t *testing.T) {
	p := &Past{Drives: []Drive{{From: 100, To: 100, Usage: hubWear(true, 0.3), Visit: 0}}}
	for _, c := range [][3]float64{{0, 99, 0}, {0, 100, 1}, {99, 101, 1}, {100, 101, 0}} {
		if got := p.Days(nil, c[0], c[1]); got != c[2] {
			t.Errorf("from %g to %g m: %g days, want %g", c[0], c[1], got, c[2])
		}
	}
}

// A reading on the way belongs to the legs before it: a trip read in the
// middle takes the same in all as one read at its end.
func TestPastSplits(t *testing.T) {
	f, _ := logged(t, "2026-06-14,146200 mi,trip driven,,,spring,,\n")
	p, err := NewPast(NewMachine(f), f, map[string]Stages{})
	if err != nil {
		t.Fatal(err)
	}
	of := func(w *kind.Wear) float64 { return w.Tread[1][2] }
	start, end := 143200*float64(mile), 146200*float64(mile)
	road, circuit := p.Worn(of, nil, start, end)
	for _, at := range []float64{0.1, 0.35, 0.4, 0.62, 0.9} {
		mid := start + at*(end-start)
		roadA, circuitA := p.Worn(of, nil, start, mid)
		roadB, circuitB := p.Worn(of, nil, mid, end)
		if !scalar.EqualWithinRel(roadA+roadB, road, 1e-12) || !scalar.EqualWithinRel(circuitA+circuitB, circuit, 1e-12) {
			t.Errorf("split at %.2f: road %g + %g, want %g; circuit %g + %g, want %g", at, roadA, roadB, road, circuitA, circuitB, circuit)
		}
	}
	if d := p.Days(nil, start, end); !scalar.EqualWithinAbs(d, 3, 1e-9) {
		t.Errorf("%.3f circuit days, want 3", d)
	}
	if _, before := p.Worn(of, nil, 100*float64(mile), 130000*float64(mile)); before != 0 {
		t.Error("circuits before the first trip")
	}
}

// added is where a trip ends that is added to the past.
func added(t *testing.T, p *Past, e logbook.Entry, legs []plan.Leg, usages []Usage, after float64) float64 {
	t.Helper()
	way := Stages{Legs: legs, Usages: usages, asked: make([]profiles.Leg, len(legs))}
	end, err := p.addTrip(Machine{}, &profiles.Folder{}, e, way, 0, len(legs), after)
	if err != nil {
		t.Fatal(err)
	}
	return end
}

// A day of three sessions in the wet, by a row of the logbook, takes less than
// one of five in the dry, and the trip's other days stay as planned.
func TestPastAsDriven(t *testing.T) {
	f, _ := demo(t, "juniper")
	m, known := NewMachine(f), map[string]Stages{}
	day := func(e logbook.Entry) float64 {
		e.What, e.Text, e.First, e.Last, e.Odometer = logbook.Trip, "spring", 2, 2, f.Car.Odometer+400e3
		f.Log = []logbook.Entry{e}
		p, err := NewPast(m, f, known)
		if err != nil {
			t.Fatal(err)
		}
		_, circuit := p.Worn(func(w *kind.Wear) float64 { return w.Pad[1] }, nil, 0, float64(e.Odometer))
		return circuit
	}
	dry, short, wet := day(logbook.Entry{}), day(logbook.Entry{Sessions: 3}), day(logbook.Entry{Sessions: 3, Wet: true})
	if short < 0.5*dry || short > 0.65*dry || wet > 0.9*short || dry != day(logbook.Entry{}) {
		t.Errorf("pads lose %.3g m in five sessions, %.3g in three, %.3g where they are wet", dry, short, wet)
	}
}
