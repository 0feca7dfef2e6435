package parts

import (
	"slices"
	"testing"

	"example.com/tripwear/profiles/decode"
	"example.com/tripwear/profiles/logbook"
)

// further is a stock file with one more kind of limited part.
const further = `
common:
  margin: {value: 80 %, tag: engineering choice, source: "ours"}
  fit: {value: [shop, home], tag: common practice, source: "common practice, no source"}
  hours: {value: 1 h, tag: engineering choice, source: "assumed"}
kinds:
  - kind: fuel pump
    id: fuel-pump
    plural: fuel pumps
    at: body
    buy: pump
    finds: {watch: [corroded], forbids: [leaking]}
    parts:
      - id: fuel-pump
        name: fuel pump
        limits:
          circuit_hours: {value: 60 h, tag: common practice, source: "common practice, no source"}
`

// A further class is data alone: its row of the table lacks nothing, its part
// nothing that is its owner's, and what is found on it is a row of the logbook.
func TestFurtherClassIsData(t *testing.T) {
	more, err := LimitedKinds([]byte(further))
	if err != nil || len(more) != 1 {
		t.Fatalf("%d kinds: %v", len(more), err)
	}
	was := kinds
	kinds = append(slices.Clone(kinds), more...)
	t.Cleanup(func() { kinds = was })
	var errs decode.Errors
	stock := map[string]Part{}
	k := more[0]
	stockParts("further.yaml", k.Limited.common, k.Limited.parts, k.Kind, stock, &errs)
	pump := stock["fuel-pump"]
	if err := errs.Sorted(); err != nil || pump.Limited == nil || pump.Limited.Limits.CircuitHours != 60*3600 || pump.Limited.Margin != 0.8 || len(pump.Lacks()) > 0 {
		t.Errorf("%+v lacks %v: %v", pump.Limited, pump.Lacks(), err)
	}
	for _, gap := range gaps(k, stock) {
		t.Errorf("it lacks %s", gap)
	}
	if what, ok := logbook.WordOf("fuel pump"); !ok || !slices.Equal(logbook.Findings(what), []logbook.Finding{logbook.Sound, "corroded", "leaking"}) {
		t.Errorf("%q finds %v", what, logbook.Findings(what))
	}
	if kind, ok := KindRead("fuel pump"); !ok || kind != "fuel pump" || Sets()[len(Sets())-1].ID != "fuel-pump" {
		t.Errorf("a look is of kind %q, the last set %q", kind, Sets()[len(Sets())-1].ID)
	}
}
