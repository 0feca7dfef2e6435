package main

import (
	"fmt"
	"io"
	"time"

	"github.com/rs/zerolog"

	"example.com/tripwear/cmd/tripwear/terminal"
	"example.com/tripwear/planner"
	"example.com/tripwear/planner/report"
	"example.com/tripwear/profiles/quantity"
)

// mostVerbose is how often -v may be given.
const mostVerbose = 2

// logger writes plain lines for a person's terminal, or JSON with the time for
// a machine.
func (env environment) logger(s settings) zerolog.Logger {
	level := zerolog.InfoLevel - zerolog.Level(s.Verbose) // debug, trace
	if s.Quiet {
		level = zerolog.WarnLevel
	}
	if s.LogFormat == "json" {
		clock := zerolog.HookFunc(func(e *zerolog.Event, _ zerolog.Level, _ string) { e.Time("time", env.now()) })
		return zerolog.New(env.stderr).Level(level).Hook(clock)
	}
	return zerolog.New(zerolog.ConsoleWriter{
		Out: env.stderr, NoColor: true, PartsOrder: []string{zerolog.LevelFieldName, zerolog.MessageFieldName},
		FieldsOrder:   []string{"file"},
		FormatMessage: func(m any) string { return terminal.Plainly(fmt.Sprint(m)) },
	}).Level(level)
}

// stage logs how long a stage of the work took, in milliseconds, once it is
// done.
func (s *session) stage(name string) (done func()) {
	s.log.Trace().Msg(name + " begins")
	begun := s.now()
	return func() {
		s.log.Debug().Dur("ms", s.now().Sub(begun).Round(100*time.Microsecond)).Msg(name)
	}
}

// options are those of every plan; a demo reads the same on any day.
func (s *session) options() planner.Options {
	o := planner.Options{Draws: s.Draws, Seed: s.Seed, Prior: s.prior}
	if s.demo == "" {
		o.Today = s.today()
	}
	s.log.Debug().Int("draws", o.Draws).Uint64("seed", o.Seed).Bool("prior", s.prior).Msg("projection")
	return o
}

// show prints a result as text or as JSON.
func show[T any](s *session, result T, asText func(io.Writer, T, quantity.System) error) error {
	defer s.stage("print")()
	if s.JSON {
		return report.JSON(s.stdout, result)
	}
	return asText(s.stdout, result, s.system)
}

// answer is what printing an answer comes to: the exit status tells whether it
// is a safe one.
func answer(safe bool, printed error) error {
	if printed == nil && !safe {
		return terminal.ErrUnsafe
	}
	return printed
}
