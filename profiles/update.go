package profiles

import (
	"cmp"
	"slices"
	"time"

	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/parts"
	"example.com/tripwear/profiles/quantity"
)

// update brings the car up to date with the logbook. What car.yaml says holds
// at its odometer: earlier rows are history, later ones win.
func (f *Folder) update(entries []logbook.Entry) {
	written := f.Car
	f.Car.Fitted, f.Car.Aside = cloned(f.Car.Fitted), cloned(f.Car.Aside)
	f.asWritten = &written
	f.Log = slices.Clone(entries)
	slices.SortStableFunc(f.Log, func(a, b logbook.Entry) int {
		return cmp.Or(cmp.Compare(a.Odometer, b.Odometer), a.Date.Compare(b.Date))
	})
	for _, e := range f.Log {
		f.Car.Odometer = max(f.Car.Odometer, e.Odometer)
		if e.Replaces() {
			for _, at := range e.At() {
				f.replace(e, at)
			}
		}
		if e.What == logbook.Fitted && e.Odometer >= f.Car.Written {
			for _, at := range e.At() {
				f.exchange(f.KindReplaced(e), at, e.Text)
			}
		}
	}
	f.weigh()
}

func (f *Folder) holder(k Kind, at string) int {
	return slices.IndexFunc(f.Car.Fitted, func(e Fitted) bool {
		return f.Parts[e.Part].Kind == k && slices.Contains(e.At, at)
	})
}

// replace puts a new part on a place, which leaves its old entry.
func (f *Folder) replace(e logbook.Entry, at string) {
	k := f.KindReplaced(e)
	i := f.holder(k, at)
	fresh := Fitted{Part: e.Text, At: []string{at}, Logged: true}
	fresh.Since.Date, fresh.Since.Odometer = e.Date, e.Odometer
	if i < 0 { // of a kind that not every car has
		f.Car.Fitted = append(f.Car.Fitted, fresh)
		return
	}
	old := &f.Car.Fitted[i]
	if e.Odometer < old.Since.Odometer || !old.Logged && e.Odometer == old.Since.Odometer {
		return // car.yaml has this part, or a later one
	}
	if e.Text == "" {
		fresh.Part = old.Part
	}
	if len(old.At) == 1 {
		*old = fresh
		return
	}
	old.At = slices.DeleteFunc(old.At, func(place string) bool { return place == at })
	f.Car.Fitted = append(f.Car.Fitted, fresh)
}

// row is where a row of the logbook stands, in words.
func (f *Folder) row(e logbook.Entry) string {
	if e.Line == 0 {
		return "the logbook"
	}
	return Position{File: cmp.Or(f.logOf, LogFile), Line: e.Line, Column: 1}.Told() + ", " + e.Date.Format(time.DateOnly)
}

// read puts a reading or a finding on the car.
func (f *Folder) read(on *Fitted, e logbook.Entry, r Reading) {
	if on.Seen == nil {
		on.Seen = map[string]Seen{}
	}
	on.Seen[SeenKey(e.What, e.Place, e.Zone)] = Seen{Date: e.Date, Odometer: e.Odometer, Where: f.row(e)}
	switch v := on.Value(r.Key).Addr().Interface().(type) {
	case *map[string][]quantity.Length:
		part := f.Parts[on.Part]
		*v = parts.With(*v, e.Place, on.Zone(e, (*v)[e.Place], r.New(&part)))
	case *map[string]quantity.Length:
		*v = parts.With(*v, e.Place, quantity.Length(e.Value))
	case *map[string][]quantity.Temperature:
		if heat := f.probe(e); len(heat) == len(logbook.Zones) {
			*v = parts.With(*v, e.Place, heat)
		}
	case *map[string]logbook.Finding:
		if found := logbook.Finding(e.Text); slices.Contains(logbook.Findings(e.What), found) { // an inspection's text is free
			*v = parts.With(*v, e.Place, found)
		}
	case *logbook.Finding:
		*v = logbook.Finding(e.Text)
	case *quantity.Share:
		*v = quantity.Share(e.Value)
	}
}

// probe is the temperatures of a tire's zones at one time, as far as the
// logbook has them.
func (f *Folder) probe(e logbook.Entry) []quantity.Temperature {
	var heat []quantity.Temperature
	for _, z := range logbook.Zones {
		for _, r := range f.Log {
			if r.What == e.What && r.Place == e.Place && r.Zone == z && r.Odometer == e.Odometer && r.Date.Equal(e.Date) {
				heat = append(heat, quantity.Temperature(r.Value))
				break
			}
		}
	}
	return heat
}
