package report

import (
	"bytes"
	"strings"
	"testing"
	"time"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
)

// said is what a part of a text prints, its words one space apart.
func said(u quantity.System, print func(printer)) string {
	var b bytes.Buffer
	p := newPrinter(&b, View{Units: u})
	print(p)
	p.Flush()
	return strings.Join(strings.Fields(b.String()), " ")
}

// ofPlan is a plan's text in a unit system.
func ofPlan(p *plan.Plan, u quantity.System, print func(text)) string {
	return said(u, func(to printer) { print(text{to, p}) })
}

// TestShort: a chance that rounds to none or to certain is a bound; half a
// percent is one percent.
func TestShort(t *testing.T) {
	for p, want := range map[float64]string{0: "<1 %", 0.0049: "<1 %", 0.005: "1 %", 0.5: "50 %", 0.994: "99 %", 0.995: ">99 %", 1: ">99 %"} {
		if got := short(p); got != want {
			t.Errorf("%g: %s, want %s", p, got, want)
		}
	}
}

// TestMoney: two significant figures from a hundred on, whole units below.
func TestMoney(t *testing.T) {
	for x, want := range map[float64]string{
		0: "0 EUR", 0.4: "0 EUR", 7.4: "7 EUR", 12.6: "13 EUR", 99.6: "100 EUR", 100: "100 EUR", 126: "130 EUR", 994: "990 EUR", 996: "1000 EUR",
		1249: "1200 EUR", 12600: "13000 EUR", -126: "-130 EUR",
	} {
		if got := (text{Plan: &plan.Plan{Currency: "EUR"}}).money(x); got != want {
			t.Errorf("%g: %s, want %s", x, got, want)
		}
	}
	if got := (text{Plan: &plan.Plan{}}).money(126); got != "130" {
		t.Errorf("without a currency: %q", got)
	}
}

// TestUndatedDays: days without a date are counted from 1.
func TestUndatedDays(t *testing.T) {
	p := &plan.Plan{Days: []plan.Day{{Driving: 4, Night: true}, {Driving: 3}}}
	got := ofPlan(p, quantity.US, text.daysAndMoney)
	if !strings.Contains(got, "day 1 4.0 h waiting day 2 3.0 h waiting Nights away: 1.") {
		t.Error(got)
	}
}

// TestSaidAloud: one reading left out and one warning are both told.
func TestSaidAloud(t *testing.T) {
	l := &plan.Teaching{
		Misread:  []plan.Misread{{Set: "pads-front", Place: "RF", Read: 4e-3, Expected: 6e-3}},
		Warnings: []string{"a trip is longer than the odometer moved"},
	}
	got := said(quantity.Metric, func(p printer) { teaching{p, l}.odd() })
	if !strings.Contains(got, "pads-front RF of car.yaml reads 4.0 mm where the others say 6.0 mm") || !strings.Contains(got, "Note: a trip is longer than the odometer moved.") {
		t.Error(got)
	}
	if got := said(quantity.Metric, func(p printer) { teaching{p, &plan.Teaching{}}.odd() }); got != "" {
		t.Error(got)
	}
}

// TestExpenses: half a unit of money is the least that is told.
func TestExpenses(t *testing.T) {
	p := &plan.Plan{
		Budget: []plan.Expense{{Kind: plan.ForFuel, What: "24 gal", Amount: 96}},
		Apart:  []plan.Expense{{What: "own work", Amount: 0.5}, {What: "a tow", Amount: 0.4}},
	}
	got := ofPlan(p, quantity.US, text.daysAndMoney)
	if !strings.Contains(got, "96 fuel: 24 gal 96 in all") || !strings.Contains(got, "beside that, expected: own work") {
		t.Error(got)
	}
	for _, not := range []string{"a tow", plan.ForParts, plan.ForNights, "Rain", "Fuel stops"} {
		if strings.Contains(got, not) {
			t.Errorf("%q is told: %s", not, got)
		}
	}
}

// TestPrices: what costs nothing, or lies on the shelf, has a dash for its
// price, and a list without a price has no sum.
func TestPrices(t *testing.T) {
	p := &plan.Plan{Shopping: []plan.Item{{Name: "clip"}, {Name: "pads", Price: 165, OnShelf: true}}}
	if got := ofPlan(p, quantity.US, text.order); !strings.HasPrefix(got, "Order - clip") || !strings.Contains(got, " - pads") || strings.Contains(got, "in all") {
		t.Error(got)
	}
}

// TestLegLines: a leg of no length that takes no fuel shows neither; without a
// date it ends on a day of the trip, the first is day 1.
func TestLegLines(t *testing.T) {
	p := &plan.Plan{Legs: []plan.Leg{{Kind: profiles.StopLeg, Name: "Workshop"}, {Kind: profiles.RoadLeg, Name: "Home", Meters: 1e5, FuelUsed: 0.01, EndDay: 1.9}}}
	got := ofPlan(p, quantity.Metric, text.legs)
	if !strings.Contains(got, "1 Workshop day 1 2 Home 100 km day 2 10 L") {
		t.Error(got)
	}
	p.Legs[0].End = time.Date(2027, 5, 13, 0, 0, 0, 0, time.UTC)
	if got := ofPlan(p, quantity.Metric, text.legs); !strings.Contains(got, "1 Workshop 13 May 2 Home") {
		t.Error(got)
	}
}

// TestScrub by hand: 1 % of the way is 10 m in a km and 53 ft in a mile; below
// that meters have a decimal.
func TestScrub(t *testing.T) {
	p := &plan.Plan{Scrub: [4]float64{0.0149, 0, -0.0042, 0.0099}}
	for i, place := range []string{"LF", "RF", "LR", "RR"} {
		p.Corners[i].Place = place
	}
	for u, want := range map[quantity.System]string{quantity.Metric: "LF 15 m/km, LR -4.2 m/km, RR 9.9 m/km.", quantity.US: "LF 79 ft/mi, LR -22 ft/mi, RR 52 ft/mi."} {
		if got := ofPlan(p, u, text.scrub); !strings.HasSuffix(got, "): "+want) {
			t.Errorf("%s: %s", u, got)
		}
	}
	p.Scrub = [4]float64{}
	if got := ofPlan(p, quantity.US, text.scrub); got != "" {
		t.Errorf("no toe: %s", got)
	}
}

// TestThinMargin: what gains more than 5 K is named, and nothing else.
func TestThinMargin(t *testing.T) {
	for _, c := range []struct {
		flushed, ducted, short float64
		want                   string
	}{
		{15, 16, 0, "To widen it from 10 K: ducts to the front rotors, as half as much area again (assumed), 16 K."},
		{15.1, 16, 0, "To widen it from 10 K: a flush before leaving 15 K; ducts to the front rotors, as half as much area again (assumed), 16 K."},
		{12, 10, 900, "To widen it from 10 K: sessions of 15 min 18 K."},
		{12, 10, 0, "lowest margin by session, nominal, K."},
	} {
		p := &plan.Plan{Legs: make([]plan.Leg, 1), Cooling: []plan.Cooling{{Margin: 10, Thin: true, Flushed: c.flushed, Ducted: c.ducted, Shorter: 18, ShortTime: c.short}}}
		if got := ofPlan(p, quantity.Metric, text.cooling); !strings.HasSuffix(got, c.want) {
			t.Errorf("%s, want %s", got, c.want)
		}
	}
}

// TestAge: a reading of today, at today's odometer, has no age; a mile or a
// date gives it one.
func TestAge(t *testing.T) {
	day := time.Date(2027, 4, 3, 0, 0, 0, 0, time.UTC)
	for _, c := range []struct {
		driven float64
		on     time.Time
		want   string
	}{{0, time.Time{}, ""}, {5000, time.Time{}, ", 5 km ago"}, {0, day, " 3 Apr 2027, 0 km ago"}, {12000, day, " 3 Apr 2027, 12 km ago"}} {
		s := plan.Set{MeasuredOn: c.on}
		s.Driven = c.driven
		if got := (text{printer: newPrinter(nil, View{Units: quantity.Metric})}).age(s); got != c.want {
			t.Errorf("%+v: %q", c, got)
		}
	}
}

// TestWorstZones: of each wheel the zone with the least left at the end; of
// equal ones the first.
func TestWorstZones(t *testing.T) {
	point := func(place, zone string, left float64) plan.Point {
		return plan.Point{Place: place, Zone: zone, After: []plan.Band{{P50: 9 - left}, {P50: left}}}
	}
	got := worstZones([]plan.Point{
		point("LF", "inside", 3), point("LF", "middle", 2), point("LF", "outside", 2),
		point("RF", "inside", 4), point("RF", "middle", 5),
	})
	if len(got) != 2 || got[0].Zone != "middle" || got[1].Zone != "inside" {
		t.Errorf("%+v", got)
	}
}

// TestDaysLeft: what lasts as long as is looked ahead is only known to last longer.
func TestDaysLeft(t *testing.T) {
	for days, want := range map[float64]string{0: "0.0", 3.25: "3.2", 13.9: "13.9", plan.MostDays: ">14", 20: ">14"} {
		if got := daysLeft(days); got != want {
			t.Errorf("%g: %s, want %s", days, got, want)
		}
	}
}

// TestRecordedTrack: what was made of a recording, with the laps left out, six
// by name, and a word where there are too few.
func TestRecordedTrack(t *testing.T) {
	track := func(laps, dropped, lost int, noise float64) string {
		c := &plan.Circuit{Track: &plan.Track{Laps: []float64{91, 90, 92, 93}[:laps], OutIn: 2, Rate: 10, Noise: noise, Lost: lost}}
		for range dropped {
			c.Track.Dropped = append(c.Track.Dropped, "a pit stop")
		}
		return said(quantity.Metric, func(p printer) { circuitText{p, c}.track() })
	}
	for _, c := range []struct {
		laps, dropped, lost int
		says, not           []string
	}{
		{2, 6, 0, []string{"2 hot laps used, 1:30.0 to 1:31.0; 2 out and in laps; 10 fixes a second, which lie within 0.8 m", "Few laps"}, []string{"more", "fixes nowhere"}},
		{3, 7, 1, []string{"3 hot laps used, 1:30.0 to 1:32.0", "a pit stop and 1 lap more fixes nowhere near, left out: 1"}, []string{"Few laps"}},
		{4, 9, 0, []string{"to 1:33.0", "and 3 laps more"}, []string{"Few laps"}},
	} {
		got := track(c.laps, c.dropped, c.lost, 0.8)
		if n := strings.Count(got, "left out: a pit stop"); n != 6 {
			t.Errorf("%+v: %d laps left out by name", c, n)
		}
		for _, want := range c.says {
			if !strings.Contains(got, want) {
				t.Errorf("%+v: no %q in %s", c, want, got)
			}
		}
		for _, not := range c.not {
			if strings.Contains(got, not) {
				t.Errorf("%+v: %q in %s", c, not, got)
			}
		}
	}
	feet := circuitText{Circuit: &plan.Circuit{Track: &plan.Track{Noise: 0.8}}}
	if got := feet.noise(); got != "3 ft" {
		t.Errorf("noise of 0.8 m: %s", got)
	}
	feet.Track.Noise = 0.1
	if got := feet.noise(); got != "1 ft" {
		t.Errorf("noise of 0.1 m: %s", got)
	}
}
