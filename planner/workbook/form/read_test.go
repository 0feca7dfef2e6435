package form

import (
	"testing"
	"time"
)

// TestFigureAndDay: a cell takes none and whatever the form's rule allows, and
// days of the calendar that the form shows.
func TestFigureAndDay(t *testing.T) {
	for s, want := range map[string]float64{"0": 0, "5.5": 5.5, "9999999": NoMore, "9999999.5": -1, "-0.1": -1, "NaN": -1, "x": -1, "": -1} {
		got, err := figure(s)
		if err != nil {
			got = -1
		}
		if got != want {
			t.Errorf("%q reads as %v, %v", s, got, err)
		}
	}
	for s, want := range map[string]string{
		"36526": "2000-01-01", "36525": "no date", "46523": "2027-05-16", "46523.75": "2027-05-16",
		"109574": "2199-12-31", "109575": "no date", "2027-05-16": "2027-05-16", "16 May": "no date",
	} {
		day, err := serial(s)
		got := day.Format(time.DateOnly)
		if err != nil {
			got = err.Error()
		}
		if got != want {
			t.Errorf("%q reads as %s, want %s", s, got, want)
		}
	}
}
