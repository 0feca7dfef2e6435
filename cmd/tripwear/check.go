package main

import (
	"encoding/json"
	"fmt"

	"github.com/spf13/cobra"
)

func newCheckCommand(env environment) *cobra.Command {
	return &cobra.Command{
		Use:   "check",
		Short: "Validate every file of the car folder",
		Args:  noArguments("check", "name the car folder with --car"),
		RunE:  env.reads(func(s *session, _ []string) error { return runCheck(s) }),
	}
}

func runCheck(s *session) error {
	folder, err := s.load()
	if err != nil {
		return err
	}
	if s.JSON {
		name, err := json.Marshal(folder.Car.Name)
		if err != nil {
			return err
		}
		_, err = fmt.Fprintf(s.stdout, "{\"car\": %s, \"fitted\": %d, \"circuits\": %d, \"trips\": %d}\n",
			name, len(folder.Car.Fitted), len(folder.Circuits), len(folder.Trips))
		return err
	}
	_, err = fmt.Fprintf(s.stdout, "%s: fitted %d, circuits %d, trips %d, all sound\n",
		folder.Car.Name, len(folder.Car.Fitted), len(folder.Circuits), len(folder.Trips))
	return err
}
