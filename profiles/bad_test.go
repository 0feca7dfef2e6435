package profiles

import (
	"flag"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/google/go-cmp/cmp"

	"example.com/tripwear/profiles/faulty"
	"example.com/tripwear/profiles/nearest"
)

var update = flag.Bool("update", false, "write the messages into testdata/bad; read them before you commit")

const badDir = "../testdata/bad"

// lay puts an archive over the minimal folder.
func lay(t *testing.T, over faulty.Archive) fstest.MapFS {
	t.Helper()
	base, err := faulty.Read(badDir, faulty.Base)
	if err != nil {
		t.Fatal(err)
	}
	files, err := over.Over(base)
	if err != nil {
		t.Fatal(err)
	}
	return files
}

// edit changes files as the archives do.
func edit(t *testing.T, files fstest.MapFS, script string) {
	t.Helper()
	if err := faulty.Edit(files, script); err != nil {
		t.Fatal(err)
	}
}

// told is what an owner sees of an error.
func told(err error) string {
	var b strings.Builder
	bad, _ := err.(Errors)
	for _, e := range bad {
		b.WriteString(e.Error() + "\n")
		if e.Hint != "" {
			b.WriteString("  hint: " + e.Hint + "\n")
		}
	}
	return b.String()
}

// Every archive in testdata/bad is a folder with faults and the messages that
// must be told about them, word for word. A file of another form is an error.
func TestBadFolders(t *testing.T) {
	if _, err := Load(lay(t, faulty.Archive{})); err != nil {
		t.Fatalf("the minimal folder has errors:\n%v", err)
	}
	c, err := stock()
	if err != nil {
		t.Fatal(err)
	}
	stockIDs := slices.Sorted(maps.Keys(c.parts))
	entries, err := os.ReadDir(badDir)
	if err != nil {
		t.Fatal(err)
	}
	if len(entries) < 41 {
		t.Fatalf("%d files in %s", len(entries), badDir)
	}
	for _, e := range entries {
		name := e.Name()
		if name == faulty.Base {
			continue
		}
		if filepath.Ext(name) != ".txtar" {
			t.Errorf("%s: not an archive, so nothing tests it", name)
			continue
		}
		t.Run(strings.TrimSuffix(name, ".txtar"), func(t *testing.T) {
			over, err := faulty.Read(badDir, name)
			if err != nil {
				t.Fatal(err)
			}
			folder, err := Load(lay(t, over))
			if err == nil || folder != nil {
				t.Fatal("a folder with faults loads")
			}
			got := strings.ReplaceAll(told(err), nearest.List(stockIDs), "ALL OF THEM")
			if *update {
				over.Expect(got)
				if err := os.WriteFile(filepath.Join(badDir, name), []byte(over.String()), 0o644); err != nil {
					t.Fatal(err)
				}
			}
			if diff := cmp.Diff(over.Want(), got); diff != "" {
				t.Errorf("messages differ (- wanted, + got):\n%s", diff)
			}
		})
	}
}
