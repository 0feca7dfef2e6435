package planner

import (
	"math"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
)

// onTheWay is a logbook of the demo's trip up to its third leg, as planned.
const onTheWay = `2027-05-10,143205 mi,replaced,rear,,tires-rear,,
2027-05-14,144216 mi,trip driven,,,spring 1,,
2027-05-15,144314 mi,trip driven,,,spring 2,,
`

const afterTheVisit = onTheWay + `2027-05-16,144412 mi,trip driven,,,spring 3,,
2027-05-16,144412 mi,pad,RF,,3.8 mm,,
2027-05-16,144412 mi,tread,RF,outside,5.2/32 in,,
`

// left plans what is left of the demo's trip by a logbook.
func left(t *testing.T, rows string, today time.Time) (*Outing, *plan.Plan) {
	t.Helper()
	f, spring := logged(t, rows)
	o := Options{Draws: 500, Today: today}
	g, err := Left(f, spring, o)
	if err != nil {
		t.Fatal(err)
	}
	p, err := g.Plan(o)
	if err != nil {
		t.Fatal(err)
	}
	return g, p
}

// A trip under way is planned as its rest would be, were it a trip of its own:
// the same wear, the same bands, leg by leg.
func TestRestIsATripOfItsOwn(t *testing.T) {
	for name, c := range map[string]struct {
		rows string
		rest func(profiles.Trip) profiles.Trip // written anew by hand
	}{
		"after the visit, in the morning": {afterTheVisit + "2027-05-17,144412 mi,odometer,,,,,\n", func(t profiles.Trip) profiles.Trip {
			t.Depart, t.Legs = time.Date(2027, 5, 17, 0, 0, 0, 0, time.UTC), t.Legs[2:]
			return t
		}},
		"before its second day": {onTheWay + "2027-05-16,144315 mi,odometer,,,,,\n", func(t profiles.Trip) profiles.Trip {
			t.Depart, t.Legs = time.Date(2027, 5, 16, 0, 0, 0, 0, time.UTC), t.Legs[1:]
			t.Legs[0].Days, t.Legs[0].Fee = 1, 0
			return t
		}},
		"after two of its sessions": {onTheWay + "2027-05-16,144353 mi,pad,RF,,4.9 mm,,\n", func(t profiles.Trip) profiles.Trip {
			t.Depart, t.Legs = time.Date(2027, 5, 16, 0, 0, 0, 0, time.UTC), t.Legs[1:]
			t.Legs[0].Days, t.Legs[0].Fee, t.Legs[0].Sessions.Count = 1, 0, 3
			return t
		}},
		"with the spare on and new oil": {afterTheVisit + "2027-05-16,144412 mi,replaced,front,,pads-front,,\n2027-05-17,144497 mi,trip driven,,,spring 4-5,,\n2027-05-17,144497 mi,oil change,engine,,,,\n2027-05-18,144497 mi,odometer,,,,,\n", func(t profiles.Trip) profiles.Trip {
			t.Depart, t.Legs = time.Date(2027, 5, 18, 0, 0, 0, 0, time.UTC), t.Legs[4:]
			return t
		}},
		"half way on the first road": {"2027-05-10,143205 mi,replaced,rear,,tires-rear,,\n2027-05-14,144216 mi,trip driven,,,spring 1,,\n2027-05-15,144314 mi,trip driven,,,spring 2,,\n2027-05-16,144412 mi,trip driven,,,spring 3,,\n2027-05-16,144497 mi,trip driven,,,spring 4,,\n2027-05-17,144497 mi,trip driven,,,spring 5,,\n2027-05-18,144777 mi,odometer,,,,,\n", func(t profiles.Trip) profiles.Trip {
			t.Depart, t.Legs = time.Date(2027, 5, 18, 0, 0, 0, 0, time.UTC), t.Legs[4:]
			t.Legs[0].Distance = 280 * mile
			return t
		}},
	} {
		t.Run(name, func(t *testing.T) {
			g, p := left(t, c.rows, time.Time{})
			if p.Standing == nil {
				t.Fatal("the logbook has begun the trip, and it is planned whole")
			}
			_, spring := demo(t, "juniper")
			own, err := Make(g.Folder, c.rest(spring.Clone()), Options{Draws: 500})
			if err != nil {
				t.Fatal(err)
			}
			near := cmp.Comparer(func(a, b float64) bool {
				return math.Abs(a-b) <= 1e-9*math.Max(1, math.Abs(a)) || math.IsNaN(a) && math.IsNaN(b)
			})
			for i, s := range p.Sets {
				if diff := cmp.Diff(own.Sets[i].Points, s.Points, near); diff != "" {
					t.Errorf("%s: %s", s.ID, diff)
				}
				if got, want := s.Decision.PAsIs, own.Sets[i].Decision.PAsIs; math.Abs(got-want) > 1e-9 {
					t.Errorf("%s: left alone %.4f, the rest by itself %.4f", s.ID, got, want)
				}
				if diff := cmp.Diff(own.Sets[i].After, s.After, near); diff != "" {
					t.Errorf("%s: %s", s.ID, diff)
				}
			}
			for _, k := range []string{plan.ForFuel, plan.ForFees, plan.ForNights} {
				if got, want := p.Spend(k), own.Spend(k); math.Abs(got-want) > 1e-6 {
					t.Errorf("%s costs %.2f, the rest by itself %.2f", k, got, want)
				}
			}
		})
	}
}

// What was expected before leaving is what the plan made then has its checks
// expect, and what is on the way is told apart from what is left.
func TestForetold(t *testing.T) {
	f, spring := logged(t, "2027-05-10,143205 mi,replaced,rear,,tires-rear,,\n")
	whole, err := Make(f, spring, Options{Draws: 500})
	if err != nil {
		t.Fatal(err)
	}
	_, p := left(t, afterTheVisit, time.Time{})
	want := map[string]float64{}
	for _, c := range whole.Checks {
		for _, r := range c.Expect {
			if r.Leg == 3 {
				want[c.Set] = r.Level
			}
		}
	}
	if len(p.Standing.Foretold) != 2 {
		t.Fatalf("%+v", p.Standing.Foretold)
	}
	for _, r := range p.Standing.Foretold {
		if math.Abs(r.Expected-want[r.Set]) > 1e-6 {
			t.Errorf("%s %s: %.3f mm expected, the checks before leaving say %.3f", r.Place, r.Zone, 1000*r.Expected, 1000*want[r.Set])
		}
	}
	s := p.Standing
	if s.Driven != 3 || s.Legs != 8 || s.Days != 1 || math.Abs(s.Left-1890*1609.344) > 1 || s.Place != "Heron Flats day 2" {
		t.Errorf("%+v", s)
	}
	pads := setOf(p, t, "pads-front")
	if pads.Decision.Action != plan.ReplaceBefore || pads.Decision.Shelf != 1 {
		t.Errorf("the spare pads are in the trunk, and they are to %s, %d of them from it", pads.Decision.Action, pads.Decision.Shelf)
	}
	for _, it := range p.Shopping {
		if !it.OnShelf && it.Set != "" {
			t.Errorf("%s is to be bought on the road", it.Name)
		}
	}
}

// A spare that went on is gone from the trunk, and what is read of it is
// expected of it.
func TestSpareFitted(t *testing.T) {
	_, p := left(t, afterTheVisit+"2027-05-16,144412 mi,replaced,front,,pads-front,,\n2027-05-17,144497 mi,trip driven,,,spring 4-5,,\n2027-05-17,144497 mi,pad,RF,,10.9 mm,,\n", time.Time{})
	s := p.Standing
	for _, it := range s.Trunk {
		if it.Set == "pads-front" {
			t.Error("the spare pads are on, and still in the trunk")
		}
	}
	for _, d := range s.Decided {
		if d.Set == "pads-front" && (d.Action != plan.Bring || d.Row == 0) {
			t.Errorf("%+v", d)
		}
	}
	for _, r := range s.Foretold {
		if r.Measure == "pad" && math.Abs(r.Expected-0.011) > 1e-4 {
			t.Errorf("%.2f mm expected of the spare", 1000*r.Expected)
		}
	}
}

// What the trunk holds is as the logbook corrects it, and a visit whose first day
// is under way keeps the days' numbers.
func TestTrunkCorrected(t *testing.T) {
	holds := func(rows string) map[string]bool {
		g, p := left(t, "2027-05-10,143205 mi,replaced,rear,,tires-rear,,\n2027-05-14,144216 mi,trip driven,,,spring 1,,\n2027-05-15,144255 mi,pad,RF,,6 mm,,\n"+rows, time.Time{})
		if first, next := p.Legs[0].Name, p.Legs[1].Name; first != "Heron Flats day 1" || next != "Heron Flats day 2" {
			t.Errorf("the days left are %s and %s", first, next)
		}
		out := map[string]bool{}
		for _, it := range p.Standing.Trunk {
			out[it.Part] = true
		}
		for _, s := range g.Folder.Car.Shelf {
			if !out[s.Part] {
				t.Errorf("%s is planned with and not in the trunk", s.Part)
			}
		}
		return out
	}
	if was := holds(""); !was["pads-front"] || was["pads-rear"] {
		t.Fatalf("the trunk holds %v", was)
	}
	if is := holds("2027-05-15,144255 mi,unpacked,,,pads-front,,\n2027-05-15,144255 mi,packed,,,pads-rear,,\n"); is["pads-front"] || !is["pads-rear"] {
		t.Errorf("corrected, the trunk holds %v", is)
	}
}

// A history with the same trip's visits, of another year, begins nothing; nor
// does a trip that is long over.
func TestNotUnderWay(t *testing.T) {
	day := time.Date(2027, 7, 1, 0, 0, 0, 0, time.UTC)
	for name, c := range map[string]struct {
		rows  string
		today time.Time
	}{
		"another year":    {"2026-09-06,141100 mi,trip driven,,,spring 2-3,,\n", time.Time{}},
		"all of it":       {"2027-05-21,146100 mi,trip driven,,,spring,,\n", time.Time{}},
		"to its last leg": {afterTheVisit + "2027-05-21,146400 mi,trip driven,,,spring 4-8,,\n", time.Time{}},
		"long over":       {afterTheVisit, day},
		"rows long after": {afterTheVisit + "2027-07-01,147000 mi,odometer,,,,,\n", time.Time{}},
	} {
		if _, p := left(t, c.rows, c.today); p.Standing != nil {
			t.Errorf("%s: %+v", name, p.Standing)
		}
	}
}

// What was last read before a circuit day that is driven since is asked about
// where its reading could turn the answer, and not once it is read.
func TestOutdatedReadingIsAsked(t *testing.T) {
	visit := onTheWay + "2027-05-16,144412 mi,trip driven,,,spring 3,,\n2027-05-16,144497 mi,trip driven,,,spring 4,,\n"
	_, p := left(t, visit, time.Time{})
	if p.Verdict != plan.CantSay || len(p.Readings) == 0 || p.Readings[0].Set != "pads-front" {
		t.Errorf("%s, to read %+v", p.Verdict, p.Readings)
	}
	_, p = left(t, visit+"2027-05-16,144497 mi,pad,LF,,4.1 mm,,\n2027-05-16,144497 mi,pad,RF,,4.0 mm,,\n", time.Time{})
	for _, r := range p.Readings {
		if r.Set == "pads-front" {
			t.Errorf("they were read, and are asked about: %+v", r)
		}
	}
}
