package planner

import (
	"fmt"
	"maps"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/quantity"
)

// better ranks the verdicts.
var better = map[string]int{plan.No: 0, plan.CantSay: 0, plan.YesOnce: 1, plan.Yes: 2}

// entryOf is the first entry of a part of the car.
func entryOf(f *profiles.Folder, part string) *profiles.Fitted {
	return &f.Car.Fitted[slices.IndexFunc(f.Car.Fitted, func(e profiles.Fitted) bool { return e.Part == part })]
}

// The four verdicts of the demo, each with what brings it about.
func TestVerdicts(t *testing.T) {
	for _, c := range []struct {
		what, want, headline string
		change               func(*profiles.Folder)
	}{
		{"as it is", plan.YesOnce, "YES, ONCE THE REAR TIRES ARE NEW", func(*profiles.Folder) {}},
		{"good rear tires", plan.Yes, "YES", func(f *profiles.Folder) {
			for _, place := range []string{"LR", "RR"} {
				entryOf(f, "tires-rear").Tread[place] = []quantity.Length{8e-3, 8e-3, 8e-3}
			}
		}},
		{"an edge crack, though new rotors would do", plan.No, plan.No, func(f *profiles.Folder) {
			entryOf(f, "rotors-front").Face = map[string]logbook.Finding{"RF": logbook.Edge}
		}},
		{"front tread not read", plan.CantSay, plan.CantSay, func(f *profiles.Folder) { entryOf(f, "tires-front").Tread = nil }},
		{"both", plan.No, plan.No, func(f *profiles.Folder) {
			entryOf(f, "rotors-front").Face = map[string]logbook.Finding{"RF": logbook.Edge}
			entryOf(f, "tires-front").Tread = nil
		}},
	} {
		f, outing := demo(t, "juniper")
		c.change(f)
		p, err := Make(f, outing, Options{Draws: 1000})
		if err != nil {
			t.Fatal(err)
		}
		if p.Verdict != c.want || p.Headline() != c.headline || p.Why == "" || p.Safe != (better[p.Verdict] > 0) {
			t.Errorf("%s: %q (%s), safe %v; want %q", c.what, p.Headline(), p.Why, p.Safe, c.want)
		}
		if c.want == plan.No && !strings.HasPrefix(p.Why, "front rotors, RF: ") {
			t.Errorf("%s: %s", c.what, p.Why)
		}
		if (len(p.Readings) > 0) != (entryOf(f, "tires-front").Tread == nil) {
			t.Errorf("%s: readings %+v", c.what, p.Readings)
		}
	}
}

// A reading on either side of the threshold decides as that side says.
func TestThresholdDecides(t *testing.T) {
	f, outing := demo(t, "juniper")
	entryOf(f, "tires-front").Tread = nil
	p, err := Make(f, outing, Options{Draws: 2000})
	if err != nil {
		t.Fatal(err)
	}
	r := p.Readings[0]
	if r.Set != "tires-front" || r.Chance <= plan.TurnsAt || r.Above == r.Below || r.Threshold <= 0 {
		t.Fatalf("%+v", p.Readings)
	}
	for _, c := range []struct {
		add  float64
		want plan.Action
	}{{0.5e-3, plan.Watch}, {-0.5e-3, plan.ReplaceBefore}} {
		f, outing := demo(t, "juniper")
		on := entryOf(f, "tires-front")
		for place := range on.Tread {
			level := quantity.Length(r.Threshold + c.add)
			on.Tread[place] = []quantity.Length{level, level, level}
		}
		p, err := Make(f, outing, Options{Draws: 2000})
		if err != nil {
			t.Fatal(err)
		}
		if got := setOf(p, t, r.Set).Decision.Action; got != c.want || p.Verdict == plan.CantSay {
			t.Errorf("read %g m past the threshold: %s, %s", c.add, got, p.Verdict)
		}
	}
}

// Leaving a reading out never makes an answer better, wherever the reading is
// not below what all but a tenth of such cars have: neither the verdict nor the
// set's chance of lasting.
func TestLeavingOutNeverHelps(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	tried := 0
	for _, name := range []string{"juniper", "fjord"} {
		for n := range 4 {
			base, outing := demo(t, name)
			for i := range base.Car.Fitted { // other ages
				if n > 0 {
					base.Car.Fitted[i].CircuitDays = quantity.Number(r.IntN(7))
				}
			}
			for i, e := range base.Car.Fitted {
				if e.Tread == nil && e.Pad == nil {
					continue
				}
				f := *base
				f.Car.Fitted = slices.Clone(base.Car.Fitted)
				f.Car.Fitted[i].Tread, f.Car.Fitted[i].Pad = nil, nil
				out, err := Make(&f, outing, Options{Draws: 1000})
				if err != nil {
					t.Fatal(err)
				}
				k := slices.IndexFunc(out.Sets, func(s plan.Set) bool { return !s.Read && s.Part == e.Part })
				if k < 0 {
					t.Fatalf("%s %s is not unread", name, e.Part)
				}
				// read anywhere from the low end up
				add := quantity.Length(2e-3 * r.Float64())
				read := *base
				read.Car.Fitted = slices.Clone(base.Car.Fitted)
				levels := map[string]quantity.Length{}
				for _, p := range out.Sets[k].Points {
					levels[p.Place+p.Zone] = min(quantity.Length(p.Start)+add, quantity.Length(p.New))
				}
				with := &read.Car.Fitted[i]
				with.Tread, with.Pad = maps.Clone(e.Tread), maps.Clone(e.Pad)
				for place := range e.Tread {
					with.Tread[place] = []quantity.Length{levels[place+"inside"], levels[place+"middle"], levels[place+"outside"]}
				}
				for place := range e.Pad {
					with.Pad[place] = levels[place]
				}
				in, err := Make(&read, outing, Options{Draws: 1000})
				if err != nil {
					t.Fatal(err)
				}
				tried++
				what := fmt.Sprintf("%s %d, %s read %g m above the low end", name, n, e.Part, add)
				if better[out.Verdict] > better[in.Verdict] {
					t.Errorf("%s: %s, left out %s", what, in.Verdict, out.Verdict)
				}
				if with, without := in.Sets[k].Decision.PAsIs, out.Sets[k].Decision.PAsIs; without < with-1e-9 {
					t.Errorf("%s: chance of the limit %g, left out %g", what, with, without)
				}
			}
		}
	}
	if tried < 20 {
		t.Errorf("only %d readings left out", tried)
	}
}

// What lasts is asked of covers every set; one that nobody read and that
// could turn it makes it CAN'T SAY YET.
func TestLastsWaits(t *testing.T) {
	f, _ := demo(t, "juniper")
	w := weekend(t, f, 2, 0)
	entryOf(f, "pads-front").Pad = nil
	l := lasts(t, f, w, "front pads")
	if l.Verdict != plan.CantSay || l.Lasts || len(l.Readings) != 1 || l.Readings[0].Set != "pads-front" {
		t.Errorf("%s, %+v", l.Verdict, l.Readings)
	}
	if l := lasts(t, f, w, "rear pads"); l.Verdict != plan.Yes || !l.Lasts || len(l.Readings) != 0 {
		t.Errorf("rear pads: %s, %+v", l.Verdict, l.Readings)
	}
	if l := lasts(t, f, w, ""); l.Verdict != plan.No || !strings.HasPrefix(l.Why, "rear tires") {
		t.Errorf("all: %s, %s", l.Verdict, l.Why)
	}
}

// A part of unknown age may have any up to the car's: its answer is no better
// than at nine ages in ten, and it is named.
func TestUnknownAge(t *testing.T) {
	at := func(odometer quantity.Length, unknown, read bool) plan.Set {
		f, outing := demo(t, "juniper")
		on := entryOf(f, "pads-rear")
		on.CircuitDays, on.Since.Odometer, on.Since.Unmetered = 0, odometer, unknown
		if !read {
			on.Pad = nil
		}
		return setOf(planned(t, f, outing), t, "pads-rear")
	}
	f, _ := demo(t, "juniper")
	car := f.Car.Odometer
	unknown := at(0, true, false)
	if !strings.Contains(unknown.Measured, "may be as old as the car") {
		t.Errorf("measured: %s", unknown.Measured)
	}
	for _, share := range []quantity.Length{0, 0.3, 0.6, 0.9} {
		known := at(car-car*share, false, false)
		if unknown.Decision.PAsIs < known.Decision.PAsIs {
			t.Errorf("unknown %.4f, known to have %g of the car's miles %.4f", unknown.Decision.PAsIs, share, known.Decision.PAsIs)
		}
	}
	if was, is := at(0, false, true), at(0, true, true); was.Decision.PAsIs != is.Decision.PAsIs {
		t.Errorf("read, its age does not count: %.4f, unknown %.4f", was.Decision.PAsIs, is.Decision.PAsIs)
	}
}
