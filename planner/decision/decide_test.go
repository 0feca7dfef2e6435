package decision

import (
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"example.com/tripwear/planner/randomcar"
	"example.com/tripwear/planner/trip"
)

// TestTopUpTakesRoom: the oil to be added has its room in the trunk before any
// spare. Two liters are two bottles of 1.2 L and 0.95 kg as packed.
func TestTopUpTakesRoom(t *testing.T) {
	f, _ := demo(t, "juniper")
	got := trunkLimit(&trip.Journey{Folder: f, TopUp: 1.5e-3})
	want := [2]float64{(180 - 95 - 2.4) * 1e-3, 90 - 40 - 1.9}
	if diff := cmp.Diff(want, got, cmpopts.EquateApprox(0, 1e-9)); diff != "" {
		t.Error(diff)
	}
}

// demo loads a fresh copy of a demo folder and its trip.
var demo = randomcar.Demo
