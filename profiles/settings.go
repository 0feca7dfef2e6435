package profiles

import (
	"fmt"
	"io/fs"
	"slices"

	"go.yaml.in/yaml/v4"

	"example.com/tripwear/profiles/nearest"
)

// ReadSettings reads a file of settings, a mapping of the keys to single
// values, which it returns as they are written. Its error is Errors.
func ReadSettings(fsys fs.FS, file string, known []string) (Sources, error) {
	var errs Errors
	root := document(fsys, file, &errs)
	if root == nil {
		return nil, errs.sorted()
	}
	d := newDecoder(file, &errs)
	if root.Kind != yaml.MappingNode {
		d.fail(root, "the file is "+form(root), "a mapping with the keys "+nearest.List(known), "write a line such as units: metric")
		return nil, errs.sorted()
	}
	for key, value := range pairs(root) {
		switch {
		case !slices.Contains(known, key.Value):
			d.fail(key, nearest.Unknown("key", key.Value, known), nearest.OneOf(known), "")
		case empty(value): // reported with the document
		case value.Kind != yaml.ScalarNode:
			d.fail(value, fmt.Sprintf("%s is %s", key.Value, form(value)), "a single value", "")
		default:
			d.sources[key.Value] = Source{Value: value.Value, Tag: "owner", Position: at(file, value)}
		}
	}
	return d.sources, errs.sorted()
}
