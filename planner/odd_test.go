package planner

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/randomcar"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
)

// oddOwner is a logbook of six circuit days on new parts, each read before and
// after, of a car that truly wears so many times what the model has it.
func oddOwner(model *plan.Plan, truth func(s plan.Set, p plan.Point, circuit string) float64) string {
	var b strings.Builder
	miles, level := 143300, map[string]float64{}
	row := func(what, place, zone, value string) {
		fmt.Fprintf(&b, "2027-%02d-%02d,%d mi,%s,%s,%s,%s,yes,\n", 4+miles/25%8, 1+miles%28, miles, what, place, zone, value)
	}
	each := func(do func(s plan.Set, p plan.Point, id string)) {
		for _, s := range model.Sets {
			if s.Kind == profiles.Tire || s.Kind == profiles.Pads {
				for _, p := range s.Points {
					do(s, p, s.ID+p.Where())
				}
			}
		}
	}
	read := func() {
		each(func(s plan.Set, p plan.Point, id string) {
			what := logbook.Pad
			if s.Kind == profiles.Tire {
				what = logbook.Tread
			}
			row(string(what), p.Place, p.Zone, fmt.Sprintf("%.3f mm", 1000*level[id]))
		})
	}
	renew := func() {
		for _, s := range model.Sets {
			if s.Kind == profiles.Tire || s.Kind == profiles.Pads {
				row("replaced", strings.TrimPrefix(s.ID[strings.Index(s.ID, "-"):], "-"), "", s.Part)
			}
		}
		each(func(_ plan.Set, p plan.Point, id string) { level[id] = p.New })
	}
	for visit := range 6 {
		if miles += 25; visit%2 == 0 {
			renew()
		}
		read()
		leg := []int{1, 6}[visit%2] // a day at Heron Flats, at Quarry Ridge
		each(func(s plan.Set, p plan.Point, id string) {
			level[id] -= p.Loss[leg] * truth(s, p, model.Legs[leg].Circuit)
		})
		miles += 200
		row("trip driven", "", "", fmt.Sprintf("spring %d", leg+1))
		read()
	}
	return "date,odometer,what,place,zone,value,confirmed,note\n" + sortedByDay(b.String())
}

// sortedByDay gives the rows one day after the other.
func sortedByDay(rows string) string {
	lines := strings.Split(strings.TrimSpace(rows), "\n")
	day, last := 0, ""
	for i, l := range lines {
		_, rest, _ := strings.Cut(l, ",")
		if miles, _, _ := strings.Cut(rest, ","); miles != last {
			day, last = day+1, miles
		}
		lines[i] = fmt.Sprintf("2027-04-%02d,%s", 10+day, rest)
	}
	return strings.Join(lines, "\n") + "\n"
}

// TestOddCornerAndCircuit: after six days the plan has a right-hand front wheel
// that wears half as fast again and a left-hand one that wears three quarters,
// and a circuit that takes 1.6 times what the model says, within 15 %.
func TestOddCornerAndCircuit(t *testing.T) {
	f, trip := demo(t, "juniper")
	model := planned(t, f, trip)
	for name, truth := range map[string]func(s plan.Set, p plan.Point, circuit string) float64{
		"corner": func(s plan.Set, p plan.Point, _ string) float64 {
			return map[string]float64{"RF": 1.5, "LF": 0.75, "LR": 1, "RR": 1}[p.Place]
		},
		"circuit": func(_ plan.Set, _ plan.Point, circuit string) float64 {
			return map[string]float64{"Heron Flats": 1, "Quarry Ridge": 1.6}[circuit]
		},
	} {
		odd, trip := randomcar.Edited(t, map[string]string{profiles.LogFile: oddOwner(model, truth)})
		p := planned(t, odd, trip)
		told, err := Learn(odd, nil, Options{})
		if err != nil {
			t.Fatal(err)
		}
		for _, s := range told.Sets {
			wrong := func(m plan.Apart, truth float64) {
				if !m.Taught || truth < m.Low || truth > m.High {
					t.Errorf("%s: %s %s is told as %+v, want %.2f", name, s.ID, m.Name, m.Multiplier, truth)
				}
			}
			switch {
			case s.ID != "pads-front":
			case name == "corner": // 0.75 and 1.5, of which the middle in ratios is 1.06
				wrong(s.Corners[0], 0.75/math.Sqrt(0.75*1.5))
				wrong(s.Corners[1], 1.5/math.Sqrt(0.75*1.5))
			default:
				wrong(s.Circuits[0], 1)
				wrong(s.Circuits[1], 1.6)
			}
		}
		for i, s := range p.Sets {
			if s.Kind != profiles.Tire && s.Kind != profiles.Pads {
				continue
			}
			for k, pt := range s.Points {
				for _, leg := range []int{1, 6} {
					before := model.Sets[i].Points[k].Loss[leg]
					want, got := truth(s, pt, p.Legs[leg].Circuit), pt.Loss[leg]/before
					if math.Abs(got/want-1) > 0.15 {
						t.Errorf("%s: %s %s at %s wears %.2f times the model's, want %.2f", name, s.ID, pt.Where(), p.Legs[leg].Circuit, got, want)
					}
				}
			}
		}
	}
}
