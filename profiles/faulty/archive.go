// Package faulty lays out the car folders of testdata/bad for tests: a minimal
// sound folder, and what an archive changes in it.
package faulty

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing/fstest"
)

// Base is the archive that holds the minimal folder.
const Base = "base.txtar"

// Archive is a title and files, each after a line "-- name --": the txtar
// format. The file "want" holds messages, "edit" changes files of the base, and
// the others stand in the folder.
type Archive struct {
	title string
	files []file
}

type file struct{ name, text string }

// Read reads an archive of the folder dir.
func Read(dir, name string) (Archive, error) {
	data, err := os.ReadFile(filepath.Join(dir, name))
	if err != nil {
		return Archive{}, err
	}
	var a Archive
	for line := range strings.Lines(string(data)) {
		mark := strings.TrimSpace(line)
		switch {
		case len(mark) > 6 && strings.HasPrefix(mark, "-- ") && strings.HasSuffix(mark, " --"):
			a.files = append(a.files, file{name: mark[3 : len(mark)-3]})
		case len(a.files) == 0:
			a.title += line
		default:
			a.files[len(a.files)-1].text += line
		}
	}
	return a, nil
}

// String is the archive as it is written.
func (a Archive) String() string {
	s := a.title
	for _, f := range a.files {
		s += "-- " + f.name + " --\n" + f.text
	}
	return s
}

// Want is the messages that the folder must give.
func (a Archive) Want() string {
	for _, f := range a.files {
		if f.name == "want" {
			return f.text
		}
	}
	return ""
}

// Expect puts messages in place of those that the folder must give.
func (a Archive) Expect(want string) {
	for i := range a.files {
		if a.files[i].name == "want" {
			a.files[i].text = want
		}
	}
}

// Over is the folder: the base with what the archive changes in it.
func (a Archive) Over(base Archive) (fstest.MapFS, error) {
	files := fstest.MapFS{}
	for _, f := range base.files {
		files[f.name] = &fstest.MapFile{Data: []byte(f.text)}
	}
	for _, f := range a.files {
		switch f.name {
		case "want":
		case "edit":
			if err := Edit(files, f.text); err != nil {
				return nil, err
			}
		default:
			files[f.name] = &fstest.MapFile{Data: []byte(f.text)}
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
