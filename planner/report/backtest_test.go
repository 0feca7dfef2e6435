package report

import (
	"strings"
	"testing"

	"example.com/tripwear/planner"
	"example.com/tripwear/profiles/quantity"
)

// A backtest that leaves readings out says how many; one that leaves none says
// nothing of it.
func TestBacktestSaysWhatItLeaves(t *testing.T) {
	for _, c := range []struct {
		earlier int
		says    bool
	}{{0, false}, {46, true}} {
		learned := &planner.Teaching{Rows: 1, Backtest: planner.Backtest{Predictions: make([]planner.Prediction, 1), Earlier: c.earlier}}
		var out strings.Builder
		if err := Learn(&out, learned, quantity.Metric); err != nil {
			t.Fatal(err)
		}
		text := strings.Join(strings.Fields(out.String()), " ")
		if got := strings.Contains(text, "the latest 50 occasions that tires, and pads, were read on, and not the 46 readings before."); got != c.says {
			t.Errorf("%d readings before: said %t in\n%s", c.earlier, got, out.String())
		}
	}
}
