package main

import (
	"github.com/spf13/cobra"

	"example.com/tripwear/planner"
	"example.com/tripwear/planner/report"
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
	return show(s, report.CheckedOf(folder, strays.Find(files, folder)), report.Check)
}
