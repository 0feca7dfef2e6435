package trace_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"example.com/tripwear/wearmodel/duty"
	"example.com/tripwear/wearmodel/duty/trace"
	"example.com/tripwear/wearmodel/duty/trace/synthetic"
)

const deg = math.Pi / 180

func corner(straight, turn, radius float64) duty.Segment {
	return duty.Segment{Straight: straight, Turn: turn * deg, Radius: radius}
}

// heronFlats is a circuit of 3.5 km, invented.
func heronFlats() []duty.Segment {
	return []duty.Segment{
		corner(582.646, 90, 60), corner(208.518, 70, 120), corner(172.435, -80, 40),
		corner(197.686, 100, 50), corner(304.983, -60, 85), corner(210.171, 130, 80),
		corner(389.678, 80, 40), corner(278.752, -50, 70), corner(306.902, 80, 55),
	}
}

// circuits are corner lists that close, by name: our own, a figure-eight, and
// some invented at random.
func circuits(t testing.TB) map[string][]duty.Segment {
	t.Helper()
	// Two loops joined by straights that cross at a right angle.
	eight, ok := synthetic.Close([]duty.Segment{corner(200, 270, 90), corner(200, -270, 40)}, 50)
	if !ok {
		t.Fatal("the figure-eight does not close")
	}
	all := map[string][]duty.Segment{"Heron Flats": heronFlats(), "figure-eight": eight}
	rng := rand.New(rand.NewPCG(5, 5))
	for _, name := range []string{"invented A", "invented B", "invented C"} {
		all[name] = synthetic.Invent(rng, false)
	}
	return all
}

// middling is a rear-drive car of 1300 kg and 200 kW.
func middling() duty.Vehicle {
	return duty.Vehicle{
		Mass: 1300, FrontShare: 0.53, Wheelbase: 2.60, TrackFront: 1.50, TrackRear: 1.50, CGHeight: 0.50,
		Drive: duty.RearDrive, Power: 200e3, DragArea: 0.66, RollFront: 0.58, Friction: 1,
		Rolling: 0.013, AirDensity: 1.20, Driveline: 0.87, Rotating: 1.04,
	}
}

const pace = 0.85

// lapOf drives a corner list at the tests' pace.
func lapOf(t testing.TB, segs []duty.Segment) duty.Duty {
	t.Helper()
	d, err := duty.Simulate(middling(), segs, pace)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// record drives a day at the tests' pace, at a place in the north.
func record(t testing.TB, segs []duty.Segment, day synthetic.Day, seed uint64) []trace.Fix {
	t.Helper()
	if day.Lat == 0 {
		day.Lat, day.Lon, day.Heading = 58.3, 8.1, 0.7
	}
	fixes, err := synthetic.Record(middling(), segs, pace, day, rand.New(rand.NewPCG(seed, 1)))
	if err != nil {
		t.Fatal(err)
	}
	return fixes
}

// session is the hot laps of 20 minutes.
func session(d duty.Duty) int { return int(duty.SessionLaps(1200, d.Seconds)) }

// survey surveys and drives what it found, at the pace that gives its lap time.
func survey(t testing.TB, fixes []trace.Fix) (*trace.Lap, duty.Duty) {
	t.Helper()
	lap, err := trace.Survey(fixes)
	if err != nil {
		t.Fatal(err)
	}
	found, err := duty.FitPace(middling(), lap.Segments, lap.Seconds)
	if err != nil {
		t.Fatal(err)
	}
	d, err := duty.Simulate(middling(), lap.Segments, found)
	if err != nil {
		t.Fatal(err)
	}
	return lap, d
}
