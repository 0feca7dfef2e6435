package trip

import (
	"testing"
	"time"

	"example.com/tripwear/planner/randomcar"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
)

// A stop's work waits until it is open: reached on a Sunday at 9:44, a shop that
// opens on Mondays at 9 has two hours' work done at 11; one that is open on
// Sundays has it done at 11:44; one that closes at 11 waits a day.
func TestStopOpens(t *testing.T) {
	f, spring := randomcar.Demo(t, "juniper")
	for hours, want := range map[string]string{
		"9-17 mon-fri": "2027-05-17 11:00", "8-17 sun": "2027-05-16 11:44", "8-11 sun, 7-12 mon": "2027-05-17 10:00", "": "2027-05-16 11:44",
	} {
		out := spring.Clone()
		out.Depart = time.Date(2027, 5, 16, 0, 0, 0, 0, time.UTC)
		out.Legs = out.Legs[2:4] // 85 mi, then the workshop
		out.Legs[1].Stay = 2 * 3600
		if hours != "" {
			spans, err := quantity.ParseHours(hours)
			if err != nil {
				t.Fatal(err)
			}
			out.Legs[1].Open = profiles.Hours{Spans: spans}
		}
		s, err := Itinerary(NewMachine(f), f, out)
		if err != nil {
			t.Fatal(err)
		}
		if got := s.Legs[1].End.Format("2006-01-02 15:04"); got != want {
			t.Errorf("open %q: done at %s, want %s", hours, got, want)
		}
	}
}
