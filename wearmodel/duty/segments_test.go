package duty

import (
	"math"
	"slices"
	"strings"
	"testing"
)

func TestTurning(t *testing.T) {
	eight := []Segment{corner(300, 270, 90), corner(300, -270, 40)}
	tests := []struct {
		name   string
		segs   []Segment
		deg    float64
		closes bool
	}{ // Hopf's theorem: +-360 degrees, or 0 for a figure-eight
		{"reference lap", reference(), 360, true},
		{"invented 3.5 km", heronFlats(), 360, true},
		{"mirrored", mirrored(heronFlats()), -360, true},
		{"figure-eight", eight, 0, true},
		{"a corner missing", heronFlats()[1:], 270, false},
		{"rounded within 5 degrees", []Segment{corner(0, 356, 50)}, 356, true},
		{"rounded beyond", []Segment{corner(0, 354, 50)}, 354, false},
		{"twice round", []Segment{corner(0, 720, 50)}, 720, false},
		{"5 degrees", []Segment{{Turn: closedWithin, Radius: 50}}, 5, true},
	}
	for _, tt := range tests {
		if got := Turning(tt.segs) / deg; math.Abs(got-tt.deg) > 1e-9 {
			t.Errorf("%s: turning %.6g degrees, want %g", tt.name, got, tt.deg)
		}
		if got := Closes(tt.segs); got != tt.closes {
			t.Errorf("%s: closes %v", tt.name, got)
		}
	}
}

func TestLength(t *testing.T) {
	for _, tt := range []struct {
		segs []Segment
		want float64
	}{
		{reference(), 4080}, {heronFlats(), 3500},
		{[]Segment{corner(400, 180, 50), corner(400, 180, 50)}, 800 + 100*math.Pi},
	} {
		if got := Length(tt.segs); math.Abs(got-tt.want) > 0.01 { // corner lists are rounded to the millimeter
			t.Errorf("length %.3f m, want %.3f", got, tt.want)
		}
	}
}

// mirrored is the circuit seen in a mirror: every left turn to the right.
func mirrored(segs []Segment) []Segment {
	segs = slices.Clone(segs)
	for i := range segs {
		segs[i].Turn = 0 - segs[i].Turn // not -Turn, which would make a straight's 0 a -0
	}
	return segs
}

func TestCheckSegments(t *testing.T) {
	for _, tt := range []struct {
		segs []Segment
		says string
	}{
		{nil, "no turn"},
		{[]Segment{{Straight: 500}}, "no turn"},
		{[]Segment{corner(10, 90, 20), {}}, "segment 2 has neither"},
		{[]Segment{corner(-1, 90, 20)}, "segment 1: a straight of -1 m"},
		{[]Segment{corner(math.NaN(), 90, 20)}, "segment 1: a straight"},
		{[]Segment{corner(10, 90, 0)}, "needs a radius"},
		{[]Segment{corner(10, 90, 2)}, "between 3 and"},
		{[]Segment{corner(10, math.Inf(1), 20)}, "a turn of +Inf rad"},
		{[]Segment{corner(10, 90, 20), corner(10, math.NaN(), 20)}, "segment 2: a turn of NaN rad"},
		{[]Segment{corner(10, 90, 20), corner(10, 90, 2)}, "segment 2: a turn needs"},
		{[]Segment{corner(60e3, 90, 20), corner(60e3, 90, 20)}, "a lap of 120.1 km is longer than 100 km"},
	} {
		err := checkSegments(tt.segs)
		if err == nil || !strings.Contains(err.Error(), tt.says) {
			t.Errorf("%v: error %v, want one that says %q", tt.segs, err, tt.says)
		}
	}
}

// What is still a turn, and still a lap: a millimeter of bend, of which the
// track has a cell; 100 km to the meter; a turn without a straight, backwards.
func TestSegmentEnds(t *testing.T) {
	bend := []Segment{{Turn: minPiece / 4, Radius: 4}}
	if err := checkSegments(bend); err != nil {
		t.Error(err)
	}
	if p := cut(bend).pieces; len(p) != 1 || p[0].cells != 1 || p[0].ds != minPiece {
		t.Errorf("a bend of a millimeter is cut into %+v", p)
	}
	if err := checkSegments([]Segment{{Straight: MaxLength - 32, Turn: 0.5, Radius: 64}}); err != nil {
		t.Error(err)
	}
	if err := checkSegments(Reverse([]Segment{corner(0, 90, 20), corner(100, 270, 20)})); err != nil {
		t.Error(err)
	}
}

// The other way round the lap is as long, turns as much to the other side, and
// without drag and with equal grip for driving and braking takes the same time.
func TestReverse(t *testing.T) {
	back := Reverse(heronFlats())
	if !within(Length(back), Length(heronFlats()), 1e-12) || !within(Turning(back), -Turning(heronFlats()), 1e-12) {
		t.Errorf("%g m, %g rad", Length(back), Turning(back))
	}
	there, again := cut(heronFlats()).driven(pointMass(8, 8, 8)), cut(back).driven(pointMass(8, 8, 8))
	if !within(again.Seconds, there.Seconds, 1e-4) || math.Abs(LeftShare(there)+LeftShare(again)-1) > 1e-3 {
		t.Errorf("lap %g s, left share %g; reversed %g s, %g", there.Seconds, LeftShare(there), again.Seconds, LeftShare(again))
	}
	if twice := Reverse(back); !within(Length(twice), Length(back), 1e-12) || twice[0].Straight != heronFlats()[0].Straight {
		t.Errorf("twice reversed: %+v", twice)
	}
}
