package profiles

import (
	"fmt"
	"maps"
	"reflect"
	"slices"
	"strings"

	"example.com/tripwear/profiles/logbook"
)

// setPlace is what is replaced together: a kind of part and its places.
type setPlace struct {
	id   string
	kind Kind
	at   []string
}

// setPlaces lists the sets of a car.
func setPlaces() []setPlace {
	var out []setPlace
	for _, k := range []Kind{Tire, Pads, Rotors} {
		word := map[Kind]string{Tire: "tires"}[k]
		if word == "" {
			word = string(k)
		}
		out = append(out, setPlace{word + "-front", k, wheels[:2]}, setPlace{word + "-rear", k, wheels[2:]})
	}
	for _, w := range wheels {
		out = append(out, setPlace{"hub-" + w, Bearing, []string{w}})
	}
	return append(out, setPlace{"oil", Oil, []string{"engine"}}, setPlace{"fluid", Fluid, []string{"system"}})
}

// fit changes a set: fitted.SET is another part, as new, from the day of
// departure; fitted.SET.KEY is a value of its entry.
func (ch changer) fit(key, value string) {
	id, rest, inside := strings.Cut(key, ".")
	sets := setPlaces()
	k := slices.IndexFunc(sets, func(s setPlace) bool { return s.id == id })
	if k < 0 {
		ids := make([]string, len(sets))
		for i, s := range sets {
			ids[i] = s.id
		}
		ch.errs.add(Position{}, unknown("set", id, ids), oneOf(ids), "such as fitted.pads-front=PART")
		return
	}
	s := sets[k]
	entries := ch.apart(s)
	car := &ch.loader.folder.Car
	where := map[string]Position{}
	if inside {
		_, place := cutLast(rest)
		for _, i := range entries {
			e := &car.Fitted[i]
			if slices.Contains(s.at, place) && !slices.Contains(e.At, place) {
				continue
			}
			before := len(*ch.errs)
			path := fmt.Sprintf("fitted[%d]", i)
			fields := slices.DeleteFunc(fieldsOf(reflect.ValueOf(e).Elem()), func(f field) bool { return f.key == "part" || f.key == "at" })
			ch.mapping(nested(Change{rest, value}), path, fields)
			if len(*ch.errs) > before {
				return
			}
			ch.reread(e, rest)
		}
		maps.Copy(where, ch.at)
	} else {
		part, ok := ch.loader.resolve(map[string]Position{}, "", value)
		switch {
		case !ok:
			return // reported: no value is empty
		case part.Kind != s.kind:
			ch.errs.add(Position{}, fmt.Sprintf("part %q is of kind %s", value, part.Kind), fmt.Sprintf("a part of kind %s: %s", s.kind, oneOf(ch.ofKind(s.kind))), "")
			return
		}
		fresh := Fitted{Part: value, At: slices.Clone(s.at), Logged: true} // as if the logbook had it
		fresh.Since.Date, fresh.Since.Odometer = ch.trip.Depart, car.Odometer
		car.Fitted[entries[0]] = fresh
		for _, i := range slices.Backward(entries[1:]) {
			car.Fitted = slices.Delete(car.Fitted, i, i+1)
		}
	}
	ch.recheck(where)
}

// reread dates a reading that was written anew: the car has not been driven
// since.
func (ch changer) reread(e *Fitted, key string) {
	word, place := cutLast(key)
	what, ok := map[string]logbook.What{"tread": logbook.Tread, "pad": logbook.Pad, "thickness": logbook.Thickness}[word]
	if !ok {
		return
	}
	names := []string{""}
	if what == logbook.Tread {
		names = logbook.Zones
	}
	for _, zone := range names {
		e.Seen = with(e.Seen, SeenKey(what, place, zone), Seen{Date: ch.trip.Depart, Odometer: ch.loader.folder.Car.Odometer})
	}
}

// recheck holds what is fitted against the parts and the odometer again.
func (ch changer) recheck(where map[string]Position) {
	for i, e := range ch.loader.folder.Car.Fitted {
		if !e.Since.Date.IsZero() {
			where[fmt.Sprintf("fitted[%d].since.date", i)] = Position{}
		}
	}
	ch.loader.fitted(where, true)
}

// ofKind lists the ids of the parts of a kind that can be fitted.
func (ch changer) ofKind(k Kind) []string {
	var out []string
	for _, id := range slices.Sorted(maps.Keys(ch.loader.folder.Parts)) {
		if p := ch.loader.folder.Parts[id]; p.Kind == k && len(p.lacks()) == 0 {
			out = append(out, id)
		}
	}
	return out
}

// cutLast parts a dotted key before its last word.
func cutLast(key string) (before, last string) {
	i := strings.LastIndexByte(key, '.')
	if i < 0 {
		return "", key
	}
	return key[:i], key[i+1:]
}

// apart gives the set entries of its own, splitting those it shares with
// other places, and says which they are, in order.
func (ch changer) apart(s setPlace) []int {
	car := &ch.loader.folder.Car
	var own []int
	for i := range car.Fitted {
		e := &car.Fitted[i]
		if ch.loader.folder.Parts[e.Part].Kind != s.kind {
			continue
		}
		mine := slices.DeleteFunc(slices.Clone(e.At), func(at string) bool { return !slices.Contains(s.at, at) })
		switch {
		case len(mine) == 0:
		case len(mine) == len(e.At):
			own = append(own, i)
		default:
			other := e.clone()
			other.At = slices.DeleteFunc(other.At, func(at string) bool { return slices.Contains(s.at, at) })
			other.keep()
			e.At = mine
			e.keep()
			car.Fitted = append(car.Fitted, other)
			own = append(own, i)
		}
	}
	return own
}

// keep drops the readings of places that the entry is not at.
func (e *Fitted) keep() {
	gone := func(place string) bool { return !slices.Contains(e.At, place) }
	v := reflect.ValueOf(e).Elem()
	for i := range v.NumField() {
		m := v.Field(i)
		if v.Type().Field(i).Tag.Get("words") == "" || m.Kind() != reflect.Map {
			continue
		}
		for _, key := range m.MapKeys() {
			if gone(key.String()) {
				m.SetMapIndex(key, reflect.Value{})
			}
		}
	}
}
