package main

import "github.com/spf13/cobra"

const about = `tripwear plans what a drive to circuit days and home again takes from a car:
tread, pads, rotors, hub bearings, oil and brake fluid, leg by leg, with the
chance that each lasts, and what to replace, bring and watch.

Exit status: 0 fine, 1 the answer is no yes, 2 bad input or use.
Settings come from flags, then variables such as TRIPWEAR_UNITS, then a config
file: see tripwear help settings.`

func newRootCommand(env environment) *cobra.Command {
	root := &cobra.Command{
		Use: "tripwear", Short: "What lasts the trip, what to replace, what to bring", Long: about,
		Version:       version(),
		SilenceErrors: true, SilenceUsage: true,
		Args: aCommand("", "tripwear help lists the commands"),
		RunE: func(cmd *cobra.Command, _ []string) error { return cmd.Help() },
	}
	root.SetOut(env.stdout)
	root.SetErr(env.stderr)
	root.SetFlagErrorFunc(ofFlags)
	addSettings(root.PersistentFlags())
	for _, command := range []func(environment) *cobra.Command{
		newPlanCommand, newCheckCommand, newNewCommand, newOilCommand, newLogCommand,
		newLearnCommand, newLastsCommand, newPartsCommand, newCompareCommand, newCircuitCommand, newManCommand,
	} {
		root.AddCommand(command(env))
	}
	root.AddCommand(newTopics()...)
	root.SetHelpCommand(newHelpCommand())
	env.completions(root)
	return root
}
