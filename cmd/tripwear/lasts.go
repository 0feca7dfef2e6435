package main

import (
	"maps"
	"slices"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"example.com/tripwear/cmd/tripwear/terminal"
	"example.com/tripwear/planner"
	"example.com/tripwear/planner/report"
	"example.com/tripwear/planner/roadside"
	"example.com/tripwear/planner/trip"
	"example.com/tripwear/profiles"
)

type lastsOptions struct {
	circuit string
	fromLog bool
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

func newLastsCommand(env environment) *cobra.Command {
	var o lastsOptions
	cmd := &cobra.Command{
		Use:   "lasts [SET] [--circuit NAME]",
		Short: "Will it last the weekend? One set or all, without a trip file",
		Long: `Forecast how many circuit days each set of the car lasts as it stands, with the
drive there and home: the chance of lasting 1, 2 and 3 days, the days that half
and that nine in ten of the cases last, where it ends first, and what to do.
SET is an id such as pads-front, or words such as front pads, rotors or hub.

Without arguments it answers for the circuit day that the trip under way is in,
or the next one: are the sessions left on, a line a set, worst first, then what
is to be done and whether the car gets home.

A set lasts where the chance to come home within its limit is 90 % or more, the
chance of driving across the limit unnoticed is within the safety cap, and
nothing was found on it that forbids driving. Exit status: 0 where all that was
asked lasts the days asked, 1 where not, 2 bad input or use.`,
		Example: `  tripwear lasts --circuit heron-flats --days 2 --road 600mi --demo
  tripwear lasts
  tripwear lasts front pads --circuit heron-flats --sessions "4 x 25 min" --pace advanced`,
		RunE: env.reads(func(s *session, args []string) error { return runLasts(s, o, strings.Join(args, " ")) }),
	}
	cmd.Flags().StringVar(&o.circuit, "circuit", "", "the circuit: a file of circuits/ without .yaml, or its name")
	addDemo(cmd, "ask an embedded demo")
	cmd.Flags().BoolVar(&o.fromLog, "from-log", false, "in the paddock: by the logbook's readings of its last day and the day before; --road is the way home")
	addPrior(cmd)
	for _, f := range lastsFlags {
		cmd.Flags().String(f.flag, f.usual, f.help)
	}
	return cmd
}

func runLasts(s *session, o lastsOptions, set string) error {
	for _, f := range lastsFlags {
		if flag := s.cmd.Flags().Lookup(f.flag); flag.Changed && flag.Value.String() == "" {
			return terminal.Misuse("--"+f.flag+" is empty", s.cmd.CommandPath()+" --help lists its flags")
		}
	}
	folder, err := s.load()
	if err != nil {
		return err
	}
	if o.circuit == "" && set == "" && !o.fromLog {
		return s.paddock(folder)
	}
	options := s.options()
	today := options.Today
	options.Today = time.Time{} // lasts orders nothing
	if o.fromLog && len(folder.Log) == 0 {
		return terminal.Misuse("--from-log: the logbook has no row", "write what you measured with tripwear log add")
	}
	if o.fromLog {
		today = trip.NewestDay(folder)
	}
	if o.circuit == "" {
		return terminal.Misuse("lasts needs a circuit", "name one with --circuit: "+strings.Join(slices.Sorted(maps.Keys(folder.Circuits)), ", "))
	}
	weekend, err := trip.Weekend(folder, o.circuit, today)
	if err != nil {
		return err
	}
	for _, f := range lastsFlags {
		value := s.cmd.Flags().Lookup(f.flag).Value.String()
		if value == "" {
			continue
		}
		err := folder.Apply(&weekend, profiles.Change{Key: f.key, Value: value})
		if err != nil {
			return reworded(err, func(e *profiles.Error) { e.Position = profiles.Position{File: "--" + f.flag} })
		}
	}
	road := weekend.Legs[0].Distance
	weekend.Legs[0].Distance, weekend.Legs[2].Distance = road/2, road/2
	if o.fromLog { // the way out is done
		weekend.Legs[0].Distance, weekend.Legs[2].Distance = 0, road
	}
	done := s.stage("lasts")
	lasting, err := planner.Lasts(folder, weekend, planner.Ask{Sets: set, FromLog: o.fromLog}, options)
	done()
	if err != nil {
		return terminal.AsMisuse("", err, cannotDrive)
	}
	return answer(lasting.Lasts, show(s, lasting, report.Lasts))
}

// paddock answers for the circuit day that the trip stands before, or is in.
func (s *session) paddock(folder *profiles.Folder) error {
	outing, options, err := s.outing(folder, "", false)
	if err != nil {
		return err
	}
	done := s.stage("lasts")
	answered, err := outing.Paddock(options)
	done()
	switch {
	case err != nil:
		return terminal.AsMisuse("trip "+outing.Trip.ID+": ", err, cannotDrive)
	case answered == nil:
		return terminal.Misuse("no circuit day of the trip is left", "ask about another with --circuit: "+strings.Join(slices.Sorted(maps.Keys(folder.Circuits)), ", "))
	}
	return answer(answered.On, show(s, answered, roadside.Paddock))
}
