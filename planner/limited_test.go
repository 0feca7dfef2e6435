package planner

import (
	"math"
	"strings"
	"testing"
	"time"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/randomcar"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
)

// limitedCar is the juniper demo at 143,200 mi with parts of limits alone.
func limitedCar(t testing.TB, parts, fitted string) (*profiles.Folder, profiles.Trip) {
	t.Helper()
	return randomcar.Edited(t, map[string]string{"parts.yaml": parts, "car.yaml # What lies in the garage already.": fitted})
}

// What every limit leaves after the trip's eight legs, by hand: 2,900 mi of
// road, three circuit days of five sessions of 20 min, home on the eighth day
// after 13 May 2027.
func TestLimitsByHand(t *testing.T) {
	f, trip := limitedCar(t, `
  - {id: disc, class: limited, name: flex disc, limits: {distance: 90000 mi, circuit_hours: 30 h, circuit_days: 12, heat_cycles: 70, months: 24}}
`, `
  - {part: disc, at: [body], since: {date: 2026-05-13, odometer: 133200 mi}, circuit_days: 4}
`)
	p := planned(t, f, trip)
	s := setOf(p, t, "limited-body")
	if s.Name != "flex disc" || s.Critical {
		t.Errorf("%q, critical %v", s.Name, s.Critical)
	}
	circuit, end := 0.0, 0.0
	for _, l := range p.Legs {
		if l.Kind == profiles.CircuitLeg {
			circuit += l.Meters / float64(mile)
		}
		end = l.EndDay
	}
	want := map[string]float64{
		"distance":      1 - (10_000+2_900+circuit)/90_000, // the four days before are among the 10,000
		"circuit hours": 1 - (4+3)*5*20.0/60/30,
		"circuit days":  1 - (4+3)/12.0,
		"heat cycles":   1 - (4+3)*5/70.0,
		"months":        1 - (365+end)/(365.2425/12)/24,
	}
	for _, pt := range s.Points {
		if got := pt.After[len(pt.After)-1].P50; math.Abs(got-want[pt.Zone]) > 1e-6 {
			t.Errorf("%s: %.6f of its life is left, by hand %.6f", pt.Zone, got, want[pt.Zone])
		}
		delete(want, pt.Zone)
	}
	if len(want) > 0 {
		t.Errorf("no point for %v", want)
	}
	if got := s.Points[s.First].Zone; got != "circuit days" {
		t.Errorf("the nearest limit is %s", got)
	}
}

// A belt 800 mi short of its 90,000 on a trip of 2,900 is replaced before
// leaving, at home or in the shop, by its limit.
func TestBeltShortOfItsMiles(t *testing.T) {
	const fitted = "\n  - {part: belt, at: [engine], since: {date: 2022-01-01, odometer: 54000 mi}}\n"
	for fit, shop := range map[string]bool{"[shop, home]": false, "[shop]": true} {
		f, trip := limitedCar(t, "\n  - {id: belt, class: timing-belt, name: timing belt, price: 320, fit: "+fit+", limits: {distance: 90000 mi}}\n", fitted)
		s := setOf(planned(t, f, trip), t, "timing-belt")
		if d := s.Decision; d.Action != plan.ReplaceBefore || d.Shop != shop || !strings.Contains(d.Reason, "pass its 90000 mi") || d.PAsIs != 1 || d.POut != 0 {
			t.Errorf("%s: %s, shop %v: %s", fit, d.Action, d.Shop, d.Reason)
		}
	}
	f, trip := limitedCar(t, "\n  - {id: belt, class: timing-belt, name: timing belt, price: 320, limits: {distance: 93000 mi}}\n", fitted)
	if d := setOf(planned(t, f, trip), t, "timing-belt").Decision; d.Action != plan.Watch || d.PAsIs != 0 {
		t.Errorf("with 3,800 mi left: %s: %s", d.Action, d.Reason)
	}
}

// Gearbox oil at 10 of 12 circuit days with three to come is changed before
// leaving, or at the stop before the third where that costs less. At 9 of 12
// it just lasts.
func TestGearboxOilByDays(t *testing.T) {
	const part = "\n  - {id: gear, class: gearbox-oil, name: gearbox oil, price: 45}\n"
	fitted := func(days string) string {
		return "\n  - {part: gear, at: [gearbox], since: {date: 2025-01-01, odometer: 130000 mi}, circuit_days: " + days + "}\n"
	}
	for _, c := range []struct {
		days       string
		hour, shop quantity.Money // what an hour costs at home, and in a shop
		want       plan.Action
	}{{"10", 25, 130, plan.ReplaceBefore}, {"10", 400, 20, plan.ReplaceAtStop}, {"9", 25, 130, plan.Watch}, {"2", 25, 130, plan.Run}} {
		f, trip := limitedCar(t, part, fitted(c.days))
		f.Car.Costs.Hour, f.Car.Costs.Shop = c.hour, c.shop
		if d := setOf(planned(t, f, trip), t, "gearbox-oil").Decision; d.Action != c.want || d.POut != 0 {
			t.Errorf("%s days, %.0f at home: %s, want %s: %s", c.days, c.hour, d.Action, c.want, d.Reason)
		}
	}
}

// A harness that expires between the two circuits stops the second one, and is
// no matter on the road.
func TestHarnessExpires(t *testing.T) {
	for _, c := range []struct {
		expires, lead string
		want          plan.Action
	}{
		{"2027-05-17", "1 day", plan.ReplaceBefore},   // four days of five years are thrown away, and a shop costs more
		{"2027-05-17", "60 days", plan.ReplaceAtStop}, // the stop's counter has one
		{"2027-05-14", "1 day", plan.ReplaceBefore},
		{"2027-05-14", "60 days", plan.DoNotTake},
		{"2027-05-19", "1 day", plan.Watch}, // the day of the second circuit
		{"2027-05-20", "1 day", plan.Watch}, // on the road home
		{"2029-12-31", "1 day", plan.Run},
	} {
		f, trip := limitedCar(t, "\n  - {id: belts, class: harness, name: harness, price: 260, lead_time: "+c.lead+", limits: {expires: "+c.expires+"}}\n",
			"\n  - {part: belts, at: [driver], since: {date: 2022-05-17, odometer: 100000 mi}}\n")
		p, err := Make(f, trip, Options{Draws: 200, Today: time.Date(2027, 5, 3, 0, 0, 0, 0, time.UTC)})
		if err != nil {
			t.Fatal(err)
		}
		s := setOf(p, t, "harness")
		if d := s.Decision; d.Action != c.want {
			t.Errorf("expires %s, takes %s: %s, want %s: %s", c.expires, c.lead, d.Action, c.want, d.Reason)
		}
		if c.expires == "2027-05-17" {
			for j, l := range p.Legs {
				if past := s.After[j].PLimit == 1; past != (j >= 6) {
					t.Errorf("after %s it is past its day: %v", l.Name, past)
				}
			}
		}
	}
}

// Studs past their count are dangerous: nothing but new ones lets the car go.
func TestStudsPastTheirCount(t *testing.T) {
	for lead, want := range map[string]plan.Action{"1 day": plan.ReplaceBefore, "60 days": plan.DoNotTake} {
		f, trip := limitedCar(t, "\n  - {id: studs, class: wheel-studs, name: wheel studs, price: 90, lead_time: "+lead+"}\n",
			"\n  - {part: studs, at: [LF, RF], since: {date: 2026-05-01, odometer: 130000 mi}, circuit_days: 26}\n")
		p, err := Make(f, trip, Options{Draws: 200, Today: time.Date(2027, 5, 3, 0, 0, 0, 0, time.UTC)})
		if err != nil {
			t.Fatal(err)
		}
		s := setOf(p, t, "wheel-studs-front")
		if !s.Critical || s.Decision.Action != want || s.Decision.PAsIs != 1 {
			t.Errorf("%s: critical %v, %s: %s", lead, s.Critical, s.Decision.Action, s.Decision.Reason)
		}
		if want == plan.DoNotTake && p.Safe {
			t.Error("the plan is safe")
		}
	}
}

// With a spread the limit is drawn: 45,000 mi of 60,000 used up and 3,000 to
// come pass it where exp(0.2 z) is over 60/48, z standard normal.
func TestLimitDrawn(t *testing.T) {
	f, trip := limitedCar(t, "\n  - {id: disc, class: limited, name: flex disc, spread: 0.2, limits: {distance: 60000 mi}}\n",
		"\n  - {part: disc, at: [body], since: {date: 2022-05-17, odometer: 98200 mi}}\n")
	trip.Legs = []profiles.Leg{road(3000)}
	p, err := Make(f, trip, Options{Draws: 20000})
	if err != nil {
		t.Fatal(err)
	}
	want := 0.5 * math.Erfc(math.Log(60.0/48)/0.2/math.Sqrt2)
	if got := setOf(p, t, "limited-body").After[0].PLimit; math.Abs(got-want) > 0.002 {
		t.Errorf("%.4f, by hand %.4f", got, want)
	}
}

// What is found on a part forbids what its kind says, by car.yaml or by the
// logbook, and a better look later does not lift it.
func TestLimitedPartsLookedAt(t *testing.T) {
	const on = `
  - {part: ball-joints, at: [LF, RF], since: {date: 2020-05-01, odometer: 90000 mi}%s}
  - {part: cv-boots, at: [LR, RR], since: {date: 2020-05-01, odometer: 90000 mi}}
`
	for _, c := range []struct {
		name, found, rows, set string
		want                   plan.Action
		says                   string
	}{
		{"not looked at", "", "", "ball-joints-front", plan.Run, ""},
		{"loose", ", found: {RF: loose}", "", "ball-joints-front", plan.ReplaceBefore, "RF: ball joints loose (car.yaml line 112); it does not leave like this"},
		{"split", ", found: {RF: split}", "", "ball-joints-front", plan.Watch, "RF: ball joints split"},
		{"loose, then sound", "", "2027-05-02,143250 mi,ball joints,RF,,loose,,\n2027-05-03,143260 mi,ball joints,RF,,sound,,\n", "ball-joints-front", plan.ReplaceBefore, "RF: ball joints loose"},
		{"sound, then split", "", "2027-05-02,143250 mi,axle boots,LR,,sound,,\n2027-05-03,143260 mi,axle boots,LR,,split,,\n", "axle-boots-rear", plan.ReplaceBefore, "LR: axle boots split: no circuit on it"},
		{"leaking", "", "2027-05-02,143250 mi,axle boots,LR,,leaking,,\n", "axle-boots-rear", plan.Watch, "LR: axle boots leaking"},
		{"replaced", "", "2027-05-02,143250 mi,ball joints,RF,,loose,,\n2027-05-03,143260 mi,replaced,front,,ball-joints,,\n", "ball-joints-front", plan.Run, ""},
	} {
		added := map[string]string{"car.yaml # What lies in the garage already.": strings.Replace(on, "%s", c.found, 1)}
		if c.rows != "" {
			added[profiles.LogFile] = "date,odometer,what,place,zone,value,confirmed,note\n" + strings.NewReplacer("loose,,", "loose,yes,", "sound,,", "sound,yes,").Replace(c.rows)
		}
		f, trip := randomcar.Edited(t, added)
		s := setOf(planned(t, f, trip), t, c.set)
		if d := s.Decision; d.Action != c.want || !strings.Contains(d.Reason, c.says) {
			t.Errorf("%s: %s, want %s: %s", c.name, d.Action, c.want, d.Reason)
		}
	}
}

// Hoses age from the week they were made: 72 months before the trip's end, in
// week 21 of 2021, or since they went on.
func TestHosesAgeFromTheirMaking(t *testing.T) {
	for _, c := range []struct {
		since, built string
		want         plan.Action
	}{
		{"2022-01-01", "", plan.Watch}, // 65 of 72 months, past 85 %
		{"2022-01-01", "built: {LF: 1921, RF: 1921}, ", plan.ReplaceBefore},
		{"2022-01-01", "built: {LF: 2321, RF: 2321}, ", plan.Watch},
		{"2020-01-01", "built: {LF: 2321, RF: 2321}, ", plan.ReplaceBefore}, // a misread code makes nothing younger
		{"unknown", "built: {LF: 0125, RF: 0125}, ", plan.Run},
		{"unknown", "", plan.Run}, // taken as five years old: 60 of 72 months, within 85 %
	} {
		f, trip := limitedCar(t, "", "\n  - {part: brake-hoses, at: [LF, RF], "+c.built+"since: {date: "+c.since+", odometer: 130000 mi}}\n")
		if d := setOf(planned(t, f, trip), t, "brake-hoses-front").Decision; d.Action != c.want {
			t.Errorf("on since %s, %q: %s, want %s: %s", c.since, c.built, d.Action, c.want, d.Reason)
		}
	}
}

// A part past its months before the trip says so, and ages from the day it was
// bought where that is before it went on: by hand 84 of 60 months on 13 May 2027.
func TestPastItsMonthsNow(t *testing.T) {
	for _, c := range []struct {
		entry string
		want  plan.Action
		says  string
	}{
		{"since: {date: 2020-05-01, odometer: 100000 mi}", plan.ReplaceBefore, "it is past its 60 months now; a new set"},
		{"bought: 2020-05-01, since: {date: 2026-05-01, odometer: 140000 mi}", plan.ReplaceBefore, "it is past its 60 months now; a new set"},
		{"bought: 2022-05-15, since: {date: 2026-05-01, odometer: 140000 mi}", plan.ReplaceBefore, "pass its 60 months as it is"},
		{"bought: 2026-04-01, since: {date: 2026-05-01, odometer: 140000 mi}", plan.Run, "it comes home with"},
		{"bought: 2026-04-01, since: {date: 2020-05-01, odometer: 140000 mi}", plan.ReplaceBefore, "now"}, // worn before it was bought: a slip makes nothing younger
	} {
		f, trip := limitedCar(t, "\n  - {id: lid, class: helmet, name: helmet, price: 400, lead_time: 1 day, limits: {months: 60}}\n", "\n  - {part: lid, at: [driver], "+c.entry+"}\n")
		if d := setOf(planned(t, f, trip), t, "helmet").Decision; d.Action != c.want || !strings.Contains(d.Reason, c.says) {
			t.Errorf("%s: %s, want %s: %s", c.entry, d.Action, c.want, d.Reason)
		}
	}
}
