package workbook

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"example.com/tripwear/profiles/faulty"
	"example.com/tripwear/profiles/quantity"
)

// saverEnv makes a run of TestSaveForEver save to the path it names, over and
// over, until it is killed.
const saverEnv = "TRIPWEAR_TEST_SAVER"

// TestSaveForEver is what TestKilledSaveLeavesAWholeFile kills; by itself it saves once.
func TestSaveForEver(t *testing.T) {
	p, path, again := juniper(t), os.Getenv(saverEnv), true
	if path == "" {
		path, again = filepath.Join(t.TempDir(), "plan.xlsx"), false
	}
	for n := 0; n == 0 || again; n++ {
		if err := Save(path, p, quantity.US); err != nil {
			t.Fatal(err)
		}
		fmt.Println("saved", n)
	}
}

// TestKilledSaveLeavesAWholeFile kills a saving program at moments spread over
// a save: the path holds the old workbook or the new one, never a part.
func TestKilledSaveLeavesAWholeFile(t *testing.T) {
	want := written(t, juniper(t), quantity.US)
	folder := t.TempDir()
	path := filepath.Join(folder, "plan.xlsx")
	old := []byte("the old workbook")
	saves := 0
	for kill := range 12 {
		if err := os.WriteFile(path, old, 0o644); err != nil {
			t.Fatal(err)
		}
		var said bytes.Buffer
		saver := exec.Command(os.Args[0], "-test.run", "^TestSaveForEver$", "-test.v")
		saver.Env = append(os.Environ(), saverEnv+"="+path)
		saver.Stdout = &said
		if err := saver.Start(); err != nil {
			t.Fatal(err)
		}
		time.Sleep(time.Duration(60+45*kill) * time.Millisecond)
		if err := saver.Process.Kill(); err != nil {
			t.Fatal(err)
		}
		_ = saver.Wait() // it was killed
		saves += strings.Count(said.String(), "saved")
		got, err := os.ReadFile(path)
		if err != nil || !bytes.Equal(got, old) && !bytes.Equal(got, want) {
			t.Errorf("kill %d left %d bytes, %v", kill, len(got), err)
		}
	}
	if err := Save(path, juniper(t), quantity.US); err != nil {
		t.Fatal(err)
	}
	if left := faulty.Names(t, folder); len(left) != 1 {
		t.Errorf("the last save did not take away what the killed ones left: %v", left)
	}
	t.Logf("%d saves in 12 runs", saves)
}
