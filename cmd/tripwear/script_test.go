package main

import (
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/rogpeppe/go-internal/testscript"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"tripwear": main, "on": on})
}

// on is a program for scripts: on DAY tripwear ARGUMENTS runs a command on a
// day that is given.
func on() {
	day, err := time.Parse(time.DateOnly, os.Args[1])
	if err != nil {
		panic(err)
	}
	w := environment{stdin: os.Stdin, stdout: os.Stdout, stderr: os.Stderr, now: func() time.Time { return day }, open: os.DirFS, configDir: os.UserConfigDir}
	os.Exit(run(w, os.Args[3:]))
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
	testscript.Run(t, scripts(all, one...))
}

// scripts runs the scripts of a folder, or some files, apart from the user's
// own settings.
func scripts(dir string, files ...string) testscript.Params {
	return testscript.Params{
		Dir:                 dir,
		Files:               files,
		UpdateScripts:       os.Getenv("UPDATE") != "",
		RequireExplicitExec: true,
		Setup: func(e *testscript.Env) error {
			e.Setenv("HOME", filepath.Join(e.WorkDir, "home"))
			e.Setenv("XDG_CONFIG_HOME", filepath.Join(e.WorkDir, "config"))
			e.Setenv("AppData", filepath.Join(e.WorkDir, "config"))
			traces, err := filepath.Abs("../../testdata/trace")
			e.Setenv("TRACES", traces)
			e.Setenv("CIRCUITS", filepath.Join(filepath.Dir(traces), "circuits"))
			return err
		},
	}
}
