package duty_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"example.com/tripwear/wearmodel/bearing"
	"example.com/tripwear/wearmodel/duty"
	"example.com/tripwear/wearmodel/duty/trace/synthetic"
)

const degree = math.Pi / 180

func corner(straight, turn, radius float64) duty.Segment {
	return duty.Segment{Straight: straight, Turn: turn * degree, Radius: radius}
}

// The stock reference lap and the demo's corner list.
func known() map[string][]duty.Segment {
	return map[string][]duty.Segment{
		"stock reference lap": {
			corner(157.410, -15, 600), corner(164.119, 130, 30), corner(15, -60, 150), corner(15, 10, 1000),
			corner(15, 139, 90), corner(15, 14, 800), corner(43.152, -75, 60), corner(15, -45, 130),
			corner(15, -20, 500), corner(15, -12, 900), corner(15, -80, 40), corner(203.228, 95, 45),
			corner(15, 60, 100), corner(15, 22, 450), corner(15, 18, 400), corner(15, 89, 85),
			corner(203.562, -110, 35), corner(15, 55, 120), corner(15.486, 70, 70),
			corner(190.306, -15, 700), corner(190.260, 90, 55),
		},
		"Heron Flats": {
			corner(582.646, 90, 60), corner(208.518, 70, 120), corner(172.435, -80, 40),
			corner(197.686, 100, 50), corner(304.983, -60, 85), corner(210.171, 130, 80),
			corner(389.678, 80, 40), corner(278.752, -50, 70), corner(306.902, 80, 55),
		},
	}
}

// cars are the demo's car and one of half as much power again.
func cars() map[string]duty.Vehicle {
	juniper := duty.Vehicle{
		Mass: 1385, FrontShare: 0.53, Wheelbase: 2.51, TrackFront: 1.49, TrackRear: 1.50, CGHeight: 0.48,
		Drive: duty.RearDrive, Power: 128.3e3, DragArea: 0.66, RollFront: 0.58, Friction: 1,
		Rolling: 0.013, AirDensity: 1.20, Driveline: 0.87, Rotating: 1.04,
	}
	quick := juniper
	quick.Mass, quick.Power = 1300, 200e3
	return map[string]duty.Vehicle{"172 hp": juniper, "268 hp": quick}
}

// levels are what a lap takes, the worst wheel's hub last.
func levels(v duty.Vehicle, d duty.Duty) [4]float64 {
	tread := duty.Brush{Friction: 1.1, Cornering: 0.25 / degree, Driving: 15} // 200-treadwear
	slip, impulse := 0.0, 0.0
	for _, s := range d.States {
		for _, w := range v.Loads(s) {
			_, power := tread.Slip(w, s.V)
			slip += power * s.Seconds
		}
		impulse += v.Mass * math.Abs(s.Ay) * s.Seconds
	}
	hub := bearing.Hub{Offset: 0.005, Spread: 0.060, Capacity: 60e3, LoadFactor: 1.2, Severity: 0.1, RoadLife: 160e6}
	worst := 0.0
	for _, l := range bearing.Circuit(v, [4]bearing.Hub{hub, hub, hub, hub}, [4]float64{0.315, 0.315, 0.315, 0.315}, d) {
		worst = max(worst, l)
	}
	return [4]float64{d.BrakeEnergy, slip, impulse, worst}
}

// summary is what an owner would write of a lap; its pace, or its lap time
// with the pace left to be found.
func summary(lap duty.Duty, byPace bool) duty.Summary {
	s := duty.Summary{Meters: lap.Meters, LeftShare: duty.LeftShare(lap), HeavyBrakings: len(lap.Brakings)}
	if byPace {
		s.Pace = lap.Pace
	} else {
		s.LapTime = lap.Seconds
	}
	return s
}

// The summary alone against the corner list it was taken from, for every
// circuit of ours that has corners: braking energy, slip energy and lateral
// impulse within 20 %.
func TestSummaryAgainstCorners(t *testing.T) {
	for name, segs := range known() {
		for car, v := range cars() {
			for _, pace := range []float64{0.65, 0.80, 0.90, 0.97} {
				lap, err := duty.Simulate(v, segs, pace)
				if err != nil {
					t.Fatal(err)
				}
				want := levels(v, lap)
				for _, byPace := range []bool{true, false} {
					d, err := duty.FromSummary(v, known()["stock reference lap"], summary(lap, byPace))
					if err != nil {
						t.Fatal(err)
					}
					got := levels(v, d)
					line := ""
					for k, what := range []string{"braking", "slip", "impulse"} {
						off := got[k]/want[k] - 1
						line += fmt.Sprintf("  %s %+5.1f %%", what, 100*off)
						if math.Abs(off) > 0.20 {
							t.Errorf("%s, %s, pace %g: %s %+.1f %%", name, car, pace, what, 100*off)
						}
					}
					t.Logf("%-20s %s, pace %.2f, %s:%s", name, car, pace, map[bool]string{true: "by pace    ", false: "by lap time"}[byPace], line)
				}
			}
		}
	}
}

// The spread that a summary is said to add, against 60 invented circuits. They
// are made a fifth larger than drawn, which brings their mean braking energy
// and lateral impulse a km to the reference lap's, the level of real circuits.
func TestSummarySpread(t *testing.T) {
	stated := [4]float64{0.40, 0.30, 0.30, 0.55} // sd of ln: front pads, tread, (as tread), hub
	const larger = 1.2
	v := cars()["172 hp"]
	for _, byPace := range []bool{true, false} {
		rng := rand.New(rand.NewPCG(7, 7))
		var sum, squares [4]float64
		n, out := 0.0, 0
		for i := range 60 {
			segs := synthetic.Invent(rng, i%8 == 7)
			for k := range segs {
				segs[k].Straight *= larger
				segs[k].Radius *= larger
			}
			for _, pace := range []float64{0.65, 0.80, 0.95} {
				lap, err := duty.Simulate(v, segs, pace)
				if err != nil {
					t.Fatal(err)
				}
				d, err := duty.FromSummary(v, known()["stock reference lap"], summary(lap, byPace))
				if err != nil {
					out++ // a lap time that the bent reference lap cannot do is said, not guessed
					continue
				}
				got, want := levels(v, d), levels(v, lap)
				n++
				for k := range got {
					off := math.Log(got[k] / want[k])
					sum[k] += off
					squares[k] += off * off
				}
			}
		}
		for k, what := range []string{"braking energy", "slip energy", "lateral impulse", "worst hub"} {
			rms := math.Sqrt(squares[k] / n)
			t.Logf("by pace %v: %-15s mean of ln %+.2f, root mean square %.2f, stated %.2f", byPace, what, sum[k]/n, rms, stated[k])
			if rms > stated[k] {
				t.Errorf("by pace %v: %s off by %.2f in the root mean square, stated %.2f", byPace, what, rms, stated[k])
			}
		}
		t.Logf("by pace %v: %d of %d lap times out of reach", byPace, out, out+int(n))
		if float64(out) > 0.10*n {
			t.Errorf("by pace %v: %d lap times out of reach", byPace, out)
		}
	}
}
