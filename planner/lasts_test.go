package planner

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"time"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/projection"
	"example.com/tripwear/planner/trip"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/quantity"
)

// weekend asks about days at Heron Flats with the same road there and home.
func weekend(t testing.TB, f *profiles.Folder, days int, miles float64) profiles.Trip {
	t.Helper()
	w, err := trip.Weekend(f, "heron-flats", time.Time{})
	if err != nil {
		t.Fatal(err)
	}
	w.Legs[1].Days = days
	w.Legs[0].Distance, w.Legs[2].Distance = quantity.Length(miles/2)*mile, quantity.Length(miles/2)*mile
	return w
}

func lasts(t testing.TB, f *profiles.Folder, w profiles.Trip, query string) *plan.Lasting {
	t.Helper()
	l, err := Lasts(f, w, Ask{Sets: query}, Options{Draws: 200})
	if err != nil {
		t.Fatal(err)
	}
	return l
}

// Front pads just over half worn before an event are enough for one day; for
// two days a full spare set belongs in the boot. Common practice, no source.
func TestLastsHalfWornPads(t *testing.T) {
	f, _ := demo(t, "juniper")
	for i := range f.Car.Fitted {
		if e := &f.Car.Fitted[i]; e.Part == "pads-front" {
			e.Pad["LF"], e.Pad["RF"] = 5.8e-3, 5.8e-3 // of 11 mm
		}
	}
	for days, want := range map[int]bool{1: true, 2: false} {
		l, err := Lasts(f, weekend(t, f, days, 600), Ask{Sets: "front pads"}, Options{})
		if err != nil {
			t.Fatal(err)
		}
		s := l.Sets[0]
		t.Logf("%d days: chance %.3f, median %.1f days, nine in ten %.1f: %s", days, s.Chance, s.Median, s.Sure, s.Advice)
		if l.Lasts != want || s.Lasts != want {
			t.Errorf("%d days on half-worn pads: lasts %v", days, l.Lasts)
		}
		if !strings.HasPrefix(s.Advice, "enough for one day; for two pack a full spare set") {
			t.Errorf("%d days on half-worn pads: %s", days, s.Advice)
		}
	}
}

// What Lasts says is what a plan of the same trip says.
func TestLastsAgreesWithMake(t *testing.T) {
	for _, name := range profiles.DemoNames() {
		f, _ := demo(t, name)
		for id := range f.Circuits {
			w, err := trip.Weekend(f, id, time.Time{})
			if err != nil {
				t.Fatal(err)
			}
			w.Legs[0].Distance, w.Legs[1].Days, w.Legs[2].Distance = 250*mile, 2, 400*mile
			l, p := lasts(t, f, w, ""), plan.Plan{}
			if made, err := Make(f, w, Options{Draws: 200}); err != nil {
				t.Fatal(err)
			} else {
				p = *made
			}
			for i, s := range p.Sets {
				r := l.Sets[i]
				end := s.After[len(s.After)-1].PLimit
				if r.ID != s.ID || math.Abs(1-end-r.Chance[1]) > 1e-12 || r.Place != s.Decision.Where {
					t.Errorf("%s: two days with %g at %s, the plan says %g at %s", r.ID, r.Chance[1], r.Place, 1-end, s.Decision.Where)
				}
			}
		}
	}
}

// The answer is for 1, 2 and 3 days and, beyond those, for the days asked.
func TestLastsCounts(t *testing.T) {
	f, _ := demo(t, "juniper")
	for days, want := range map[int][]int{1: {1, 2, 3}, 3: {1, 2, 3}, 4: {1, 2, 3, 4}} {
		w, err := trip.Weekend(f, "heron-flats", time.Time{})
		if err != nil {
			t.Fatal(err)
		}
		w.Legs[1].Days = days
		if got := lasts(t, f, w, "pads-front").Counts; !slices.Equal(got, want) {
			t.Errorf("%d days asked: %v, want %v", days, got, want)
		}
	}
}

// The days left agree with the chances: half the draws last the median, nine
// in ten the sure days, wherever that is a day that was asked about.
func TestLastsCurve(t *testing.T) {
	f, _ := demo(t, "juniper")
	l := lasts(t, f, weekend(t, f, 6, 600), "")
	for _, s := range l.Sets {
		for k, n := range l.Counts {
			if sure := s.Sure >= float64(n); sure != (s.Chance[k] >= plan.LastsChance) {
				t.Errorf("%s: %.2f days are sure, and %d days have a chance of %.3f", s.ID, s.Sure, n, s.Chance[k])
			}
			if half := s.Median >= float64(n); half != (s.Chance[k] >= 0.5) {
				t.Errorf("%s: median %.2f days, and %d days have a chance of %.3f", s.ID, s.Median, n, s.Chance[k])
			}
		}
	}
}

// More days, more road and thinner pads are never more likely to last.
func TestLastsFalls(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 4 {
		f, _ := demo(t, "juniper")
		miles, days, pad := 3000*r.Float64(), 1+r.IntN(9), 2e-3+8e-3*r.Float64()
		ask := func(miles, pad float64) *plan.Lasting {
			for i := range f.Car.Fitted {
				if e := &f.Car.Fitted[i]; e.Part == "pads-front" {
					e.Pad["LF"], e.Pad["RF"] = quantity.Length(pad), quantity.Length(pad)
				}
			}
			return lasts(t, f, weekend(t, f, days, miles), "")
		}
		l, further, thinner := ask(miles, pad), ask(miles+500, pad), ask(miles, pad-1e-3)
		for i, s := range l.Sets {
			for k, c := range s.Chance {
				if !(c >= 0 && c <= 1) || k > 0 && c > s.Chance[k-1] {
					t.Errorf("%s: chances %v for %v days", s.ID, s.Chance, l.Counts)
				}
				if c < further.Sets[i].Chance[k] {
					t.Errorf("%s: 500 mi more raise the chance from %g to %g", s.ID, c, further.Sets[i].Chance[k])
				}
				if s.ID == "pads-front" && c < thinner.Sets[i].Chance[k] {
					t.Errorf("pads 1 mm thinner raise the chance from %g to %g", c, thinner.Sets[i].Chance[k])
				}
			}
			if !(s.Sure >= 0 && s.Sure <= s.Median && s.Median <= plan.MostDays) || s.Advice == "" || s.Place == "" {
				t.Errorf("%+v", s)
			}
		}
	}
}

// What was found on a part forbids going on, whatever its depth.
func TestLastsFound(t *testing.T) {
	f, _ := demo(t, "juniper")
	for i := range f.Car.Fitted {
		if e := &f.Car.Fitted[i]; e.Part == "tires-front" {
			e.Found = map[string]logbook.Finding{"LF": "cords"}
		}
	}
	s := lasts(t, f, weekend(t, f, 1, 0), "front tires").Sets[0]
	if s.Lasts || !strings.HasPrefix(s.Advice, "not to be driven on: ") {
		t.Errorf("a tire with cords showing: lasts %v, %s", s.Lasts, s.Advice)
	}
}

// In the paddock every set is answered for, with what was read of it on the
// last day and the day before.
func TestLastsFromLog(t *testing.T) {
	f, _ := demo(t, "juniper")
	day := func(d int) time.Time { return time.Date(2027, 5, d, 0, 0, 0, 0, time.UTC) }
	f.Log = []logbook.Entry{
		{Date: day(13), What: logbook.Tread, Place: "LR", Zone: "inside", Value: 2e-3},
		{Date: day(15), What: logbook.Pad, Place: "LF", Value: 5e-3},
		{Date: day(16), What: logbook.Hub, Place: "RR", Text: "tight"},
	}
	w := weekend(t, f, 1, 0)
	for query, want := range map[string]int{"": 12, "front pads": 1, "rear tires": 1, "pads": 2, "oil": 1} {
		l, err := Lasts(f, w, Ask{Sets: query, FromLog: true}, Options{Draws: 100})
		if err != nil {
			t.Fatal(err)
		}
		if len(l.Sets) != want {
			t.Errorf("%q answers for %d sets, want %d", query, len(l.Sets), want)
		}
		for _, s := range l.Sets {
			read := s.ID == "pads-front" || s.ID == "hub-RR"
			if (len(s.Readings) == 1) != read || strings.Contains(s.Advice, "leaving") || strings.Contains(s.Advice, "pack") {
				t.Errorf("%q: %s, %q by %q", query, s.ID, s.Advice, s.Readings)
			}
		}
	}
}

// Sets are named by id or by words, circuits by id or name.
func TestLastsNames(t *testing.T) {
	f, _ := demo(t, "juniper")
	w := weekend(t, f, 1, 0)
	for query, want := range map[string]string{
		"":                       "tires-front tires-rear pads-front pads-rear rotors-front rotors-rear hub-LF hub-RF hub-LR hub-RR oil fluid",
		"pads-front":             "pads-front",
		"front pad":              "pads-front",
		"Rear Tyres":             "tires-rear",
		"rotors":                 "rotors-front rotors-rear",
		"hub":                    "hub-LF hub-RF hub-LR hub-RR",
		"lf hub":                 "hub-LF",
		"rear hubs":              "hub-LR hub-RR",
		"left front hub bearing": "hub-LF",
		"oil":                    "oil",
		"brakes":                 "pads-front pads-rear rotors-front rotors-rear fluid",
		"front brakes":           "pads-front rotors-front",
		"tires":                  "tires-front tires-rear",
		"brake fluid":            "fluid",
	} {
		var got []string
		for _, s := range lasts(t, f, w, query).Sets {
			got = append(got, s.ID)
		}
		if strings.Join(got, " ") != want {
			t.Errorf("%q names %v, want %s", query, got, want)
		}
	}
	for _, s := range lasts(t, f, w, "").Sets {
		wrong := strings.Replace(s.Name, "r", "", 1)
		if _, err := Lasts(f, w, Ask{Sets: wrong}, Options{Draws: 100}); wrong != s.Name && (err == nil || !strings.Contains(err.Error(), fmt.Sprintf("did you mean %q?", s.Name))) {
			t.Errorf("%s: %v", wrong, err)
		}
	}
	if w, err := trip.Weekend(f, "quarry ridge", time.Time{}); err != nil || w.Legs[1].Name != "quarry-ridge" || w.Legs[1].Pace != "" {
		t.Errorf("quarry ridge: %+v, %v", w, err)
	}
	if _, err := trip.Weekend(f, "heron-flat", time.Time{}); err == nil || !strings.Contains(err.Error(), `did you mean "heron-flats"?`) {
		t.Errorf("heron-flat: %v", err)
	}
}

// TestLastsRule: at the tolerated chance of driving on past the limit a set
// still lasts; above it, with odds below those asked for, or where something
// was found it does not. What endangers nobody has the odds alone.
func TestLastsRule(t *testing.T) {
	for _, c := range []struct {
		past, caught float64
		critical     bool
		stop         []string
		want         bool
	}{
		{0.0625, 0.5, true, nil, true},
		{0.0626, 0.5, true, nil, false},
		{0.0626, 0.75, true, nil, true},
		{0.0626, 0, false, nil, true},
		{1 - plan.LastsChance + 1e-9, 1, false, nil, false},
		{0, 1, true, []string{"LF: play"}, false},
	} {
		s := projection.Set{Set: plan.Set{Stop: c.stop, Decision: plan.Decision{PAsIs: c.past}}}
		if c.critical {
			s.Unnoticed = c.past * (1 - c.caught)
		}
		if got := holdsOut(&s, 0.03125); got != c.want {
			t.Errorf("%+v: lasts %v", c, got)
		}
	}
}

// What lasts all the days asked says how many more it would: where 90 % of
// cases outlast what is looked ahead, no figure.
func TestAdviseWhereEnough(t *testing.T) {
	one := &outset{sets: []*projection.Set{{}}}
	stays := []stay{{days: 1, outset: one}, {days: 2, outset: one}}
	for sure, want := range map[float64]string{
		13.9: "enough for two days; 90 % of cases last about 13.9 days",
		14:   "enough for two days, and 90 % of cases last more than 14",
	} {
		if got := advise(stays, 0, 2, 0.01, sure); got != want {
			t.Errorf("%g days are sure: %q, want %q", sure, got, want)
		}
	}
}

// A spare that has to be on by a leg says which, be it the first; one for need
// alone does not.
func TestRemedyNamesTheLeg(t *testing.T) {
	legs := []plan.Leg{{Name: "the ring day 1"}, {Name: "the ring day 2"}}
	for leg, want := range map[int]string{-1: "pack a full spare set", 0: "pack a full spare set, to be on before the ring day 1", 1: "pack a full spare set, to be on before the ring day 2"} {
		sets := []*projection.Set{{Spec: kind.Pads, Set: plan.Set{Kind: profiles.Pads, Decision: plan.Decision{Action: plan.Bring, Leg: leg}}}}
		st := stay{outset: &outset{Journey: &trip.Journey{Legs: legs}, sets: sets}}
		if got := st.remedy(0); got != want {
			t.Errorf("leg %d: %q, want %q", leg, got, want)
		}
	}
}
