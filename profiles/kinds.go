package profiles

import (
	"reflect"
	"slices"

	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/quantity"
)

// KindInfo is a row of the table of kinds: what is known of a kind of part.
type KindInfo struct {
	Kind
	Plural   string    // what all of them on a car are called
	Sets     []Set     // in the order of a walk round the car
	Needed   bool      // every car has one at each of its places
	Dated    bool      // it ages by the calendar, so its date is needed
	Fill     bool      // it is filled in: a replacement there need not name it
	Swaps    bool      // a used one can lie aside and go on again, in the paddock too
	Readings []Reading // what is measured of it or found on it
	Limited  *Limited  // of a kind whose parts have limits and no physics; nil for the rest

	block func(*Part) any      // the address of the field that holds its values
	print func(*Part, owned)   // puts in what follows from what is printed on it; nil where nothing does
	check func(*Part, expect)  // checks its values against one another; nil where none bounds another
	lacks func(*Part) []string // what else a part leaves to its owner; nil where that is its needed keys
}

// expect reports what is not ok at the first of the keys that is given.
type expect func(ok bool, what, expected string, keys ...string)

// Set is what is replaced together.
type Set struct {
	ID   string // such as tires-rear, hub-LF
	Name string // such as rear tires, LF hub bearing
	Kind Kind
	At   []string
}

// Reading is what is measured of a kind or found on it.
type Reading struct {
	Key  string       // in an item of fitted; "" where car.yaml does not hold it
	What logbook.What // "" where the logbook does not hold it

	// Of a level that wear takes down from what it is when new.
	New    func(*Part) quantity.Length
	NewKey string                     // that level's key in parts.yaml
	Gauge  func(*Car) quantity.Length // one standard deviation
}

// Kinds lists the kinds of part in the order of a walk round the car.
func Kinds() []KindInfo { return slices.Clone(kinds) }

// Info is the kind's row; one without sets where there is no such kind.
func (k Kind) Info() KindInfo {
	for _, info := range kinds {
		if info.Kind == k {
			return info
		}
	}
	return KindInfo{Kind: k, Plural: string(k)}
}

// Sets lists the sets that a car may have, in the order of a walk round it.
func Sets() []Set {
	var out []Set
	for _, k := range kinds {
		out = append(out, k.Sets...)
	}
	return out
}

// KindRead is the kind of part that a row of the logbook measures or looks at.
func KindRead(w logbook.What) (Kind, bool) {
	k, _, ok := readingOf(w)
	return k.Kind, ok
}

// readingOf is the reading that a row of the logbook gives, and whose it is.
func readingOf(w logbook.What) (KindInfo, Reading, bool) {
	for i := range kinds {
		for _, r := range kinds[i].Readings {
			if r.What == w {
				return kinds[i], r, true
			}
		}
	}
	return KindInfo{}, Reading{}, false
}

// Places lists where the kind can be.
func (k KindInfo) Places() []string {
	var out []string
	for _, s := range k.Sets {
		out = append(out, s.At...)
	}
	return out
}

func (k KindInfo) has(key string) bool {
	return slices.ContainsFunc(k.Readings, func(r Reading) bool { return r.Key == key })
}

func byAxle(k Kind, id, name string) []Set {
	return []Set{{id + "-front", "front " + name, k, wheels[:2]}, {id + "-rear", "rear " + name, k, wheels[2:]}}
}

func byWheel(k Kind, word, name string) []Set {
	var out []Set
	for _, w := range wheels {
		out = append(out, Set{word + "-" + w, w + " " + name, k, []string{w}})
	}
	return out
}

func single(k Kind, word, name, place string) []Set { return []Set{{word, name, k, []string{place}}} }

// wheels are the places of a car's wheels, in the order of a walk round it.
var wheels = logbook.Wheels

func places() []string {
	var out []string
	for _, k := range kinds {
		out = union(out, k.Places())
	}
	return out
}

// fittedKeys lists the keys of fitted that are some kind's own, sorted.
func fittedKeys() []string {
	var out []string
	for _, k := range kinds {
		for _, r := range k.Readings {
			if r.Key != "" {
				out = append(out, r.Key)
			}
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// Words lists what may be found, from good to bad; none where it is measured.
func (r Reading) Words() (words []string) {
	for _, f := range logbook.Findings(r.What) {
		words = append(words, string(f))
	}
	return words
}

// finds lists what may be found under a key of fitted: on the kind, or on any
// where the kind has no such key.
func (k KindInfo) finds(key string) []string {
	of := []KindInfo{k}
	if !k.has(key) {
		of = kinds
	}
	var out []string
	for _, k := range of {
		for _, r := range k.Readings {
			if r.Key == key {
				out = union(out, r.Words())
			}
		}
	}
	return out
}

// Words gives a key its words: the places of the kinds that have it, and what
// may be found on those.
func (e Fitted) Words(key string) (words, each []string) {
	finds := KindInfo{}.finds(key)
	switch {
	case key == "at":
		return places(), nil // where any kind may be
	case e.value(key).Kind() != reflect.Map:
		return finds, nil
	}
	for _, k := range kinds {
		if k.has(key) {
			words = union(words, k.Places())
		}
	}
	return words, finds
}

func union(a, b []string) []string {
	for _, word := range b {
		if !slices.Contains(a, word) {
			a = append(a, word)
		}
	}
	return a
}
