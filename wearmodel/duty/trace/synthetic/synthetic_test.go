package synthetic

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"example.com/tripwear/wearmodel/duty"
)

func car() duty.Vehicle {
	return duty.Vehicle{
		Mass: 1300, FrontShare: 0.53, Wheelbase: 2.60, TrackFront: 1.50, TrackRear: 1.50, CGHeight: 0.50,
		Drive: duty.RearDrive, Power: 200e3, DragArea: 0.66, RollFront: 0.58, Friction: 1,
		Rolling: 0.013, AirDensity: 1.20, Driveline: 0.87, Rotating: 1.04,
	}
}

// Every invented circuit closes: in direction by Hopf's theorem of turning
// tangents (once round, or not at all for a figure-eight), and in place.
func TestInventedCircuitsClose(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 1))
	for i := range 60 {
		eight := i%4 == 3
		segs := Invent(rng, eight)
		turning := math.Abs(duty.Turning(segs))
		want := 2 * math.Pi
		if eight {
			want = 0
		}
		if math.Abs(turning-want) > 1e-9 {
			t.Errorf("circuit %d turns %.6f rad in all, want %.6f", i, turning, want)
		}
		d, err := duty.Simulate(car(), segs, 0.8)
		if err != nil {
			t.Fatal(err)
		}
		if miss := NewLap(d).Miss(); miss > 0.05 { // a meter of arc is walked as its chord
			t.Errorf("circuit %d ends %.3f m from its start", i, miss)
		}
		if l := duty.Length(segs); l < 1500 || l > 6000 {
			t.Errorf("circuit %d is %.0f m long", i, l)
		}
	}
}

// A recording has the rate, the noise, the losses and the laps that were asked
// for, and is the same each time.
func TestRecord(t *testing.T) {
	segs := Invent(rand.New(rand.NewPCG(2, 2)), false)
	d, err := duty.Simulate(car(), segs, 0.8)
	if err != nil {
		t.Fatal(err)
	}
	day := Day{Rate: 5, White: 2, Dropout: 0.1, Laps: 4, Lat: 50, Lon: 8}
	noisy, err := Record(car(), segs, 0.8, day, rand.New(rand.NewPCG(3, 3)))
	if err != nil {
		t.Fatal(err)
	}
	again, _ := Record(car(), segs, 0.8, day, rand.New(rand.NewPCG(3, 3)))
	if !slices.Equal(noisy, again) {
		t.Error("the same seed records another day")
	}
	// Parked for 30 s before and after, an out lap and an in lap at 0.6 of the pace.
	slow, err := duty.Simulate(car(), segs, 0.48)
	if err != nil {
		t.Fatal(err)
	}
	seconds := 4*d.Seconds + 2*slow.Seconds + 60
	if got := noisy[len(noisy)-1].Time - noisy[0].Time; math.Abs(got-seconds) > 3 {
		t.Errorf("%.1f s recorded, want %.1f", got, seconds)
	}
	if got, want := float64(len(noisy)), 5*seconds*0.9; math.Abs(got/want-1) > 0.05 {
		t.Errorf("%.0f fixes, want about %.0f", got, want)
	}
	// While it is parked the fixes spread by the noise: 2 m are 1.797e-5 deg north.
	var sum, squares, n float64
	for _, f := range noisy {
		if f.Time < 29 {
			sum, squares, n = sum+f.Lat, squares+(f.Lat-50)*(f.Lat-50), n+1
		}
	}
	mean := sum/n - 50
	spread := math.Sqrt(squares/n-mean*mean) * 111229
	if math.Abs(spread-2) > 0.4 {
		t.Errorf("parked fixes spread by %.2f m, want 2", spread)
	}
}
