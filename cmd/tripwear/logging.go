package main

import (
	"fmt"
	"io"
	"maps"
	"path"
	"slices"
	"time"

	"github.com/rs/zerolog"

	"example.com/tripwear/planner"
	"example.com/tripwear/planner/report"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
)

// mostVerbose is how often -v may be given.
const mostVerbose = 2

// logger writes plain lines for a person's terminal, or JSON with the time for
// a machine.
func (w world) logger(s settings) zerolog.Logger {
	level := zerolog.InfoLevel - zerolog.Level(s.Verbose) // debug, trace
	if s.Quiet {
		level = zerolog.WarnLevel
	}
	if s.LogFormat == "json" {
		clock := zerolog.HookFunc(func(e *zerolog.Event, _ zerolog.Level, _ string) { e.Time("time", w.now()) })
		return zerolog.New(w.stderr).Level(level).Hook(clock)
	}
	return zerolog.New(zerolog.ConsoleWriter{
		Out: w.stderr, NoColor: true, PartsOrder: []string{zerolog.LevelFieldName, zerolog.MessageFieldName},
		FieldsOrder:   []string{"file"},
		FormatMessage: func(m any) string { return plainly(fmt.Sprint(m)) },
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
func (s *session) options(demo string, prior bool) planner.Options {
	o := planner.Options{Draws: s.Draws, Seed: s.Seed, Prior: prior}
	if demo == "" {
		o.Today = s.today()
	}
	s.log.Debug().Int("draws", o.Draws).Uint64("seed", o.Seed).Bool("prior", prior).Msg("projection")
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

// logRead logs a file that was read with how much it held.
func (s *session) logRead(file, what string, n int) {
	s.log.Debug().Str("file", file).Int(what, n).Msg("read")
}

// logFiles logs the files of a car folder or a demo, each with how much it
// holds.
func (s *session) logFiles(f *profiles.Folder, demo string) {
	if s.log.GetLevel() > zerolog.DebugLevel {
		return
	}
	dir := s.Car
	if demo != "" {
		dir = path.Join("demo", demo)
	}
	read := func(file, what string, n int) {
		if n > 0 {
			s.logRead(path.Join(dir, file), what, n)
		}
	}
	own := func(sources profiles.Sources, file string) (n int) {
		for _, source := range sources {
			if source.File == file {
				n++
			}
		}
		return n
	}
	parts := 0
	for _, p := range f.Parts {
		parts += min(1, own(p.Sources, "parts.yaml"))
	}
	read("model.yaml", "values", own(f.Model.Sources, "model.yaml"))
	read("parts.yaml", "parts", parts)
	read("car.yaml", "fitted", len(f.Car.Fitted))
	for _, id := range slices.Sorted(maps.Keys(f.Circuits)) {
		c := f.Circuits[id]
		file := "circuits/" + id + ".yaml"
		switch {
		case c.Trace != nil:
			read(file, "fixes", len(c.Trace.Fixes))
		case c.BySummary():
			read(file, "values", own(c.Sources, file))
		default:
			read(file, "corners", len(c.Corners))
		}
	}
	for _, id := range slices.Sorted(maps.Keys(f.Trips)) {
		read("trips/"+id+".yaml", "legs", len(f.Trips[id].Legs))
	}
	for _, r := range f.OilReports {
		read(r.File, "values", len(r.Sources))
	}
	read(profiles.LogFile, "rows", len(f.Log))
}
