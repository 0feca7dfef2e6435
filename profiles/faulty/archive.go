// Package faulty is what tests of faults share: the car folders of testdata/bad,
// a minimal sound one and what an archive changes in it, folders to be changed,
// and writers that are
// killed.
package faulty

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"golang.org/x/tools/txtar"
)

// Base is the archive that holds the minimal folder.
const Base = "base.txtar"

// Archive is a title and files in the txtar format. The file "want" holds
// messages, "edit" changes files of the base, and the others stand in the
// folder.
type Archive txtar.Archive

// Read reads an archive of the folder dir.
func Read(dir, name string) (Archive, error) {
	a, err := txtar.ParseFile(filepath.Join(dir, name))
	if err != nil {
		return Archive{}, err
	}
	return Archive(*a), nil
}

// String is the archive as it is written.
func (a Archive) String() string {
	plain := txtar.Archive(a)
	return string(txtar.Format(&plain))
}

// Want is the messages that the folder must give.
func (a Archive) Want() string {
	for _, f := range a.Files {
		if f.Name == "want" {
			return string(f.Data)
		}
	}
	return ""
}

// Expect puts messages in place of those that the folder must give.
func (a Archive) Expect(want string) {
	for i := range a.Files {
		if a.Files[i].Name == "want" {
			a.Files[i].Data = []byte(want)
		}
	}
}

// Over is the folder: the base with what the archive changes in it.
func (a Archive) Over(base Archive) (fstest.MapFS, error) {
	files := fstest.MapFS{}
	for _, f := range base.Files {
		files[f.Name] = &fstest.MapFile{Data: f.Data}
	}
	for _, f := range a.Files {
		switch f.Name {
		case "want":
		case "edit":
			if err := Edit(files, string(f.Data)); err != nil {
				return nil, err
			}
		default:
			files[f.Name] = &fstest.MapFile{Data: f.Data}
		}
	}
	return files, nil
}

// Edit applies lines of the form "file", "- line that goes", "+ line that
// comes". Several lines that go must follow one another.
func Edit(files fstest.MapFS, script string) error {
	var name, old, fresh string
	apply := func() error {
		if name == "" {
			return nil
		}
		f, ok := files[name]
		if !ok || !strings.Contains(string(f.Data), old) {
			return fmt.Errorf("%s has no line\n%s", name, old)
		}
		files[name] = &fstest.MapFile{Data: []byte(strings.Replace(string(f.Data), old, fresh, 1))}
		name, old, fresh = "", "", ""
		return nil
	}
	for line := range strings.Lines(script) {
		if rest, ok := strings.CutPrefix(line, "- "); ok {
			old += rest
		} else if rest, ok := strings.CutPrefix(line, "+ "); ok {
			fresh += rest
		} else {
			if err := apply(); err != nil {
				return err
			}
			name = strings.TrimSpace(line)
		}
	}
	return apply()
}

// Copy is files in a folder that a test may change.
func Copy(t testing.TB, of fs.FS) fstest.MapFS {
	t.Helper()
	files := fstest.MapFS{}
	err := fs.WalkDir(of, ".", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		data, err := fs.ReadFile(of, path)
		files[path] = &fstest.MapFile{Data: data}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return files
}

// Names lists a folder.
func Names(t testing.TB, folder string) []string {
	t.Helper()
	entries, err := os.ReadDir(folder)
	if err != nil {
		t.Fatal(err)
	}
	out := []string{}
	for _, e := range entries {
		out = append(out, e.Name())
	}
	return out
}
