package durable

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"testing/fstest"

	"github.com/google/go-cmp/cmp"

	"example.com/tripwear/profiles/faulty"
)

// owned is a folder whose every file says whose it is.
func owned(who string) fstest.MapFS {
	out := fstest.MapFS{}
	for _, name := range []string{"it", "a.yaml", "circuits/one.yaml", "trips/one.yaml"} {
		out[name] = &fstest.MapFile{Data: []byte(who)}
	}
	return out
}

// owner fails unless all files of a folder are there and of one owner.
func owner(t *testing.T, dir string) string {
	t.Helper()
	if d := cmp.Diff([]string{"a.yaml", "circuits", "it", "trips"}, faulty.Names(t, dir)); d != "" {
		t.Errorf("(-want +got)\n%s", d)
	}
	who := ""
	for name := range owned("") {
		data, err := os.ReadFile(filepath.Join(dir, name))
		if err != nil || who != "" && string(data) != who {
			t.Errorf("%s is of %q beside %q, %v", name, data, who, err)
		}
		who = string(data)
	}
	return who
}

func TestNewFolder(t *testing.T) {
	above := t.TempDir()
	there := filepath.Join(above, "there")
	if err := os.Mkdir(there, 0o700); err != nil {
		t.Fatal(err)
	}
	for _, dir := range []string{filepath.Join(above, "new"), there, filepath.Join(above, "deep", "deeper")} {
		if err := NewFolder(dir, owned("me"), "it"); err != nil {
			t.Fatal(err)
		}
		owner(t, dir)
		if err := NewFolder(dir, owned("you"), "it"); !errors.Is(err, errNotEmpty) || err.Error() != dir+" is not empty" {
			t.Errorf("again: %v", err)
		}
		if who := owner(t, dir); who != "me" {
			t.Errorf("%s is of %s", dir, who)
		}
	}
	if info, err := os.Stat(there); err != nil || info.Mode().Perm() != 0o700 {
		t.Errorf("the mode of a folder that was there is now %v, %v", info.Mode(), err)
	}
	file := filepath.Join(there, "it")
	if err := NewFolder(file, owned("you"), "it"); !errors.Is(err, errThere) {
		t.Errorf("a file in its place: %v", err)
	}
	if d := cmp.Diff([]string{"deep", "new", "there"}, faulty.Names(t, above)); d != "" {
		t.Errorf("left over (-want +got)\n%s", d)
	}
}

// Of many at once one wins wholly, whether the folder was there or not.
func TestNewFolderManyAtOnce(t *testing.T) {
	for round := range 10 {
		dir := filepath.Join(t.TempDir(), "car")
		if round%2 == 1 {
			if err := os.Mkdir(dir, 0o755); err != nil {
				t.Fatal(err)
			}
		}
		const writers = 6
		won := make([]error, writers)
		var wg sync.WaitGroup
		for i := range writers {
			wg.Go(func() { won[i] = NewFolder(dir, owned(strings.Repeat("x", i+1)), "it") })
		}
		wg.Wait()
		who, winners := owner(t, dir), 0
		for i, err := range won {
			if err == nil {
				winners++
				if who != strings.Repeat("x", i+1) {
					t.Errorf("%d won and the folder is of %q", i, who)
				}
			} else if !errors.Is(err, errNotEmpty) {
				t.Error(err)
			}
		}
		if winners != 1 {
			t.Errorf("%d winners", winners)
		}
	}
}

// A folder that holds something of another name gets nothing beside it.
func TestNewFolderNotAmongOthers(t *testing.T) {
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "notes.txt"), []byte("mine"), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := NewFolder(dir, owned("you"), "it"); !errors.Is(err, errNotEmpty) {
		t.Errorf("got %v", err)
	}
	if d := cmp.Diff([]string{"notes.txt"}, faulty.Names(t, dir)); d != "" {
		t.Errorf("what is there (-want +got)\n%s", d)
	}
}
