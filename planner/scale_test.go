package planner

import (
	"fmt"
	"strings"
	"testing"

	"example.com/tripwear/planner/plan"
)

// Of a long logbook the latest occasions of each kind are foretold and the
// readings before are counted: together they are all of them.
func TestBacktestOfALongLogbook(t *testing.T) {
	teaching, err := Learn(mustLoad(t, folder(t, "", logOf(2_000))), nil, Options{})
	if err != nil {
		t.Fatal(err)
	}
	b := teaching.Backtest
	occasions := map[string]bool{}
	for _, p := range b.Predictions {
		kind, _, _ := strings.Cut(p.Set, "-")
		occasions[fmt.Sprint(kind, p.Odometer)] = true
	}
	if len(occasions) != 2*plan.LatestOccasions {
		t.Errorf("%d occasions, want %d of tires and as many of pads", len(occasions), plan.LatestOccasions)
	}
	// Twenty trips with three readings of tread and four of pads each, and those
	// of car.yaml at most: twelve of tread and four of pads.
	if all := len(b.Predictions) + b.Earlier; b.Earlier == 0 || all < 20*7 || all > 20*7+16 {
		t.Errorf("%d readings foretold, %d before", len(b.Predictions), b.Earlier)
	}
}
