package main

import (
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"example.com/tripwear/cmd/tripwear/intake"
	"example.com/tripwear/cmd/tripwear/terminal"
	"example.com/tripwear/planner/report"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
)

func newLogImportCommand(env environment) *cobra.Command {
	var confirm bool
	cmd := &cobra.Command{
		Use:   "import FILE",
		Short: "Add the readings of a filled-in workbook, or the rows of a CSV file",
		Long: `Add what was written into the Readings sheet of a workbook that plan -o
made, or the rows of a CSV file with the logbook's columns. All rows are added
or, where one is wrong, none. Rows that the logbook has already are left out.

A page of the workbook that was filled in after a leg also records that the legs
up to there were driven, as a row of its own; pages may come in any order.
Rows that the logbook has taken back stay so.`,
		Example: "  tripwear log import plan.xlsx\n  tripwear log import weekend.csv",
		Args:    exactlyOne("log import takes one FILE", "tripwear log import plan.xlsx"),
		RunE:    env.reads(func(s *session, args []string) error { return runLogImport(s, confirm, args[0]) }),
	}
	cmd.Flags().BoolVarP(&confirm, "confirm", "y", false, "unlikely rows are right")
	return cmd
}

func runLogImport(s *session, confirm bool, path string) error {
	err := s.addRows(confirm, func(folder *profiles.Folder) ([]logbook.Entry, error) { return s.unknownRows(folder, path) }, report.Added)
	return terminal.InFile(path, err, "")
}

// unknownRows reads the rows of a file that the logbook does not have yet.
func (s *session) unknownRows(folder *profiles.Folder, path string) (entries []logbook.Entry, err error) {
	switch strings.ToLower(filepath.Ext(path)) {
	case ".csv":
		entries, err = intake.CSV(path)
	case ".xlsx":
		var warnings []string
		entries, warnings, err = intake.Workbook(folder, path)
		s.tell(warnings)
	default:
		err = terminal.Misuse(fmt.Sprintf("%s is neither .xlsx nor .csv", path), "name the filled-in workbook, or save the sheet as CSV with the columns "+strings.Join(logbook.Columns, ","))
	}
	if err != nil {
		return nil, err
	}
	all := len(entries)
	s.logRead(path, "rows", all)
	known := map[logbook.Entry]bool{}
	for _, e := range folder.Rows() { // what was taken back stays so
		known[e.Facts()] = true
	}
	entries = slices.DeleteFunc(entries, func(e logbook.Entry) bool { return known[e.Facts()] })
	if again := all - len(entries); again > 0 {
		s.log.Info().Msg(fmt.Sprintf("%d of %d rows are in the logbook already and are left out", again, all))
	}
	if len(entries) == 0 {
		s.log.Info().Msg("nothing to add")
	}
	return entries, nil
}
