package profiles

import (
	"fmt"
	"reflect"
	"slices"

	"go.yaml.in/yaml/v4"

	"example.com/tripwear/profiles/nearest"
)

// leg decodes a leg: the key road, circuit or stop names it and decides which
// other keys it may have.
func (d *decoder) leg(n *yaml.Node, path string, f field) {
	kinds := []string{string(RoadLeg), string(CircuitLeg), string(StopLeg)}
	const hint = "write {road: Home to the circuit, distance: 612 mi}, {circuit: heron-flats} or {stop: Workshop, can: [shop]}"
	if n.Kind != yaml.MappingNode {
		d.fail(n, "a leg is "+form(n), "a mapping with one of the keys "+nearest.OneOf(kinds), hint)
		return
	}
	leg := f.value.Addr().Interface().(*Leg)
	var given []string
	for i := 0; i+1 < len(n.Content); i += 2 {
		if key := n.Content[i].Value; slices.Contains(kinds, key) {
			given = append(given, key)
		}
	}
	if len(given) != 1 {
		what := "a leg without a kind"
		if len(given) > 1 {
			what = "a leg that is " + given[0] + " and " + given[1]
		}
		d.fail(n, what, "one of the keys "+nearest.OneOf(kinds), hint)
		return
	}
	leg.Kind = LegKind(given[0])
	name := field{key: given[0], value: reflect.ValueOf(&leg.Name).Elem(), need: true}
	own, other := []field{name}, []field(nil)
	for _, f := range fieldsOf(f.value) {
		if slices.Contains(f.on, given[0]) {
			own = append(own, f)
		} else {
			other = append(other, f)
		}
	}
	rest := *n
	rest.Content = nil
	for i := 0; i+1 < len(n.Content); i += 2 {
		key := n.Content[i]
		if f := find(other, key.Value); f != nil {
			d.fail(key, fmt.Sprintf("key %q is not for a %s leg", key.Value, given[0]), nearest.OneOf(keys(own)), fmt.Sprintf("it belongs to a %s leg", nearest.OneOf(f.on)))
			continue
		}
		rest.Content = append(rest.Content, key, n.Content[i+1])
	}
	d.mapping(&rest, path, own)
}
