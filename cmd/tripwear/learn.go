package main

import (
	"strings"

	"github.com/spf13/cobra"

	"example.com/tripwear/cmd/tripwear/terminal"
	"example.com/tripwear/planner"
	"example.com/tripwear/planner/report"
	"example.com/tripwear/profiles"
)

func newLearnCommand(env environment) *cobra.Command {
	cmd := &cobra.Command{
		Use:   "learn [TRIP]",
		Short: "What the logbook teaches, with its backtest, and what to measure next",
		Long: `Show what the logbook's readings teach of how this car wears against the model,
how well past readings would have been forecast, and which reading would make
the decisions of a trip surest: TRIP is the name of a file in trips/ without
.yaml, and may be left out where there is only one.

Every plan starts from what was learned; plan --prior leaves it aside.`,
		Example: `  tripwear learn --car ~/juniper
  tripwear learn spring --units metric`,
		Args: atMostOne("TRIP"),
		RunE: env.reads(func(s *session, args []string) error { return runLearn(s, strings.Join(args, "")) }),
	}
	addDemo(cmd, "use an embedded demo")
	return cmd
}

func runLearn(s *session, tripID string) error {
	folder, err := s.load()
	if err != nil {
		return err
	}
	var trip *profiles.Trip
	if tripID != "" || len(folder.Trips) == 1 {
		t, err := folder.FindTrip(tripID)
		if err != nil {
			return err
		}
		trip = &t
	} else if len(folder.Trips) > 1 {
		s.log.Info().Msg("name a trip to see what to measure next for it")
	}
	options := s.options()
	done := s.stage("learn")
	teaching, err := planner.Learn(folder, trip, options)
	done()
	if err != nil {
		return terminal.AsMisuse("learn: ", err, cannotDrive)
	}
	return show(s, teaching, report.Learn)
}
