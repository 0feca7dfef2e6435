package kind

import (
	"testing"

	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/parts"
	"example.com/tripwear/profiles/quantity"
)

// A kind that a stock file adds has all that a plan asks of a kind: a point for
// each limit, used up as its hand figure says, and what its findings forbid.
func TestFurtherClassIsData(t *testing.T) {
	more, err := parts.LimitedKinds([]byte(`
kinds:
  - {kind: spherical joints, id: joints, plural: spherical joints, at: axle, buy: pair, finds: {watch: [corroded], circuit: [loose]}, parts: []}
`))
	if err != nil {
		t.Fatal(err)
	}
	k := newLimited(more[0])
	part := profiles.Part{Kind: k.ID, Limited: &profiles.LimitedPart{Margin: 0.9, Limits: profiles.Limits{CircuitHours: quantity.Duration(40 * 3600), HeatCycles: 100}}}
	at := At{Part: part, Place: "LF", Entry: &profiles.Fitted{}}
	day := &Wear{Seconds: 2 * 3600, Sessions: 5}
	used := map[string]float64{}
	for _, p := range k.Points(at) {
		used[p.Zone] = p.Of(day)
		if p.New != 1 || p.Margin < 0.099 || p.Margin > 0.101 {
			t.Errorf("%s: %+v", p.Zone, p)
		}
	}
	if got := used["circuit hours"] * 20; got < 0.999 || got > 1.001 {
		t.Errorf("twenty days of two hours use %.4f of 40", got)
	}
	if got := used["heat cycles"] * 20; got < 0.999 || got > 1.001 {
		t.Errorf("twenty days of five sessions use %.4f of 100", got)
	}
	if x, ok := k.Find("spherical joints", "loose"); !ok || !x.Circuit || x.Forbids {
		t.Errorf("loose: %+v", x)
	}
	if most, counted := k.Heated(part); !counted || most != 100 {
		t.Errorf("heat cycles %v, counted %v", most, counted)
	}
}
