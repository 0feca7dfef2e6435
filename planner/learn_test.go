package planner

import (
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
)

// hungry is a log by which the front pads wear faster than the model has it.
const hungry = `2026-09-06,140300 mi,trip driven,,,spring 2,,
2026-09-06,140300 mi,pad,RF,,8.9 mm,,
2026-10-03,141900 mi,pad,RF,,8.8 mm,,
2026-10-04,142100 mi,trip driven,,,spring 2,,
2026-10-04,142100 mi,pad,RF,,7.0 mm,,
`

// Three readings change the plan: the pads that wear faster are likelier to
// run out, and --prior leaves that aside.
func TestLogChangesPlan(t *testing.T) {
	plain, trip := demo(t, "juniper")
	before := setOf(planned(t, plain, trip), t, "pads-front")
	f, trip := logged(t, hungry)
	p := planned(t, f, trip)
	after := setOf(p, t, "pads-front")
	if after.Decision.PAsIs < before.Decision.PAsIs+0.15 {
		t.Errorf("chance to run out %.2f, without the log %.2f", after.Decision.PAsIs, before.Decision.PAsIs)
	}
	l := after.Learned
	if l.Readings != 4 || !l.Circuit.Taught || l.Circuit.Median < 1.2 || l.Circuit.Low < 1 || l.Circuit.High > 2.2 {
		t.Errorf("learned %+v", l)
	}
	for _, id := range []string{"tires-front", "tires-rear"} {
		if got := setOf(p, t, id); got.Learned != (plan.Learned{}) || got.Decision.PAsIs != setOf(planned(t, plain, trip), t, id).Decision.PAsIs {
			t.Errorf("%s learned from pads: %+v", id, got.Learned)
		}
	}
	prior, err := Make(f, trip, Options{Draws: 2000, Prior: true})
	if err != nil {
		t.Fatal(err)
	}
	if got := setOf(prior, t, "pads-front"); got.Learned != (plan.Learned{}) || got.Decision.PAsIs != before.Decision.PAsIs {
		t.Errorf("prior: %+v, chance %.3f, want %.3f", got.Learned, got.Decision.PAsIs, before.Decision.PAsIs)
	}
}

// A fix ends what the readings before it tell: what is left is what the other
// axle says, at half its weight. Without any it is the model.
func TestFixEndsLearning(t *testing.T) {
	f, trip := logged(t, hungry+"2026-10-05,142150 mi,fix,front,,pads,,calipers freed\n")
	p := planned(t, f, trip)
	front, rear := setOf(p, t, "pads-front").Learned, setOf(p, t, "pads-rear").Learned
	if !front.Borrowed || front.Readings != 0 || math.Abs(math.Log(front.Circuit.Median)) > math.Abs(math.Log(rear.Circuit.Median)) {
		t.Errorf("front %+v, rear %+v", front, rear)
	}
	f, trip = logged(t, hungry+"2026-10-05,142150 mi,fix,front,,pads,,\n2026-10-05,142150 mi,fix,rear,,pads,,\n")
	if l := setOf(planned(t, f, trip), t, "pads-front").Learned; l != (plan.Learned{}) {
		t.Errorf("learned %+v", l)
	}
}

// What was driven past a reading is taken off it, at the learned rates, and
// the plan says how old the reading is.
func TestSinceReading(t *testing.T) {
	f, trip := logged(t, "2027-04-18,143300 mi,pad,RF,,6.5 mm,,\n2027-04-18,143300 mi,pad,LF,,6.6 mm,,\n2027-04-20,144300 mi,odometer,,,,,\n")
	s := setOf(planned(t, f, trip), t, "pads-front")
	if s.Driven != 1000*float64(mile) || s.MeasuredOn.Format("2006-01-02") != "2027-04-18" {
		t.Errorf("measured %v, %.0f m ago", s.MeasuredOn, s.Driven)
	}
	for _, p := range s.Points {
		if p.Place == "RF" && (p.Start >= 6.5e-3 || p.Start < 6.4e-3) {
			t.Errorf("RF starts at %.5f after 1000 mi of road", p.Start)
		}
	}
}

// A corner that keeps losing bearings comes out as what it is, and a fix
// starts its history anew.
func TestReplacementHistory(t *testing.T) {
	const history = `2026-09-06,141100 mi,trip driven,,,spring 2-3,,
2026-09-06,141100 mi,hub,RF,,play,,
2026-09-07,141110 mi,renewal,RF,,hub-front,,
2026-10-06,142000 mi,trip driven,,,spring 2-3,,
2026-10-06,142000 mi,hub,RF,,rough,,
2026-10-07,142010 mi,renewal,RF,,hub-front,,
2026-11-06,142900 mi,trip driven,,,spring 2-3,,
2026-11-06,142900 mi,hub,RF,,play,,
2026-11-07,142910 mi,renewal,RF,,hub-front,,
`
	plain, trip := demo(t, "juniper")
	ordinary := setOf(planned(t, plain, trip), t, "hub-RF").Decision.PAsIs
	f, trip := logged(t, history)
	often := setOf(planned(t, f, trip), t, "hub-RF").Decision.PAsIs
	if often < 5*ordinary || often < 0.15 {
		t.Errorf("after three lost bearings the next one fails with %.3f, an ordinary one with %.3f", often, ordinary)
	}
	if other := setOf(planned(t, f, trip), t, "hub-LF").Decision.PAsIs; other > 2*ordinary+0.02 {
		t.Errorf("the corner beside it fails with %.3f", other)
	}
	f, trip = logged(t, history+"2026-12-01,142950 mi,fix,RF,,bearing,,upright bored and sleeved\n2026-12-01,142950 mi,renewal,RF,,hub-front,,\n")
	// A repair is a theory: it cured the corner, or it did not.
	if s := setOf(planned(t, f, trip), t, "hub-RF"); s.Decision.PAsIs < 0.3*often || s.Decision.PAsIs > 0.7*often || s.Decision.Action == plan.Run {
		t.Errorf("after the repair it fails with %.3f, before with %.3f, an ordinary one with %.3f: %s", s.Decision.PAsIs, often, ordinary, s.Decision.Action)
	}
	teaching, err := Learn(f, nil, Options{})
	if err != nil || len(teaching.Hubs) != 1 || len(teaching.Hubs[0].Bad) != 3 {
		t.Errorf("after the repair: %+v, %v", teaching.Hubs, err)
	}
	// What failed after the repair speaks against its cure.
	f, _ = logged(t, history+"2026-12-01,142950 mi,fix,RF,,bearing,,\n2026-12-01,142950 mi,renewal,RF,,hub-front,,\n2027-02-01,143150 mi,trip driven,,,spring 2,,\n2027-02-01,143150 mi,hub,RF,,play,,\n")
	teaching, err = Learn(f, nil, Options{})
	if err != nil || len(teaching.Hubs) != 1 || len(teaching.Hubs[0].Bad) != 4 || teaching.Hubs[0].Good != 1 {
		t.Errorf("lost after the fix: %+v, %v", teaching.Hubs, err)
	}
}

// Rotors that check early count against the next pair, on both wheels.
func TestRotorHistory(t *testing.T) {
	f, trip := logged(t, `2026-09-06,141100 mi,trip driven,,,spring 2-3,,
2026-09-06,141100 mi,rotor face,LF,,catches,,
2026-09-06,141100 mi,rotor face,RF,,catches,,
2026-09-07,141110 mi,renewal,front,,rotors-front,,
2026-10-06,142000 mi,trip driven,,,spring 2-3,,
2026-10-06,142000 mi,rotor face,LF,,edge,,
2026-10-06,142000 mi,rotor face,RF,,catches,,
2026-10-07,142010 mi,renewal,front,,rotors-front,,
`)
	l := setOf(planned(t, f, trip), t, "rotors-front").Learned
	if !l.Circuit.Taught || l.Circuit.Median < 1.5 || l.Road.Taught {
		t.Errorf("learned %+v", l)
	}
}

// A last reading that is far worse than the others say teaches nothing, but the
// plan goes from it until it is read again; one that is better than could be
// gives way to the one before.
func TestOutlierAsStart(t *testing.T) {
	f, trip := logged(t, hungry+"2027-04-18,143300 mi,pad,RF,,4.0 mm,,\n2027-04-18,143300 mi,pad,LF,,6.8 mm,,\n")
	s := setOf(planned(t, f, trip), t, "pads-front")
	for _, p := range s.Points {
		if p.Place == "RF" && p.Start != 4e-3 {
			t.Errorf("RF starts at %.5f m", p.Start)
		}
	}
	better, _ := logged(t, hungry+"2027-04-18,143300 mi,pad,RF,,9.9 mm,yes,\n")
	for _, p := range setOf(planned(t, better, trip), t, "pads-front").Points {
		if p.Place == "RF" && p.Start > 7.1e-3 {
			t.Errorf("after a reading that grows RF starts at %.5f m", p.Start)
		}
	}
	teaching, err := Learn(f, &trip, Options{Draws: 2000})
	if err != nil {
		t.Fatal(err)
	}
	if m := teaching.Misread; len(m) != 1 || m[0].Place != "RF" || m[0].Read != 4e-3 || m[0].Off > -4 {
		t.Errorf("misread %+v", m)
	}
}

// What to measure next is what the plan of the trip says that it is worth, to the
// last digit. A car with nothing in doubt needs no reading.
func TestNext(t *testing.T) {
	f, trip := demo(t, "juniper")
	o := Options{Draws: 1000, Today: departure.AddDate(0, 0, -20)}
	for i := range f.Car.Fitted {
		f.Car.Fitted[i].Tread = nil // nobody read them
	}
	p := made(t, o)(f, trip)
	teaching, err := Learn(f, &trip, o)
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(p.Worth, teaching.Worth); d != "" || len(p.Worth) == 0 || p.Worth[0].What != plan.WorthReading || teaching.Currency != p.Currency {
		t.Errorf("(-plan +learn)\n%s %+v", d, p.Worth)
	}
	for _, part := range []string{"tires-front", "tires-rear", "pads-front", "pads-rear"} {
		fitNew(f, part)
	}
	trip.Legs = []profiles.Leg{road(200)}
	if teaching, err = Learn(f, &trip, o); err != nil || len(teaching.Worth) > 0 {
		t.Errorf("%+v, %v", teaching.Worth, err)
	}
}
