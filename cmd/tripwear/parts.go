package main

import (
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"example.com/tripwear/cmd/tripwear/terminal"
	"example.com/tripwear/planner"
	"example.com/tripwear/planner/partsbook"
	"example.com/tripwear/planner/report"
)

func newPartsCommand(env environment) *cobra.Command {
	var output string
	cmd := &cobra.Command{
		Use:   "parts",
		Short: "What the car has on, what is used of it, and what comes due when",
		Long: `List what is on the car, what is used of each by the limit that comes first, and
when that comes at the miles and circuit days that are usual for this car. With -o
the list goes into a workbook of one sheet as well.`,
		Example: `  tripwear parts --demo
  tripwear parts --car ~/juniper --json
  tripwear parts -o parts.xlsx`,
		Args: noArguments("parts", "name the car folder with --car"),
		RunE: env.reads(func(s *session, _ []string) error {
			if output != "" && !strings.EqualFold(filepath.Ext(output), ".xlsx") {
				return terminal.Misuse("--output "+terminal.Quoted(output)+" is not an .xlsx file", "tripwear parts -o parts.xlsx")
			}
			folder, err := s.load()
			if err != nil {
				return err
			}
			inventory, err := planner.Inventory(folder, s.options())
			if err != nil {
				return terminal.AsMisuse("", err, cannotDrive)
			}
			if output != "" {
				if err := partsbook.Save(output, inventory, s.system); err != nil {
					return err
				}
				s.log.Info().Msg("wrote " + output)
			}
			return show(s, inventory, report.Inventory)
		}),
	}
	cmd.Flags().StringVarP(&output, "output", "o", "", "write the list to this .xlsx file too")
	addDemo(cmd, "list an embedded demo car's")
	addPrior(cmd)
	return cmd
}
