package main

import (
	"strings"

	"github.com/spf13/cobra"

	"example.com/tripwear/cmd/tripwear/terminal"
	"example.com/tripwear/planner/roadside"
)

func newTodayCommand(env environment) *cobra.Command {
	cmd := &cobra.Command{
		Use:   "today [TRIP]",
		Short: "The card in text, for the day the trip stands at",
		Long: `Print what the card of plan -o card.html has for today and tomorrow: what is to
be done here, where the day goes, what each check should read and when to act
and to stop, the stop for oil, what is in the trunk, and what to park it for.
Exit status as for plan.`,
		Example: "  tripwear today",
		Args:    atMostOne("TRIP"),
		RunE: env.reads(func(s *session, args []string) error {
			folder, err := s.load()
			if err != nil {
				return err
			}
			outing, options, err := s.outing(folder, strings.Join(args, ""), false)
			if err != nil {
				return err
			}
			made, err := outing.Plan(options)
			if err != nil {
				return terminal.AsMisuse("trip "+outing.Trip.ID+": ", err, cannotDrive)
			}
			return answer(made.Safe, show(s, made, roadside.Today))
		}),
	}
	addDemo(cmd, "print an embedded demo's")
	addPrior(cmd)
	return cmd
}
