package cardsheet

import (
	"strings"
	"testing"

	"example.com/tripwear/planner"
	"example.com/tripwear/planner/card"
	"example.com/tripwear/planner/randomcar"
	"example.com/tripwear/profiles/quantity"
)

// TestLines: every line is as wide as the sheet, 40 characters, and the sheet
// says what the card says.
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
	var all []string
	for _, l := range Lines(c) {
		over, tick := 0, 0
		if l.Tick {
			tick = 1
		}
		for _, one := range l.Cells {
			over += one.Over
			all = append(all, one.Text)
		}
		if over+tick != len(Widths) && (l.Tone == Heading || len(l.Cells) == 1 || over > len(Widths)) {
			t.Errorf("%d of %d columns: %+v", over+tick, len(Widths), l)
		}
	}
	said := strings.Join(all, "\n")
	want := []string{c.Kick, c.Title, c.Lead, c.Weak, c.Cost, c.Room, c.Rows[1].Cells[2].Least, c.Columns[0].Act, c.Stars[0]}
	want = append(append(want, c.Do...), c.Park...)
	for _, d := range c.Circuits {
		want = append(want, d.If)
	}
	for _, w := range want {
		if !strings.Contains(said, w) {
			t.Errorf("the sheet does not say %q", w)
		}
	}
}

// TestCalled: a point by its place and zone, or what it is.
func TestCalled(t *testing.T) {
	for want, c := range map[string]card.Column{
		"RF out": {Where: "RF outside", Name: "Front tires"}, "LR mid": {Where: "LR middle", Name: "Rear tires"},
		"RR in": {Where: "RR inside", Name: "Rear tires"}, "LF pads": {Where: "LF ", Name: "Front pads"},
	} {
		if got := called(c); got != want {
			t.Errorf("%+v: %q, want %q", c, got, want)
		}
	}
}
