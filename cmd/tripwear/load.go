package main

import (
	"errors"
	"io"
	"io/fs"
	"maps"
	"path"
	"slices"
	"strings"

	"github.com/rs/zerolog"
	"github.com/spf13/cobra"

	"example.com/tripwear/cmd/tripwear/terminal"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/decode"
	"example.com/tripwear/profiles/store"
)

// addDemo gives a command its --demo.
func addDemo(cmd *cobra.Command, does string) {
	names := profiles.DemoNames()
	cmd.Flags().String("demo", "", does+": "+strings.Join(names, " or "))
	cmd.Flags().Lookup("demo").NoOptDefVal = names[0]
}

// load reads the car folder, or an embedded demo.
func (s *session) load() (*profiles.Folder, error) { return s.loadBy(profiles.Load) }

func (s *session) loadBy(load func(fs.FS) (*profiles.Folder, error)) (*profiles.Folder, error) {
	files, err := s.files()
	if err != nil {
		return nil, err
	}
	done := s.stage("load")
	folder, err := load(files)
	if err != nil {
		return nil, err
	}
	if s.kept != nil {
		s.tell(s.kept.Notes())
	}
	s.logFiles(folder)
	done()
	if folder.Torn != "" {
		s.log.Warn().Msg("the last row of " + profiles.LogFile + " was cut off in writing and is not read: " + folder.Torn)
	}
	for _, id := range slices.Sorted(maps.Keys(folder.Circuits)) {
		s.tell(folder.Circuits[id].Notes)
	}
	return folder, nil
}

// folder is the car folder that a command line to be completed is about.
func (env environment) folder(cmd *cobra.Command) (*profiles.Folder, bool) {
	env.stderr, env.waiting = io.Discard, nil
	s, err := env.session(cmd)
	if err != nil {
		return nil, false
	}
	folder, err := s.load()
	return folder, err == nil
}

// tell warns of what was left out, or waits.
func (s *session) tell(notes []string) {
	for _, note := range notes {
		s.log.Warn().Msg(note)
	}
}

// files are those of the car folder or the demo.
func (s *session) files() (fs.FS, error) {
	if s.demo != "" {
		files, err := profiles.Demo(s.demo)
		if err != nil {
			return nil, terminal.Misuse(err.Error(), "demos are "+strings.Join(profiles.DemoNames(), " and ")+"; write --demo="+profiles.DemoNames()[0])
		}
		return files, nil
	}
	if s.Car == "" {
		return nil, terminal.Misuse("--car has no value", "name the car folder with --car, or start one: tripwear new DIR")
	}
	kept, err := store.Open(s.Car, s.open)
	if err != nil {
		return nil, err
	}
	s.kept = kept
	return kept.Files(), nil
}

// logRead logs a file that was read with how much it held.
func (s *session) logRead(file, what string, n int) {
	s.log.Debug().Str("file", file).Int(what, n).Msg("read")
}

// logFiles logs the files of a car folder or a demo, each with how much it
// has.
func (s *session) logFiles(f *profiles.Folder) {
	if s.log.GetLevel() > zerolog.DebugLevel {
		return
	}
	dir := s.Car
	if s.demo != "" {
		dir = path.Join("demo", s.demo)
	}
	read := func(file, what string, n int) {
		if n > 0 {
			s.logRead(path.Join(dir, file), what, n)
		}
	}
	own := func(sources profiles.Sources, file string) (n int) {
		for _, source := range sources {
			if source.File == file || source.Tag == decode.Owner {
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
		case c.Map != nil:
			read(file, "points", len(c.Map.Points))
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
	read(profiles.LogFile, "rows", len(f.Evidence))
}

// cannotDrive is the hint where a circuit or a leg is validly written and the
// planner finds that it cannot be driven so.
const cannotDrive = "change the circuit or the leg that it names: its lap_time, its pace or its sessions"

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
