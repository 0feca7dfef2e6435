//go:build unix

package durable

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"math/rand/v2"
	"os"
	"os/signal"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"example.com/tripwear/profiles/faulty"
)

// writerEnv makes the test binary a writer in the folder it names, over and
// over, until it is killed.
const writerEnv = "TRIPWEAR_TEST_DURABLE"

func TestMain(m *testing.M) {
	if folder := os.Getenv(writerEnv); folder != "" {
		writeForEver(folder)
		return
	}
	os.Exit(m.Run())
}

// big is more than one system call writes of a workbook.
var big = strings.Repeat("whole\n", 20_000)

// writeForEver makes a car folder, fills one that is there, creates a file and
// replaces one, and says each.
func writeForEver(folder string) {
	for n := 0; ; n++ {
		id := fmt.Sprintf("%d-%d", os.Getpid(), n)
		there := filepath.Join(folder, "car-there-"+id)
		for _, err := range []error{
			Replace(filepath.Join(folder, "it"), saying(big)),
			Create(filepath.Join(folder, "created-"+id), []byte(big)),
			NewFolder(filepath.Join(folder, "car-new-"+id), owned(big[:6000]), "it"),
			os.Mkdir(there, 0o755),
			NewFolder(there, owned(big[:6000]), "it"),
		} {
			if err != nil {
				fmt.Fprintln(os.Stderr, err)
				os.Exit(1)
			}
		}
		fmt.Println(id)
	}
}

// TestKills kills writers at random moments: what is there under its own name
// is whole, what was acknowledged is there, and the next write takes what they
// left away. TRIPWEAR_KILLS sets how many are killed.
func TestKills(t *testing.T) {
	kills := 20
	if s := os.Getenv("TRIPWEAR_KILLS"); s != "" {
		var err error
		if kills, err = strconv.Atoi(s); err != nil {
			t.Fatal(err)
		}
	}
	folder := t.TempDir()
	random := rand.New(rand.NewPCG(3, 4))
	var acknowledged []string
	left := 0
	for range kills {
		acknowledged = append(acknowledged, killed(t, folder, time.Duration(random.Int64N(int64(20*time.Millisecond))))...)
		if slices.ContainsFunc(faulty.Names(t, folder), Temporary) {
			left++
		}
	}
	if len(acknowledged) == 0 {
		t.Error("no write was acknowledged")
	}
	for _, name := range faulty.Names(t, folder) {
		path := filepath.Join(folder, name)
		switch {
		case Temporary(name):
		case strings.HasPrefix(name, "car-new"):
			owner(t, path)
		case strings.HasPrefix(name, "car-there"): // filled entry by entry: the file named last says that all are there
			if _, err := os.Stat(filepath.Join(path, "it")); err == nil {
				if err := NewFolder(path, owned("other"), "it"); !errors.Is(err, errNotEmpty) {
					t.Error(err)
				}
				for entry := range owned("") {
					wholeFile(t, filepath.Join(path, entry), big[:6000])
				}
			}
		default:
			wholeFile(t, path, big)
		}
	}
	for _, id := range acknowledged {
		for _, of := range []string{"created-", "car-new-", "car-there-"} {
			if _, err := os.Stat(filepath.Join(folder, of+id)); err != nil {
				t.Error(err)
			}
		}
	}
	if err := Replace(filepath.Join(folder, "it"), saying("last")); err != nil {
		t.Fatal(err)
	}
	for _, name := range faulty.Names(t, folder) {
		if Temporary(name) {
			t.Errorf("%s is still there", name)
		}
	}
	t.Logf("%d kills, %d rounds acknowledged, %d of them left a temporary", kills, len(acknowledged), left)
}

func wholeFile(t *testing.T, path, want string) {
	t.Helper()
	if got, err := os.ReadFile(path); err != nil || string(got) != want {
		t.Errorf("%s: %d bytes of %d, %v", path, len(got), len(want), err)
	}
}

// killed runs a writer for a while after its first round and gives the rounds
// that it acknowledged.
func killed(t *testing.T, folder string, after time.Duration) []string {
	t.Helper()
	writer, err := faulty.StartWriter(writerEnv, folder)
	if err != nil {
		t.Fatal(err)
	}
	var rounds []string
	for {
		id, ok := writer.Line()
		if !ok {
			break
		}
		if rounds = append(rounds, id); len(rounds) == 1 {
			timer := time.AfterFunc(after, writer.Kill)
			defer timer.Stop()
		}
	}
	if said := writer.Wait(); said != "" {
		t.Error(said)
	}
	return rounds
}

// interrupt sends this process a signal and comes back once it was delivered.
func interrupt(t *testing.T, sig syscall.Signal) {
	t.Helper()
	mine := make(chan os.Signal, 1)
	signal.Notify(mine, sig)
	if err := syscall.Kill(os.Getpid(), sig); err != nil {
		t.Fatal(err)
	}
	<-mine
	signal.Stop(mine) // which waits till all who listen have it
}

// A stop from the keyboard or the system in the middle leaves the old file and
// no temporary, and the status that shells give.
func TestStoppedInTheMiddle(t *testing.T) {
	for _, sig := range []syscall.Signal{syscall.SIGINT, syscall.SIGTERM, syscall.SIGHUP} {
		folder := t.TempDir()
		path := filepath.Join(folder, "it")
		leave(t, path, "old", 0o644)
		err := Replace(path, func(w io.Writer) error {
			interrupt(t, sig)
			return saying("new")(w)
		})
		var stopped *Stopped
		if !errors.As(err, &stopped) || stopped.Status() != 128+int(sig) || !strings.Contains(err.Error(), path) {
			t.Errorf("%v: %v", sig, err)
		}
		holds(t, folder, "old", "it")
		err = NewFolder(filepath.Join(folder, "car"), stopping{t, sig, owned("me")}, "it")
		if !errors.As(err, &stopped) {
			t.Errorf("%v: %v", sig, err)
		}
		holds(t, folder, "old", "it")
	}
}

// stopping is a folder in the copying of which a signal comes.
type stopping struct {
	t   *testing.T
	sig syscall.Signal
	fs.FS
}

func (s stopping) Open(name string) (fs.File, error) {
	if name == "it" {
		interrupt(s.t, s.sig)
	}
	return s.FS.Open(name)
}

// A pipe or a device in the place of the file is not waited for and stays.
func TestReplaceRefusesAPipe(t *testing.T) {
	folder := t.TempDir()
	path := filepath.Join(folder, "it")
	if err := syscall.Mkfifo(path, 0o644); err != nil {
		t.Fatal(err)
	}
	if err := Replace(path, saying("new")); !errors.Is(err, errSpecial) {
		t.Errorf("a pipe: %v", err)
	}
	if err := Replace("/dev/null", saying("new")); !errors.Is(err, errSpecial) {
		t.Errorf("a device: %v", err)
	}
	if d := cmp.Diff([]string{"it"}, faulty.Names(t, folder)); d != "" {
		t.Errorf("(-want +got)\n%s", d)
	}
}

// A new file has the mode that the user's mask gives.
func TestNewFileKeepsTheMask(t *testing.T) {
	old := syscall.Umask(0o027)
	defer syscall.Umask(old)
	path := filepath.Join(t.TempDir(), "it")
	if err := Replace(path, saying("new")); err != nil {
		t.Fatal(err)
	}
	if info, err := os.Stat(path); err != nil || info.Mode().Perm() != 0o640 {
		t.Errorf("mode %v, %v", info.Mode(), err)
	}
}
