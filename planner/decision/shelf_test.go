package decision

import (
	"testing"

	"github.com/google/go-cmp/cmp"
)

func TestSplits(t *testing.T) {
	for _, c := range []struct {
		wants []int
		n     int
		want  [][]int
	}{
		{[]int{1, 1}, 1, [][]int{{1, 0}, {0, 1}}},
		{[]int{2, 1}, 2, [][]int{{2, 0}, {1, 1}}},
		{[]int{1, 1, 1}, 3, [][]int{{1, 1, 1}}},
		{[]int{0, 0}, 0, [][]int{{0, 0}}},
	} {
		if diff := cmp.Diff(c.want, splits(c.wants, c.n)); diff != "" {
			t.Errorf("%v of %v:\n%s", c.n, c.wants, diff)
		}
	}
}
