package learning

import (
	"math/rand/v2"
	"os"
	"sync"
	"testing"

	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
)

// Simulated is a simulated owner before a weekend at Heron Flats on the parts
// that are on the car.
type Simulated struct {
	Log     []logbook.Entry
	Start   float64         // odometer before the first row, m
	Crossed map[string]bool // sets that this weekend, once driven, takes past their limit
}

// EachOwner calls with each of many simulated owners, one at a time.
func EachOwner(t *testing.T, n int, each func(Simulated)) {
	var mu sync.Mutex
	owners(t, n, 23, func(b *bench, _ int, random *rand.Rand) {
		o := b.drive(random, 3+random.IntN(10), []string{"errand", "journey", "day", "weekend", "quarry"})
		s := Simulated{Log: o.log, Start: b.start, Crossed: map[string]bool{}}
		way, v := b.known["weekend"], b.visit(random)
		for j := range way.Usages {
			o.wear(&way.Usages[j], v)
		}
		for i, p := range o.car.points {
			part, limit := o.car.part(p), 0.0
			if p.kind == profiles.Pads {
				limit = float64(part.Pads.Limit)
			} else {
				limit = float64(part.Tire.Limit)
			}
			if o.car.left[i] <= limit {
				s.Crossed[p.kind.Info().Sets[p.axle].ID] = true
			}
		}
		mu.Lock()
		defer mu.Unlock()
		each(s)
	})
}

// ManyOwners is how many owners the bench has, unless TRIPWEAR_OWNERS says
// otherwise.
func ManyOwners(t *testing.T, usual int) int {
	if os.Getenv("TRIPWEAR_OWNERS") == "" {
		return usual
	}
	return manyOwners(t)
}
