package planner

import (
	"testing"
	"time"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
)

// TestShelfCountsOnce: two hubs that both must be renewed, one on the shelf,
// and too late to order. With one, one of them has nothing safe; with two,
// both are renewed; in time, the second is ordered.
func TestShelfCountsOnce(t *testing.T) {
	count := func(shelf int, today time.Time) (renewed, refused, onShelf, ordered int) {
		f, trip := demo(t, "juniper")
		for i := range f.Car.Fitted {
			if e := &f.Car.Fitted[i]; e.Part == "hub-front" {
				e.Feel = map[string]logbook.Finding{}
				for _, at := range e.At {
					e.Feel[at] = "rough"
				}
			}
		}
		f.Car.Shelf = nil
		if shelf > 0 {
			f.Car.Shelf = []profiles.Spare{{Part: "hub-front", Quantity: 1}, {Part: "hub-front", Quantity: 1}}[:shelf]
		}
		p, err := Make(f, trip, Options{Draws: 500, Today: today})
		if err != nil {
			t.Fatal(err)
		}
		for _, id := range []string{"hub-LF", "hub-RF"} {
			switch setOf(p, t, id).Decision.Action {
			case plan.ReplaceBefore:
				renewed++
			case plan.DoNotTake:
				refused++
			}
		}
		for _, it := range p.Shopping {
			if it.Part == "hub-front" && it.OnShelf {
				onShelf++
			} else if it.Part == "hub-front" {
				ordered++
			}
		}
		return
	}
	late, early := departure.AddDate(0, 0, -2), departure.AddDate(0, 0, -30)
	for _, c := range []struct {
		shelf                              int
		today                              time.Time
		renewed, refused, onShelf, ordered int
	}{
		{0, late, 0, 2, 0, 0},
		{1, late, 1, 1, 1, 0},
		{2, late, 2, 0, 2, 0},
		{1, early, 2, 0, 1, 1},
		{0, early, 2, 0, 0, 2},
	} {
		a, b, on, order := count(c.shelf, c.today)
		if a != c.renewed || b != c.refused || on != c.onShelf || order != c.ordered {
			t.Errorf("%d on the shelf, today %s: %d renewed, %d refused, %d from the shelf, %d ordered", c.shelf, c.today.Format(time.DateOnly), a, b, on, order)
		}
	}
}
