package trip

import (
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
)

// Begun is the trip that the logbook's last trip row left unfinished, and how
// many of its legs are driven; "" where none is.
func Begun(f *profiles.Folder) (id string, driven int) {
	for _, e := range f.Log {
		if e.What != logbook.Trip {
			continue
		}
		id, driven = "", 0
		if _, known := f.Trips[e.Text]; known && e.Last > 0 {
			id, driven = e.Text, e.Last
		}
	}
	return id, driven
}
