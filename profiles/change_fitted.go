package profiles

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strings"

	"example.com/tripwear/profiles/decode"
	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/nearest"
	"example.com/tripwear/profiles/parts"
)

// fit changes a set: fitted.SET is another part, as new, from the day of
// departure, or the used one where it lies aside; fitted.SET.KEY is a value of its
// entry, fitted.SET:PART.KEY of the one that lies aside.
func (ch changer) fit(key, value string) {
	id, rest, inside := strings.Cut(key, ".")
	id, aside, _ := strings.Cut(id, ":")
	sets := Sets()
	if name, place, ok := strings.Cut(id, "-"); ok { // hub-RL
		id = name + "-" + cmp.Or(logbook.OneOf(wheels, place), place)
	}
	if head, place := cutLast(rest); logbook.OneOf(wheels, place) != "" { // tread.RL
		rest = decode.Join(head, logbook.OneOf(wheels, place))
	}
	k := slices.IndexFunc(sets, func(s Set) bool { return s.ID == id })
	if k < 0 {
		ids := make([]string, len(sets))
		for i, s := range sets {
			ids[i] = s.ID
		}
		ch.Errs.Add(Position{}, nearest.Unknown("set", id, ids), nearest.OneOf(ch.loader.folder.SetIDs()), "such as fitted.pads-front=PART")
		return
	}
	s := sets[k]
	folder := ch.loader.folder
	if aside != "" {
		has := folder.Asides(s)
		switch {
		case len(has) == 0:
			ch.Errs.Add(Position{}, "nothing lies aside for the "+s.Name, "a set of which car.yaml lists a second part, with aside: true", "")
			return
		case !slices.Contains(has, aside):
			ch.Errs.Add(Position{}, nearest.Unknown("part", aside, has)+" that lies aside for the "+s.Name, nearest.OneOf(has), "")
			return
		case !inside:
			ch.Errs.Add(Position{}, "fitted."+id+":"+aside+" without a key", "what is known of it, such as fitted."+id+":"+aside+".pad."+s.At[0], "fitted."+id+"="+aside+" has it on")
			return
		}
		on := folder.onSet(s)
		folder.swap(s, aside)
		defer folder.swap(s, on)
	}
	if !inside && folder.Owns(id, value) { // the used one goes on
		folder.swap(s, value)
		ch.recheck(map[string]Position{})
		return
	}
	entries := ch.apart(s)
	car := &folder.Car
	where := map[string]Position{}
	if inside && len(entries) == 0 {
		ch.Errs.Add(Position{}, fmt.Sprintf("no %s fitted", s.Name), "a set that is on the car: "+nearest.OneOf(ch.loader.folder.SetIDs()), "fitted."+id+"=PART puts one on")
		return
	}
	if inside {
		_, place := cutLast(rest)
		for _, i := range entries {
			e := &car.Fitted[i]
			if slices.Contains(s.At, place) && !slices.Contains(e.At, place) {
				continue
			}
			before := len(*ch.Errs)
			path := fmt.Sprintf("fitted[%d]", i)
			ch.Mapping(nested(Change{rest, value}), path, decode.Except(decode.FieldsIn(e), "part", "at"))
			ch.loader.finds(where, i, s.Kind.Info())
			if len(*ch.Errs) > before {
				return
			}
			ch.reread(e, rest)
		}
		maps.Copy(where, ch.At)
	} else {
		part, ok := ch.loader.resolve(map[string]Position{}, "", value)
		switch {
		case !ok:
			return // reported: no value is empty
		case part.Kind != s.Kind:
			ch.Errs.Add(Position{}, fmt.Sprintf("part %q is of kind %s", value, part.Kind), fmt.Sprintf("a part of kind %s: %s", s.Kind, nearest.OneOf(ch.ofKind(s.Kind))), "")
			return
		}
		fresh := Fitted{Part: value, At: slices.Clone(s.At), Logged: true} // as if the logbook had it
		fresh.Since.Date, fresh.Since.Odometer = ch.trip.Depart, car.Odometer
		if len(entries) == 0 { // of a kind that not every car has
			entries = append(entries, len(car.Fitted))
			car.Fitted = append(car.Fitted, fresh)
		}
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
	own := ch.loader.folder.Parts[e.Part].Kind.Info().Readings
	i := slices.IndexFunc(own, func(r Reading) bool { return r.Key == word && r.New != nil })
	if i < 0 {
		return
	}
	what, names := own[i].What, []string{""}
	if logbook.Zoned(what) {
		names = logbook.Zones
	}
	for _, zone := range names {
		e.Seen = parts.With(e.Seen, SeenKey(what, place, zone), Seen{Date: ch.trip.Depart, Odometer: ch.loader.folder.Car.Odometer})
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

func (ch changer) ofKind(k Kind) []string {
	var out []string
	for _, id := range slices.Sorted(maps.Keys(ch.loader.folder.Parts)) {
		if p := ch.loader.folder.Parts[id]; p.Kind == k && len(p.Lacks()) == 0 {
			out = append(out, id)
		}
	}
	return out
}

func cutLast(key string) (before, last string) {
	i := strings.LastIndexByte(key, '.')
	if i < 0 {
		return "", key
	}
	return key[:i], key[i+1:]
}

// apart gives the set entries of its own, splitting those it shares with
// other places, and says which they are, in order.
func (ch changer) apart(s Set) []int {
	car := &ch.loader.folder.Car
	var own []int
	for i, e := range car.Fitted {
		var mine, others []string
		for _, at := range e.At {
			if slices.Contains(s.At, at) {
				mine = append(mine, at)
			} else {
				others = append(others, at)
			}
		}
		if len(mine) == 0 || ch.loader.folder.Parts[e.Part].Kind != s.Kind {
			continue
		}
		own = append(own, i)
		if len(others) > 0 {
			car.Fitted[i] = e.Only(mine)
			car.Fitted = append(car.Fitted, e.Only(others))
		}
	}
	return own
}
