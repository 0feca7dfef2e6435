package profiles

import (
	"slices"
	"strings"
	"testing"
)

// Every key that is offered is one that Apply knows, in both demos: an absurd
// value may be refused, the key may not.
func TestChangeKeysAreKeys(t *testing.T) {
	for _, demo := range DemoNames() {
		files, err := Demo(demo)
		if err != nil {
			t.Fatal(err)
		}
		f, err := Load(files)
		if err != nil {
			t.Fatal(err)
		}
		trip, err := f.FindTrip("")
		if err != nil {
			t.Fatal(err)
		}
		all := f.ChangeKeys(trip)
		if len(all) < 200 || !slices.IsSorted(all) {
			t.Errorf("%s: %d keys, sorted %v", demo, len(all), slices.IsSorted(all))
		}
		for _, key := range all {
			changed, its := f.Clone(), trip.Clone()
			err := changed.Apply(&its, Change{Key: key, Value: "?"})
			if err == nil {
				continue // a text
			}
			for _, wrong := range []string{"unknown key", "unknown place", "unknown set", "unknown leg", "no leg", "without", "a mapping"} {
				if strings.Contains(err.Error(), wrong) {
					t.Errorf("%s offers %s: %v", demo, key, err)
				}
			}
		}
	}
}

// The keys that the help names are among those offered.
func TestChangeKeysOffered(t *testing.T) {
	f, trip := juniper(t)
	all := f.ChangeKeys(trip)
	for _, key := range []string{
		"alignment.rear.camber", "boot.volume", "costs.stranded", "safety.cap", "spread.pace", "parts.pads-front.price",
		"fitted.pads-front", "fitted.pads-front.pad.LF", "fitted.tires-rear.circuit_days", "fitted.hub-RR", "shelf.pads-front",
		"pace", "sessions", "days.heron-flats", "distance.1", "depart", "driving_day", "track.front", "surfaces.city.tread", "mass",
	} {
		if !slices.Contains(all, key) {
			t.Errorf("%s is not offered", key)
		}
	}
	for _, key := range []string{"fitted", "fitted.tires-rear.tread.LF", "fitted.pads-front.part", "legs", "days.home", "parts.tire-200.price"} {
		if slices.Contains(all, key) {
			t.Errorf("%s is offered", key)
		}
	}
	if got := f.SetIDs(); !slices.Contains(got, "hub-LR") || len(got) != 12 {
		t.Errorf("sets are %v", got)
	}
}

// What is offered as a value is taken.
func TestChangeValues(t *testing.T) {
	f, trip := juniper(t)
	for key, want := range map[string]string{"pace": "advanced", "surface.1": "city", "wet": "true", "fitted.pads-front": "pads-front", "mass": ""} {
		got := f.ChangeValues(key)
		if want == "" && len(got) > 0 || want != "" && !slices.Contains(got, want) {
			t.Errorf("%s takes %v", key, got)
		}
		for _, value := range got {
			changed, its := f.Clone(), trip.Clone()
			if err := changed.Apply(&its, Change{Key: key, Value: value}); err != nil {
				t.Errorf("%s=%s is offered: %v", key, value, err)
			}
		}
	}
}
