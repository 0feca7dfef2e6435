package projection

import (
	"math"
	"testing"
	"time"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/trip"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/quantity"
)

// wornCar is a car at 200 km whose car.yaml was written at 150. A meter of
// highway takes a millionth of the right front hub, a usual circuit day a
// hundredth, and the logbook has a day since that took 0.2.
func wornCar(log bool) *trip.Journey {
	f := &profiles.Folder{}
	f.Car.Odometer, f.Car.Written = 200e3, 150e3
	day, meter := hubWear(true, 0.01), hubWear(false, 1e-6)
	b := &trip.Journey{Folder: f, PerDay: *day.Nominal(), PerMeter: *meter.Nominal()}
	b.Past = &trip.Past{PerMeter: b.PerMeter}
	if log {
		b.Past.Visits, b.Past.Drives = 1, []trip.Drive{{From: 170e3, To: 180e3, Usage: hubWear(true, 0.2), Visit: 0}}
	}
	return b
}

// What was never measured wears from the day it went on: by its miles and the
// circuit days that car.yaml gives, and past that by the logbook. What the
// logbook put on has the logbook alone.
func TestWearOfTheUnmeasured(t *testing.T) {
	for _, c := range []struct {
		what          string
		log, logged   bool
		since         float64 // km
		road, circuit float64
	}{
		{"no trip in the logbook", false, false, 120, 0.08, 0.03},
		{"on for no mile by car.yaml", false, false, 150, 0.05, 0.03},
		{"with a logbook", true, false, 120, 0.03 + 0.04, 0.03 + 0.2},
		{"put on by the logbook", true, true, 160, 0.03, 0.2},
		{"dated past what car.yaml says", true, false, 160, 0.04, 0.03 + 0.2},
	} {
		entry := &profiles.Fitted{CircuitDays: 3, Logged: c.logged}
		entry.Since.Odometer = quantity.Length(1000 * c.since)
		road, circuit, _ := wornCar(c.log).SinceFitted(kind.At{Entry: entry}, ofRF)
		if math.Abs(road-c.road) > 1e-9 || math.Abs(circuit-c.circuit) > 1e-9 {
			t.Errorf("%s: road %.4f, circuits %.4f; want %.4f and %.4f", c.what, road, circuit, c.road, c.circuit)
		}
	}
}

// What was driven past a reading is taken off it: from car.yaml's own odometer,
// or from the logbook's row. Where the last reading is misread the sound one
// before it is gone by. A set is as old as its oldest reading, and one read on
// the spot has its date all the same.
func TestWearSinceAReading(t *testing.T) {
	may := func(day int) time.Time { return time.Date(2027, 5, day, 0, 0, 0, 0, time.UTC) }
	key := profiles.SeenKey(logbook.Hub, "RF", "")
	for _, c := range []struct {
		what                  string
		seen                  float64 // km of the logbook's row; 0 for none
		instead               bool
		road, circuit, driven float64
		on                    time.Time
		start                 float64
	}{
		{"by car.yaml", 0, false, 0.04, 0.2, 50, time.Time{}, 0.8},
		{"by a row", 175, false, 0.02, 0.1, 25, may(3), 0.8},
		{"read on the spot", 200, false, 0, 0, 0, may(3), 0.8},
		{"misread", 190, true, 0.03, 0.2, 40, may(1), 0.9},
	} {
		b, post := wornCar(true), Posterior{}
		hub := kind.Point{What: logbook.Hub, Of: ofRF}
		entry := &profiles.Fitted{}
		if c.seen > 0 {
			entry.Seen = map[string]profiles.Seen{key: {Odometer: quantity.Length(1000 * c.seen), Date: may(3)}}
		}
		if c.instead {
			post.Outliers = map[string]Outlier{OutlierKey("hub-RF", key): {Odometer: 190e3, Date: may(3), UsedOdometer: 160e3, UsedDate: may(1), Used: 0.9}}
		}
		s, p := &Set{Set: plan.Set{ID: "hub-RF"}}, Level{Point: plan.Point{Place: "RF", Start: 0.8}}
		s.wearSinceReading(b, post, &p, hub, kind.At{Entry: entry})
		if math.Abs(p.wornRoad-c.road) > 1e-9 || math.Abs(p.wornCircuit-c.circuit) > 1e-9 || s.Driven != 1000*c.driven || !s.MeasuredOn.Equal(c.on) || p.Start != c.start {
			t.Errorf("%s: road %.4f, circuits %.4f, %g km since %v, from %g", c.what, p.wornRoad, p.wornCircuit, s.Driven/1000, s.MeasuredOn, p.Start)
		}
		s.Driven, s.MeasuredOn = 1000*c.driven+1, may(2) // another point of the set was read before
		s.wearSinceReading(b, post, &p, hub, kind.At{Entry: entry})
		if s.Driven != 1000*c.driven+1 || !s.MeasuredOn.Equal(may(2)) {
			t.Errorf("%s: the oldest reading is %g km old, of %v", c.what, s.Driven/1000, s.MeasuredOn)
		}
	}
}

// hubWear is a usage that takes so much from every hub.
func hubWear(circuit bool, taken float64) trip.Usage {
	u := trip.Usage{Circuit: circuit}
	for i := range u.At {
		u.At[i].Hub = [4]float64{taken, taken, taken, taken}
	}
	return u
}

func ofRF(w *kind.Wear) float64 { return w.Hub[1] }

// Of a part that may have been on for any of 100 km, at 0.01 a km, 0.1 km after
// that and no spread of rates, the levels are evenly spread: half are above 0.5.
func TestStartOfUnknownAge(t *testing.T) {
	b := wornCar(false)
	b.Folder.Car.Written, b.Folder.Car.Odometer = 100e3, 100e3
	b.PerMeter.Hub[1] = 1e-5
	entry := &profiles.Fitted{}
	entry.Since.Unmetered = true
	p := Level{Point: plan.Point{New: 1, Start: 1}}
	p.wornRoad, p.wornCircuit, p.doubtful = b.SinceFitted(kind.At{Entry: entry}, ofRF)
	s := &Set{}
	s.addLevel(p, nil, ofRF)
	if got := s.Levels[0]; math.Abs(got.Start-0.5) > 1e-9 || math.Abs(got.Prior[0]-0.5) > 1e-9 {
		t.Errorf("starts at %.3f, worn by %.3f; want half", got.Start, got.Prior[0])
	}
	starts := NewWorker(NewDraws(1000, 1), nil).Starts(s)
	for _, share := range []float64{0.05, 0.25, 0.5, 0.75, 0.95} {
		if got := starts.Level(0, share); math.Abs(got-share) > 0.005 {
			t.Errorf("%g of the draws start below %.4f", share, got)
		}
	}
}
