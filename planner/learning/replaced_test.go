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

// hubWear is a usage that takes so much from every hub.
func hubWear(circuit bool, taken float64) trip.Usage {
	u := trip.Usage{Circuit: circuit}
	for i := range u.At {
		u.At[i].Hub = [4]float64{taken, taken, taken, taken}
	}
	return u
}

func ofRF(w *kind.Wear) float64 { return w.Hub[1] }

// The age of a hub that the logbook put on is what its roads and its circuits
// took together. One that car.yaml has goes on from the life used that is
// given there, or counts the days that the logbook does not tell of: evenly
// over the miles before, in full after them.
func TestAge(t *testing.T) {
	f, _ := demo(t, "juniper")
	written := float64(f.AsWritten().Odometer)
	per := kind.Wear{}
	per.Hub[1] = 1e-9
	day := hubWear(true, 0.01)
	w := &trip.Journey{Folder: f, PerDay: *day.Nominal()}
	w.Past = &trip.Past{PerMeter: per, Visits: 2, Drives: []trip.Drive{
		{From: written - 50e3, To: written - 40e3, Usage: hubWear(true, 0.02), Visit: 0},
		{From: written + 10e3, To: written + 20e3, Usage: hubWear(true, 0.2), Visit: 1},
	}}
	from := written - 100e3
	used := &profiles.Fitted{Used: map[string]quantity.Share{"RF": 0.4}}
	three := &profiles.Fitted{CircuitDays: 3} // one is in the logbook
	for _, c := range []struct {
		what string
		l    fittedPart
		at   float64 // m past what car.yaml says
		want float64
	}{
		{"logged", fittedPart{Stint: profiles.Stint{From: from, Logged: true}}, 20e3, 100e-6 + 0.22},
		{"half-way through the life used", fittedPart{Stint: profiles.Stint{From: from, Entry: used}}, -50e3, 0.2},
		{"at the life used", fittedPart{Stint: profiles.Stint{From: from, Entry: used}}, 0, 0.4},
		{"a weekend after it", fittedPart{Stint: profiles.Stint{From: from, Entry: used}}, 20e3, 0.4 + 10e-6 + 0.2},
		{"half-way, one of two days", fittedPart{Stint: profiles.Stint{From: from, Entry: three}}, -50e3, 50e-6 + 0.01},
		{"two days besides the logbook's", fittedPart{Stint: profiles.Stint{From: from, Entry: three}}, 0, 90e-6 + 0.02 + 0.02},
		{"and a weekend after", fittedPart{Stint: profiles.Stint{From: from, Entry: three}}, 20e3, 100e-6 + 0.22 + 0.02},
		{"put on at the last moment", fittedPart{Stint: profiles.Stint{From: written, Entry: three}}, 0, 0.03},
	} {
		if got := ageAt(w, c.l, ofRF, "RF", written+c.at); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%s: age %.6f, want %.6f", c.what, got, c.want)
		}
	}
}

// A life used that car.yaml gives was used evenly over the miles before: half
// of it half-way there.
func TestAgeHalfWay(t *testing.T) {
	f, _ := demo(t, "juniper")
	written := float64(f.AsWritten().Odometer)
	l := fittedPart{Stint: profiles.Stint{From: written - 10_000*1609.344, Entry: &profiles.Fitted{Used: map[string]quantity.Share{"RF": 0.4}}}}
	w := &trip.Journey{Folder: f, Past: &trip.Past{}}
	for share, want := range map[float64]float64{0: 0, 0.5: 0.2, 1: 0.4} {
		at := l.From + share*(written-l.From)
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
