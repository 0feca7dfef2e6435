package main

import (
	"errors"
	"maps"
	"slices"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"example.com/tripwear/planner"
	"example.com/tripwear/planner/report"
	"example.com/tripwear/planner/trip"
	"example.com/tripwear/profiles"
)

type lastsOptions struct {
	circuit, demo string
	fromLog       bool
	prior         bool
	changes       map[string]*string // values of flags that a leg of the weekend has, by flag
}

// lastsFlags are the flags of lasts that change its weekend: the key that each
// is to profiles.Change.
var lastsFlags = []struct{ flag, key, usual, help string }{
	{"days", "days", "2", "circuit days"},
	{"sessions", "sessions", "", "running of a circuit day, such as \"5 x 20 min\""},
	{"pace", "pace", "", "novice, intermediate, advanced, expert or a share of grip such as 80%; without it the circuit's lap time, or intermediate"},
	{"road", "distance.1", "", "highway there and home together, such as 600mi"},
	{"ambient", "ambient", "", "air temperature, such as 75F"},
}

func newLastsCommand(w world) *cobra.Command {
	o := lastsOptions{changes: map[string]*string{}}
	cmd := &cobra.Command{
		Use:   "lasts [SET] --circuit NAME",
		Short: "Will it last the weekend? One set or all, without a trip file",
		Long: `Tell how many circuit days each set of the car lasts as it stands, with the
drive there and home: the chance of lasting 1, 2 and 3 days, the days that half
and that nine in ten of the cases last, where it ends first, and what to do.
SET is an id such as pads-front, or words such as front pads, rotors or hub.

A set lasts where the chance to come home within its limit is 90 % or more, the
chance of driving across the limit unnoticed is within the safety cap, and
nothing was found on it that forbids driving. Exit status: 0 where all that was
asked lasts the days asked, 1 where not, 2 bad input or use.`,
		Example: `  tripwear lasts --circuit heron-flats --days 2 --road 600mi --demo
  tripwear lasts front pads --circuit heron-flats --sessions "4 x 25 min" --pace advanced`,
		RunE: func(cmd *cobra.Command, args []string) error {
			s, err := w.session(cmd)
			if err != nil {
				return err
			}
			for _, f := range lastsFlags {
				if *o.changes[f.flag] == "" && cmd.Flags().Changed(f.flag) {
					return &useError{"--" + f.flag + " is empty", cmd.CommandPath() + " --help lists its flags"}
				}
			}
			return runLasts(s, o, strings.Join(args, " "))
		},
	}
	cmd.Flags().StringVar(&o.circuit, "circuit", "", "the circuit: a file of circuits/ without .yaml, or its name")
	addDemo(cmd, &o.demo, "ask an embedded demo")
	cmd.Flags().BoolVar(&o.fromLog, "from-log", false, "in the paddock: by the logbook's readings of its last day and the day before; --road is the way home")
	cmd.Flags().BoolVar(&o.prior, "prior", false, "leave aside what the logbook teaches of the rates")
	for _, f := range lastsFlags {
		o.changes[f.flag] = cmd.Flags().String(f.flag, f.usual, f.help)
	}
	return cmd
}

func runLasts(s *session, o lastsOptions, set string) error {
	folder, err := s.load(o.demo)
	if err != nil {
		return err
	}
	options := s.options(o.demo, o.prior)
	today := options.Today
	options.Today = time.Time{} // lasts orders nothing
	if o.fromLog && len(folder.Log) == 0 {
		return &useError{"--from-log: the logbook has no row", "write what you measured with tripwear log add"}
	}
	if o.fromLog {
		today = planner.Newest(folder.Log)
	}
	if o.circuit == "" {
		return &useError{"lasts needs a circuit", "name one with --circuit: " + strings.Join(slices.Sorted(maps.Keys(folder.Circuits)), ", ")}
	}
	weekend, err := trip.Weekend(folder, o.circuit, today)
	if err != nil {
		return err
	}
	for _, f := range lastsFlags {
		if err := o.change(folder, &weekend, f.flag, f.key); err != nil {
			return err
		}
	}
	road := weekend.Legs[0].Distance
	weekend.Legs[0].Distance, weekend.Legs[2].Distance = road/2, road/2
	if o.fromLog { // the way out is done
		weekend.Legs[0].Distance, weekend.Legs[2].Distance = 0, road
	}
	done := s.stage("lasts")
	answer, err := planner.Lasts(folder, weekend, planner.Ask{Sets: set, FromLog: o.fromLog}, options)
	done()
	if bad := (profiles.Errors{}); err != nil && !errors.As(err, &bad) {
		return &useError{err.Error(), cannotDrive}
	}
	if err != nil {
		return err
	}
	err = show(s, answer, report.Lasts)
	if err == nil && !answer.Lasts {
		return errUnsafe
	}
	return err
}

// change applies the value of a flag, and names the flag where it is refused.
func (o lastsOptions) change(f *profiles.Folder, weekend *profiles.Trip, flag, key string) error {
	value := *o.changes[flag]
	if value == "" {
		return nil
	}
	err := f.Apply(weekend, profiles.Change{Key: key, Value: value})
	var bad profiles.Errors
	if errors.As(err, &bad) {
		for _, e := range bad {
			e.Position = profiles.Position{File: "--" + flag}
		}
	}
	return err
}
