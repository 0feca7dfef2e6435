package main

import (
	"embed"
	"fmt"
	"path"
	"strings"

	"github.com/spf13/cobra"

	"example.com/tripwear/cmd/tripwear/terminal"
	"example.com/tripwear/profiles"
)

// topics are the long texts, a file each: the first line is the heading, and
// console blocks are run by tests.
//
//go:embed topics/*.md
var topics embed.FS

// markdown is the annotation of a topic that has its text as written.
const markdown = "markdown"

// newTopics are the help topics, such as tripwear help season.
func newTopics() []*cobra.Command {
	files, err := topics.ReadDir("topics")
	must(err)
	var out []*cobra.Command
	for _, f := range files {
		data, err := topics.ReadFile("topics/" + f.Name())
		must(err)
		name := strings.TrimSuffix(path.Base(f.Name()), ".md")
		heading, text, _ := strings.Cut(string(data), "\n")
		if name == "formats" {
			text += allKeys()
		}
		out = append(out, &cobra.Command{
			Use: name, Short: strings.TrimPrefix(heading, "# "), Long: plainText(text), Annotations: map[string]string{markdown: text},
		})
	}
	return out
}

// plainText is a topic as a terminal shows it: without the marks around its
// blocks and words. Its lines are written in 80 columns.
func plainText(text string) string {
	var b strings.Builder
	fenced := false
	for line := range strings.Lines(strings.TrimPrefix(text, "\n")) {
		switch {
		case strings.HasPrefix(line, "```"):
			fenced = !fenced
		case fenced:
			b.WriteString(line)
		case strings.HasPrefix(line, "<!--"):
		case strings.HasPrefix(line, "## "):
			b.WriteString(strings.ToUpper(line[len("## "):]))
		default:
			b.WriteString(strings.NewReplacer("`", "", "**", "").Replace(line))
		}
	}
	return b.String()
}

// allKeys lists the keys that the readers accept, in 80 columns.
func allKeys() string {
	const side, width = 21, 80
	var b strings.Builder
	b.WriteString("\nAll keys, * where there must be one; inner ones dotted, ANY is a word such as\nadvanced or city:\n\n```text\n")
	for _, k := range profiles.FileKeys() {
		line := fmt.Sprintf("  %-*s", side-2, k.Of)
		for _, name := range k.Names {
			if len(line)+1+len(name) > width {
				b.WriteString(line + "\n")
				line = strings.Repeat(" ", side)
			}
			line += " " + name
		}
		b.WriteString(line + "\n")
	}
	return b.String() + "```\n"
}

// newHelpCommand is help that says so where there is none.
func newHelpCommand() *cobra.Command {
	return &cobra.Command{
		Use: "help [COMMAND | TOPIC]", Short: "What a command does and takes, or a topic such as season or formats",
		Long:    "Show what a command does and the flags it takes, or a topic at length; tripwear\nhelp alone lists both.",
		Example: "  tripwear help plan\n  tripwear help log add\n  tripwear help season",
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

// listed is a command with all below it that help lists.
func listed(c *cobra.Command) []*cobra.Command {
	out := []*cobra.Command{c}
	for _, sub := range c.Commands() {
		if inHelp(sub) {
			out = append(out, listed(sub)...)
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
