package keys

import (
	"errors"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/google/go-cmp/cmp"

	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/faulty"
)

// The keys listed are those that the readers themselves name when they meet
// one that they do not know, file by file.
func TestFileKeys(t *testing.T) {
	listed := map[string][]string{}
	for _, k := range All() {
		for _, key := range k.Keys {
			outer, _, _ := strings.Cut(key.Path, ".")
			if !slices.Contains(listed[k.Of], outer) {
				listed[k.Of] = append(listed[k.Of], outer)
			}
		}
	}
	for _, g := range All() {
		for _, k := range g.Keys {
			if k.Doc == "" && k.Single() && !strings.HasPrefix(g.Of, "a leg of ") {
				t.Errorf("nothing is said of %s in %s", k.Path, g.Of)
			}
		}
	}
	if len(listed) != 24 {
		t.Errorf("%d lists", len(listed))
	}
	for of, put := range map[string]struct{ file, old, new string }{
		"car.yaml":           {"car.yaml", "name: Juniper", "name: Juniper\nzzz: 1"},
		"alignment by wheel": {"car.yaml", "LF: {camber: ", "LF: {zzz: 1, camber: "},
		"alignment by axle":  {"car.yaml", "  LF: {camber: ", "  front: {zzz: 1}\n  LF: {camber: "},
		"each of fitted":     {"car.yaml", "  - part: tires-front", "  - zzz: 1\n    part: tires-front"},
		"each of shelf":      {"car.yaml", "{part: oil, ", "{zzz: 1, part: oil, "},
		"circuits/ID.yaml":   {"circuits/quarry-ridge.yaml", "name:", "zzz: 1\nname:"},
		"each of corners":    {"circuits/heron-flats.yaml", "{straight: 582.646 m,", "{zzz: 1, straight: 582.646 m,"},
		"trips/ID.yaml":      {"trips/spring.yaml", "\ndepart:", "\nzzz: 1\ndepart:"},
		"a leg of road":      {"trips/spring.yaml", "{road: Home", "{zzz: 1, road: Home"},
		"a leg of circuit":   {"trips/spring.yaml", "{circuit: heron", "{zzz: 1, circuit: heron"},
		"a leg of stop":      {"trips/spring.yaml", "{stop: ", "{zzz: 1, stop: "},
		"model.yaml":         {"model.yaml", "", "zzz: 1\n"},
		"oil/ID.yaml":        {"oil/2026-08.yaml", "sampled:", "zzz: 1\nsampled:"},
		"rates/ID.yaml":      {"rates/a.yaml", "", "rates: \"00000001\"\nzzz: 1\n"},
		"each of sets":       {"rates/a.yaml", "", "rates: \"00000001\"\nsets: [{zzz: 1}]\n"},
		"logbook.csv":        {"logbook.csv", "", "zzz\n1\n"},
		"and of tire":        {"parts.yaml", "class: tire-200", "class: tire-200\n    zzz: 1"},
	} {
		err := loadWith(t, put.file, put.old, put.new)
		var bad profiles.Errors
		if !errors.As(err, &bad) {
			t.Errorf("%s: %v", of, err)
			continue
		}
		k := slices.IndexFunc(bad, func(e *profiles.Error) bool { return strings.Contains(e.What, "zzz") })
		if k < 0 {
			t.Errorf("%s: no word of zzz in %v", of, err)
			continue
		}
		want := strings.Split(strings.Replace(bad[k].Expected, " or ", ", ", 1), ", ")
		have := listed[of]
		if of == "and of tire" {
			have = append(slices.Clone(listed["each of parts.yaml"]), have...)
		}
		if diff := cmp.Diff(slices.Sorted(slices.Values(want)), slices.Sorted(slices.Values(have))); diff != "" {
			t.Errorf("%s: the reader's keys and those listed (-reader +listed):\n%s", of, diff)
		}
	}
}

// loadWith loads the demo with a change of one file.
func loadWith(t *testing.T, file, old, new string) error {
	t.Helper()
	demo, err := profiles.Demo("juniper")
	if err != nil {
		t.Fatal(err)
	}
	files := faulty.Copy(t, demo)
	was := ""
	if f := files[file]; f != nil {
		was = string(f.Data)
	}
	if !strings.Contains(was, old) {
		t.Fatalf("%s has no %q", file, old)
	}
	files[file] = &fstest.MapFile{Data: []byte(strings.Replace(was, old, new, 1))}
	_, err = profiles.Load(files)
	return err
}
