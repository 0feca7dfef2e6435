package parts

import (
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
	Rated    bool      // its readings teach how fast it wears
	Swaps    bool      // a used one can lie aside and go on again, in the paddock too
	Readings []Reading // what is measured of it or found on it
	Limited  *Limited  // of a kind whose parts have limits and no physics; nil for the rest

	block func(*Part) any      // the address of the field that holds its values
	print func(*Part, owned)   // puts in what follows from what is printed on it; nil where nothing does
	Check func(*Part, Expect)  // checks its values against one another; nil where none bounds another
	lacks func(*Part) []string // what else a part leaves to its owner; nil where that is its needed keys
}

// Expect reports what is not ok at the first of the keys that is given.
type Expect func(ok bool, what, expected string, keys ...string)

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
	NewKey string                      // that level's key in parts.yaml
	Gauge  func(Gauge) quantity.Length // one standard deviation
}

// Kinds is the table of the kinds of part, in the order of a walk round the car.
func Kinds() []KindInfo { return kinds }

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
	k, _, ok := ReadingOf(w)
	return k.Kind, ok
}

// ReadingOf is the reading that a row of the logbook gives, and whose it is.
func ReadingOf(w logbook.What) (KindInfo, Reading, bool) {
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

// Has says whether the kind has a key of fitted.
func (k KindInfo) Has(key string) bool {
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

// Places lists where a part of any kind can be.
func Places() []string {
	var out []string
	for _, k := range kinds {
		out = Union(out, k.Places())
	}
	return out
}

// FittedKeys lists the keys of fitted that are some kind's own, sorted.
func FittedKeys() []string {
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

// Finds lists what may be found under a key of fitted: on the kind, or on any
// where the kind has no such key.
func (k KindInfo) Finds(key string) []string {
	of := []KindInfo{k}
	if !k.Has(key) {
		of = kinds
	}
	var out []string
	for _, k := range of {
		for _, r := range k.Readings {
			if r.Key == key {
				out = Union(out, r.Words())
			}
		}
	}
	return out
}

// Union is a with the words of b that it lacks.
func Union(a, b []string) []string {
	for _, word := range b {
		if !slices.Contains(a, word) {
			a = append(a, word)
		}
	}
	return a
}

// Gauge is how well the owner measures: one standard deviation.
type Gauge struct {
	Tread quantity.Length `range:"0.01 mm to 2 mm" doc:"how well you measure: two readings in three fall within this; left out, 0.2 mm"`
	Pad   quantity.Length `range:"0.01 mm to 3 mm" doc:"the same of pads; left out, 0.3 mm"`
}
