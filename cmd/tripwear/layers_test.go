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

// rooms says which of our own rooms a room may import, by the longest name that
// fits, and which libraries it may not. Arrows run one way: cmd, planner, then
// profiles and wearmodel; within planner report and workbook, the use cases,
// lists, decision and learning, projection, trip, plan, kind.
var rooms = []room{
	{"wearmodel", []string{"wearmodel"}, []string{"os", "io", "go.yaml.in", "github.com/xuri", "github.com/spf13", "github.com/rs"}},
	{"wearmodel/duty/realcircuits", []string{"wearmodel"}, nil},
	{"profiles", []string{"profiles"}, []string{"github.com/xuri", "github.com/spf13", "github.com/rs"}},
	{"profiles/decode", []string{"profiles/logbook", "profiles/nearest", "profiles/quantity", "profiles/durable", "profiles/sheet"}, []string{"github.com/xuri", "github.com/spf13", "github.com/rs"}},
	{"profiles/parts", []string{"profiles/decode", "profiles/logbook", "profiles/quantity"}, []string{"github.com/xuri", "github.com/spf13", "github.com/rs"}},
	{"profiles/garage", []string{"profiles"}, []string{"github.com/spf13", "github.com/rs"}},
	{"profiles/sheet/pack", []string{"profiles/sheet"}, []string{"github.com/spf13", "github.com/rs"}},
	{"planner", []string{"planner", "profiles", "wearmodel"}, noIO},
	{"planner/labreport", []string{"profiles", "wearmodel"}, noIO},
	{"planner/kind", []string{"planner/labreport", "profiles", "wearmodel"}, noIO},
	{"planner/plan", []string{"planner/kind", "profiles", "wearmodel"}, noIO},
	{"planner/trip", []string{"planner/plan", "planner/kind", "planner/labreport", "profiles", "wearmodel"}, noIO},
	{"planner/projection", []string{"planner/trip", "planner/plan", "planner/kind", "profiles", "wearmodel"}, noIO},
	{"planner/knapsack", nil, noIO},
	{"planner/decision", []string{"planner/projection", "planner/trip", "planner/plan", "planner/kind", "planner/knapsack", "profiles", "wearmodel"}, noIO},
	{"planner/learning", []string{"planner/projection", "planner/trip", "planner/plan", "planner/kind", "profiles", "wearmodel"}, noIO},
	{"planner/lists", []string{"planner/decision", "planner/projection", "planner/trip", "planner/plan", "planner/kind", "profiles", "wearmodel"}, noIO},
	{"planner/circuits", []string{"planner/learning", "planner/projection", "planner/trip", "planner/plan", "planner/kind", "profiles", "wearmodel"}, noIO},
	{"planner/standing", []string{"planner/trip", "planner/plan", "planner/kind", "profiles", "wearmodel"}, noIO},
	{"planner/remedy", []string{"planner/decision", "planner/plan", "planner/kind", "profiles"}, noIO},
	{"planner/worth", []string{"planner/decision", "planner/projection", "planner/trip", "planner/plan", "profiles"}, noIO},
	{"planner/answer", []string{"planner/plan", "planner/kind", "profiles"}, noIO},
	{"planner/season", []string{"planner/decision", "planner/plan"}, noIO},
	{"planner/page", []string{"profiles/quantity"}, noIO},
	{"planner/calendar", []string{"planner/page", "planner/plan", "profiles"}, noIO},
	{"planner/screen", []string{"planner/page", "planner/plan", "planner/kind", "profiles"}, noIO},
	{"planner/picture", []string{"planner/page", "planner/plan", "profiles", "wearmodel"}, noIO},
	{"planner/report", []string{"planner/report", "planner/page", "planner/plan", "planner/kind", "planner/labreport", "profiles", "wearmodel"}, noIO},
	{"planner/entries", []string{"planner/standing", "planner/trip", "planner/plan", "profiles"}, noIO},
	{"planner/card", []string{"planner/plan", "planner/kind", "profiles", "wearmodel"}, noIO},
	{"planner/yearbook", []string{"planner/plan", "planner/kind", "profiles"}, noIO[1:]},
	{"planner/roadside", []string{"planner/card", "planner/page", "planner/plan", "planner/kind", "profiles", "wearmodel"}, noIO},
	{"planner/partsbook", []string{"planner/plan", "profiles"}, noIO[1:]},
	{"planner/workbook/varied", []string{"planner/workbook/expr"}, noIO},
	{"planner/workbook/form", []string{"planner/workbook/expr", "planner/plan", "planner/kind", "profiles"}, noIO},
	{"planner/workbook", []string{"planner/workbook", "planner/card", "planner/plan", "planner/kind", "planner/labreport", "profiles", "wearmodel"}, noIO[1:]},
	{"cmd/tripwear/round", []string{"cmd/tripwear/terminal", "planner/standing", "profiles"}, []string{"github.com/xuri", "go.yaml.in"}},
	{"cmd/tripwear/config", []string{"cmd/tripwear/terminal", "planner", "profiles"}, []string{"github.com/xuri", "go.yaml.in"}},
	{"cmd/tripwear/intake", []string{"cmd/tripwear/terminal", "planner/workbook", "profiles"}, []string{"github.com/xuri", "go.yaml.in"}},
	{"cmd/tripwear/terminal", []string{"planner/page", "profiles"}, []string{"github.com/xuri", "go.yaml.in"}},
	{"cmd/tripwear/build", nil, []string{"github.com"}},
	{"cmd/tripwear/topics", []string{"profiles"}, []string{"github.com"}},
	{"cmd/tripwear/guide", []string{"cmd/tripwear/terminal", "cmd/tripwear/topics", "planner/page", "profiles/durable"}, []string{"github.com/xuri", "go.yaml.in"}},
	{"cmd/tripwear/complete", []string{"cmd/tripwear/guide", "planner/circuits", "profiles"}, []string{"github.com/xuri", "go.yaml.in"}},
	{"cmd/tripwear/itinerary", []string{"cmd/tripwear/terminal", "planner/trip", "profiles"}, []string{"github.com/xuri", "go.yaml.in"}},
	{"cmd", []string{"cmd/tripwear/build", "cmd/tripwear/complete", "cmd/tripwear/round", "cmd/tripwear/config", "cmd/tripwear/intake", "cmd/tripwear/itinerary", "cmd/tripwear/guide", "cmd/tripwear/terminal", "cmd/tripwear/topics", "planner", "profiles"}, []string{"github.com/xuri", "go.yaml.in"}},
}

type room struct {
	name   string
	own    []string
	banned []string
}

var noIO = []string{"github.com/xuri", "github.com/spf13", "github.com/rs", "go.yaml.in"}

// TestLayers keeps the rooms apart: it reads the imports of every file. Tests
// may use any library and the room above them, but no room of ours that their
// outermost room may not.
func TestLayers(t *testing.T) {
	root := os.DirFS("../..")
	files := map[string]int{}
	for _, top := range []string{"wearmodel", "profiles", "planner", "cmd"} {
		err := fs.WalkDir(root, top, func(name string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() || !strings.HasSuffix(name, ".go") {
				return err
			}
			rule := rooms[slices.IndexFunc(rooms, func(r room) bool { return r.name == top })]
			test := strings.HasSuffix(name, "_test.go")
			for _, r := range rooms {
				if !test && len(r.name) > len(rule.name) && strings.HasPrefix(name, r.name+"/") {
					rule = r
				}
			}
			if !test {
				files[rule.name]++
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
				if ours, ok := strings.CutPrefix(imported, module); ok && !slices.ContainsFunc(rule.own, func(own string) bool {
					return ours == own || strings.HasPrefix(ours, own+"/")
				}) {
					t.Errorf("%s imports %s: %s may import only %v", name, imported, rule.name, rule.own)
				}
				for _, b := range rule.banned {
					if !test && (imported == b || strings.HasPrefix(imported, b+"/")) {
						t.Errorf("%s imports %s, which has no place in %s", name, imported, rule.name)
					}
				}
			}
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	for _, r := range rooms {
		if files[r.name] == 0 {
			t.Errorf("no files in %s", r.name)
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
