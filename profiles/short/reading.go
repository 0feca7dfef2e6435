package short

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/nearest"
	"example.com/tripwear/profiles/quantity"
)

// read takes numbers for readings.
func (w *words) read(about string) error {
	var fit []logbook.What
	what, named := logbook.WordOf(about)
	if about == "rotor" || about == "rotors" {
		what, named = logbook.Thickness, true
	}
	if about != "" && !named {
		return wrong(nearest.Unknown("word", about, nil), nearest.OneOf(logbook.Words()), "")
	}
	if named && len(logbook.Values(what)) > 0 {
		return wrong(fmt.Sprintf("%s takes no number", what), nearest.OneOf(logbook.Values(what)), "")
	}
	for _, one := range []logbook.What{logbook.Tread, logbook.Pad, logbook.Thickness, logbook.Probe, logbook.Water} {
		if (!named || one == what) && w.fits(one) && w.measures(one, named) {
			fit = append(fit, one)
		}
	}
	if !named {
		fit = w.likely(fit)
	}
	switch {
	case len(fit) > 1:
		return w.asks(fit, w.numbers[0].String())
	case slices.Contains([]string{"psi", "bar", "kpa"}, w.numbers[0].unit):
		return wrong(w.numbers[0].String()+" is a pressure, which no row keeps", "tread, pad or rotor thickness", "the wear model does not go by pressure; set it cold by the sticker, check it hot")
	case len(fit) == 0 && w.place == "":
		return wrong("no place given", nearest.OneOf(logbook.Wheels), "")
	case len(fit) == 0 && w.numbers[0].unit == "" && !named && !w.habit():
		return wrong(listed(w.numbers)+" has no unit, and no row before says in which you read", "a unit once, such as RF 7 7 6.5/32 or RF 5.8mm", "rows after it go by its unit")
	case len(fit) == 0 && logbook.Axles[w.place] != nil:
		return wrong(w.place+" is two wheels, and each is read by itself", nearest.OneOf(logbook.Axles[w.place]), "such as "+logbook.Axles[w.place][1]+" "+w.numbers[0].String())
	case len(fit) == 0:
		return wrong(fmt.Sprintf("%s fits nothing that is read at %s", listed(w.numbers), w.place), "tread of 1 or 3 zones, a pad or a rotor's thickness, with its unit", "tripwear log add takes any row in full")
	}
	return w.write(fit[0])
}

// write adds the rows of a reading whose meaning is known.
func (w *words) write(what logbook.What) error {
	var values []string
	for _, n := range w.numbers {
		v, ok := w.inUnit(what, n)
		if !ok {
			return wrong(fmt.Sprintf("%s %s has no unit", what, n), "the unit once, such as "+like[what], "rows after it go by its unit")
		}
		values = append(values, v)
	}
	if !logbook.Zoned(what) {
		return w.add(what, w.at(what), values[0])
	}
	if len(values) == len(logbook.Zones) {
		for i, v := range values {
			w.zone = logbook.Zones[i]
			_ = w.add(what, w.place, v)
		}
		return nil
	}
	if w.zone == "" {
		for _, want := range w.wants() {
			if want.What == what && want.Place == w.place {
				w.zone = want.Zone
			}
		}
	}
	if w.zone == "" {
		return wrong(fmt.Sprintf("%s at %s: no zone given", what, w.place), nearest.OneOf(logbook.Zones), "or give all three: inside, middle, outside")
	}
	return w.add(what, w.place, values[0])
}

// inUnit is a number with its unit, or with the one that readings like it were
// last written in.
func (w *words) inUnit(what logbook.What, n number) (string, bool) {
	if n.unit != "" {
		return n.String(), true
	}
	unit, written := w.usual(what)
	return n.digits + unit, written
}

// usual is the unit that readings of a kind were last written in, and whether
// any was; otherwise the one that its owner's units have.
func (w *words) usual(what logbook.What) (unit string, written bool) {
	for _, e := range slices.Backward(w.Folder.Log) {
		if e.What == what {
			return strings.TrimLeft(e.Written, "0123456789."), true
		}
	}
	if what == logbook.Tread && w.Units == quantity.US {
		return "/32 in", false
	}
	return " mm", false
}

// habit says whether the logbook has a reading that tells the owner's unit.
func (w *words) habit() bool {
	_, tread := w.usual(logbook.Tread)
	_, pad := w.usual(logbook.Pad)
	return tread || pad && len(w.numbers) == 1
}

// measures says whether the numbers can be readings of a kind: as many, of its
// dimension, and no more than there is of it when new.
func (w *words) measures(what logbook.What, named bool) bool {
	if n := len(w.numbers); n != 1 && !(n == len(logbook.Zones) && logbook.Zoned(what) && w.zone == "") {
		return false
	}
	for _, n := range w.numbers {
		if n.unit == "" && named {
			return true
		}
		level, ok := w.level(what, n)
		if !ok {
			return false
		}
		if new, wears := w.new(what); !named && wears && (level > new || what == logbook.Thickness && level < thinnest*new) {
			return false
		}
	}
	return true
}

// level is a number as a reading of a kind, SI.
func (w *words) level(what logbook.What, n number) (float64, bool) {
	text, ok := w.inUnit(what, n)
	if !ok {
		return 0, false
	}
	e, faults := logbook.Parse(logbook.Row{"date": "2000-01-01", "odometer": "1 mi", "what": string(what), "place": w.at(what), "zone": zone(what), "value": text})
	return e.Value, len(faults) == 0
}

// zone is any zone where a row takes one.
func zone(what logbook.What) string {
	if logbook.Zoned(what) {
		return logbook.Zones[0]
	}
	return ""
}

// new is the level of a new part there, with what a gauge may be off.
func (w *words) new(what logbook.What) (float64, bool) {
	kind, _ := profiles.KindRead(what)
	for _, r := range kind.Info().Readings {
		part, on := w.Folder.On(kind, w.place)
		if w.part != "" {
			part = w.Folder.Parts[w.part]
		}
		if r.What == what && r.New != nil && on != nil && part.Kind == kind {
			return float64(r.New(&part)) + 2*float64(r.Gauge(w.Folder.Car.Gauge)), true
		}
	}
	return 0, false
}

// likely narrows readings that fit down to those written in their usual unit,
// then to one that the plan wants read and expects near.
func (w *words) likely(fit []logbook.What) []logbook.What {
	usual := slices.DeleteFunc(slices.Clone(fit), func(what logbook.What) bool {
		unit, _ := w.usual(what)
		given, _ := w.inUnit(what, w.numbers[0])
		return compact(strings.TrimLeft(given, "0123456789.")) != compact(unit)
	})
	if len(usual) > 0 {
		fit = usual
	}
	if len(fit) < 2 {
		return fit
	}
	best, least, second := logbook.What(""), math.Inf(1), math.Inf(1)
	for _, what := range fit {
		for _, want := range w.wants() {
			if level, ok := w.level(what, w.numbers[0]); ok && want.What == what && want.Place == w.place {
				if off := math.Abs(level - want.Level); off < least {
					best, least, second = what, off, least
				} else {
					second = min(second, off)
				}
			}
		}
	}
	if best != "" && second > float64(clearly*least)+apart {
		return []logbook.What{best}
	}
	return fit
}

func (w *words) wants() []Want {
	if w.Wants == nil {
		return nil
	}
	return w.Wants()
}
