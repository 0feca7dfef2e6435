package planner

import (
	"math"
	"slices"
	"strings"
	"testing"

	"example.com/tripwear/profiles"
)

// way is the demo changed.
func way(t testing.TB, name string, changes ...string) Way {
	t.Helper()
	f, trip := demo(t, name)
	var parsed []profiles.Change
	for _, s := range changes {
		c, err := profiles.ParseChange(s)
		if err != nil {
			t.Fatal(err)
		}
		parsed = append(parsed, c)
	}
	folder, p, err := Vary(f, trip, parsed, Options{Draws: 500})
	if err != nil {
		t.Fatal(err)
	}
	return Way{Label: strings.Join(changes, ", "), Folder: folder, Plan: p}
}

// ways compares the demo as it is with the demo changed.
func ways(t testing.TB, name string, changes ...string) *Comparison {
	t.Helper()
	return Compare([]Way{way(t, name), way(t, name, changes...)})
}

func (c *Comparison) point(t testing.TB, place, zone string, m Measure) PointAcross {
	t.Helper()
	for _, p := range c.Wear {
		if p.Place == place && p.Zone == zone && p.Measure == m {
			return p
		}
	}
	t.Fatalf("no %s %s %s", place, zone, m)
	return PointAcross{}
}

// A trip compared with itself shows no change.
func TestCompareWithItself(t *testing.T) {
	for _, name := range profiles.DemoNames() {
		c := ways(t, name)
		for _, p := range c.Wear {
			if p.Change != 0 {
				t.Errorf("%s: %+v", name, p)
			}
		}
		for _, s := range c.Decisions {
			if s.Differs || spread(s.Cost) != 0 {
				t.Errorf("%s: %+v", name, s)
			}
		}
		for _, w := range c.Tread {
			if w.Differs {
				t.Errorf("%s: %+v", name, w)
			}
		}
		a, b := c.Ways[0], c.Ways[1]
		if a.Purse != b.Purse || a.Life != b.Life || a.Apart != b.Apart || a.Road != b.Road || a.Laps != b.Laps || !slices.Equal(a.Spend, b.Spend) {
			t.Errorf("%s: %+v and %+v", name, a, b)
		}
	}
}

// Each kind of key moves what it names, the way it must, and nothing that has
// nothing to do with it.
func TestCompareMoves(t *testing.T) {
	up := func(p PointAcross) bool { return p.Taken[1] > p.Taken[0] }
	same := func(p PointAcross) bool { return p.Taken[1] == p.Taken[0] }
	asItIs := way(t, "juniper")
	for change, right := range map[string]func(*Comparison) bool{
		"alignment.LR.toe=0.3deg": func(c *Comparison) bool {
			return up(c.point(t, "LR", "inside", Tread)) && same(c.point(t, "RR", "inside", Tread)) && same(c.point(t, "LF", "", PadLining))
		},
		"alignment.front.camber=-3deg": func(c *Comparison) bool {
			return up(c.point(t, "LF", "inside", Tread)) && !up(c.point(t, "LF", "outside", Tread)) && same(c.point(t, "LR", "inside", Tread))
		},
		"fitted.pads-front=pads-front": func(c *Comparison) bool {
			p := c.point(t, "LF", "", PadLining)
			return p.PLimit[1] < p.PLimit[0] && p.Change >= p.PLimit[0]-p.PLimit[1] && same(c.point(t, "LR", "", PadLining))
		},
		"fitted.tires-rear.tread.LR=[2/32 in, 3/32 in, 4/32 in]": func(c *Comparison) bool {
			p := c.point(t, "LR", "inside", Tread)
			return p.End[1] < p.End[0] && same(p) && c.point(t, "LF", "inside", Tread).Change == 0
		},
		"pace=advanced": func(c *Comparison) bool {
			return up(c.point(t, "LF", "", PadLining)) && up(c.point(t, "RR", "outside", Tread)) && c.Ways[1].Road == c.Ways[0].Road
		},
		"pace.heron-flats=novice": func(c *Comparison) bool {
			return c.point(t, "LF", "", PadLining).Taken[1] < c.point(t, "LF", "", PadLining).Taken[0]
		},
		"sessions=4x20min":   func(c *Comparison) bool { return c.Ways[1].Laps*5 == c.Ways[0].Laps*4 },
		"days.heron-flats=1": func(c *Comparison) bool { return c.Ways[1].Days == c.Ways[0].Days-1 },
		"distance.1=800mi": func(c *Comparison) bool {
			return math.Abs(c.Ways[0].Road-c.Ways[1].Road-float64(210*mile)) < 1 && c.Ways[1].Purse < c.Ways[0].Purse && same(c.point(t, "LF", "face", Crack)) && !same(c.point(t, "LF", "inside", Tread))
		},
		"costs.stranded=3000": func(c *Comparison) bool { return c.Ways[1].Apart > c.Ways[0].Apart && c.Wear[0].Change == 0 },
		"boot.volume=90L": func(c *Comparison) bool { // the luggage alone takes 95 L
			for _, s := range c.Decisions {
				if s.Actions[1] == Carry || s.Spares[1] {
					return false
				}
			}
			return c.Decisions[0].Differs && c.Wear[0].Change == 0
		},
		"safety.cap=0%": func(c *Comparison) bool { return !c.Ways[1].Safe && c.Wear[0].Change == 0 },
		"parts.rotors-front.price=90": func(c *Comparison) bool {
			return c.Ways[1].Purse == c.Ways[0].Purse-60 && c.Ways[1].Life < c.Ways[0].Life
		},
		"costs.fuel=3/gal": func(c *Comparison) bool { return c.Ways[1].Purse < c.Ways[0].Purse && c.Ways[1].Life == c.Ways[0].Life },
		"spread.pace=0.2":  func(c *Comparison) bool { return same(c.point(t, "LF", "", PadLining)) && c.Wear[0].Change > 0 },
		"ambient=40C": func(c *Comparison) bool {
			return up(c.point(t, "LF", "face", Crack)) || up(c.point(t, "LF", "", PadLining))
		},
	} {
		c := Compare([]Way{asItIs, way(t, "juniper", change)})
		if !right(c) {
			t.Errorf("%s: %+v\n%+v", change, c.Ways, c.Wear[:3])
		}
		for i := 1; i < len(c.Wear); i++ {
			if c.Wear[i].Change > c.Wear[i-1].Change {
				t.Errorf("%s: the biggest changes are not first", change)
			}
		}
	}
}

// More toe takes rubber and life, more camber trades evenness away; each at
// its own wheel alone.
// What a wheel lasts is by its worst zone.
func TestCompareAlignment(t *testing.T) {
	for change, right := range map[string]func(w WheelAcross) bool{
		"alignment.RR.toe=0.4deg":     func(w WheelAcross) bool { return w.Lasts[1] < w.Lasts[0] && w.Mean[1] > w.Mean[0] },
		"alignment.RR.camber=-3.5deg": func(w WheelAcross) bool { return w.Lasts[1] < w.Lasts[0] && w.Even[1] < w.Even[0] },
	} {
		c := ways(t, "juniper", change)
		for _, w := range c.Tread {
			if w.Differs != (w.Place == "RR") {
				t.Errorf("%s: %s differs: %v", change, w.Place, w.Differs)
			}
			for k := range c.Ways {
				worst := c.point(t, w.Place, w.Worst[k], Tread)
				if w.Most[k] != worst.Taken[k] || w.Even[k] > 1 || w.Least[k] > w.Mean[k] || w.Mean[k] > w.Most[k] || math.Abs(w.Lasts[k]*worst.Share[k]-1) > 1e-12 {
					t.Errorf("%s: %+v", change, w)
				}
			}
			if w.Place == "RR" && !right(w) {
				t.Errorf("%s: %+v", change, w)
			}
		}
	}
}

// Every set of a plan can be fitted anew by its id.
func TestVaryEverySet(t *testing.T) {
	f, trip := demo(t, "juniper")
	for _, s := range plan(t, f, trip).Sets {
		_, p, err := Vary(f, trip, []profiles.Change{{Key: "fitted." + s.ID, Value: s.Part}}, Options{Draws: 100})
		if err != nil {
			t.Errorf("%s: %v", s.ID, err)
			continue
		}
		if got := p.set(t, s.ID); got.Decision.PAsIs > s.Decision.PAsIs+0.05 {
			t.Errorf("%s: as new it has a chance of %g, as it was %g", s.ID, got.Decision.PAsIs, s.Decision.PAsIs)
		}
	}
}

// Vary reports every change that is refused, and leaves what it was given alone.
func TestVaryRefuses(t *testing.T) {
	f, trip := demo(t, "juniper")
	_, _, err := Vary(f, trip, []profiles.Change{{Key: "pase", Value: "advanced"}, {Key: "pace", Value: "advanced"}, {Key: "days", Value: "99"}}, Options{})
	bad, ok := err.(profiles.Errors)
	if !ok || len(bad) != 2 {
		t.Fatalf("got %v, want two errors", err)
	}
	if trip.Legs[1].Pace != "intermediate" {
		t.Error("the trip was changed")
	}
}
