package quantity

import "testing"

// TestWords: only the whole word turns, and only where miles are not used.
func TestWords(t *testing.T) {
	const sentence = "the trunk holds two trunks, a boot and a Trunk road: the trunk, then"
	if got := US.Words(sentence); got != sentence {
		t.Error(got)
	}
	if got, want := Metric.Words(sentence), "the boot holds two trunks, a boot and a Trunk road: the boot, then"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}
