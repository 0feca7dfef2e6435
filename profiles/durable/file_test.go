package durable

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/tripwear/profiles/faulty"
)

// holds fails unless a folder has these names and its file "it" says want.
func holds(t *testing.T, folder, want string, has ...string) {
	t.Helper()
	got, err := os.ReadFile(filepath.Join(folder, "it"))
	if err != nil || string(got) != want {
		t.Errorf("it holds %q, %v; want %q", got, err, want)
	}
	if d := cmp.Diff(has, faulty.Names(t, folder)); d != "" {
		t.Errorf("left over (-want +got)\n%s", d)
	}
}

func leave(t *testing.T, path, text string, mode fs.FileMode) {
	t.Helper()
	if err := os.WriteFile(path, []byte(text), mode); err != nil {
		t.Fatal(err)
	}
}

// saying writes a text, in two pieces as a program would.
func saying(text string) func(io.Writer) error {
	return func(w io.Writer) error {
		half := len(text) / 2
		_, a := io.WriteString(w, text[:half])
		_, b := io.WriteString(w, text[half:])
		return errors.Join(a, b)
	}
}

func TestReplace(t *testing.T) {
	folder := t.TempDir()
	path := filepath.Join(folder, "it")
	for _, text := range []string{"first", "second"} {
		if err := Replace(path, saying(text)); err != nil {
			t.Fatal(err)
		}
		holds(t, folder, text, "it")
	}
}

// A failure half-way leaves the old file, or none where there was none.
func TestFailedWriteLeavesTheOldFile(t *testing.T) {
	full := errors.New("no room")
	half := func(w io.Writer) error {
		_, err := io.WriteString(w, "half")
		return errors.Join(err, full)
	}
	folder := t.TempDir()
	path := filepath.Join(folder, "it")
	if err := Replace(path, half); !errors.Is(err, full) {
		t.Errorf("error %v", err)
	}
	if left := faulty.Names(t, folder); len(left) > 0 {
		t.Errorf("left over %v", left)
	}
	leave(t, path, "old", 0o644)
	if err := Replace(path, half); !errors.Is(err, full) {
		t.Errorf("error %v", err)
	}
	holds(t, folder, "old", "it")
}

// A file made read-only stays, whoever asks; a folder and a broken place too.
func TestReplaceRefuses(t *testing.T) {
	folder := t.TempDir()
	path := filepath.Join(folder, "it")
	leave(t, path, "old", 0o444)
	for name, c := range map[string]struct{ path, what, hint string }{
		"read-only":     {path, "is read-only", "make it writable"},
		"a folder":      {folder, "is a folder", "name a file in it"},
		"no folder":     {filepath.Join(folder, "none", "it"), "no such file", "make the folder first"},
		"a file before": {filepath.Join(path, "it"), "a file stands where a folder should", "name another place"},
		"a long name":   {filepath.Join(folder, strings.Repeat("n", 300)), "too long", "shorter name"},
	} {
		err := Replace(c.path, saying("new"))
		var bad *Error
		if !errors.As(err, &bad) || !strings.HasPrefix(bad.Error(), c.path) || !strings.Contains(bad.Error(), c.what) || !strings.Contains(bad.Hint(), c.hint) {
			t.Errorf("%s: %v", name, err)
		} else if !strings.Contains(bad.Hint(), "nothing was written") || strings.Contains(bad.Error(), prefix) {
			t.Errorf("%s: %s; %s", name, bad.Error(), bad.Hint())
		}
	}
	holds(t, folder, "old", "it")
}

// The mode of the old file stays, and a link goes on pointing to its file.
func TestReplaceThroughALink(t *testing.T) {
	folder := t.TempDir()
	target, link := filepath.Join(folder, "it"), filepath.Join(t.TempDir(), "link")
	leave(t, target, "old", 0o640)
	if err := os.Symlink(target, link); err != nil {
		t.Fatal(err)
	}
	if err := Replace(link, saying("new")); err != nil {
		t.Fatal(err)
	}
	holds(t, folder, "new", "it")
	if info, err := os.Stat(target); err != nil || info.Mode().Perm() != 0o640 {
		t.Errorf("mode %v, %v", info.Mode(), err)
	}
	if to, err := os.Readlink(link); err != nil || to != target {
		t.Errorf("the link points to %q, %v", to, err)
	}
	if err := os.Remove(target); err != nil {
		t.Fatal(err)
	}
	if err := Replace(link, saying("new")); !errors.Is(err, errDangling) {
		t.Errorf("a link to nothing: %v", err)
	}
}

func TestCreateNeverReplaces(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "made", "for it")
	path := filepath.Join(folder, "it")
	if err := Create(path, []byte("first")); err != nil {
		t.Fatal(err)
	}
	err := Create(path, []byte("second"))
	if !errors.Is(err, fs.ErrExist) || err.Error() != path+" is there already" {
		t.Errorf("error %v", err)
	}
	holds(t, folder, "first", "it")
}

// Of many at once that create one file, one wins, wholly; of many that replace
// it, the last; nobody's temporary is swept by another.
func TestManyAtOnce(t *testing.T) {
	folder := t.TempDir()
	path := filepath.Join(folder, "it")
	const writers = 12
	won := make([]error, writers)
	text := func(i int) string { return strings.Repeat(string(rune('a'+i)), 50_000) }
	each := func(do func(i int)) {
		var wg sync.WaitGroup
		for i := range writers {
			wg.Go(func() { do(i) })
		}
		wg.Wait()
	}
	each(func(i int) { won[i] = Create(path, []byte(text(i))) })
	winner := -1
	for i, err := range won {
		switch {
		case err == nil && winner >= 0:
			t.Errorf("%d and %d both won", winner, i)
		case err == nil:
			winner = i
		case !errors.Is(err, fs.ErrExist):
			t.Error(err)
		}
	}
	if winner < 0 {
		t.Fatal("nobody won")
	}
	holds(t, folder, text(winner), "it")
	each(func(i int) {
		if err := Replace(path, saying(text(i))); err != nil {
			t.Error(err)
		}
	})
	got, err := os.ReadFile(path)
	if err != nil || len(got) != 50_000 || strings.Trim(string(got), string(got[:1])) != "" {
		t.Errorf("mixed: %d bytes, %v", len(got), err)
	}
	holds(t, folder, string(got), "it")
}

// What a killed writer left goes with the next write; what lives stays, and so
// does a user's file whose name is only like it.
func TestSweep(t *testing.T) {
	folder := t.TempDir()
	leave(t, filepath.Join(folder, prefix+"00000000000000aa"), "half", 0o600)
	if err := os.MkdirAll(filepath.Join(folder, prefix+"00000000000000ab", "circuits"), 0o755); err != nil {
		t.Fatal(err)
	}
	leave(t, filepath.Join(folder, prefix+"notes"), "mine", 0o600)
	live, err := newFile(folder)
	if err != nil {
		t.Fatal(err)
	}
	defer live.drop()
	if err := Replace(filepath.Join(folder, "it"), saying("new")); err != nil {
		t.Fatal(err)
	}
	holds(t, folder, "new", filepath.Base(live.Name()), prefix+"notes", "it")
}
