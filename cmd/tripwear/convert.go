package main

import (
	"github.com/spf13/cobra"

	"example.com/tripwear/cmd/tripwear/terminal"
	"example.com/tripwear/planner/page"
	"example.com/tripwear/profiles/store"
)

func newConvertCommand(env environment) *cobra.Command {
	return &cobra.Command{
		Use:   "convert FROM TO",
		Short: "Turn a car folder into a workbook, or a workbook into a car folder",
		Long: `Write the car folder FROM as the workbook TO, whose name ends in .xlsx, or a
workbook as a folder. Nothing is lost and nothing replaced: comments become
notes of cells and notes comments; a recorded track that a circuit names goes
along, beside the workbook.`,
		Example: "  tripwear convert my-car garage.xlsx\n  tripwear convert garage.xlsx my-car",
		Args:    refuse(func(n int) bool { return n != 2 }, "convert takes what there is and what to make of it", "tripwear convert my-car garage.xlsx"),
		RunE:    env.reads(func(s *session, args []string) error { return runConvert(s, args[0], args[1]) }),
	}
}

func runConvert(s *session, from, to string) error {
	kept, err := store.Open(from, s.open)
	if err != nil {
		return err
	}
	left, err := kept.Convert(to)
	if err != nil {
		return terminal.InFile(from, err, "")
	}
	for _, name := range left {
		s.log.Warn().Msg("not taken along: " + name)
	}
	out := page.New(s.stdout, s.view())
	out.Line("%s: made of %s", to, from)
	out.Line("run tripwear check --car %s", to)
	return out.Flush()
}
