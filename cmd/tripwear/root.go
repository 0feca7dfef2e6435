package main

import (
	"github.com/spf13/cobra"

	"example.com/tripwear/cmd/tripwear/build"
	"example.com/tripwear/cmd/tripwear/complete"
	"example.com/tripwear/cmd/tripwear/guide"
	"example.com/tripwear/cmd/tripwear/terminal"
)

const about = `The usual three lines:

  tripwear plan spring                    what a trip takes, what to bring
  tripwear lasts --circuit heron-flats    whether the car lasts a weekend there
  tripwear log add pad 6 mm --at RF --odometer "143900 mi"    what was measured

tripwear plans what a drive to circuit days and home again takes from a car:
tread, pads, rotors, hub bearings, oil and brake fluid, leg by leg, with the
chance that each lasts, and what to replace, bring and watch.

Exit status: 0 fine, 1 the answer is not a yes, 2 bad input or use.
Settings come from flags, then variables such as TRIPWEAR_UNITS, then a config
file: see tripwear help settings.`

func newRootCommand(env environment) *cobra.Command {
	root := &cobra.Command{
		Use: "tripwear", Short: "What lasts the trip, what to replace, what to bring", Long: about,
		Version:       build.Version(),
		SilenceErrors: true, SilenceUsage: true,
		Args: aCommand("", "tripwear help lists the commands"),
		RunE: func(cmd *cobra.Command, _ []string) error { return cmd.Help() },
	}
	root.SetOut(env.stdout)
	root.SetErr(env.stderr)
	root.SetFlagErrorFunc(ofFlags)
	addSettings(root.PersistentFlags())
	for _, when := range []struct {
		title    string
		commands []func(environment) *cobra.Command
	}{
		{"Before leaving:", []func(environment) *cobra.Command{newNewCommand, newConvertCommand, newCheckCommand, newPartsCommand, newPlanCommand, newSeasonCommand, newCompareCommand, newCircuitCommand}},
		{"On the road:", []func(environment) *cobra.Command{newTodayCommand, newLastsCommand, newLogCommand}},
		{"Back home:", []func(environment) *cobra.Command{newLearnCommand, newOilCommand}},
	} {
		root.AddGroup(&cobra.Group{ID: when.title, Title: when.title})
		for _, command := range when.commands {
			c := command(env)
			c.GroupID = when.title
			root.AddCommand(c)
		}
	}
	root.AddCommand(newManCommand(env))
	root.AddCommand(guide.Topics()...)
	root.SetHelpCommand(guide.Command())
	guide.Fit(root, terminal.Width())
	complete.Commands(root, env.folder)
	return root
}
