package profiles

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"example.com/tripwear/profiles/quantity"
)

// wheels are the places of a car, in the order of a walk round it.
var wheels = []string{"LF", "RF", "LR", "RR"}

// placesOf lists where a kind of part can be.
func placesOf(k Kind) []string {
	switch k {
	case Oil:
		return []string{"engine"}
	case Fluid:
		return []string{"system"}
	default:
		return wheels
	}
}

// fitted checks what is on the car and on the shelf against the parts.
func (l *loader) fitted(where map[string]Position, carOK bool) {
	holder := map[Kind]map[string]int{}
	whole := carOK
	for i := range l.folder.Car.Fitted {
		part, ok := l.resolve(where, fmt.Sprintf("fitted[%d].part", i), l.folder.Car.Fitted[i].Part)
		if !ok {
			whole = false
			continue
		}
		before := len(l.errs)
		l.entry(where, i, part, holder)
		whole = whole && len(l.errs) == before
	}
	for i, s := range l.folder.Car.Shelf {
		l.resolve(where, fmt.Sprintf("shelf[%d].part", i), s.Part)
	}
	if whole {
		l.covered(where["fitted"], holder)
		l.pairs(where, holder)
	}
}

// resolve finds a part that the car names. It is silent where the error lies
// with the part itself.
func (l *loader) resolve(where map[string]Position, path, id string) (Part, bool) {
	part, ok := l.folder.Parts[id]
	switch {
	case id == "" || l.broken[id] || !ok && l.broken["*"]:
		return Part{}, false
	case !ok:
		ids := slices.Sorted(maps.Keys(l.folder.Parts))
		own := slices.DeleteFunc(slices.Clone(ids), func(id string) bool { return l.folder.Parts[id].Class == id })
		l.errs.add(where[path], unknown("part", id, ids), "an id of parts.yaml or a stock part", "parts.yaml has "+oneOf(own))
		return Part{}, false
	}
	if lacks := part.lacks(); len(lacks) > 0 {
		l.errs.add(where[path], fmt.Sprintf("stock part %q lacks %s", id, list(lacks)), "a part of your own that has them", fmt.Sprintf("write {id: my-part, class: %s, %s: ...} in parts.yaml", id, lacks[0]))
		return Part{}, false
	}
	return part, true
}

// entry checks one fitted part.
func (l *loader) entry(where map[string]Position, i int, part Part, holder map[Kind]map[string]int) {
	path := fmt.Sprintf("fitted[%d]", i)
	e := &l.folder.Car.Fitted[i]
	allowed := placesOf(part.Kind)
	if holder[part.Kind] == nil {
		holder[part.Kind] = map[string]int{}
	}
	for j, at := range e.At {
		pos := where[fmt.Sprintf("%s.at[%d]", path, j)]
		if at == "" {
			continue // an unknown word, reported
		}
		if !slices.Contains(allowed, at) {
			l.errs.add(pos, fmt.Sprintf("%s cannot be at %s", part.describe(), at), oneOf(allowed), "")
			continue
		}
		if other, taken := holder[part.Kind][at]; taken {
			l.errs.add(pos, fmt.Sprintf("a second %s at %s", part.Kind, at), "one at each place",
				fmt.Sprintf("the first is %s in line %d", l.folder.Car.Fitted[other].Part, where[fmt.Sprintf("fitted[%d]", other)].Line))
			continue
		}
		holder[part.Kind][at] = i
	}
	if e.Since.Odometer > l.folder.Car.Odometer && l.folder.Car.Odometer > 0 {
		l.errs.add(where[path+".since.odometer"], "since.odometer is past the car's odometer", fmt.Sprintf("at most %s", quantity.Distance[quantity.US].Text(float64(l.folder.Car.Odometer))+" ("+quantity.Distance[quantity.Metric].Text(float64(l.folder.Car.Odometer))+")"), "")
	}
	if _, dated := where[path+".since.date"]; !dated && (part.Kind == Oil || part.Kind == Fluid) {
		l.errs.add(where[path], fmt.Sprintf("%s has no since.date", part.describe()), "the date of the fill, which ages with time", "")
	}
	l.measured(where, path, e, part)
}

// measured checks the readings of a fitted part.
func (l *loader) measured(where map[string]Position, path string, e *Fitted, part Part) {
	own := map[string]bool{
		"tread": part.Kind == Tire, "pad": part.Kind == Pads, "thickness": part.Kind == Rotors,
		"used": part.Kind == Rotors || part.Kind == Bearing, "water": part.Kind == Fluid,
		"face": part.Kind == Rotors, "feel": part.Kind == Bearing, "lining": part.Kind == Pads,
		"found": part.Kind == Tire, "built": part.Kind == Tire, "probe": part.Kind == Tire,
		"colour": part.Kind == Fluid, "pedal": part.Kind == Fluid,
	}
	for _, key := range slices.Sorted(maps.Keys(own)) {
		if pos, given := where[path+"."+key]; given && !own[key] {
			l.errs.add(pos, fmt.Sprintf("key %q is not for %s, which is of kind %s", key, part.describe(), part.Kind), "readings of its kind", "")
		}
	}
	reading := func(key, place string, v, most quantity.Length, name string) {
		p := join(join(path, key), place)
		if !slices.Contains(e.At, place) {
			l.errs.add(where[p], fmt.Sprintf("a reading at %s, where this part is not", place), oneOf(e.At), "")
		}
		if v > most {
			l.errs.add(where[p], fmt.Sprintf("%s at %s is more than new", key, place), fmt.Sprintf("at most %s (%s)", quantity.Thickness[quantity.Metric].Text(float64(most)), quantity.Tread[quantity.US].Text(float64(most))),
				fmt.Sprintf("measure again, or correct %s of %s", name, part.describe()))
		}
	}
	for _, place := range wheels {
		if depths, ok := e.Tread[place]; ok && part.Kind == Tire {
			if len(depths) != 3 {
				l.errs.add(where[path+".tread."+place], fmt.Sprintf("tread at %s has %d values", place, len(depths)), "three: inside, middle, outside", "")
			}
			for _, v := range depths {
				if v > part.Tire.NewDepth {
					reading("tread", place, v, part.Tire.NewDepth, "new_depth")
					break
				}
			}
			if !slices.Contains(e.At, place) {
				reading("tread", place, 0, 0, "")
			}
		}
		if v, ok := e.Pad[place]; ok && part.Kind == Pads {
			reading("pad", place, v, part.Pads.NewDepth, "new_depth")
		}
		if v, ok := e.Thickness[place]; ok && part.Kind == Rotors {
			reading("thickness", place, v, part.Rotors.NewThickness, "new_thickness")
		}
		if _, ok := e.Used[place]; ok {
			reading("used", place, 0, 0, "")
		}
		for key, found := range map[string]map[string]string{"face": e.Face, "feel": e.Feel, "found": e.Found, "built": e.Built, "lining": e.Lining} {
			if _, ok := found[place]; ok && own[key] {
				reading(key, place, 0, 0, "")
			}
		}
		if heat, ok := e.Probe[place]; ok && part.Kind == Tire {
			reading("probe", place, 0, 0, "")
			if len(heat) != 3 {
				l.errs.add(where[path+".probe."+place], fmt.Sprintf("probe at %s has %d values", place, len(heat)), "three: inside, middle, outside", "")
			}
		}
	}
}

// covered reports the places that carry no part of a kind.
func (l *loader) covered(pos Position, holder map[Kind]map[string]int) {
	for _, k := range []Kind{Tire, Pads, Rotors, Bearing, Oil, Fluid} {
		var bare []string
		for _, at := range placesOf(k) {
			if _, ok := holder[k][at]; !ok {
				bare = append(bare, at)
			}
		}
		if len(bare) > 0 {
			l.errs.add(pos, fmt.Sprintf("no %s fitted at %s", k, strings.Join(bare, ", ")), "one at each place", "list it under fitted with part, at and since")
		}
	}
}

// pairs reports axles whose two wheels carry different parts of a set.
func (l *loader) pairs(where map[string]Position, holder map[Kind]map[string]int) {
	for _, k := range []Kind{Tire, Pads, Rotors} {
		for i := 0; i < len(wheels); i += 2 {
			left, okLeft := holder[k][wheels[i]]
			right, okRight := holder[k][wheels[i+1]]
			if !okLeft || !okRight {
				continue
			}
			a, b := l.folder.Car.Fitted[left].Part, l.folder.Car.Fitted[right].Part
			if a != b {
				l.errs.add(where[fmt.Sprintf("fitted[%d].part", max(left, right))],
					fmt.Sprintf("%s of %s and %s differ: %s and %s", k, wheels[i], wheels[i+1], a, b), "the same part on both wheels of an axle", "they are replaced together, as a set")
			}
		}
	}
}
