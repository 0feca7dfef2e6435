package planner

import (
	"testing"

	"example.com/tripwear/planner/randomcar"
	"example.com/tripwear/profiles"
)

// BenchmarkSafer searches for the smallest change that makes a trip of 28
// circuit days safe: one long visit, and seven visits to each of two circuits
// with a shop between them.
func BenchmarkSafer(b *testing.B) {
	f, outing := randomcar.Demo(b, "juniper")
	long := outing.Clone()
	for i := range long.Legs {
		if long.Legs[i].Days == 2 {
			long.Legs[i].Days = 27
		}
	}
	many := outing.Clone()
	many.Legs = nil
	for range 7 {
		many.Legs = append(many.Legs, randomcar.Road(300), randomcar.Days("heron-flats", 2, "intermediate"), profiles.Leg{Kind: profiles.StopLeg, Name: "shop", Can: []string{"shop", "parts"}},
			randomcar.Road(200), randomcar.Days("quarry-ridge", 2, "intermediate"))
	}
	many.Legs = append(many.Legs, randomcar.Road(1245))
	for _, c := range []struct {
		name string
		trip profiles.Trip
	}{{"visit of 27 days", long}, {"14 visits of 2 days", many}} {
		b.Run(c.name+"/plan", func(b *testing.B) {
			for b.Loop() {
				if _, err := Make(f, c.trip, Options{}); err != nil {
					b.Fatal(err)
				}
			}
		})
		b.Run(c.name+"/search", func(b *testing.B) {
			for b.Loop() {
				b.StopTimer()
				p, err := Make(f, c.trip, Options{})
				if err != nil {
					b.Fatal(err)
				}
				b.StartTimer()
				Safer(p, f, c.trip, Options{})
				b.ReportMetric(float64(p.Tried), "plans")
			}
		})
	}
}
