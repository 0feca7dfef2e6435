package decode

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
	root := Document(fsys, file, ByHand, &errs)
	if root == nil {
		return nil, errs.Sorted()
	}
	d := New(file, &errs)
	if root.Kind != yaml.MappingNode {
		d.Fail(root, "the file is "+Form(root), "a mapping with the keys "+nearest.List(known), "write a line such as units: metric")
		return nil, errs.Sorted()
	}
	for key, value := range Pairs(root) {
		switch {
		case !slices.Contains(known, key.Value):
			d.Fail(key, nearest.Unknown("key", key.Value, known), nearest.OneOf(known), "")
		case Empty(value): // reported with the document
		case value.Kind != yaml.ScalarNode:
			d.Fail(value, fmt.Sprintf("%s is %s", key.Value, Form(value)), "a single value", "")
		default:
			d.Sources[key.Value] = Source{Value: value.Value, Tag: Owner, Position: At(file, value)}
		}
	}
	return d.Sources, errs.Sorted()
}
