package terminal

import (
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"strconv"

	"github.com/rs/zerolog"
	"github.com/spf13/cobra"

	"example.com/tripwear/planner/page"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/durable"
)

// ErrUnsafe is an answer that is no yes; the plan gives the reasons.
var ErrUnsafe = errors.New("the answer is not a yes")

// Misuse is a wrong use of the command line, and what to do instead.
func Misuse(what, hint string) error { return &misuse{what, hint} }

type misuse struct{ what, hint string }

// IsMisuse says whether an error is a wrong use.
func IsMisuse(err error) bool { return errors.As(err, new(*misuse)) }

func (e *misuse) Error() string { return e.what }

// AsMisuse turns what the planner cannot do into a wrong use, with what it is
// about; errors of files stay as they are.
func AsMisuse(about string, err error, hint string) error {
	var bad profiles.Errors
	var file *durable.Error
	if errors.As(err, &bad) || errors.As(err, &file) {
		return err
	}
	return Misuse(about+err.Error(), hint)
}

// Complaints are a command's errors on stderr: plain lines, or entries of the
// log where that is for a machine.
type Complaints struct {
	To  io.Writer
	Log *zerolog.Logger
}

// Exit prints an error of a command and turns it into the exit status.
func (c *Complaints) Exit(cmd *cobra.Command, err error) int {
	var bad profiles.Errors
	var use *misuse
	var file *durable.Error
	var stopped *durable.Stopped
	switch {
	case err == nil:
		return ExitFine
	case errors.Is(err, ErrUnsafe):
		return ExitUnsafe
	case errors.Is(err, errPipe):
		return ExitPipe
	case errors.As(err, &bad):
		hinted := false
		for i, e := range bad {
			if i == profiles.MostFaults {
				c.say("", fmt.Sprintf("put these right first: errors not shown here: %d", len(bad)-i))
				break
			}
			c.say(e.Error(), e.Hint)
			hinted = hinted || e.Hint != ""
		}
		if !hinted {
			c.say("", cmd.CommandPath()+" --help shows its use, tripwear help formats what files hold and how measures are written")
		}
	case errors.As(err, &use):
		c.say(use.what, use.hint)
	case errors.As(err, &file):
		c.say(file.Error(), file.Hint())
		if errors.As(err, &stopped) {
			return stopped.Status()
		}
	default:
		c.say(cmd.CommandPath()+": "+durable.Reason(err), cmd.CommandPath()+" --help shows its use")
	}
	return ExitBadUse
}

func (c *Complaints) say(what, hint string) {
	if c.Log != nil {
		entry := c.Log.Error()
		if hint != "" {
			entry = entry.Str("hint", hint)
		}
		entry.Msg(what)
		return
	}
	to := Folded(c.To)
	if what != "" {
		fmt.Fprintf(to, "tripwear: %s\n", page.Plainly(what))
	}
	if hint != "" {
		fmt.Fprintf(to, "hint: %s\n", page.Plainly(hint))
	}
}

// Quoted is what was given on the command line, quoted, its beginning where it
// is long.
func Quoted(s string) string {
	const most = 60
	if r := []rune(s); len(r) > most {
		s = string(r[:most-3]) + "..."
	}
	return strconv.Quote(s)
}

// AtFile is what a file system refused at a path.
func AtFile(path string, err error, hint string) error {
	return Misuse(path+": "+durable.Reason(err), hint)
}

// InFile names a file as it was given on the command line in the errors about
// it, which have its last name or none, and says what to do where they do not.
func InFile(path string, err error, hint string) error {
	var bad profiles.Errors
	if errors.As(err, &bad) {
		hinted := false
		for _, e := range bad {
			if e.File == "" || e.File == filepath.Base(path) {
				e.File = path
			}
			hinted = hinted || e.Hint != ""
		}
		if last := bad[len(bad)-1]; !hinted {
			last.Hint = hint
		}
	}
	return err
}
