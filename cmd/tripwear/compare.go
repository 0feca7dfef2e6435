package main

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"example.com/tripwear/cmd/tripwear/terminal"
	"example.com/tripwear/planner"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/report"
	"example.com/tripwear/profiles"
)

type compareOptions struct {
	with   []string
	inTurn bool
	whole  bool
}

func newCompareCommand(env environment) *cobra.Command {
	var o compareOptions
	cmd := &cobra.Command{
		Use:   "compare TRIP TRIP... | compare [TRIP] --with KEY=VALUE...",
		Short: "Two trips, or one trip with something changed, side by side",
		Long: `Plan several trips of the car folder, or one trip as it is and with changes, and
set them side by side: decisions, money, what each part loses, biggest changes
first, and for the tires the trade of life against evenness.

KEY is a key of car.yaml or model.yaml, dotted (alignment.rear.toe, boot.volume,
costs.stranded, safety.cap); a key of the trip's legs, all of them (pace,
sessions, days, ambient) or one, by number or name (distance.1,
days.heron-flats); fit, what is on at circuits (fit=none, "fit=front pads: pads-track");
parts.PART.KEY; fitted.SET, another part as new, or the used one that lies aside;
fitted.SET.KEY, what is known of the one fitted, fitted.SET:PART.KEY of the one
that lies aside; or shelf.PART. Values are written as in the files. All changes together are one way. A part that a change
puts on is bought, unless one lies on the shelf. Several trips each start from
today's car, or with --in-turn from what the one before leaves, by date. Of a
trip under way what is left is compared, unless --whole.

Exit status: 0 where every verdict is a yes, 1 where one is not, 2 bad input or
use.`,
		Example: `  tripwear compare spring autumn
  tripwear compare spring autumn --in-turn
  tripwear compare --demo --with alignment.rear.toe=0.25deg
  tripwear compare spring --with fitted.pads-front=pads-track --with pace=advanced`,
		RunE: env.reads(func(s *session, args []string) error { return runCompare(s, o, args) }),
	}
	cmd.Flags().StringArrayVar(&o.with, "with", nil, "a change, KEY=VALUE; may be given several times")
	cmd.Flags().BoolVar(&o.inTurn, "in-turn", false, "several trips one after another, as a season")
	cmd.Flags().BoolVar(&o.whole, "whole", false, "compare a trip from its start, whatever the logbook says was driven of it")
	addPrior(cmd)
	addDemo(cmd, "compare an embedded demo")
	return cmd
}

func runCompare(s *session, o compareOptions, trips []string) error {
	switch {
	case o.inTurn && len(trips) < 2:
		return terminal.Misuse("--in-turn goes with several trips", "name them, or leave --in-turn out")
	case len(o.with) == 0 && len(trips) < 2:
		return terminal.Misuse("compare takes two trips, or one with a change", "tripwear compare TRIP TRIP, or tripwear compare TRIP --with pace=advanced")
	case len(o.with) > 0 && len(trips) > 1:
		return terminal.Misuse("--with goes with one trip", "name one trip, or leave --with out")
	case len(trips) > planner.MostWays:
		return terminal.Misuse(fmt.Sprintf("%d trips are more than can be compared at once", len(trips)), fmt.Sprintf("compare at most %d at once", planner.MostWays))
	}
	changes, err := parseChanges(o.with)
	if err != nil {
		return err
	}
	folder, err := s.load()
	if err != nil {
		return err
	}
	if o.inTurn {
		done := s.stage("season")
		c, err := planner.InTurn(folder, trips, s.options())
		done()
		if err != nil {
			return terminal.AsMisuse("", err, cannotDrive)
		}
		return s.compared(c)
	}
	if len(trips) == 0 {
		trips = []string{""} // the only one
	}
	with := make([][]profiles.Change, len(trips)) // each as it is
	if len(changes) > 0 {
		trips, with = append(trips, trips[0]), append(with, changes)
	}
	var ways []planner.Way
	for i, id := range trips {
		outing, options, err := s.outing(folder, id, o.whole)
		if err != nil {
			return err
		}
		trip := outing.Trip
		way := planner.Way{Label: trip.ID + ": " + trip.Name}
		if trip.Under != nil {
			way.Label += ", what is left of it"
		}
		done := s.stage("plan")
		way.Folder, way.Plan, err = planner.Vary(outing.Folder, trip, with[i], options)
		done()
		if with[i] != nil {
			way.Label += ", with " + strings.Join(o.with, ", ") + planner.Paid(folder, with[i])
			err = reworded(err, func(e *profiles.Error) { e.File = "--with " + e.File })
		}
		if err != nil {
			return terminal.AsMisuse("trip "+trip.ID+": ", err, cannotDrive)
		}
		ways = append(ways, way)
	}
	return s.compared(planner.Compare(ways))
}

func (s *session) compared(c *plan.Comparison) error {
	unsafe := slices.ContainsFunc(c.Ways, func(o plan.Outcome) bool { return !o.Safe })
	return answer(!unsafe, show(s, c, report.Compare))
}

// parseChanges reads every --with, and reports all that are wrong.
func parseChanges(with []string) ([]profiles.Change, error) {
	var out []profiles.Change
	var all profiles.Errors
	for _, s := range with {
		c, err := profiles.ParseChange(s)
		if err == nil && slices.ContainsFunc(out, func(o profiles.Change) bool { return o.Key == c.Key }) {
			err = profiles.Errors{{What: terminal.Quoted(c.Key) + " is changed twice", Expected: "each key once", Hint: "leave one of the two out"}}
		}
		var bad profiles.Errors
		if errors.As(err, &bad) {
			for _, e := range bad {
				e.What = "--with: " + e.What
			}
			all = append(all, bad...)
		}
		out = append(out, c)
	}
	if len(all) > 0 {
		return nil, all
	}
	return out, nil
}
