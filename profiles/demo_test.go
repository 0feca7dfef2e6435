package profiles

import (
	"math"
	"testing"
)

// The demos load, and are the trips that their comments say.
func TestDemos(t *testing.T) {
	const mile = 1609.344
	for _, c := range []struct {
		name         string
		meters, slop float64
		days         int
	}{
		{"juniper", 2900 * mile, 50 * mile, 3},
		{"fjord", 2400e3, 50e3, 2},
	} {
		files, err := Demo(c.name)
		if err != nil {
			t.Fatal(err)
		}
		f, err := Load(files)
		if err != nil {
			t.Errorf("%s:\n%v", c.name, err)
			continue
		}
		trip, err := f.FindTrip("")
		if err != nil {
			t.Fatal(err)
		}
		meters, days, stops := 0.0, 0, 0
		for _, leg := range trip.Legs {
			meters, days = meters+float64(leg.Distance), days+leg.Days
			if leg.Kind == StopLeg {
				stops++
			}
		}
		if math.Abs(meters-c.meters) > c.slop || days != c.days || stops != 1 {
			t.Errorf("%s: %.0f km of road, %d circuit days, %d stops", c.name, meters/1000, days, stops)
		}
	}
}

func TestDemoNames(t *testing.T) {
	if names := DemoNames(); names[0] != "juniper" {
		t.Errorf("the first demo is %s", names[0])
	}
	_, err := Demo("junipr")
	if want := `unknown demo "junipr" (did you mean "juniper"?), expected juniper or fjord`; err == nil || err.Error() != want {
		t.Errorf("got %v, want %s", err, want)
	}
}

func TestPace(t *testing.T) {
	c, err := stock()
	if err != nil {
		t.Fatal(err)
	}
	for pace, want := range map[string]float64{"novice": 0.65, "expert": 0.97, "80 %": 0.80, "82.5%": 0.825, "": 0, "fast": 0} {
		if got := c.model.Pace(pace); math.Abs(got-want) > 1e-12 {
			t.Errorf("%q: got %v, want %v", pace, got, want)
		}
	}
}
