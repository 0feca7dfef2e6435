package projection

import (
	"testing"
)

// BenchmarkMillion projects the sets of BenchmarkProject with 1,000,000 draws
// over the cores that -cpu gives.
func BenchmarkMillion(b *testing.B) {
	legs := season(12)
	for b.Loop() {
		sets := benchSets(legs)
		d := NewDraws(1_000_000, 1)
		Parallel(len(sets), func() func(int) {
			w := NewWorker(d, legs)
			return func(i int) { w.Project(sets[i], 0) }
		})
	}
}
