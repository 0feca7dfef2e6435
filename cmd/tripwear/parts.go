package main

import (
	"github.com/spf13/cobra"

	"example.com/tripwear/cmd/tripwear/terminal"
	"example.com/tripwear/planner"
	"example.com/tripwear/planner/report"
)

func newPartsCommand(env environment) *cobra.Command {
	cmd := &cobra.Command{
		Use:   "parts",
		Short: "What the car has on, what is used of it, and what comes due when",
		Long: `List what is on the car, what is used of each by the limit that comes first, and
when that comes at the miles and circuit days that are usual for this car.`,
		Example: `  tripwear parts --demo
  tripwear parts --car ~/juniper --json`,
		Args: noArguments("parts", "name the car folder with --car"),
		RunE: env.reads(func(s *session, _ []string) error {
			folder, err := s.load()
			if err != nil {
				return err
			}
			inventory, err := planner.Inventory(folder, s.options())
			if err != nil {
				return terminal.AsMisuse("", err, cannotDrive)
			}
			return show(s, inventory, report.Inventory)
		}),
	}
	addDemo(cmd, "list an embedded demo car's")
	addPrior(cmd)
	return cmd
}
