package main

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"example.com/tripwear/planner"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/report"
	"example.com/tripwear/profiles"
)

type compareOptions struct {
	demo  string
	with  []string
	prior bool
}

func newCompareCommand(w world) *cobra.Command {
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
days.heron-flats); parts.PART.KEY; fitted.SET, another part as new;
fitted.SET.KEY, what is known of the one fitted; or shelf.PART. Values are
written as in the files. All changes together are one way.

Exit status: 0 where every way is safe as planned, 1 where one is not, 2 bad
input or use.`,
		Example: `  tripwear compare spring autumn
  tripwear compare --demo --with alignment.rear.toe=0.25deg
  tripwear compare spring --with fitted.pads-front=pads-track --with pace=advanced`,
		RunE: w.reads(func(s *session, args []string) error { return runCompare(s, o, args) }),
	}
	cmd.Flags().StringArrayVar(&o.with, "with", nil, "a change, KEY=VALUE; may be given several times")
	cmd.Flags().BoolVar(&o.prior, "prior", false, "leave aside what the logbook teaches of the rates")
	addDemo(cmd, &o.demo, "compare an embedded demo")
	return cmd
}

func runCompare(s *session, o compareOptions, trips []string) error {
	switch {
	case len(o.with) == 0 && len(trips) < 2:
		return &useError{"compare takes two trips, or one with a change", "tripwear compare TRIP TRIP, or tripwear compare TRIP --with pace=advanced"}
	case len(o.with) > 0 && len(trips) > 1:
		return &useError{"--with goes with one trip", "name one trip, or leave --with out"}
	case len(trips) > planner.MostWays:
		return &useError{fmt.Sprintf("%d trips are more than can be compared at once", len(trips)), fmt.Sprintf("compare at most %d at once", planner.MostWays)}
	}
	changes, err := parseChanges(o.with)
	if err != nil {
		return err
	}
	folder, err := s.load(o.demo)
	if err != nil {
		return err
	}
	options := s.options(o.demo, o.prior)
	if len(trips) == 0 {
		trips = []string{""}
	}
	var ways []planner.Way
	add := func(id string, changes []profiles.Change) error {
		trip, err := folder.FindTrip(id)
		if err != nil {
			return err
		}
		label := trip.ID + ": " + trip.Name
		if len(changes) > 0 {
			label += ", with " + strings.Join(o.with, ", ")
		}
		done := s.stage("plan")
		changed, plan, err := planner.Vary(folder, trip, changes, options)
		done()
		if changes != nil {
			err = ofWith(err)
		}
		if bad := (profiles.Errors{}); err != nil && !errors.As(err, &bad) {
			return &useError{fmt.Sprintf("trip %s: %v", trip.ID, err), cannotDrive}
		}
		ways = append(ways, planner.Way{Label: label, Folder: changed, Plan: plan})
		return err
	}
	for _, id := range trips {
		if err := add(id, nil); err != nil {
			return err
		}
	}
	if len(changes) > 0 {
		if err := add(trips[0], changes); err != nil {
			return err
		}
	}
	return s.compared(planner.Compare(ways))
}

// ofWith names the flag before the changes that were refused.
func ofWith(err error) error {
	var bad profiles.Errors
	if errors.As(err, &bad) {
		for _, e := range bad {
			e.File = "--with " + e.File
		}
	}
	return err
}

// compared prints a comparison.
func (s *session) compared(c *plan.Comparison) error {
	if err := show(s, c, report.Compare); err != nil {
		return err
	}
	for _, way := range c.Ways {
		if !way.Safe {
			return errUnsafe
		}
	}
	return nil
}

// parseChanges reads every --with, and reports all that are wrong.
func parseChanges(with []string) ([]profiles.Change, error) {
	var out []profiles.Change
	var all profiles.Errors
	for _, s := range with {
		c, err := profiles.ParseChange(s)
		if err == nil && slices.ContainsFunc(out, func(o profiles.Change) bool { return o.Key == c.Key }) {
			err = profiles.Errors{{What: shown(c.Key) + " is changed twice", Expected: "each key once", Hint: "leave one of the two out"}}
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
