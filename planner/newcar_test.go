package planner

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"strconv"
	"testing"
	"time"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/newcar"
	"example.com/tripwear/profiles/quantity"
)

// TestAssumedCar: a car of which only the dozen answers are known is decided as the
// same car fully described, in at least 80 % of its sets, and its 5-95 % bands hold
// the described car's nominal wear. The described cars lie around their kinds as
// cars of a kind do; nothing is read of either. Of fifty at most one is
// a yes that is a no described. TRIPWEAR_NEWCARS sets how many.
func TestAssumedCar(t *testing.T) {
	n := 16
	if testing.Short() {
		n = 4
	}
	if s := os.Getenv("TRIPWEAR_NEWCARS"); s != "" {
		n, _ = strconv.Atoi(s)
	}
	r := rand.New(rand.NewPCG(19, 5))
	around := func(sd float64) float64 { return math.Exp(sd * r.NormFloat64()) }
	today := time.Date(2027, 5, 1, 0, 0, 0, 0, time.UTC)
	kinds := newcar.Kinds()
	same, sets, held, points, yes, falseYes := 0, 0, 0, 0, 0, 0
	for range n {
		k := kinds[r.IntN(len(kinds))]
		files := newcar.Files(newcar.Answers{
			"kind": k.ID, "age": fmt.Sprintf("%d mi, %d days", 500+r.IntN(8000), r.IntN(4)),
			"treadwear": []string{"200", "300", "?"}[r.IntN(3)], "pads": []string{"street", "street-performance", "track"}[r.IntN(3)],
		}, today)
		f, err := profiles.Load(files)
		if err != nil {
			t.Fatal(err)
		}
		g := f.Clone()
		car := &g.Car
		car.Assumed = nil
		scale := func(x *quantity.Length, sd float64) { *x *= quantity.Length(around(sd)) }
		car.FrontWeight *= quantity.Share(around(0.04))
		car.RollFront *= quantity.Share(around(0.06))
		car.DragArea *= quantity.Area(around(0.08))
		scale(&car.CGHeight, 0.05)
		scale(&car.Wheelbase, 0.03)
		scale(&car.Track.Front, 0.02)
		scale(&car.Track.Rear, 0.02)
		for place, a := range car.Alignment {
			a.Camber += quantity.Angle(0.7 * math.Pi / 180 * r.NormFloat64())
			car.Alignment[place] = a
		}
		for _, id := range []string{"rotors-front", "rotors-rear"} {
			p := g.Parts[id]
			rotors := *p.Rotors
			s := around(0.10)
			rotors.RingMass *= quantity.Mass(s)
			rotors.Area *= quantity.Area(math.Cbrt(s * s))
			p.Rotors = &rotors
			g.Parts[id] = p
		}
		outing := f.Trips["weekend"]
		outing.Legs[1].Days, outing.Legs[0].Distance = 1+r.IntN(2), quantity.Length(float64(100+r.IntN(900))*1609.344)
		o := Options{Draws: 1000, Seed: 1 + r.Uint64N(1000), Today: today}
		assumed, err := Make(f, outing, o)
		if err != nil {
			t.Fatal(err)
		}
		described, err := Make(g, outing, o)
		if err != nil {
			t.Fatal(err)
		}
		if assumed.Safe {
			yes++
		}
		if assumed.Safe && described.Verdict == plan.No {
			falseYes++
			t.Logf("a yes for a %s, but described %s", k.ID, described.Why)
		}
		for i, s := range assumed.Sets {
			d := described.Sets[i]
			sets++
			if s.Decision.Action == d.Decision.Action {
				same++
			}
			if s.Kind != profiles.Tire && s.Kind != profiles.Pads {
				continue
			}
			for j, p := range s.Points {
				lost := func(p plan.Point) (sum float64) {
					for _, l := range p.Loss {
						sum += l
					}
					return sum
				}
				wide := s.CircuitSpread
				points++
				if math.Abs(math.Log(lost(d.Points[j])/lost(p))) < 1.645*wide {
					held++
				}
			}
		}
	}
	t.Logf("%d cars: %.0f %% of %d sets decided alike, %.0f %% of %d points within their band, %d of %d times that it is a yes the described car is a no",
		n, 100*float64(same)/float64(sets), sets, 100*float64(held)/float64(points), points, falseYes, yes)
	if float64(same) < 0.8*float64(sets) || float64(held) < 0.85*float64(points) || 50*falseYes > n+49 {
		t.Error("the assumed car does not stand for the described one")
	}
}
