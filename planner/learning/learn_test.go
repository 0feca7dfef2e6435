package learning

import (
	"math"
	"testing"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/projection"
	"example.com/tripwear/planner/trip"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/quantity"
)

// A life used that car.yaml gives was used evenly over the miles before: half
// of it half-way there.
func TestAgeHalfWay(t *testing.T) {
	f, _ := demo(t, "juniper")
	written := float64(f.AsWritten().Odometer)
	l := fittedPart{from: written - 10_000*1609.344, entry: &profiles.Fitted{Used: map[string]quantity.Share{"RF": 0.4}}}
	w := &trip.Journey{Folder: f}
	for share, want := range map[float64]float64{0: 0, 0.5: 0.2, 1: 0.4} {
		at := l.from + share*(written-l.from)
		if got := ageAt(w, l, func(*kind.Wear) float64 { return 1 }, "RF", at); math.Abs(got-want) > 1e-9 {
			t.Errorf("%.0f %% of the way: %.3f, want %.3f", 100*share, got, want)
		}
	}
}

// Rotors that crack when the model has half of them cracked teach that it is
// right; at half of that life, that they go faster.
func TestRotorsAsTheModelHasThem(t *testing.T) {
	for life, want := range map[float64][2]float64{1: {0.95, 1.08}, 0.5: {1.4, 2}} {
		f, _ := demo(t, "juniper")
		e := fitted(f, profiles.Rotors, "LF")
		written, from := f.AsWritten().Odometer, e.Since.Odometer
		e.Used = map[string]quantity.Share{"LF": quantity.Share(life), "RF": quantity.Share(life)}
		for _, at := range []string{"LF", "RF"} {
			f.Log = append(f.Log,
				logbook.Entry{What: logbook.Face, Place: at, Text: "checks", Odometer: from + (written-from)*0.95},
				logbook.Entry{What: logbook.Face, Place: at, Text: "catches", Odometer: written})
		}
		told := Evidence{Way: &trip.Journey{Folder: f, On: kind.Fitted(f), Past: &trip.Past{}}, Posterior: projection.Posterior{Sets: map[string]projection.RatePosterior{}}}
		told.learnReplacements()
		if m := told.Sets["rotors-front"].Learned.Circuit; m.Median < want[0] || m.Median > want[1] {
			t.Errorf("cracked at %g of the model's life: %+v, want between %g and %g times its rate", life, m, want[0], want[1])
		}
	}
}
