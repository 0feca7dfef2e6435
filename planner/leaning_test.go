package planner

import (
	"math"
	"testing"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
)

// TestLeanings: each end of an assumption turns or moves what a plan with that
// figure in the folder shows by itself; what the owner gave is not tried, and
// what turns a set to one that is not to be taken stands before what does not.
func TestLeanings(t *testing.T) {
	f, trip := demo(t, "juniper")
	o := Options{Draws: leaningDraws}
	p, err := Make(f, trip, Options{})
	if err != nil {
		t.Fatal(err)
	}
	Leanings(p, f, trip, o)
	if len(p.Leanings) != mostLeanings {
		t.Fatalf("%d are told", len(p.Leanings))
	}
	said, grave := map[string]plan.Leaning{}, true
	for _, l := range p.Leanings {
		said[l.What] = l
		if ends := l.Turns == plan.DoNotTake; ends && !grave {
			t.Errorf("%s ends the trip, yet stands below one that does not", l.What)
		} else {
			grave = ends
		}
		if l.Turned == 0 != (l.Turns == "") || l.From != setOf(p, t, l.Set).Decision.PAsIs || l.Action != setOf(p, t, l.Set).Decision.Action {
			t.Errorf("%+v", l)
		}
	}
	l, ok := said["the tires' abrasion"]
	if !ok || l.Set != "tires-front" || math.Abs(l.Times-math.Exp(1.2816*0.4)) > 1e-9 {
		t.Fatalf("abrasion: %+v", l)
	}
	for _, id := range []string{"tires-front", "tires-rear"} {
		f.Parts[id].Tire.Abrasion *= 1.67 // of 6.5, as a folder would have 10.9
	}
	f.Parts["tires-front"].Sources["abrasion"] = profiles.Source{Value: "10.9 mm3/kJ", Tag: "owner"}
	f.Parts["tires-rear"].Sources["abrasion"] = f.Parts["tires-front"].Sources["abrasion"]
	is, err := Make(f, trip, Options{})
	if err != nil {
		t.Fatal(err)
	}
	if d := setOf(is, t, "tires-front").Decision; d.Action != l.Turns || math.Abs(d.PAsIs-l.To) > 0.02 {
		t.Errorf("planned so: %s at %.3f, said %s at %.3f", d.Action, d.PAsIs, l.Turns, l.To)
	}
	p.Leanings = nil
	Leanings(p, f, trip, o)
	for _, l := range p.Leanings {
		if l.What == "the tires' abrasion" {
			t.Error("the owner's own figure is tried")
		}
	}
}

// BenchmarkLeanings is the list of a demo.
func BenchmarkLeanings(b *testing.B) {
	for _, name := range []string{"juniper", "fjord"} {
		f, trip := demo(b, name)
		p, err := Make(f, trip, Options{})
		if err != nil {
			b.Fatal(err)
		}
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				Leanings(p, f, trip, Options{})
			}
		})
	}
}
