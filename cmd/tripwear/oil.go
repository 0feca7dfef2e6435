package main

import (
	"cmp"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"example.com/tripwear/cmd/tripwear/terminal"
	"example.com/tripwear/planner/labreport"
	"example.com/tripwear/planner/report"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
)

func newOilCommand(env environment) *cobra.Command {
	var keep bool
	cmd := &cobra.Command{
		Use:   "oil [REPORT]",
		Short: "Read a laboratory's report on used oil, and what it does to the interval",
		Long: `Read a report on a sample of used engine oil: REPORT is a .yaml or .csv file,
or the name of one in the car folder's oil/; left out, the newest there. It is
read by the car's own oil and interval, beside the earlier reports of the same
engine. --keep puts the file into oil/, where every later plan uses it, and a row
into the logbook where the report gives the odometer. The status is 1 where the
report forbids to drive.`,
		Example: `  tripwear oil --demo
  tripwear oil ~/Downloads/report.csv --keep`,
		Args: atMostOne("REPORT"),
		RunE: env.reads(func(s *session, args []string) error { return runOil(s, keep, strings.Join(args, "")) }),
	}
	addDemo(cmd, "read with an embedded demo car")
	cmd.Flags().BoolVar(&keep, "keep", false, "put the report into the car folder's oil/, for the plans to use")
	return cmd
}

func runOil(s *session, keep bool, arg string) error {
	if keep && (s.demo != "" || !isFile(arg)) {
		return terminal.Misuse("--keep puts a .yaml or .csv file into the car folder", "tripwear oil report.yaml --keep --car my-car")
	}
	if name := filepath.Base(arg); keep && !keptName.MatchString(name) {
		return terminal.Misuse(terminal.Quoted(name)+" is no name that a report in the car folder may have", "rename it with letters, digits, dots and dashes, such as 2027-02.csv; nothing was written")
	}
	folder, err := s.load()
	if err != nil {
		return err
	}
	r, err := s.oilReport(folder, arg)
	if err != nil {
		return err
	}
	done := s.stage("oil")
	reading, err := labreport.Read(folder, r)
	done()
	if err != nil {
		return terminal.Misuse(err.Error(), "SAE J300 has 0W to 25W and 8 to 60, such as 5W-40")
	}
	if keep {
		if err := s.enter(folder, arg, r, reading); err != nil {
			return err
		}
	}
	return answer(reading.Safe(), show(s, reading, report.Oil))
}

// keptName is the name of a report that the car folder's reader takes.
var keptName = regexp.MustCompile(`^[A-Za-z0-9][A-Za-z0-9._-]{0,63}\.(yaml|csv)$`)

func isFile(arg string) bool {
	ext := strings.ToLower(filepath.Ext(arg))
	return ext == ".yaml" || ext == ".csv"
}

// oilReport is the report in a file, by its name in the folder, or the newest.
func (s *session) oilReport(f *profiles.Folder, arg string) (profiles.OilReport, error) {
	all := f.OilReportIDs()
	switch {
	case isFile(arg):
		r, err := profiles.LoadOilReport(s.open(filepath.Dir(arg)), filepath.Base(arg))
		if err == nil {
			s.logRead(arg, "values", len(r.Sources))
		}
		return r, terminal.InFile(arg, err, "tripwear help formats shows what a report holds")
	case arg == "" && len(all) > 0:
		return f.OilReports[len(all)-1], nil
	case arg == "":
		return profiles.OilReport{}, terminal.Misuse("the car folder has no report on used oil", "name a .yaml or .csv file: tripwear oil report.yaml")
	}
	if i := slices.Index(all, arg); i >= 0 {
		return f.OilReports[i], nil
	}
	return profiles.OilReport{}, terminal.Misuse(
		"no report "+terminal.Quoted(arg)+" in the car folder's oil/",
		"it has "+cmp.Or(strings.Join(all, ", "), "none")+"; a file is named with .yaml or .csv at its end",
	)
}

// enter puts a report into the car folder and its row into the logbook.
func (s *session) enter(folder *profiles.Folder, file string, r profiles.OilReport, reading labreport.Reading) error {
	rows, err := s.rowsOf(folder, r, reading)
	if err != nil {
		return err
	}
	kept, notes, err := s.kept.Keep(file, rows, folder.Rows())
	if s.tell(notes); kept != "" && err == nil {
		s.log.Info().Msg("kept " + kept)
	}
	return err
}

// rowsOf is the logbook's row of a report, where it gives the odometer and the
// logbook does not have it.
func (s *session) rowsOf(folder *profiles.Folder, r profiles.OilReport, reading labreport.Reading) ([]logbook.Entry, error) {
	if !r.Has("odometer") {
		s.log.Info().Msg("the report gives no odometer, so the logbook has no row of it")
		return nil, nil
	}
	row := "oil report " + r.ID + ": "
	entry, faults := logbook.Parse(logbook.Row{
		"date": r.Sampled.Format(time.DateOnly), "odometer": r.Sources["odometer"].Value, "what": string(logbook.Inspection),
		"place": "engine", "value": row + reading.Verdict.String(), "confirmed": "yes",
	})
	if len(faults) > 0 {
		return nil, terminal.Misuse("the logbook takes no row of the report: "+faults[0].What, faults[0].Hint)
	}
	for _, e := range folder.Log {
		if e.What == entry.What && e.Place == entry.Place && e.Date.Equal(entry.Date) && e.Odometer == entry.Odometer && strings.HasPrefix(e.Text, row) {
			return nil, nil
		}
	}
	rows := []logbook.Entry{entry}
	_, err := folder.Judge(rows, s.today())
	return rows, err
}
