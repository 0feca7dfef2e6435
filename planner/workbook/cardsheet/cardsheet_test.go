package cardsheet

import (
	"strings"
	"testing"

	"example.com/tripwear/planner"
	"example.com/tripwear/planner/card"
	"example.com/tripwear/planner/randomcar"
	"example.com/tripwear/profiles/quantity"
)

// TestLines: every line fits 40 characters, and the strips say what the card says.
func TestLines(t *testing.T) {
	wide := 0.0
	for _, w := range Widths {
		wide += w
	}
	if wide != 40 {
		t.Errorf("%v characters wide", wide)
	}
	folder, trip := randomcar.Demo(t, "juniper")
	p, err := planner.Make(folder, trip, planner.Options{Draws: 200})
	if err != nil {
		t.Fatal(err)
	}
	c := card.Of(p, quantity.US)
	first, second := Lines(c)
	var all []string
	for _, l := range append(first, second...) {
		over := 0
		for _, one := range l.Cells {
			room := 0.0
			for _, w := range Widths[over : over+one.Over] {
				room += w
			}
			if n := len([]rune(one.Text)); float64(n) > room {
				t.Errorf("%d characters in %v: %q", n, room, one.Text)
			}
			over += one.Over
			all = append(all, one.Text)
		}
		if l.Tick {
			over++
		}
		if over > len(Widths) {
			t.Errorf("%d columns: %+v", over, l)
		}
	}
	said := strings.Join(strings.Fields(strings.Join(all, " ")), " ")
	want := []string{c.Kick, c.Title, c.Lead, c.Weak, c.Cost, c.Room, c.Rows[1].Cells[2].Least, c.Columns[0].Act, c.Stars[0], c.Stops[0].Text}
	want = append(append(append(want, c.Do...), c.Park...), c.Sessions...)
	for _, d := range c.Circuits {
		want = append(want, d.If)
	}
	for _, w := range want {
		if !strings.Contains(said, strings.Join(strings.Fields(w), " ")) {
			t.Errorf("the sheet does not say %q", w)
		}
	}
}

// TestCalled: a point by its place, and its zone or what it is.
func TestCalled(t *testing.T) {
	for want, c := range map[string]card.Column{
		"RF out": {Where: "RF outside", Name: "Front tires"}, "LR mid": {Where: "LR middle", Name: "Rear tires"},
		"RR in": {Where: "RR inside", Name: "Rear tires"}, "LF pads": {Where: "LF ", Name: "Front pads"},
	} {
		if place, what := called(c); place+" "+what != want {
			t.Errorf("%+v: %q %q, want %q", c, place, what, want)
		}
	}
}
