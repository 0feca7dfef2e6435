package main

import (
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"slices"
	"strconv"
	"strings"
	"testing"
)

const module = "example.com/tripwear/"

// allowed says which of our own rooms a room may import, and which libraries
// it may not. Arrows run one way: cmd, planner, then profiles and wearmodel.
var allowed = []struct {
	room   string
	own    []string
	banned []string
}{
	{"wearmodel", []string{"wearmodel"}, []string{"os", "io", "go.yaml.in", "github.com/xuri", "github.com/spf13", "github.com/rs"}},
	{"profiles", []string{"profiles"}, []string{"github.com/xuri", "github.com/spf13", "github.com/rs"}},
	{"planner", []string{"planner", "profiles", "wearmodel"}, []string{"github.com/spf13", "github.com/rs", "go.yaml.in"}},
	{"cmd", []string{"planner", "profiles"}, []string{"github.com/xuri", "go.yaml.in"}},
}

// TestLayers keeps the rooms apart: it reads the imports of every file. Tests
// may use any library, but no room of ours that their room may not.
func TestLayers(t *testing.T) {
	root := os.DirFS("../..")
	for _, rule := range allowed {
		files := 0
		err := fs.WalkDir(root, rule.room, func(name string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() || !strings.HasSuffix(name, ".go") {
				return err
			}
			test := strings.HasSuffix(name, "_test.go")
			if !test {
				files++
			}
			src, err := fs.ReadFile(root, name)
			if err != nil {
				return err
			}
			f, err := parser.ParseFile(token.NewFileSet(), name, src, parser.ImportsOnly)
			if err != nil {
				return err
			}
			for _, spec := range f.Imports {
				imported, _ := strconv.Unquote(spec.Path.Value)
				if ours, ok := strings.CutPrefix(imported, module); ok {
					room, _, _ := strings.Cut(ours, "/")
					if !slices.Contains(rule.own, room) {
						t.Errorf("%s imports %s: %s may import only %v", name, imported, rule.room, rule.own)
					}
				}
				for _, b := range rule.banned {
					if !test && (imported == b || strings.HasPrefix(imported, b+"/")) {
						t.Errorf("%s imports %s, which has no place in %s", name, imported, rule.room)
					}
				}
			}
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
		if files == 0 {
			t.Errorf("no files in %s", rule.room)
		}
	}
}

// TestTopLevel keeps the top of the tree to the names it is meant to have.
func TestTopLevel(t *testing.T) {
	want := []string{"DEVELOPERS.md", "Makefile", "README.md", "cmd", "go.mod", "go.sum", "planner", "profiles", "testdata", "wearmodel"}
	entries, err := os.ReadDir("../..")
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		name := path.Base(e.Name())
		if !strings.HasPrefix(name, ".") && !slices.Contains(want, name) && name != "plan.xlsx" && name != "tripwear" {
			t.Errorf("%s stands at the top level", name)
		}
	}
}
