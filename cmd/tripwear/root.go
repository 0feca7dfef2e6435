package main

import (
	"github.com/spf13/cobra"
)

const about = `tripwear plans what a drive to circuit days and home again takes from a car:
tread, pads, rotors, hub bearings, oil and brake fluid, leg by leg, with the
chance that each lasts, and what to renew, carry or watch.

Exit status: 0 fine, 1 the answer is "not safe as planned", 2 bad input or use.
Settings come from flags, then variables such as TRIPWEAR_UNITS, then a config
file: see tripwear help settings.`

func newRootCommand(w world) *cobra.Command {
	root := &cobra.Command{
		Use: "tripwear", Short: "What lasts the trip, what to renew, what to carry", Long: about,
		Version:       version(),
		SilenceErrors: true, SilenceUsage: true,
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) > 0 {
				return &useError{"unknown command " + shown(args[0]), "tripwear help lists the commands"}
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, _ []string) error { return cmd.Help() },
	}
	root.SetOut(w.stdout)
	root.SetErr(w.stderr)
	root.SetFlagErrorFunc(ofFlags)
	addSettings(root.PersistentFlags())
	root.AddCommand(newPlanCommand(w), newCheckCommand(w), newNewCommand(w), newOilCommand(w), newLogCommand(w), newLearnCommand(w), newLastsCommand(w), newCompareCommand(w), newCircuitCommand(w), newManCommand(w))
	root.AddCommand(newTopics()...)
	root.SetHelpCommand(newHelpCommand())
	w.completions(root)
	return root
}
