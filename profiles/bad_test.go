package profiles

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/google/go-cmp/cmp"
)

var update = flag.Bool("update", false, "write the messages into testdata/bad; read them before you commit")

const badDir = "../testdata/bad"

// lay puts an archive's files over the minimal folder: whole files, and edits,
// which replace lines of it.
func lay(t *testing.T, base archive, over archive) (files fstest.MapFS, want string) {
	t.Helper()
	files = fstest.MapFS{}
	for _, f := range base.files {
		files[f.name] = &fstest.MapFile{Data: []byte(f.text)}
	}
	for _, f := range over.files {
		switch f.name {
		case "want":
			want = f.text
		case "edit":
			edit(t, files, f.text)
		default:
			files[f.name] = &fstest.MapFile{Data: []byte(f.text)}
		}
	}
	return files, want
}

// edit applies lines of the form "file", "- line that goes", "+ line that
// comes". Several lines that go must follow one another.
func edit(t *testing.T, files fstest.MapFS, script string) {
	t.Helper()
	var file, old, fresh string
	apply := func() {
		if file == "" {
			return
		}
		text := string(files[file].Data)
		if !strings.Contains(text, old) {
			t.Fatalf("%s has no line\n%s", file, old)
		}
		files[file] = &fstest.MapFile{Data: []byte(strings.Replace(text, old, fresh, 1))}
		file, old, fresh = "", "", ""
	}
	for line := range strings.Lines(script) {
		if rest, ok := strings.CutPrefix(line, "- "); ok {
			old += rest
		} else if rest, ok := strings.CutPrefix(line, "+ "); ok {
			fresh += rest
		} else {
			apply()
			file = strings.TrimSpace(line)
		}
	}
	apply()
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

// archive is a title and files, each after a line "-- name --": the txtar format.
type archive struct {
	title string
	files []archived
}

type archived struct{ name, text string }

func readArchive(t *testing.T, name string) archive {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(badDir, name))
	if err != nil {
		t.Fatal(err)
	}
	var a archive
	for line := range strings.Lines(string(data)) {
		mark := strings.TrimSpace(line)
		switch {
		case len(mark) > 6 && strings.HasPrefix(mark, "-- ") && strings.HasSuffix(mark, " --"):
			a.files = append(a.files, archived{name: mark[3 : len(mark)-3]})
		case len(a.files) == 0:
			a.title += line
		default:
			a.files[len(a.files)-1].text += line
		}
	}
	return a
}

// String is the archive as it is written.
func (a archive) String() string {
	s := a.title
	for _, f := range a.files {
		s += "-- " + f.name + " --\n" + f.text
	}
	return s
}

// Every archive in testdata/bad is a folder with faults and the messages that
// must be told about them, word for word. A file of another form is an error.
func TestBadFolders(t *testing.T) {
	base := readArchive(t, "base.txtar")
	good, _ := lay(t, base, archive{})
	if _, err := Load(good); err != nil {
		t.Fatalf("the minimal folder is not sound:\n%v", err)
	}
	entries, err := os.ReadDir(badDir)
	if err != nil {
		t.Fatal(err)
	}
	if len(entries) < 41 {
		t.Fatalf("%d files in %s", len(entries), badDir)
	}
	for _, e := range entries {
		name := e.Name()
		if name == "base.txtar" {
			continue
		}
		if filepath.Ext(name) != ".txtar" {
			t.Errorf("%s: not an archive, so nothing tests it", name)
			continue
		}
		t.Run(strings.TrimSuffix(name, ".txtar"), func(t *testing.T) {
			over := readArchive(t, name)
			files, want := lay(t, base, over)
			folder, err := Load(files)
			if err == nil || folder != nil {
				t.Fatal("a folder with faults loads")
			}
			got := told(err)
			if *update {
				for i := range over.files {
					if over.files[i].name == "want" {
						over.files[i].text = got
					}
				}
				if err := os.WriteFile(filepath.Join(badDir, name), []byte(over.String()), 0o644); err != nil {
					t.Fatal(err)
				}
				want = got
			}
			if diff := cmp.Diff(want, got); diff != "" {
				t.Errorf("messages differ (- wanted, + got):\n%s", diff)
			}
		})
	}
}
