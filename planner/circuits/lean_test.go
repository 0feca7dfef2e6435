package circuits

import (
	"fmt"
	"io/fs"
	"reflect"
	"runtime"
	"strings"
	"testing"
	"testing/fstest"

	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/faulty"
)

// laidOut is the demo with more circuits, each of so many corners.
func laidOut(t testing.TB, more, corners int) fstest.MapFS {
	t.Helper()
	demo, err := profiles.Demo("juniper")
	if err != nil {
		t.Fatal(err)
	}
	files := faulty.Copy(t, demo)
	for i := range more {
		text := fmt.Sprintf("name: C%d\ncorners:\n", i) + strings.Repeat(fmt.Sprintf("  - {straight: 100 m, turn: %.4f deg left, radius: %d m}\n", 360/float64(corners), 30+i%20), corners)
		files[fmt.Sprintf("circuits/c%d.yaml", i)] = &fstest.MapFile{Data: []byte(text)}
	}
	return files
}

// A folder loaded lean ranks as the whole one does, and holds next to nothing of
// a circuit that no trip names.
func TestRankStreams(t *testing.T) {
	more := 60
	if testing.Short() {
		more = 12
	}
	files := laidOut(t, more, 40)
	held := func(load func(fs.FS) (*profiles.Folder, error)) (*profiles.Folder, float64) {
		var before, after runtime.MemStats
		runtime.GC()
		runtime.ReadMemStats(&before)
		f, err := load(files)
		if err != nil {
			t.Fatal(err)
		}
		runtime.GC()
		runtime.ReadMemStats(&after)
		return f, (float64(after.HeapAlloc) - float64(before.HeapAlloc)) / float64(more)
	}
	_, none := held(func(fs.FS) (*profiles.Folder, error) { return profiles.Load(laidOut(t, 0, 0)) })
	whole, all := held(profiles.Load)
	lean, least := held(profiles.LoadLean)
	t.Logf("%.0f bytes a circuit, %.0f lean, of which %.0f are the car", all, least, none)
	if least-none > 3000 {
		t.Errorf("%.0f bytes a circuit are held", least-none)
	}
	a, err := Rank(whole, "LR", Drive{})
	if err != nil {
		t.Fatal(err)
	}
	b, err := Rank(lean, "LR", Drive{})
	if err != nil {
		t.Fatal(err)
	}
	if !reflect.DeepEqual(a, b) {
		t.Errorf("lean: %+v, want %+v", b, a)
	}
	if len(a.Circuits) < more {
		t.Errorf("%d circuits ranked of %d, left %v", len(a.Circuits), more, a.Left)
	}
}
