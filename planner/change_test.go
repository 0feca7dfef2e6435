package planner

import (
	"bytes"
	"encoding/gob"
	"math"
	"testing"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
)

const degree = math.Pi / 180

// before and after plan the demo and the demo with one change.
func before(t *testing.T, change func(*profiles.Folder, *profiles.Trip)) (was, is *plan.Plan) {
	t.Helper()
	f, trip := demo(t, "juniper")
	was = planned(t, f, trip)
	change(f, &trip)
	return was, planned(t, f, trip)
}

func ratio(t *testing.T, was, is *plan.Plan, set, place, zone string) float64 {
	t.Helper()
	return lost(setOf(is, t, set), t, place, zone) / lost(setOf(was, t, set), t, place, zone)
}

func within(t *testing.T, what string, got, lo, hi float64) {
	t.Helper()
	if !(got >= lo && got <= hi) {
		t.Errorf("%s: got x%.3f, want x%.2f to x%.2f", what, got, lo, hi)
	}
}

// Rear toe doubled quadruples the toe term of the road wear and leaves the
// front alone. By hand, at 0.12 deg and a wheel load of 3.2 kN: the term is
// 14.3/rad x 3.2 kN x (2.09 mrad)^2 = 0.20 J/m, or 1.3 mm3/km beside a base of
// 34 mm3/km; four times that is about 11 % more road wear. At 0.5 deg it is
// 22 mm3/km, and toe decides how fast.
func TestRearToeDoubled(t *testing.T) {
	toe := func(deg float64) func(*profiles.Folder, *profiles.Trip) {
		return func(f *profiles.Folder, _ *profiles.Trip) {
			for _, at := range []string{"LR", "RR"} {
				a := f.Car.Alignment[at]
				a.Toe = quantity.Angle(deg * degree)
				f.Car.Alignment[at] = a
			}
		}
	}
	road := func(p *plan.Plan) float64 { // mean of the wheel on the first road
		sum := 0.0
		for _, pt := range setOf(p, t, "tires-rear").Points {
			if pt.Place == "LR" {
				sum += pt.Loss[0] / 3
			}
		}
		return sum
	}
	was, is := before(t, toe(0.24))
	within(t, "rear on the first road", road(is)/road(was), 1.09, 1.13)
	within(t, "rear inside", ratio(t, was, is, "tires-rear", "LR", "inside"), 1.01, 1.06)
	within(t, "front inside", ratio(t, was, is, "tires-front", "LF", "inside"), 1, 1)
	_, is = before(t, toe(0.5))
	within(t, "rear on the first road, 0.5 deg", road(is)/road(was), 1.5, 1.8)
}

// A degree less negative camber moves the wear outward and keeps its sum.
func TestCamberPlusOneDegree(t *testing.T) {
	was, is := before(t, func(f *profiles.Folder, _ *profiles.Trip) {
		for at, a := range f.Car.Alignment {
			a.Camber += quantity.Angle(degree)
			f.Car.Alignment[at] = a
		}
	})
	for _, w := range []struct{ set, place string }{{"tires-front", "LF"}, {"tires-front", "RF"}, {"tires-rear", "LR"}, {"tires-rear", "RR"}} {
		within(t, w.place+" inside", ratio(t, was, is, w.set, w.place, "inside"), 0.7, 0.98)
		within(t, w.place+" outside", ratio(t, was, is, w.set, w.place, "outside"), 1.02, 1.5)
		var a, b float64
		for _, z := range kind.Zones {
			a += lost(setOf(was, t, w.set), t, w.place, z)
			b += lost(setOf(is, t, w.set), t, w.place, z)
		}
		within(t, w.place+" in all", b/a, 1-1e-9, 1+1e-9)
	}
}

// Mirroring the circuit (left share 75 % to 25 %) moves the wear across the
// car: with the same setting on both sides, exactly.
func TestLeftShareMirrored(t *testing.T) {
	change := func(f *profiles.Folder, trip *profiles.Trip) {
		trip.Legs = []profiles.Leg{days("heron-flats", 2, "intermediate")}
	}
	f, trip := demo(t, "juniper")
	change(f, &trip)
	was := planned(t, f, trip)
	c := f.Circuits["heron-flats"]
	c.Corners = append([]profiles.Corner(nil), c.Corners...)
	for i := range c.Corners {
		c.Corners[i].Turn *= -1
	}
	f.Circuits["heron-flats"] = c
	is := planned(t, f, trip)
	if got := was.Legs[0].LeftShare + is.Legs[0].LeftShare; math.Abs(got-1) > 1e-9 {
		t.Errorf("left shares add up to %g", got)
	}
	for _, pair := range [][4]string{{"tires-front", "LF", "RF", "outside"}, {"tires-rear", "LR", "RR", "inside"}} {
		a, b := lost(setOf(was, t, pair[0]), t, pair[1], pair[3]), lost(setOf(is, t, pair[0]), t, pair[2], pair[3])
		within(t, pair[1]+" becomes "+pair[2], b/a, 1-1e-9, 1+1e-9)
	}
	a, b := lost(setOf(was, t, "hub-RF"), t, "RF", ""), lost(setOf(is, t, "hub-LF"), t, "LF", "")
	within(t, "RF hub becomes LF hub", b/a, 1-1e-9, 1+1e-9)
	if was.Suffers != "RF" || is.Suffers != "LF" {
		t.Errorf("suffers %s, mirrored %s; want RF, LF: left turns lean on the right side", was.Suffers, is.Suffers)
	}
}

// From intermediate (0.80) to advanced (0.90): tread grows with about the
// square of the pace or a little more, pads, cracks and hubs much more.
func TestPaceAdvanced(t *testing.T) {
	was, is := before(t, func(_ *profiles.Folder, trip *profiles.Trip) {
		for i := range trip.Legs {
			if trip.Legs[i].Kind == profiles.CircuitLeg {
				trip.Legs[i].Pace = "advanced"
			}
		}
	})
	pace := math.Log(0.90 / 0.80)
	power := func(set, place, zone string) float64 {
		day := func(p *plan.Plan) float64 {
			for _, pt := range setOf(p, t, set).Points {
				if pt.Place == place && pt.Zone == zone {
					return pt.Loss[1] / float64(p.Legs[1].Laps)
				}
			}
			return 0
		}
		return math.Log(day(is)/day(was)) / pace
	}
	within(t, "power of tread", power("tires-front", "RF", "middle"), 1.8, 3.2)
	within(t, "power of front pads", power("pads-front", "LF", ""), 2.5, 5)
	within(t, "power of front cracks", power("rotors-front", "LF", "face"), 3, 6)
	within(t, "power of hubs", power("hub-RF", "RF", ""), 3, 4.5)
}

// From 600 to 1,200 miles on the first road: its own part doubles, the
// circuit's stays.
func TestMilesDoubled(t *testing.T) {
	f, trip := demo(t, "juniper")
	trip.Legs[0].Distance = 600 * mile
	was := planned(t, f, trip)
	trip.Legs = append([]profiles.Leg(nil), trip.Legs...)
	trip.Legs[0].Distance = 1200 * mile
	is := planned(t, f, trip)
	for i, s := range was.Sets {
		for k, p := range s.Points {
			q := is.Sets[i].Points[k]
			if p.Loss[0] > 0 {
				within(t, s.ID+" "+p.Place+" "+p.Zone+" on the road", q.Loss[0]/p.Loss[0], 2-1e-9, 2+1e-9)
			}
			if s.Kind != profiles.Fluid && p.Loss[1] > 0 {
				within(t, s.ID+" "+p.Place+" "+p.Zone+" on the circuit", q.Loss[1]/p.Loss[1], 1, 1)
			}
		}
	}
}

// The same input gives the same bytes, and another seed another draw.
func TestSameSeedSameBytes(t *testing.T) {
	encode := func(seed uint64) []byte {
		f, trip := demo(t, "juniper")
		p, err := Make(f, trip, Options{Draws: 1000, Seed: seed})
		if err != nil {
			t.Fatal(err)
		}
		var b bytes.Buffer
		if err := gob.NewEncoder(&b).Encode(p); err != nil {
			t.Fatal(err)
		}
		return b.Bytes()
	}
	if !bytes.Equal(encode(5), encode(5)) {
		t.Error("the same seed gave another plan")
	}
	if bytes.Equal(encode(5), encode(6)) {
		t.Error("another seed gave the same plan")
	}
}
