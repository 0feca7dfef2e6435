package report

import (
	"strings"
	"testing"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles/quantity"
)

// A backtest that leaves readings out says how many; one that leaves none says
// nothing of it.
func TestBacktestSaysWhatItLeaves(t *testing.T) {
	for _, c := range []struct {
		earlier int
		says    bool
	}{{0, false}, {46, true}} {
		learned := &plan.Teaching{Rows: 1, Backtest: plan.Backtest{Predictions: make([]plan.Prediction, 1), Earlier: c.earlier}}
		var out strings.Builder
		if err := Learn(&out, learned, View{Units: quantity.Metric}); err != nil {
			t.Fatal(err)
		}
		text := strings.Join(strings.Fields(out.String()), " ")
		if got := strings.Contains(text, "only the latest days on which a kind of part was read, 50 at most, not the 46 readings before."); got != c.says {
			t.Errorf("%d readings before: said %t in\n%s", c.earlier, got, out.String())
		}
	}
}

// The latest eight readings are listed; one just at the end of its band is
// inside it, one beyond has a star.
func TestBacktestLists(t *testing.T) {
	reading := func(mm float64) plan.Prediction {
		return plan.Prediction{Set: "pads-front", Place: "LF", Read: mm / 1000, Median: 0.006, Low: 0.005, High: 0.007}
	}
	for _, c := range []struct {
		readings int
		last     float64
		star     bool
		says     string
	}{{8, 5, false, ""}, {8, 7, false, ""}, {9, 7.1, true, "the latest 8 of 9; * outside its band"}, {9, 4.9, true, "the latest 8 of 9; * outside its band"}} {
		learned := &plan.Teaching{Rows: 1}
		for range c.readings - 1 {
			learned.Backtest.Predictions = append(learned.Backtest.Predictions, reading(6))
		}
		learned.Backtest.Predictions = append(learned.Backtest.Predictions, reading(c.last))
		learned.Backtest.Bias = choice(c.star, -0.0002, 0)
		var out strings.Builder
		if err := Learn(&out, learned, View{Units: quantity.Metric}); err != nil {
			t.Fatal(err)
		}
		text := out.String()
		if n := strings.Count(text, "pads-front LF"); n != 8 || strings.Contains(text, " mm *\n") != c.star || strings.Contains(text, "the latest") != (c.says != "") || !strings.Contains(text, c.says) {
			t.Errorf("%d readings, the last of %g mm: %d listed in\n%s", c.readings, c.last, n, text)
		}
		if want := choice(c.star, "0.20 mm below the forecast", "0.00 mm above the forecast"); !strings.Contains(strings.Join(strings.Fields(text), " "), want) {
			t.Errorf("no %q in\n%s", want, text)
		}
		if strings.Contains(text, "straight line") {
			t.Errorf("a line is told of where there was none\n%s", text)
		}
	}
}

func choice[T any](yes bool, a, b T) T {
	if yes {
		return a
	}
	return b
}
