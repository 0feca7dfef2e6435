package profiles

import (
	"cmp"
	"maps"
	"slices"

	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/quantity"
)

// hear brings the car up to date with the logbook. What car.yaml says is of
// its odometer: earlier rows are history, later ones win.
func (f *Folder) hear(entries []logbook.Entry) {
	written := f.Car
	written.Fitted = slices.Clone(f.Car.Fitted)
	for i := range written.Fitted {
		f.Car.Fitted[i] = written.Fitted[i].clone()
	}
	f.asWritten = &written
	f.Log = slices.Clone(entries)
	slices.SortStableFunc(f.Log, func(a, b logbook.Entry) int {
		return cmp.Or(cmp.Compare(a.Odometer, b.Odometer), a.Date.Compare(b.Date))
	})
	for _, e := range f.Log {
		f.Car.Odometer = max(f.Car.Odometer, e.Odometer)
		if e.Renews() {
			for _, at := range e.At() {
				f.renew(e, at)
			}
			continue
		}
		if k, ok := kindOf[e.What]; ok {
			f.read(e, k)
		}
	}
}

// clone shares no map with the entry.
func (e Fitted) clone() Fitted {
	e.At = slices.Clone(e.At)
	e.Tread, e.Pad, e.Thickness, e.Used = maps.Clone(e.Tread), maps.Clone(e.Pad), maps.Clone(e.Thickness), maps.Clone(e.Used)
	for at, zones := range e.Tread {
		e.Tread[at] = slices.Clone(zones)
	}
	e.Face, e.Feel, e.Found, e.Built, e.Lining = maps.Clone(e.Face), maps.Clone(e.Feel), maps.Clone(e.Found), maps.Clone(e.Built), maps.Clone(e.Lining)
	e.Probe, e.Seen = maps.Clone(e.Probe), maps.Clone(e.Seen)
	return e
}

// kindOf is the kind of part that a reading is of.
var kindOf = map[logbook.What]Kind{
	logbook.Tread: Tire, logbook.Probe: Tire, logbook.Inspection: Tire,
	logbook.Pad: Pads, logbook.Thickness: Rotors, logbook.Face: Rotors,
	logbook.Hub: Bearing, logbook.Lining: Pads,
	logbook.Water: Fluid, logbook.Colour: Fluid, logbook.Pedal: Fluid,
}

// holder is the entry of a kind of part at a place.
func (f *Folder) holder(k Kind, at string) int {
	return slices.IndexFunc(f.Car.Fitted, func(e Fitted) bool {
		return f.Parts[e.Part].Kind == k && slices.Contains(e.At, at)
	})
}

// renew puts a new part on a place, which leaves its old entry.
func (f *Folder) renew(e logbook.Entry, at string) {
	k := f.KindRenewed(e)
	i := f.holder(k, at)
	old := &f.Car.Fitted[i]
	if e.Odometer < old.Since.Odometer || !old.Logged && e.Odometer == old.Since.Odometer {
		return // car.yaml has this renewal, or a later one
	}
	fresh := Fitted{Part: e.Text, At: []string{at}, Logged: true}
	if e.Text == "" {
		fresh.Part = old.Part
	}
	fresh.Since.Date, fresh.Since.Odometer = e.Date, e.Odometer
	if len(old.At) == 1 {
		f.Car.Fitted[i] = fresh
		return
	}
	old.At = slices.DeleteFunc(old.At, func(place string) bool { return place == at })
	f.Car.Fitted = append(f.Car.Fitted, fresh)
}

// read puts a reading over what the car had.
func (f *Folder) read(e logbook.Entry, k Kind) {
	i := f.holder(k, e.Place)
	if i < 0 { // an inspection of no one place
		return
	}
	on := &f.Car.Fitted[i]
	if e.Odometer < on.Since.Odometer || e.Odometer < f.Car.Written && !on.Logged && on.has(e) {
		return
	}
	if on.Seen == nil {
		on.Seen = map[string]Seen{}
	}
	on.Seen[SeenKey(e.What, e.Place, e.Zone)] = Seen{Date: e.Date, Odometer: e.Odometer}
	switch v := quantity.Length(e.Value); e.What {
	case logbook.Tread:
		on.zone(e, f.Parts[on.Part].Tire.NewDepth)
	case logbook.Pad:
		on.Pad = with(on.Pad, e.Place, v)
	case logbook.Thickness:
		on.Thickness = with(on.Thickness, e.Place, v)
	case logbook.Face:
		on.Face = with(on.Face, e.Place, e.Text)
	case logbook.Hub:
		on.Feel = with(on.Feel, e.Place, e.Text)
	case logbook.Lining:
		on.Lining = with(on.Lining, e.Place, e.Text)
	case logbook.Colour:
		on.Colour = e.Text
	case logbook.Pedal:
		on.Pedal = e.Text
	case logbook.Inspection:
		if slices.Contains([]string{"sound", "cut", "cords"}, e.Text) {
			on.Found = with(on.Found, e.Place, e.Text)
		}
	case logbook.Water:
		on.Water = quantity.Share(e.Value)
	case logbook.Probe:
		f.probe(e, on)
	}
}

// zone puts a reading of one zone beside the others, which are new where they
// were never read.
func (e *Fitted) zone(r logbook.Entry, unused quantity.Length) {
	depths := slices.Clone(e.Tread[r.Place])
	if len(depths) != 3 {
		depths = []quantity.Length{unused, unused, unused}
		for _, z := range logbook.Zones {
			if key := SeenKey(r.What, r.Place, z); z != r.Zone {
				e.Seen[key] = Seen{Date: e.Since.Date, Odometer: e.Since.Odometer, New: true}
			}
		}
	}
	depths[slices.Index(logbook.Zones, r.Zone)] = quantity.Length(r.Value)
	e.Tread = with(e.Tread, r.Place, depths)
}

// probe takes the three temperatures of a tire once all are there.
func (f *Folder) probe(e logbook.Entry, on *Fitted) {
	var heat []quantity.Temperature
	for _, z := range logbook.Zones {
		for _, r := range f.Log {
			if r.What == logbook.Probe && r.Place == e.Place && r.Zone == z && r.Odometer == e.Odometer && r.Date.Equal(e.Date) {
				heat = append(heat, quantity.Temperature(r.Value))
				break
			}
		}
	}
	if len(heat) == 3 {
		on.Probe = with(on.Probe, e.Place, heat)
	}
}

// has says whether car.yaml gives what the row gives.
func (e *Fitted) has(r logbook.Entry) bool {
	var ok bool
	switch r.What {
	case logbook.Tread:
		ok = len(e.Tread[r.Place]) == 3
	case logbook.Pad:
		_, ok = e.Pad[r.Place]
	case logbook.Thickness:
		_, ok = e.Thickness[r.Place]
	case logbook.Face:
		_, ok = e.Face[r.Place]
	case logbook.Hub:
		_, ok = e.Feel[r.Place]
	case logbook.Lining:
		_, ok = e.Lining[r.Place]
	case logbook.Colour:
		ok = e.Colour != ""
	case logbook.Pedal:
		ok = e.Pedal != ""
	case logbook.Inspection:
		_, ok = e.Found[r.Place]
	case logbook.Probe:
		_, ok = e.Probe[r.Place]
	default:
		ok = e.Water > 0
	}
	_, logged := e.Seen[SeenKey(r.What, r.Place, r.Zone)]
	return ok && !logged
}

// with sets a key of a map that may not be there yet.
func with[V any](m map[string]V, key string, v V) map[string]V {
	if m == nil {
		m = map[string]V{}
	}
	m[key] = v
	return m
}
