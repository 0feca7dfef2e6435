package circuits

import (
	"fmt"
	"testing"

	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
)

// Ranking takes a time and, above the folder itself, a memory that do not grow
// with what was ranked before.
func BenchmarkRank(b *testing.B) {
	for _, n := range []int{100, 1000, 10000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			f := manyCircuits(b, n)
			for b.Loop() {
				r, err := Rank(f, "LR", Drive{})
				if err != nil || len(r.Circuits) != n {
					b.Fatal(len(r.Circuits), err)
				}
			}
			b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(n*b.N), "us/circuit")
		})
	}
}

// manyCircuits is the demo with n circuits, all of them different: two of three
// corner by corner.
func manyCircuits(t testing.TB, n int) *profiles.Folder {
	f, _ := demo(t, "juniper")
	like, bySummary := f.Circuits["heron-flats"], f.Circuits["quarry-ridge"]
	f.Circuits = map[string]profiles.Circuit{}
	for i := range n {
		c := like
		if i%3 == 0 {
			c = bySummary
			c.LapTime += quantity.Duration(float64(i) / float64(n))
		} else {
			c.Corners = append([]profiles.Corner(nil), c.Corners...)
			c.Corners[0].Straight += quantity.Length(float64(i) / float64(n))
		}
		c.ID = fmt.Sprintf("c%05d", i)
		c.Name = c.ID
		f.Circuits[c.ID] = c
	}
	return f
}
