package itinerary

import (
	"cmp"
	"fmt"
	"regexp"
	"strings"

	"example.com/tripwear/cmd/tripwear/terminal"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
	"example.com/tripwear/profiles/store"
)

var plainName = regexp.MustCompile(`^[a-z0-9][a-z0-9-]{0,63}$`)

// Save writes a trip, and the circuits that only its line knew, into a car folder
// and says which files.
func Save(kept *store.Store, name string, known map[string]profiles.Circuit, f *profiles.Folder, t profiles.Trip) ([]string, error) {
	if !plainName.MatchString(name) {
		return nil, terminal.Misuse("--save "+terminal.Quoted(name)+" is not the name of a trip", "write small letters, digits and dashes, such as --save spring")
	}
	var files []store.File
	var b strings.Builder
	fmt.Fprintf(&b, "trip: %q\ndepart: %s\nlegs:\n", t.Name, t.Depart.Format("2006-01-02"))
	for _, l := range t.Legs {
		if l.Kind == profiles.RoadLeg {
			fmt.Fprintf(&b, "  - {road: %q, distance: %s, ambient: %.4g C}\n", l.Name, figure(quantity.Distance[quantity.US], float64(l.Distance)), float64(l.Ambient))
			continue
		}
		id, c := l.Name, f.Circuits[l.Name]
		if _, ok := known[id]; !ok {
			id = name + "-" + id
			text := fmt.Sprintf("name: %q\nlength: %s\nleft_share: %.0f %%\n", c.Name, figure(quantity.Distance[quantity.Metric], float64(c.Length)), 100*float64(c.LeftShare))
			files = append(files, store.File{Name: "circuits/" + id + ".yaml", Text: text})
		}
		pace := ""
		if p := cmp.Or(l.Pace, c.Pace); p != "" { // said again, since all trips of a folder tell what a lap time was driven at
			pace = ", pace: " + p
		}
		fmt.Fprintf(&b, "  - {circuit: %s, days: %d, sessions: %d x %.0f min%s, ambient: %.4g C}\n", id, max(1, l.Days), l.Sessions.Count, float64(l.Sessions.Each)/60, pace, float64(l.Ambient))
	}
	return kept.Save(append(files, store.File{Name: "trips/" + name + ".yaml", Text: b.String()})...)
}

// figure is a distance as a file has it, to a hundredth.
func figure(d quantity.Display, m float64) string {
	return strings.TrimSuffix(fmt.Sprintf("%.2f", d.Of(m)), ".00") + " " + d.Name
}
