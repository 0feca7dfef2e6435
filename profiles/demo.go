package profiles

import (
	"embed"
	"io/fs"
	"slices"

	"example.com/tripwear/profiles/nearest"
)

//go:embed all:demo
var demoFiles embed.FS

// DemoNames lists the embedded car folders, the first one first.
func DemoNames() []string { return []string{"juniper", "fjord"} }

// Demo is an embedded car folder to load or to copy.
func Demo(name string) (fs.FS, error) {
	if !slices.Contains(DemoNames(), name) {
		return nil, Errors{{What: nearest.Unknown("demo", name, DemoNames()), Expected: nearest.OneOf(DemoNames())}}
	}
	return fs.Sub(demoFiles, "demo/"+name)
}
