package planner

import (
	"slices"
	"strings"
	"testing"
	"time"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
)

// knob is one thing turned in the demo, and what it must do to the decisions.
type knob struct {
	what  string
	turn  func(*profiles.Folder, *profiles.Trip)
	today time.Time
	want  map[string]plan.Action // by set; every other set keeps its action
	safe  bool
}

// change replaces a value of a part.
func change(f *profiles.Folder, part string, to func(*profiles.Part)) {
	p := f.Parts[part]
	to(&p)
	f.Parts[part] = p
}

const oneDay = 86400 // s

// TestKnobs turns one knob of the demo at a time: the decisions that hang on
// it change, and no other.
func TestKnobs(t *testing.T) {
	const weeks = 40 * oneDay
	inTime := departure.AddDate(0, 0, -20)
	f, trip := demo(t, "juniper")
	was, err := Make(f, trip, Options{})
	if err != nil {
		t.Fatal(err)
	}
	for _, k := range []knob{
		{
			what: "a spare rotor pair at five times the price stays in the shop: the rotors are watched",
			turn: func(f *profiles.Folder, _ *profiles.Trip) {
				change(f, "rotors-front", func(p *profiles.Part) { p.Price *= 5 })
			},
			want: map[string]plan.Action{"rotors-front": plan.Watch}, safe: true,
		},
		{
			what:  "with twenty days to go nothing is late",
			turn:  func(*profiles.Folder, *profiles.Trip) {},
			today: inTime, want: map[string]plan.Action{}, safe: true,
		},
		{
			what: "rotors that come after departure cannot be brought: they are watched",
			turn: func(f *profiles.Folder, _ *profiles.Trip) {
				change(f, "rotors-front", func(p *profiles.Part) { p.LeadTime = weeks })
			},
			today: inTime, want: map[string]plan.Action{"rotors-front": plan.Watch}, safe: true,
		},
		{
			what: "worn tires whose successors come after departure stay at home",
			turn: func(f *profiles.Folder, _ *profiles.Trip) {
				change(f, "tires-rear", func(p *profiles.Part) { p.LeadTime = weeks })
			},
			today: inTime, want: map[string]plan.Action{"tires-rear": plan.DoNotTake}, safe: false,
		},
		{
			what: "half the boot holds the luggage at best: the pads go on before leaving, the rotors are watched, and the oil is bought at the stop",
			turn: func(f *profiles.Folder, _ *profiles.Trip) {
				f.Car.Boot.Volume /= 2
				f.Car.Boot.Payload /= 2
			},
			want: map[string]plan.Action{"pads-front": plan.ReplaceBefore, "rotors-front": plan.Watch}, safe: true,
		},
		{
			what: "without the workshop the oil is changed before leaving",
			turn: func(_ *profiles.Folder, trip *profiles.Trip) {
				trip.Legs = append(append([]profiles.Leg(nil), trip.Legs[:3]...), trip.Legs[4:]...)
			},
			want: map[string]plan.Action{"oil": plan.ReplaceBefore}, safe: true,
		},
		{
			what: "ten times the cost of being stopped short: hubs go before leaving, and so do front pads and rear rotors; rear pads are brought",
			turn: func(f *profiles.Folder, _ *profiles.Trip) { f.Car.Costs.Stranded *= 10 },
			want: map[string]plan.Action{
				"tires-front": plan.ReplaceAtStop, "pads-front": plan.ReplaceBefore, "pads-rear": plan.Bring, "rotors-rear": plan.ReplaceBefore,
				"hub-LF": plan.ReplaceBefore, "hub-RF": plan.ReplaceBefore, "hub-LR": plan.ReplaceBefore, "hub-RR": plan.ReplaceBefore,
			}, safe: true,
		},
		{
			what: "at a cap of 0.5 % the hub on which the circuits lean most may not go, the others as new ones, since a wheel shaken by hand shows half of the bad ones; the fluid boils more often, and front pads go before leaving, a spare beside them",
			turn: func(f *profiles.Folder, _ *profiles.Trip) { f.Model.Safety.Cap = 0.005 },
			want: map[string]plan.Action{
				"hub-RF": plan.DoNotTake, "hub-LF": plan.ReplaceBefore,
				"hub-RR": plan.ReplaceBefore, "hub-LR": plan.ReplaceBefore, "tires-front": plan.ReplaceAtStop,
				"pads-front": plan.ReplaceBefore, "fluid": plan.DoNotTake,
			}, safe: false,
		},
	} {
		f, trip := demo(t, "juniper")
		k.turn(f, &trip)
		is, err := Make(f, trip, Options{Today: k.today})
		if err != nil {
			t.Fatal(err)
		}
		for i, s := range is.Sets {
			want, turned := k.want[s.ID]
			if before := was.Sets[i].Decision.Action; !turned {
				want = before
			} else if want == before {
				t.Errorf("%s: %s was %s already", k.what, s.ID, before)
			}
			if s.Decision.Action != want {
				t.Errorf("%s: %s: %s (%s), want %s", k.what, s.ID, s.Decision.Action, s.Decision.Reason, want)
			}
		}
		if is.Safe != k.safe {
			t.Errorf("%s: safe %v", k.what, is.Safe)
		}
		if is.Safe && is.Choice.Bound < was.Choice.Bound-1e-9 && len(k.want) > 0 {
			t.Errorf("%s: made the choice cheaper, %.0f from %.0f", k.what, is.Choice.Cost, was.Choice.Cost)
		}
	}
}

// TestCapBringsTheChangeForward: under a lower cap the pads go on before an
// earlier leg.
func TestCapBringsTheChangeForward(t *testing.T) {
	f, trip := demo(t, "juniper")
	was := planned(t, f, trip)
	f.Model.Safety.Cap = 0.015
	is := planned(t, f, trip)
	for _, c := range []struct {
		set      string
		was, now string // the leg before which the spare goes on; "" for only if the checks call for it
	}{{"pads-front", "Quarry Ridge", "Heron Flats day 2"}} {
		leg := func(p *plan.Plan) string {
			if d := setOf(p, t, c.set).Decision; d.Leg >= 0 {
				return p.Legs[d.Leg].Name
			}
			return ""
		}
		if leg(was) != c.was || leg(is) != c.now {
			t.Errorf("%s: before %q, with the lower cap %q; want %q and %q", c.set, leg(was), leg(is), c.was, c.now)
		}
	}
}

// TestLeftOutOfTheBoot: what half the boot keeps out is said, with what room
// for it would save; the oil is then bought where it is changed.
func TestLeftOutOfTheBoot(t *testing.T) {
	f, trip := demo(t, "juniper")
	f.Car.Boot.Volume /= 2
	f.Car.Boot.Payload /= 2
	p, err := Make(f, trip, Options{})
	if err != nil {
		t.Fatal(err)
	}
	left := map[string]float64{}
	for _, l := range p.Choice.LeftOut {
		left[l.Set] = l.Saving
	}
	if len(left) != 2 || !(left["pads-front"] > 0 && left["rotors-front"] > 0) {
		t.Errorf("left out: %+v", p.Choice.LeftOut)
	}
	if it, ok := itemOf(p, "oil", plan.BuyOnTheWay); !ok || it.OnShelf {
		t.Errorf("oil: %+v", it)
	}
	if p.Boot.Fits {
		t.Error("the luggage alone is more than the boot holds, and nobody says so")
	}
}

// TestWorkTakesTime: half an hour of oil change in a stop of ten minutes is
// told; in a day it is not.
func TestWorkTakesTime(t *testing.T) {
	for stay, told := range map[quantity.Duration]bool{600: true, oneDay: false} {
		f, trip := demo(t, "juniper")
		trip.Legs = append([]profiles.Leg(nil), trip.Legs...)
		trip.Legs[3].Stay = stay
		p := planned(t, f, trip)
		if d := setOf(p, t, "oil").Decision; d.Action != plan.ReplaceAtStop {
			t.Fatalf("oil: %s", d.Action)
		}
		got := slices.ContainsFunc(p.Warnings, func(w string) bool {
			return strings.Contains(w, "Alder Creek workshop takes about 0.5 h, its stay is 0.2 h")
		})
		if got != told {
			t.Errorf("stay of %v s: told %v: %q", stay, got, p.Warnings)
		}
	}
}
