package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"strings"

	"github.com/spf13/cobra"

	"example.com/tripwear/planner"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/report"
	"example.com/tripwear/planner/workbook"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
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
		RunE: w.reads(func(s *session, args []string) error { return runPlan(s, o, strings.Join(args, "")) }),
	}
	cmd.Flags().StringVarP(&o.output, "output", "o", "", "write the workbook to this .xlsx file")
	addDemo(cmd, &o.demo, "plan an embedded demo")
	cmd.Flags().BoolVar(&o.prior, "prior", false, "leave aside what the logbook teaches of the rates")
	cmd.Flags().BoolVar(&o.assumptions, "assumptions", false, "list every assumption with its source")
	return cmd
}

// addDemo gives a command its --demo.
func addDemo(cmd *cobra.Command, demo *string, does string) {
	names := profiles.DemoNames()
	cmd.Flags().StringVar(demo, "demo", "", does+": "+strings.Join(names, " or "))
	cmd.Flags().Lookup("demo").NoOptDefVal = names[0]
}

// exactlyOne wants one argument.
func exactlyOne(what, hint string) cobra.PositionalArgs {
	return func(_ *cobra.Command, args []string) error {
		if len(args) != 1 {
			return &useError{what, hint}
		}
		return nil
	}
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
	options := s.options(o.demo, o.prior)
	done := s.stage("plan")
	made, err := planner.Make(folder, trip, options)
	done()
	var bad profiles.Errors
	if errors.As(err, &bad) {
		return bad
	}
	if err != nil {
		return &useError{fmt.Sprintf("trip %s: %v", trip.ID, err), cannotDrive}
	}
	if o.output != "" {
		done := s.stage("workbook")
		if err := workbook.Save(o.output, made, s.system); err != nil {
			return err
		}
		done()
		s.log.Info().Msg("wrote " + o.output)
	}
	err = show(s, made, func(out io.Writer, plan *plan.Plan, units quantity.System) error {
		return report.Text(out, plan, report.Options{Units: units, All: o.assumptions})
	})
	if err == nil && !made.Safe {
		return errUnsafe
	}
	return err
}

// load reads the car folder, or an embedded demo.
func (s *session) load(demo string) (*profiles.Folder, error) {
	files, err := s.files(demo)
	if err != nil {
		return nil, err
	}
	done := s.stage("load")
	folder, err := profiles.Load(files)
	if err != nil {
		return nil, err
	}
	s.logFiles(folder, demo)
	done()
	if folder.Torn != "" {
		s.log.Warn().Msg("the last row of " + profiles.LogFile + " was cut off in writing and is not heard: " + folder.Torn)
	}
	return folder, nil
}

func (s *session) files(demo string) (fs.FS, error) {
	const hint = "name the car folder with --car, or start one: tripwear new DIR"
	if demo != "" {
		files, err := profiles.Demo(demo)
		if err != nil {
			return nil, &useError{err.Error(), "demos are " + strings.Join(profiles.DemoNames(), " and ") + "; write --demo=" + profiles.DemoNames()[0]}
		}
		return files, nil
	}
	if s.Car == "" {
		return nil, &useError{"--car has no value", hint}
	}
	files := s.open(s.Car)
	switch info, err := fs.Stat(files, "."); {
	case err != nil:
		return nil, atFile(s.Car, err, hint)
	case !info.IsDir():
		return nil, &useError{s.Car + ": a file, not a folder", hint}
	}
	return files, nil
}
