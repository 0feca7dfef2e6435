package randomcar

import (
	"testing"

	"example.com/tripwear/profiles"
)

// Demo loads a fresh copy of a demo folder and its trip, to be changed.
func Demo(t testing.TB, name string) (*profiles.Folder, profiles.Trip) {
	t.Helper()
	files, err := profiles.Demo(name)
	if err != nil {
		t.Fatal(err)
	}
	f, err := profiles.Load(files)
	if err != nil {
		t.Fatal(err)
	}
	trip, err := f.FindTrip("")
	if err != nil {
		t.Fatal(err)
	}
	return f, trip
}
