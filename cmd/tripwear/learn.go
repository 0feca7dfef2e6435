package main

import (
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"example.com/tripwear/cmd/tripwear/terminal"
	"example.com/tripwear/planner"
	"example.com/tripwear/planner/report"
	"example.com/tripwear/profiles"
)

func newLearnCommand(env environment) *cobra.Command {
	var share string
	var with []string
	cmd := &cobra.Command{
		Use:   "learn [TRIP]",
		Short: "What the logbook teaches, with its backtest, and what to measure next",
		Long: `Show what the logbook's readings teach of how this car wears against the model,
how well past readings would have been forecast, and which reading before a trip
would save the most of what its plan is expected to cost: TRIP is the name of a file in trips/ without
.yaml, and may be left out where there is only one.

Every plan starts from what was learned; plan --prior leaves it aside.

--share writes how fast the parts wear by the logbook alone, without dates,
places or names, for owners of other cars. --with begins from such a file of
another car; in the car folder's rates/ it counts in every plan.`,
		Example: `  tripwear learn --car ~/juniper
  tripwear learn spring --units metric
  tripwear learn --share rates.yaml
  tripwear learn --with friend.yaml --with cousin.yaml`,
		Args: atMostOne("TRIP"),
		RunE: env.reads(func(s *session, args []string) error { return runLearn(s, strings.Join(args, ""), share, with) }),
	}
	cmd.Flags().StringVar(&share, "share", "", "write this car's rates into a .yaml file, for others")
	cmd.Flags().StringArrayVar(&with, "with", nil, "begin from another car's rates, a file that --share wrote; may be repeated")
	addDemo(cmd, "use an embedded demo")
	return cmd
}

func runLearn(s *session, tripID, share string, with []string) error {
	folder, err := s.load()
	if err != nil {
		return err
	}
	for _, file := range with {
		if err := folder.AddRates(s.open(filepath.Dir(file)), filepath.Base(file)); err != nil {
			return terminal.InFile(file, err, "")
		}
	}
	if share != "" {
		if err := planner.Share(folder, share); err != nil {
			return terminal.AsMisuse("learn: ", err, cannotDrive)
		}
		s.log.Info().Msg("wrote " + share)
		return nil
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
