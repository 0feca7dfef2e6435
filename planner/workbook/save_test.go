package workbook

import (
	"errors"
	"os"
	"path/filepath"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/tripwear/profiles/durable"
	"example.com/tripwear/profiles/faulty"
	"example.com/tripwear/profiles/quantity"
)

// holds fails unless a file is as said.
func holds(t *testing.T, path, want string) {
	t.Helper()
	got, err := os.ReadFile(path)
	if err != nil || string(got) != want {
		t.Errorf("%s holds %q, %v; want %q", filepath.Base(path), got, err, want)
	}
}

func TestSaveReplaces(t *testing.T) {
	p, folder := juniper(t), t.TempDir()
	path := filepath.Join(folder, "plan.xlsx")
	if err := os.WriteFile(path, []byte("old"), 0o640); err != nil {
		t.Fatal(err)
	}
	if err := Save(path, p, quantity.US); err != nil {
		t.Fatal(err)
	}
	holds(t, path, string(written(t, p, quantity.US)))
	if d := cmp.Diff([]string{"plan.xlsx"}, faulty.Names(t, folder)); d != "" {
		t.Errorf("left over (-want +got)\n%s", d)
	}
	info, err := os.Stat(path)
	if err != nil || info.Mode().Perm() != 0o640 {
		t.Errorf("mode %v, %v", info.Mode(), err)
	}
}

func TestSaveWhereItCannot(t *testing.T) {
	p, folder := juniper(t), t.TempDir()
	old := filepath.Join(folder, "old.xlsx")
	if err := os.WriteFile(old, []byte("old"), 0o644); err != nil {
		t.Fatal(err)
	}
	for name, path := range map[string]string{
		"missing folder":     filepath.Join(folder, "nowhere", "plan.xlsx"),
		"the path is a dir":  folder,
		"a file as a folder": filepath.Join(old, "plan.xlsx"),
	} {
		err := Save(path, p, quantity.US)
		var refused *durable.Error
		if !errors.As(err, &refused) || refused.Path != path || refused.Hint() == "" {
			t.Errorf("%s: error %v", name, err)
		}
	}
	holds(t, old, "old")
	if d := cmp.Diff([]string{"old.xlsx"}, faulty.Names(t, folder)); d != "" {
		t.Errorf("left over (-want +got)\n%s", d)
	}
}

// TestSaveInReadOnlyFolder holds for any user: whoever may write there
// nevertheless, such as root, gets a whole workbook; all others keep the old one.
func TestSaveInReadOnlyFolder(t *testing.T) {
	p, folder := juniper(t), t.TempDir()
	path := filepath.Join(folder, "plan.xlsx")
	if err := os.WriteFile(path, []byte("old"), 0o644); err != nil {
		t.Fatal(err)
	}
	if err := os.Chmod(folder, 0o555); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := os.Chmod(folder, 0o755); err != nil {
			t.Error(err)
		}
	})
	want := "old"
	if err := Save(path, p, quantity.US); err == nil {
		want = string(written(t, p, quantity.US))
	}
	holds(t, path, want)
	if d := cmp.Diff([]string{"plan.xlsx"}, faulty.Names(t, folder)); d != "" {
		t.Errorf("left over (-want +got)\n%s", d)
	}
}
