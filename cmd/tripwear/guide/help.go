// Package guide is what tripwear says of itself: help, topics and manual pages.
package guide

import (
	"strings"

	"github.com/spf13/cobra"

	"example.com/tripwear/cmd/tripwear/terminal"
	"example.com/tripwear/cmd/tripwear/topics"
)

// markdown is the annotation of a topic that has its text as written.
const markdown = "markdown"

// Topics are the help topics, such as tripwear help first-season.
func Topics() []*cobra.Command {
	all, err := topics.All()
	if err != nil {
		panic("a help topic cannot be read: " + err.Error()) // they are part of the program
	}
	var out []*cobra.Command
	for _, t := range all {
		out = append(out, &cobra.Command{Use: t.Name, Short: t.Heading, Long: t.Plain(), Annotations: map[string]string{markdown: t.Markdown}})
	}
	return out
}

// Command is help that says so where there is none.
func Command() *cobra.Command {
	return &cobra.Command{
		Use: "help [COMMAND | TOPIC]", Short: "What a command does and takes, or a topic such as season or formats",
		Long:    "Show what a command does and the flags it takes, or a topic at length; tripwear\nhelp alone lists both.",
		Example: "  tripwear help plan\n  tripwear help log add\n  tripwear help first-season",
		ValidArgsFunction: func(cmd *cobra.Command, args []string, toComplete string) ([]cobra.Completion, cobra.ShellCompDirective) {
			about, ok := helpOn(cmd, args)
			if !ok {
				return nil, cobra.ShellCompDirectiveNoFileComp
			}
			var out []cobra.Completion
			for _, c := range about.Commands() {
				if inHelp(c) && strings.HasPrefix(c.Name(), toComplete) {
					out = append(out, cobra.CompletionWithDesc(c.Name(), c.Short))
				}
			}
			return out, cobra.ShellCompDirectiveNoFileComp
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			about, ok := helpOn(cmd, args)
			if !ok {
				return terminal.Misuse("no help on "+terminal.Quoted(strings.Join(args, " ")), "tripwear help lists the commands and topics, tripwear help formats has the files")
			}
			about.InitDefaultHelpFlag()
			return about.Help()
		},
	}
}

// Listed is a command with all below it that help lists.
func Listed(c *cobra.Command) []*cobra.Command {
	out := []*cobra.Command{c}
	for _, sub := range c.Commands() {
		if inHelp(sub) {
			out = append(out, Listed(sub)...)
		}
	}
	return out
}

func inHelp(c *cobra.Command) bool {
	return c.IsAvailableCommand() || c.IsAdditionalHelpTopicCommand()
}

// helpOn finds what help is asked on.
func helpOn(cmd *cobra.Command, args []string) (about *cobra.Command, ok bool) {
	about, rest, err := cmd.Root().Find(args)
	return about, err == nil && len(rest) == 0
}
