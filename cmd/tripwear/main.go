// Command tripwear plans what a drive to circuit days and home again takes
// from a car's tires, brakes, hub bearings and oil.
package main

import (
	"io"
	"io/fs"
	"os"
	"time"

	"github.com/mattn/go-isatty"

	"example.com/tripwear/cmd/tripwear/terminal"
	"example.com/tripwear/profiles/durable"
)

// environment is what a command may touch outside its arguments.
type environment struct {
	stdin          io.Reader
	stdout, stderr io.Writer
	now            func() time.Time
	open           func(dir string) fs.FS
	configDir      func() (string, error) // of the user; nil where there is none to read
	complaints     *terminal.Complaints
	waiting        *terminal.Waiting // nil where nobody is watching
}

func main() {
	env := environment{stdin: os.Stdin, stdout: os.Stdout, stderr: os.Stderr, now: time.Now, open: os.DirFS, configDir: os.UserConfigDir}
	durable.OutliveFileLimit()
	if fd := os.Stderr.Fd(); isatty.IsTerminal(fd) || isatty.IsCygwinTerminal(fd) {
		env.waiting = &terminal.Waiting{Out: os.Stderr, Tick: terminal.Seconds}
	}
	os.Exit(run(env, os.Args[1:]))
}

// today is the day on the user's calendar, as the files' dates are kept:
// midnight UTC, so that zones and summer time move no date.
func (env environment) today() time.Time {
	y, m, d := env.now().Date()
	return time.Date(y, m, d, 0, 0, 0, 0, time.UTC)
}

// run executes one command line and returns its exit status.
func run(env environment, args []string) int {
	env.stdout, env.stderr = env.waiting.Before(env.stdout), env.waiting.Before(env.stderr)
	out := &terminal.Results{To: env.stdout}
	env.stdout = out
	env.complaints = &terminal.Complaints{To: env.stderr}
	root := newRootCommand(env)
	root.SetArgs(args)
	cmd, err := root.ExecuteC()
	env.waiting.Stop()
	return env.complaints.Exit(cmd, out.Outcome(err))
}
