package main

import (
	"encoding/json"
	"fmt"

	"github.com/spf13/cobra"

	"example.com/tripwear/cmd/tripwear/terminal"
	"example.com/tripwear/planner"
	"example.com/tripwear/planner/page"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles/strays"
)

func newCheckCommand(env environment) *cobra.Command {
	return &cobra.Command{
		Use:   "check",
		Short: "Read every file of the car folder, drive every circuit and walk every trip",
		Long: `Read every file of the car folder, drive every circuit for a day and walk every
trip: what a plan would refuse is reported with its file and line. It counts
what it read and names the files that nothing reads, with the name that was
probably meant. Whether the car is safe is for plan to say.`,
		Args: noArguments("check", "name the car folder with --car"),
		RunE: env.reads(func(s *session, _ []string) error { return runCheck(s) }),
	}
}

// found is what check read.
type found struct {
	Car        string         `json:"car"`
	Fitted     int            `json:"fitted"`
	Circuits   int            `json:"circuits"`
	Trips      int            `json:"trips"`
	Rows       int            `json:"rows"` // of the logbook
	OilReports int            `json:"oil_reports"`
	Unread     []strays.Stray `json:"unread"`
}

func runCheck(s *session) error {
	folder, err := s.load()
	if err != nil {
		return err
	}
	files, err := s.files()
	if err != nil {
		return err
	}
	done := s.stage("check")
	err = planner.Check(folder)
	done()
	if err != nil {
		return err
	}
	f := found{folder.Car.Name, len(folder.Car.Fitted), len(folder.Circuits), len(folder.Trips), len(folder.Log), len(folder.OilReports), strays.Find(files, folder)}
	if s.JSON {
		text, err := json.MarshalIndent(f, "", "  ")
		if err != nil {
			return err
		}
		_, err = fmt.Fprintf(s.stdout, "%s\n", text)
		return err
	}
	out := page.New(s.stdout, s.view())
	count := func(n int, of string) string { return fmt.Sprintf("%d %s", n, plan.Plural(n, of)) }
	out.Line("%s: no error found", terminal.Plainly(f.Car))
	out.Line("  read %s fitted, %s of the logbook, %s", count(f.Fitted, "part"), count(f.Rows, "row"), count(f.OilReports, "oil report"))
	out.Line("  drove %s, walked %s", count(f.Circuits, "circuit"), count(f.Trips, "trip"))
	for _, u := range f.Unread {
		meant := ""
		if u.Meant != "" {
			meant = ", did you mean " + u.Meant + "?"
		}
		out.Line("not read: %s%s", terminal.Plainly(u.Name), terminal.Plainly(meant))
	}
	return out.Flush()
}
