package profiles

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"

	"go.yaml.in/yaml/v4"

	"example.com/tripwear/profiles/decode"
	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/nearest"
)

// Change is one value written anew: "alignment.LR.toe=0.2 deg". The key is
//
//	a key of car.yaml, dotted:     alignment.rear.camber, boot.volume, costs.stranded
//	a key of model.yaml:           safety.cap, spread.pace
//	parts.PART.KEY:                parts.pads-front.price
//	fitted.SET:                    another part, as new: fitted.pads-front=pads-track; where it lies aside, that one
//	fitted.SET.KEY:                what is known of the one fitted: fitted.pads-front.pad.LF=5.8 mm
//	fitted.SET:PART.KEY:           the same of one that lies aside: fitted.pads-front:pads-track.pad.LF=8 mm
//	shelf.PART:                    how many spares lie at home
//	depart, driving_day:           of the trip
//	fit:                           what is on at circuits: "front pads: pads-track"
//	a key of a leg:                pace, sessions, days, distance, surface, rain, ambient, stay, can, fee
//	the same and the leg it is of: distance.1 (the first road), days.heron-flats
//
// A key of a leg without a leg changes every leg that has it. Values are
// written as in the files, lists in brackets.
type Change struct{ Key, Value string }

// String is the change as it is written.
func (c Change) String() string { return c.Key + "=" + c.Value }

// ParseChange reads key=value.
func ParseChange(s string) (Change, error) {
	key, value, ok := strings.Cut(s, "=")
	c := Change{strings.TrimSpace(key), strings.TrimSpace(value)}
	if !ok || c.Key == "" || c.Value == "" {
		return Change{}, Errors{{What: fmt.Sprintf("%q is not a change", nearest.Cut(s)), Expected: "key=value", Hint: "such as alignment.LR.toe=0.2deg, pace=advanced or fitted.pads-front=PART"}}
	}
	return c, nil
}

// Apply changes the folder and one of its trips in place, under the rules of
// the files: what they refuse is refused here, as Errors. After an error both
// may be changed in part.
func (f *Folder) Apply(t *Trip, c Change) error {
	l := &loader{folder: f, broken: map[string]bool{}}
	ch := changer{Decoder: decode.New("", &l.errs), loader: l, trip: t}
	ch.Partial = true
	ch.change(c)
	for _, e := range l.errs {
		e.Position = Position{File: nearest.Cut(c.String())}
	}
	return l.errs.Sorted()
}

// changer turns a change into what a decoder reads.
type changer struct {
	*decode.Decoder
	loader *loader
	trip   *Trip
}

func (ch changer) change(c Change) {
	first, rest, dotted := strings.Cut(c.Key, ".")
	car, model := &ch.loader.folder.Car, &ch.loader.folder.Model
	carFields := decode.Except(decode.FieldsIn(car), "fitted", "shelf", "alignment")
	modelFields := decode.FieldsIn(model)
	tripFields := decode.Except(decode.FieldsIn(ch.trip), "trip", "legs")
	legKeys := decode.Keys(decode.FieldsIn(&Leg{}))
	switch n := nested(c); {
	case first == "alignment":
		ch.wheelSetting(rest, n)
	case first == "fitted":
		ch.fit(rest, c.Value)
	case first == "shelf":
		ch.shelf(rest, c.Value)
	case first == "parts":
		ch.part(rest, c.Value)
	case first == "fit" && !dotted: // the trip's, at circuits
		ch.Mapping(n, "", tripFields)
		ch.loader.fits(*ch.trip, map[string]Position{})
	case slices.Contains(legKeys, first):
		ch.legs(first, rest, dotted, c.Value)
	case decode.Find(tripFields, first) != nil:
		ch.Mapping(n, "", tripFields)
	case decode.Find(carFields, first) != nil:
		ch.Mapping(n, "", carFields)
		ch.recheck(map[string]Position{})
	case decode.Find(modelFields, first) != nil:
		ch.Mapping(n, "", modelFields)
		maps.Copy(model.Sources, ch.Sources)
	default:
		known := slices.Concat([]string{"alignment", "fitted", "shelf", "parts"}, legKeys, decode.Keys(tripFields), decode.Keys(carFields), decode.Keys(modelFields))
		ch.Errs.Add(Position{}, nearest.Unknown("key", first, known), "a key of the car, the trip, its legs, the parts or the model",
			"such as alignment.LR.toe, fitted.pads-front, pace, distance.1, costs.stranded or safety.cap")
	}
}

func nested(c Change) *yaml.Node {
	n := scalarNode(c.Value)
	parts := strings.Split(c.Key, ".")
	for _, key := range slices.Backward(parts) {
		n = &yaml.Node{Kind: yaml.MappingNode, Tag: "!!map", Content: []*yaml.Node{scalarNode(key), n}}
	}
	return n
}

func scalarNode(s string) *yaml.Node {
	inner, open := strings.CutPrefix(s, "[")
	inner, shut := strings.CutSuffix(inner, "]")
	if !open || !shut {
		return &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!str", Value: s}
	}
	n := &yaml.Node{Kind: yaml.SequenceNode, Tag: "!!seq"}
	for item := range strings.SplitSeq(inner, ",") {
		n.Content = append(n.Content, scalarNode(strings.TrimSpace(item)))
	}
	return n
}

// alignable are the places of an alignment's changes.
var alignable = append(slices.Clone(wheels), "front", "rear", "all")

// wheelSetting changes the camber or the toe of a wheel, or of each wheel of
// an axle.
func (ch changer) wheelSetting(key string, n *yaml.Node) {
	which, setting, _ := strings.Cut(key, ".")
	which = cmp.Or(logbook.OneOf(alignable, which), which)
	at := logbook.Entry{Place: which}.At() // an axle's wheels, or the one
	if which == "all" {
		at = wheels
	}
	switch {
	case !slices.Contains(alignable, which):
		ch.Errs.Add(Position{}, nearest.Unknown("place", which, alignable), nearest.OneOf(alignable), "such as alignment.LR.toe=0.2deg")
		return
	case setting == "":
		ch.Errs.Add(Position{}, "alignment of "+which+" without a setting", "camber or toe", "such as alignment."+which+".toe=0.2deg")
		return
	}
	car := &ch.loader.folder.Car
	out := maps.Clone(car.Alignment)
	if out == nil {
		out = Alignments{}
	}
	inner := n.Content[1].Content[1]
	for _, wheel := range at {
		before := len(*ch.Errs)
		var s wheelSetting
		s.Camber, s.Toe.angle = out[wheel].Camber, out[wheel].Toe
		ch.Mapping(inner, "", decode.FieldsIn(&s)[:2])
		if len(*ch.Errs) > before {
			return
		}
		if s.Toe.linear {
			ch.Errs.Add(Position{}, "toe is a difference without a diameter", "an angle, such as 0.2 deg", "")
			return
		}
		out[wheel] = Alignment{Camber: s.Camber, Toe: s.Toe.angle}
	}
	car.Alignment = out
}

func (ch changer) shelf(id, value string) {
	before := len(*ch.Errs)
	if _, ok := ch.loader.resolve(map[string]Position{}, "", id); !ok {
		if len(*ch.Errs) == before {
			ch.Errs.Add(Position{}, "shelf without a part", "shelf.PART=NUMBER", "")
		}
		return
	}
	spare := Spare{Part: id}
	ch.Mapping(nested(Change{"quantity", value}), "", decode.FieldsIn(&spare))
	car := &ch.loader.folder.Car
	car.Shelf = slices.DeleteFunc(slices.Clone(car.Shelf), func(s Spare) bool { return s.Part == id })
	car.Shelf = append(car.Shelf, spare)
}

func (ch changer) part(key, value string) {
	id, rest, _ := strings.Cut(key, ".")
	folder := ch.loader.folder
	p, ok := folder.Parts[id]
	if !ok {
		ch.Errs.Fault(Position{}, folder.unfit(id)[0])
		return
	}
	p = p.Clone()
	ch.Mapping(nested(Change{rest, value}), "", decode.Except(p.Fields(), "id", "class", "name"))
	maps.Copy(p.Sources, ch.Sources)
	p.Printed()
	if len(*ch.Errs) == 0 {
		ch.loader.checkPart(&p, map[string]Position{}, Position{})
	}
	folder.Parts[id] = p
}

// legs changes a key of one leg, or of every leg that has it.
func (ch changer) legs(key, which string, one bool, value string) {
	var have []int
	var names []string
	for i, leg := range ch.trip.Legs {
		f := decode.Find(decode.FieldsIn(&ch.trip.Legs[i]), key)
		if slices.Contains(f.On, string(leg.Kind)) {
			have = append(have, i)
			names = append(names, slug(leg.Name))
		}
	}
	if len(have) == 0 {
		ch.Errs.Add(Position{}, fmt.Sprintf("no leg of the trip has the key %q", key), "a key that a leg of the trip may have", "")
		return
	}
	if one {
		picked := ch.pick(which, have, names)
		if len(picked) == 0 {
			ch.Errs.Add(Position{}, nearest.Unknown("leg", which, names), fmt.Sprintf("a number from 1 to %d, or one of %s", len(have), nearest.List(names)), "")
			return
		}
		have = picked
	}
	for _, i := range have {
		leg := &ch.trip.Legs[i]
		before := len(*ch.Errs)
		ch.Mapping(nested(Change{key, value}), "", decode.FieldsIn(leg))
		if len(*ch.Errs) > before {
			return // the other legs would say the same
		}
		switch leg.Kind {
		case RoadLeg:
			ch.loader.surface(leg, Position{})
		case CircuitLeg:
			ch.loader.visit(leg, map[string]Position{}, "")
		}
		ch.loader.fits(*ch.trip, map[string]Position{})
		if len(*ch.Errs) > before {
			return
		}
	}
}

// pick finds legs by their number among those that have the key, or by name.
func (ch changer) pick(which string, have []int, names []string) []int {
	if k, err := strconv.Atoi(which); err == nil {
		if k < 1 || k > len(have) {
			return nil
		}
		return have[k-1 : k]
	}
	var out []int
	for k, i := range have {
		leg := ch.trip.Legs[i]
		if names[k] == slug(which) || leg.Kind == CircuitLeg && slug(ch.loader.folder.Circuits[leg.Name].Name) == slug(which) {
			out = append(out, i)
		}
	}
	return out
}

// slug is a name without capitals and spaces: "Home to Heron Flats" is
// home-to-heron-flats.
func slug(name string) string {
	return strings.Join(strings.FieldsFunc(strings.ToLower(name), func(r rune) bool { return r == ' ' || r == '-' || r == '_' }), "-")
}
