package circuits

import (
	"math"
	"testing"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/wearmodel/duty"
)

// A lap that turns to the left on the whole goes anticlockwise; one that turns
// half a turn or less either way crosses itself.
func TestDirection(t *testing.T) {
	for _, c := range []struct {
		turns []float64 // degrees
		want  string
	}{
		{[]float64{180, 180}, "anticlockwise"}, {[]float64{-90, -270}, "clockwise"}, {[]float64{270, -270}, "both ways, it crosses itself"},
	} {
		var segs []duty.Segment
		for _, turn := range c.turns {
			segs = append(segs, duty.Segment{Straight: 100, Turn: turn * math.Pi / 180, Radius: 50})
		}
		if got := direction(segs); got != c.want {
			t.Errorf("%v: %s, want %s", c.turns, got, c.want)
		}
	}
}

// The list of turns by hand: 14 m of straight to one side are still one turn,
// 15 m are two; the other way is another turn; a kink of 9 degrees is none. A
// turn's radius is the one that a fifth of its angle is taken at or under, the
// tight part that a driver sees; what is five times as wide at its ends leads
// to it.
func TestTurnsByHand(t *testing.T) {
	const deg = math.Pi / 180
	piece := func(straight, turn, radius float64) duty.Segment {
		return duty.Segment{Straight: straight, Turn: turn * deg, Radius: radius}
	}
	spiral := make([]duty.Segment, 6)
	for i := range spiral {
		spiral[i] = piece(0, 15, 20+10*float64(i))
	}
	for _, c := range []struct {
		what string
		segs []duty.Segment
		want []plan.Turn
	}{
		{"14 m between two", []duty.Segment{piece(100, 45, 40), piece(14, 45, 20)}, []plan.Turn{{At: 100, Left: true, Angle: 90 * deg, Radius: 20}}},
		{"15 m between two", []duty.Segment{piece(100, 45, 40), piece(15, 45, 20)},
			[]plan.Turn{{At: 100, Left: true, Angle: 45 * deg, Radius: 40}, {At: 115 + 45*deg*40, Left: true, Angle: 45 * deg, Radius: 20}}},
		{"left and right", []duty.Segment{piece(100, 45, 40), piece(0, -60, 20)},
			[]plan.Turn{{At: 100, Left: true, Angle: 45 * deg, Radius: 40}, {At: 100 + 45*deg*40, Angle: 60 * deg, Radius: 20}}},
		{"a kink", []duty.Segment{piece(100, 9, 300), piece(50, 11, 300), piece(10, 0, 0)}, []plan.Turn{{At: 150 + 9*deg*300, Left: true, Angle: 11 * deg, Radius: 300}}},
		{"a tight end of a tenth", []duty.Segment{piece(0, 90, 40), piece(0, 10, 8)}, []plan.Turn{{Left: true, Angle: 100 * deg, Radius: 40}}},
		{"a tight end of a quarter", []duty.Segment{piece(0, -75, 40), piece(0, -25, 8)}, []plan.Turn{{Angle: 100 * deg, Radius: 8}}},
		{"a spiral", spiral, []plan.Turn{{Left: true, Angle: 90 * deg, Radius: 30}}}, // 15 degrees of 20, 30 ... 70 m: 18 of 90
		{"a long way in and out", []duty.Segment{piece(0, 12, 900), piece(0, 80, 40), piece(0, 12, 900)}, []plan.Turn{{At: 12 * deg * 900, Left: true, Angle: 80 * deg, Radius: 40}}},
	} {
		circuit := plan.Circuit{Segs: c.segs}
		turns(&circuit, duty.Duty{})
		if len(circuit.Turns) != len(c.want) {
			t.Errorf("%s: %d turns, want %d", c.what, len(circuit.Turns), len(c.want))
			continue
		}
		for i, w := range c.want {
			got := circuit.Turns[i]
			if math.Abs(got.At-w.At) > 1e-9 || got.Left != w.Left || math.Abs(got.Angle-w.Angle) > 1e-12 || math.Abs(got.Radius-w.Radius) > 1e-9 {
				t.Errorf("%s: %+v, want %+v", c.what, got, w)
			}
		}
	}
}

// The slowest speed of a turn is looked for between its ends alone, in every
// state that reaches into it.
func TestSlowest(t *testing.T) {
	d := duty.Duty{States: []duty.State{{V: 10, Seconds: 2}, {V: 20, Seconds: 1}, {V: 30, Seconds: 1}, {V: 5, Seconds: 2}}} // to 20, 40, 70, 80 m
	for _, c := range [][3]float64{{0, 80, 5}, {19, 60, 10}, {20, 60, 20}, {41, 70, 30}, {41, 71, 5}} {
		if got := slowest(d, c[0], c[1]); got != c[2] {
			t.Errorf("from %g to %g m: %g m/s, want %g", c[0], c[1], got, c[2])
		}
	}
}

// A braking stands at the place where it begins.
func TestStopsAreWhereTheyBegin(t *testing.T) {
	d := duty.Duty{
		States:   []duty.State{{V: 10, Seconds: 2}, {V: 20, Seconds: 1}, {V: 30, Seconds: 1}, {V: 5, Seconds: 2}},
		Brakings: []duty.Braking{{Start: 2, From: 20, To: 10}, {Start: 4, From: 5, To: 1}},
	}
	var c plan.Circuit
	stops(&c, duty.Vehicle{}, d)
	if len(c.Brakings) != 2 || c.Brakings[0].At != 20 || c.Brakings[1].At != 70 {
		t.Errorf("%+v, want them at 20 and 70 m", c.Brakings)
	}
}
