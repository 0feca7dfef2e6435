package terminal

import (
	"fmt"
	"io"
	"time"

	"github.com/rs/zerolog"

	"example.com/tripwear/planner/page"
)

// MostVerbose is how often -v may be given.
const MostVerbose = 2

// Logger writes plain lines for a person's terminal; or JSON, with the time,
// for a machine.
func Logger(to io.Writer, now func() time.Time, verbose int, quiet, machine bool) zerolog.Logger {
	level := zerolog.InfoLevel - zerolog.Level(verbose) // debug, trace
	if quiet {
		level = zerolog.WarnLevel
	}
	if machine {
		clock := zerolog.HookFunc(func(e *zerolog.Event, _ zerolog.Level, _ string) { e.Time("time", now()) })
		return zerolog.New(to).Level(level).Hook(clock)
	}
	return zerolog.New(zerolog.ConsoleWriter{
		Out: Folded(to), NoColor: true, PartsOrder: []string{zerolog.LevelFieldName, zerolog.MessageFieldName},
		FieldsOrder:   []string{"file"},
		FormatMessage: func(m any) string { return page.Plainly(fmt.Sprint(m)) },
	}).Level(level)
}
