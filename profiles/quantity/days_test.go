package quantity

import "testing"

// Days in words up to ten, in figures from there.
func TestDaysInWords(t *testing.T) {
	for n, want := range map[int]string{0: "no days", 1: "one day", 2: "two days", 10: "ten days", 11: "11 days", 14: "14 days"} {
		if got := Days(n); got != want {
			t.Errorf("%d: %q, want %q", n, got, want)
		}
	}
}
