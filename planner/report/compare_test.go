package report

import (
	"testing"

	"example.com/tripwear/planner"
)

// TestTrade: from half a percent on a change is worth a word.
func TestTrade(t *testing.T) {
	for _, c := range []struct {
		lasts, even, mean [2]float64
		want              string
	}{
		{[2]float64{10, 10}, [2]float64{0.8, 0.8}, [2]float64{1, 1}, "B lasts as long, wears as evenly and takes as much rubber in all"},
		{[2]float64{10, 10.04}, [2]float64{0.8, 0.804}, [2]float64{1, 0.996}, "B lasts as long, wears as evenly and takes as much rubber in all"},
		{[2]float64{10, 12}, [2]float64{0.8, 0.9}, [2]float64{1, 0.75}, "B lasts 20 % longer, wears more evenly (90 % for 80 %) and takes 25 % less rubber in all"},
		{[2]float64{10, 8}, [2]float64{0.8, 0.7}, [2]float64{1, 1.25}, "B lasts 20 % less, wears less evenly (70 % for 80 %) and takes 25 % more rubber in all"},
		{[2]float64{0, 8}, [2]float64{0.8, 0.8}, [2]float64{0, 1.25}, "B lasts as long, wears as evenly and takes as much rubber in all"},
	} {
		if got := trade(planner.WheelAcross{Lasts: c.lasts[:], Even: c.even[:], Mean: c.mean[:]}); got != c.want {
			t.Errorf("%+v:\n%s, want\n%s", c, got, c.want)
		}
	}
	for _, c := range []struct {
		was, is float64
		want    string
	}{{0, 5, "new"}, {4, 5, "+25 %"}, {4, 3, "-25 %"}, {4, 4, "+0 %"}} {
		if got := relative(c.was, c.is); got != c.want {
			t.Errorf("from %g to %g: %s, want %s", c.was, c.is, got, c.want)
		}
	}
}
