package main

import (
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"
	"unicode"

	"github.com/rs/zerolog"
	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/durable"
)

// errUnsafe is the answer "not safe as planned"; the plan gives the reasons.
var errUnsafe = errors.New("not safe as planned")

// useError is a wrong use of the command line.
type useError struct{ what, hint string }

func (e *useError) Error() string { return e.what }

// cannotDrive is the hint where a circuit or a leg is validly written and the
// planner finds that it cannot be driven so.
const cannotDrive = "change the circuit or the leg that it names: its lap_time, its pace or its sessions"

// asUse turns what the planner cannot do into a wrong use, with what it is
// about; errors of files stay as they are.
func asUse(about string, err error, hint string) error {
	var bad profiles.Errors
	if errors.As(err, &bad) {
		return bad
	}
	return &useError{about + err.Error(), hint}
}

// reworded changes each of the errors that a reader of profiles reported.
func reworded(err error, change func(*profiles.Error)) error {
	var bad profiles.Errors
	if errors.As(err, &bad) {
		for _, e := range bad {
			change(e)
		}
	}
	return err
}

// complaints are a command's errors on stderr: plain lines, or entries of the
// log where that is for a machine.
type complaints struct {
	to  io.Writer
	log *zerolog.Logger
}

// exit prints an error of a command and turns it into the exit status.
func (c *complaints) exit(cmd *cobra.Command, err error) int {
	var bad profiles.Errors
	var use *useError
	var file *durable.Error
	var stopped *durable.Stopped
	switch {
	case err == nil:
		return exitFine
	case errors.Is(err, errUnsafe):
		return exitUnsafe
	case errors.Is(err, errPipe):
		return exitPipe
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
	return exitBadUse
}

func (c *complaints) say(what, hint string) {
	if c.log != nil {
		entry := c.log.Error()
		if hint != "" {
			entry = entry.Str("hint", hint)
		}
		entry.Msg(what)
		return
	}
	if what != "" {
		fmt.Fprintf(c.to, "tripwear: %s\n", plainly(what))
	}
	if hint != "" {
		fmt.Fprintf(c.to, "hint: %s\n", plainly(hint))
	}
}

// mostRunes is how much of a line is printed: what comes in from outside may
// be of any length.
const mostRunes = 600

// plainly is a line that a terminal only shows: what would move its cursor,
// turn its text or ring is written out, and what is too long is cut.
func plainly(s string) string {
	var b strings.Builder
	n := 0
	for _, r := range s {
		if n++; n > mostRunes {
			return b.String() + "..."
		}
		if unicode.IsPrint(r) {
			b.WriteRune(r)
		} else {
			b.WriteString(strings.Trim(strconv.QuoteRune(r), "'"))
		}
	}
	return b.String()
}

// shown is what was given on the command line, quoted, its beginning where it
// is long.
func shown(s string) string {
	const most = 60
	if r := []rune(s); len(r) > most {
		s = string(r[:most-3]) + "..."
	}
	return strconv.Quote(s)
}

// ofFlags says what is wrong with a command's flags.
func ofFlags(cmd *cobra.Command, err error) error {
	hint := cmd.CommandPath() + " --help lists its flags"
	var value *pflag.InvalidValueError
	var lacks *pflag.ValueRequiredError
	var none *pflag.NotExistError
	var form *pflag.InvalidSyntaxError
	switch {
	case errors.As(err, &value):
		flag := value.GetFlag()
		return &useError{fmt.Sprintf("--%s: %s is not taken, expected %s", flag.Name, shown(value.GetValue()), taken(flag)), hint}
	case errors.As(err, &lacks):
		return &useError{fmt.Sprintf("--%s has no value", lacks.GetFlag().Name), hint}
	case errors.As(err, &none) && none.GetSpecifiedShortnames() != "":
		return &useError{"unknown flag " + shown("-"+none.GetSpecifiedShortnames()), hint + "; a value that begins with a minus sign goes after --"}
	case errors.As(err, &none):
		return &useError{"unknown flag " + shown("--"+none.GetSpecifiedName()), hint}
	case errors.As(err, &form):
		return &useError{shown(form.GetSpecifiedFlag()) + " is not a flag", hint}
	}
	return &useError{cmd.CommandPath() + ": " + err.Error(), hint}
}

// atFile is what a file system refused at a path.
func atFile(path string, err error, hint string) error {
	return &useError{path + ": " + durable.Reason(err), hint}
}
