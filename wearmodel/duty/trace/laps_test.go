package trace_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"example.com/tripwear/wearmodel/duty/trace"
	"example.com/tripwear/wearmodel/duty/trace/synthetic"
)

// Each case is a recording with something in it that is no hot lap. A hot lap
// next to a slow one begins or ends at the other's speed, which no start line
// mends: those times are allowed more.
func TestLapsOfARecording(t *testing.T) {
	truth := lapOf(t, heronFlats())
	base := synthetic.Day{Rate: 5, White: 0.5, Drift: 1, Laps: 6}
	day := func(change func(*synthetic.Day)) synthetic.Day {
		d := base
		change(&d)
		return d
	}
	for _, tt := range []struct {
		name  string
		fixes []trace.Fix
		used  int
		outIn int
		why   string // of a dropped lap
		drops int
		tol   float64 // of the lap time
	}{
		{"one session from the pits and back", record(t, heronFlats(), base, 1), 6, 2, "", 0, 0},
		{"a single hot lap", record(t, heronFlats(), day(func(d *synthetic.Day) { d.Laps = 1 }), 1), 1, 2, "", 0, 0.01},
		{"two laps in traffic", record(t, heronFlats(), day(func(d *synthetic.Day) { d.Slow = []int{2, 3} }), 1), 4, 2, "traffic, a cool-down lap", 2, 0.005},
		{"three sessions, the stops recorded", record(t, heronFlats(), day(func(d *synthetic.Day) { d.Sessions, d.Rest = 3, 900 }), 1), 18, 2, "stood still for", 2, 0},
		{"three sessions in one file with gaps", cut(record(t, heronFlats(), day(func(d *synthetic.Day) { d.Sessions, d.Rest = 3, 900 }), 1), parked), 18, 6, "", 0, 0},
		{"a fix lost for three seconds", cut(record(t, heronFlats(), base, 1), lost(400, 403)), 6, 2, "", 0, 0},
		{"a fix lost for twelve seconds", cut(record(t, heronFlats(), base, 1), lost(400, 412)), 5, 2, "", 0, 0},
		{"at the date line", record(t, heronFlats(), day(func(d *synthetic.Day) { d.Lat, d.Lon = -17, 179.9999 }), 1), 6, 2, "", 0, 0},
		{"far south", record(t, heronFlats(), day(func(d *synthetic.Day) { d.Lat, d.Lon = -54.8, -68.3 }), 1), 6, 2, "", 0, 0},
		{"60 km of road before", onTheWay(record(t, heronFlats(), base, 1)), 6, 2, "", 0, 0},
		{"a wild fix now and then", wild(record(t, heronFlats(), base, 1)), 6, 2, "", 0, 0},
	} {
		t.Run(tt.name, func(t *testing.T) {
			lap, _ := survey(t, tt.fixes)
			// The start line may lie where the first or the last hot lap of a
			// session has some of the pits in it.
			if len(lap.Used) > tt.used || len(lap.Used) < tt.used-1 {
				t.Errorf("%d laps used, want %d; dropped %+v", len(lap.Used), tt.used, lap.Dropped)
			}
			if math.Abs(lap.Seconds/truth.Seconds-1) > max(tt.tol, 0.002) {
				t.Errorf("lap %.2f s, want %.2f: %.2f", lap.Seconds, truth.Seconds, lap.Used)
			}
			if lap.OutIn < tt.outIn-1 || lap.OutIn > tt.outIn+1 {
				t.Errorf("%d out and in laps, want %d", lap.OutIn, tt.outIn)
			}
			said := 0
			for _, d := range lap.Dropped {
				if d.Why == "" {
					t.Errorf("lap at %.0f s dropped without a word", d.Start)
				}
				if tt.why != "" && strings.Contains(d.Why, tt.why) {
					said++
				}
			}
			if said < tt.drops {
				t.Errorf("%d laps dropped for %q, want %d: %+v", said, tt.why, tt.drops, lap.Dropped)
			}
		})
	}
}

// cut leaves fixes out.
func cut(fixes []trace.Fix, out func(i int, fixes []trace.Fix) bool) []trace.Fix {
	var kept []trace.Fix
	for i, f := range fixes {
		if !out(i, fixes) {
			kept = append(kept, f)
		}
	}
	return kept
}

func lost(from, to float64) func(int, []trace.Fix) bool {
	return func(i int, fixes []trace.Fix) bool { return fixes[i].Time > from && fixes[i].Time < to }
}

// parked says whether the car has stood for ten seconds and will for ten more.
func parked(i int, fixes []trace.Fix) bool {
	const n, near = 50, 1e-4 // fixes, deg
	if i < n || i+n >= len(fixes) {
		return false
	}
	a, b := fixes[i-n], fixes[i+n]
	return math.Abs(a.Lat-b.Lat) < near && math.Abs(a.Lon-b.Lon) < near
}

// onTheWay puts an hour of straight road before a recording.
func onTheWay(fixes []trace.Fix) []trace.Fix {
	const seconds = 2700
	var road []trace.Fix
	first := fixes[0]
	for s := 0.0; s < seconds; s += 0.2 {
		road = append(road, trace.Fix{Time: first.Time - seconds - 60 + s, Lat: first.Lat - 0.6*(1-s/seconds), Lon: first.Lon})
	}
	return append(road, fixes...)
}

// wild moves one fix in 500 by kilometers.
func wild(fixes []trace.Fix) []trace.Fix {
	for i := 250; i < len(fixes); i += 500 {
		fixes[i].Lat, fixes[i].Lon = 0, 0
	}
	return fixes
}

// round is four minutes around a circle, m and m/s.
func round(radius, speed float64) []trace.Fix {
	out := make([]trace.Fix, 1200)
	for i := range out {
		angle := 0.2 * float64(i) * speed / radius
		out[i] = trace.Fix{Time: 0.2 * float64(i), Lat: 50 + radius*math.Sin(angle)/111e3, Lon: 8 + radius*math.Cos(angle)/71.6e3}
	}
	return out
}

func TestSurveyErrors(t *testing.T) {
	good := func() []trace.Fix { return record(t, heronFlats(), synthetic.Day{Rate: 2, White: 0.5, Laps: 3}, 1) }
	straight := make([]trace.Fix, 600)
	for i := range straight {
		straight[i] = trace.Fix{Time: float64(i), Lat: 50 + 3e-4*float64(i), Lon: 8}
	}
	still := make([]trace.Fix, 600)
	for i := range still {
		still[i] = trace.Fix{Time: float64(i), Lat: 50, Lon: 8}
	}
	changed := func(change func([]trace.Fix)) []trace.Fix {
		fixes := good()
		change(fixes)
		return fixes
	}
	for _, tt := range []struct {
		name  string
		fixes []trace.Fix
		says  string
	}{
		{"nothing", nil, "too few fixes for a lap: 0"},
		{"a road", straight, "no lap found"},
		{"a parked car", still, "no lap found"},
		{"half a lap", good()[:200], "no lap found"},
		{"a skid pad of 40 m radius, 251 m around", round(40, 10), "the laps are about 250 m long, and a circuit has at least 300 m"},
		{"no number", changed(func(f []trace.Fix) { f[9].Lat = math.NaN() }), "fix 10, "},
		{"out of this world", changed(func(f []trace.Fix) { f[9].Lat = 1e9 }), "fix 10, "},
		{"the pole", changed(func(f []trace.Fix) { f[9].Lat = 90 }), "fix 10, "},
		{"endless time", changed(func(f []trace.Fix) { f[9].Time = math.Inf(1) }), "fix 10, "},
		{"time going back", changed(func(f []trace.Fix) { f[9].Time -= 5 }), "fix 10 is 4.5 s earlier"},
		{"one time", changed(func(f []trace.Fix) {
			for i := range f {
				f[i].Time = 7
			}
		}), "different times for a lap: 1"},
	} {
		if _, err := trace.Survey(tt.fixes); err == nil || !strings.Contains(err.Error(), tt.says) {
			t.Errorf("%s: error %v, want one that says %q", tt.name, err, tt.says)
		}
	}
	slow := cut(good(), func(i int, _ []trace.Fix) bool { return i%8 != 0 })
	var rate *trace.RateError
	if _, err := trace.Survey(slow); !errors.As(err, &rate) || math.Abs(rate.Period-4) > 0.1 {
		t.Errorf("a fix every four seconds: %v", err)
	}
}
