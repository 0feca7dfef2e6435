package trip

import (
	"fmt"
	"math"
	"testing"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/randomcar"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
)

// One percent more of the car's mass, its power, the pace or the length of the
// sessions never changes what a day takes from any point by more than 5 %: a
// whole lap or a whole braking more or less would. Cracks grow with up to the
// tenth power of the pace, where heat decides: of it half a percent. Where two
// brakings become one the faces get hotter at a step, which is left: 7 %.
func TestWearIsSmooth(t *testing.T) {
	for _, circuit := range []string{"heron-flats", "quarry-ridge", "unknown brakings", "lap time alone"} {
		for what, change := range map[string]func(*profiles.Folder, *profiles.Leg, float64){
			"mass":     func(f *profiles.Folder, _ *profiles.Leg, by float64) { f.Car.Mass *= quantity.Mass(by) },
			"power":    func(f *profiles.Folder, _ *profiles.Leg, by float64) { f.Car.Power *= quantity.Power(by) },
			"pace":     func(_ *profiles.Folder, l *profiles.Leg, by float64) { l.Pace = fmt.Sprintf("%.8f %%", 80*by) },
			"sessions": func(_ *profiles.Folder, l *profiles.Leg, by float64) { l.Sessions.Each *= quantity.Duration(by) },
		} {
			var before [][]float64
			at := 0.0
			for step := range 41 {
				f, _ := demo(t, "juniper")
				c := f.Circuits["quarry-ridge"]
				c.HeavyBrakings = 0
				f.Circuits["unknown brakings"] = c
				c = f.Circuits["quarry-ridge"]
				c.Pace = ""
				f.Circuits["lap time alone"] = c
				leg := randomcar.Days(circuit, 1, "80 %")
				if circuit == "lap time alone" {
					if what == "pace" {
						continue
					}
					leg.Pace = ""
				}
				by := math.Pow(1.01, float64(step)-20)
				if what == "pace" {
					by = math.Sqrt(by)
				}
				change(f, &leg, by)
				m := NewMachine(f)
				hot, slow, laps, err := PlannedLaps(m, f, leg)
				if err != nil {
					t.Fatalf("%s, %s times %.2f: %v", circuit, what, by, err)
				}
				w := kind.OnCircuit(CircuitAsk(m, f.Model, leg, hot, slow, laps))
				now := points(&w)
				for k := range before {
					for i := range before[k] {
						if change := now[k][i]/before[k][i] - 1; math.Abs(change) > map[bool]float64{true: 0.07, false: 0.05}[kindsOfPoint[k] == "cracks"] {
							t.Errorf("%s, %s from %.3f to %.3f times: %s %d changes by %+.1f %%", circuit, what, at, by, kindsOfPoint[k], i, 100*change)
						}
					}
				}
				before, at = now, by
			}
		}
	}
}
