package main

import (
	"strings"

	"github.com/spf13/cobra"
)

// newHelpCommand is help that says so where there is none.
func newHelpCommand() *cobra.Command {
	return &cobra.Command{
		Use: "help [COMMAND]", Short: "What a command does and takes, or what files hold",
		Long:    "Show what a command does and the flags it takes, or, as help formats, what the\nfiles of a car folder hold.",
		Example: "  tripwear help plan\n  tripwear help log add\n  tripwear help formats",
		ValidArgsFunction: func(cmd *cobra.Command, args []string, toComplete string) ([]cobra.Completion, cobra.ShellCompDirective) {
			about, ok := helpOn(cmd, args)
			if !ok {
				return nil, cobra.ShellCompDirectiveNoFileComp
			}
			var out []cobra.Completion
			for _, c := range about.Commands() {
				if (c.IsAvailableCommand() || c.IsAdditionalHelpTopicCommand()) && strings.HasPrefix(c.Name(), toComplete) {
					out = append(out, cobra.CompletionWithDesc(c.Name(), c.Short))
				}
			}
			return out, cobra.ShellCompDirectiveNoFileComp
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			about, ok := helpOn(cmd, args)
			if !ok {
				return &useError{"no help on " + shown(strings.Join(args, " ")), "tripwear help lists the commands, tripwear help formats the files"}
			}
			about.InitDefaultHelpFlag()
			return about.Help()
		},
	}
}

// helpOn finds what help is asked on.
func helpOn(cmd *cobra.Command, args []string) (about *cobra.Command, ok bool) {
	about, rest, err := cmd.Root().Find(args)
	return about, err == nil && len(rest) == 0
}
