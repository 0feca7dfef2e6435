package main

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"tripwear": main})
}

// TestScripts runs the command as its user would, from testdata/script.
// Set UPDATE=1 to rewrite the expected outputs after looking at them. With
// -short, as under the race detector, one script stands for the commands that
// run in parallel: the rest differ in what they print.
func TestScripts(t *testing.T) {
	const dir = "../../testdata/script"
	all, one := dir, []string(nil)
	if testing.Short() {
		all, one = "", []string{filepath.Join(dir, "plan_demo.txtar")}
	}
	testscript.Run(t, testscript.Params{
		Dir:                 all,
		Files:               one,
		UpdateScripts:       os.Getenv("UPDATE") != "",
		RequireExplicitExec: true,
		Setup: func(e *testscript.Env) error {
			for _, key := range []string{"UNITS", "CAR", "JSON", "QUIET", "DRAWS", "SEED"} {
				e.Setenv("TRIPWEAR_"+key, "")
			}
			traces, err := filepath.Abs("../../testdata/trace")
			e.Setenv("TRACES", traces)
			return err
		},
	})
}
