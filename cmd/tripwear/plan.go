package main

import (
	"errors"
	"fmt"
	"io/fs"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"example.com/tripwear/planner"
	"example.com/tripwear/planner/report"
	"example.com/tripwear/planner/workbook"
	"example.com/tripwear/profiles"
)

type planOptions struct {
	output      string
	demo        string
	assumptions bool
	prior       bool
}

func newPlanCommand(w world) *cobra.Command {
	var o planOptions
	cmd := &cobra.Command{
		Use:   "plan [TRIP]",
		Short: "What every part has left after every leg, and what to do about it",
		Long: `Plan a trip of the car folder: TRIP is the name of a file in trips/ without
.yaml, and may be left out where there is only one. --demo plans an embedded
example instead.`,
		Example: `  tripwear plan --demo -o plan.xlsx
  tripwear plan spring --car ~/juniper --units metric`,
		Args: atMostOne("TRIP"),
		RunE: func(cmd *cobra.Command, args []string) error {
			s, err := w.session(cmd)
			if err != nil {
				return err
			}
			return runPlan(s, o, strings.Join(args, ""))
		},
	}
	cmd.Flags().StringVarP(&o.output, "output", "o", "", "write the workbook to this .xlsx file")
	cmd.Flags().StringVar(&o.demo, "demo", "", "plan an embedded demo: "+strings.Join(profiles.DemoNames(), " or "))
	cmd.Flags().Lookup("demo").NoOptDefVal = profiles.DemoNames()[0]
	cmd.Flags().BoolVar(&o.prior, "prior", false, "leave aside what the logbook teaches of the rates")
	cmd.Flags().BoolVar(&o.assumptions, "assumptions", false, "list every assumption with its source")
	return cmd
}

// atMostOne allows one argument.
func atMostOne(name string) cobra.PositionalArgs {
	return func(cmd *cobra.Command, args []string) error {
		if len(args) > 1 {
			return &useError{fmt.Sprintf("%s takes one %s, not %d", cmd.CommandPath(), name, len(args)), cmd.CommandPath() + " --help shows its use"}
		}
		return nil
	}
}

func runPlan(s *session, o planOptions, tripID string) error {
	if o.output != "" && !strings.HasSuffix(strings.ToLower(o.output), ".xlsx") {
		return &useError{"--output " + shown(o.output) + " is not an .xlsx file", "write -o plan.xlsx"}
	}
	folder, err := s.load(o.demo)
	if err != nil {
		return err
	}
	trip, err := folder.FindTrip(tripID)
	if err != nil {
		return err
	}
	options := planner.Options{Draws: s.Draws, Seed: s.Seed, Today: s.today(), Prior: o.prior}
	if o.demo != "" {
		options.Today = time.Time{} // the demo reads the same on any day
	}
	plan, err := planner.Make(folder, trip, options)
	var bad profiles.Errors
	if errors.As(err, &bad) {
		return bad
	}
	if err != nil {
		return &useError{fmt.Sprintf("trip %s: %v", trip.ID, err), cannotDrive}
	}
	if o.output != "" {
		if err := workbook.Save(o.output, plan, s.system); err != nil {
			return err
		}
		s.log.Info().Msg("wrote " + o.output)
	}
	if s.JSON {
		err = report.JSON(s.stdout, plan)
	} else {
		err = report.Text(s.stdout, plan, report.Options{Units: s.system, All: o.assumptions})
	}
	if err == nil && !plan.Safe {
		return errUnsafe
	}
	return err
}

// load reads the car folder, or an embedded demo.
func (s *session) load(demo string) (*profiles.Folder, error) {
	if demo == "" {
		const hint = "name the car folder with --car, or start one: tripwear new DIR"
		if s.Car == "" {
			return nil, &useError{"--car has no value", hint}
		}
		switch info, err := fs.Stat(s.open(s.Car), "."); {
		case err != nil:
			return nil, atFile(s.Car, err, hint)
		case !info.IsDir():
			return nil, &useError{s.Car + ": a file, not a folder", hint}
		}
		folder, err := profiles.Load(s.open(s.Car))
		if err == nil && folder.Torn != "" {
			s.log.Warn().Msg("the last row of " + profiles.LogFile + " was cut off in writing and is not heard: " + folder.Torn)
		}
		return folder, err
	}
	files, err := profiles.Demo(demo)
	if err != nil {
		return nil, &useError{err.Error(), "demos are " + strings.Join(profiles.DemoNames(), " and ") + "; write --demo=" + profiles.DemoNames()[0]}
	}
	return profiles.Load(files)
}
