package learning

import (
	"math"
	"testing"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/wearmodel/reliability"
)

// Three predictions by hand: in mm they are off by +1, -2 and +3, the model
// without the logbook by 2, 2 and 2, a straight line, which two of them have,
// by 1 and 4.
func TestScoreByHand(t *testing.T) {
	b := score([]plan.Prediction{
		{Read: 6, Median: 5, Default: 4, Rank: 0.75},
		{Read: 6, Median: 8, Default: 8, Rank: 0.1, Line: 5, HasLine: true},
		{Read: 6, Median: 3, Default: 4, Rank: 0.98, Line: 10, HasLine: true},
	})
	for name, c := range map[string][2]float64{
		"within 50 %": {b.Held50, 1.0 / 3}, "within 80 %": {b.Held80, 2.0 / 3}, "within 95 %": {b.Held95, 2.0 / 3},
		"bias": {b.Bias, 2.0 / 3}, "error": {b.Error, 2}, "error of the model": {b.DefaultError, 2},
		"error of the line": {b.LineError, 2.5}, "error where there is one": {b.ErrorWhereLines, 2.5}, "lines": {float64(b.Lines), 2},
	} {
		if math.Abs(c[0]-c[1]) > 1e-12 {
			t.Errorf("%s: %g, want %g", name, c[0], c[1])
		}
	}
	if b := score(nil); b.Error != 0 || b.LineError != 0 {
		t.Errorf("nothing foretold: %+v", b)
	}
	if b := score([]plan.Prediction{{Read: 6, Median: 5}}); b.LineError != 0 || b.ErrorWhereLines != 0 {
		t.Errorf("no line to draw: %+v", b)
	}
}

// onePoint is a history of one point: new with 10 mm at 1,000 km, read with 9 at
// 1,010 and 7 at 1,030, and to be foretold at 1,040; so much was taken since
// it was new by the model.
func onePoint() (*history, estimate) {
	taken := func(mm float64) []reliability.Taken {
		return []reliability.Taken{{Amount: mm / 2000}, {Amount: mm / 2000}}
	}
	h := &history{
		starts: []reliability.Start{{Mean: 10e-3, SD: 0.5e-3}, {Mean: 5e-3, SD: unknownStartSD}},
		readings: []reading{
			{start: 0, from: 1000, odometer: 1010, level: 9e-3, gauge: 1e-3, taken: taken(1.5)},
			{start: 1, from: 1020, odometer: 1020, level: 3e-3, gauge: 1e-3},
			{start: 0, from: 1000, odometer: 1030, level: 7e-3, gauge: 2e-3, taken: taken(4)},
			{start: 0, from: 1000, odometer: 1040, gauge: 1e-3, taken: taken(6)},
		},
	}
	return h, estimate{used: []int{0, 1, 2}}
}

// A straight line falls by 1 mm every 10 km: 6 mm at 1,040. Through one level
// there is none, nor through two read at one odometer.
func TestLineByHand(t *testing.T) {
	h, l := onePoint()
	if got, ok := h.lineThrough(l, h.readings[3]); !ok || math.Abs(1000*got-6) > 1e-9 {
		t.Errorf("%g mm, %v; want 6", 1000*got, ok)
	}
	h.readings[2].level = 4e-3 // the best line through 10, 9 and 4 at 0, 10 and 30 km is 15/7 at 40
	if got, _ := h.lineThrough(l, h.readings[3]); math.Abs(1000*got-15.0/7) > 1e-9 {
		t.Errorf("%g mm, want %g", 1000*got, 15.0/7)
	}
	if got, ok := h.lineThrough(estimate{used: []int{0}}, h.readings[3]); !ok || math.Abs(1000*got-6) > 1e-9 {
		t.Errorf("new and read once: %g mm, %v; want 6", 1000*got, ok)
	}
	if _, ok := h.lineThrough(estimate{}, h.readings[3]); ok {
		t.Error("a line through one level")
	}
	h.readings[0].odometer = 1000
	if _, ok := h.lineThrough(estimate{used: []int{0}}, h.readings[3]); ok {
		t.Error("a line through one odometer")
	}
	other := reading{start: 1, from: 1020, odometer: 1050}
	if _, ok := h.lineThrough(l, other); ok {
		t.Error("a line through one reading of an unknown start")
	}
	h.readings[2].start = 1 // 3 at 1,020 and 2.5 at 1,030
	h.readings[2].level = 2.5e-3
	if got, ok := h.lineThrough(l, other); !ok || math.Abs(1000*got-1.5) > 1e-9 {
		t.Errorf("read twice, never new: %g mm, %v; want 1.5", 1000*got, ok)
	}
}

// The model's own word is the start by all levels, each with what the model
// took since put back, weighed by the inverse square of their errors: 10 at
// 0.5 counts 4, 9 + 1.5 at 1 counts 1, 7 + 4 at 2 counts a quarter.
func TestNominalByHand(t *testing.T) {
	h, l := onePoint()
	want := (4*10+1*10.5+0.25*11)/5.25 - 6
	if got := h.nominal(l, h.readings[3]); math.Abs(1000*got-want) > 1e-9 {
		t.Errorf("%g mm, want %g", 1000*got, want)
	}
}
