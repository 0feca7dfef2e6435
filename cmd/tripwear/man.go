package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"example.com/tripwear/cmd/tripwear/build"
	"example.com/tripwear/cmd/tripwear/guide"
)

func newManCommand(env environment) *cobra.Command {
	return &cobra.Command{
		Use:   "man DIR",
		Short: "Write the manual pages into a folder",
		Long: `Write a manual page for every command and help topic into a folder, which is
made where there is none. The same build writes the same pages.`,
		Example: "  tripwear man ~/.local/share/man/man1 && man tripwear-plan",
		Args:    exactlyOne("man takes the folder to write into", "tripwear man ~/.local/share/man/man1"),
		RunE:    env.reads(func(s *session, args []string) error { return runMan(s, args[0]) }),
	}
}

// runMan writes the pages of all commands.
func runMan(s *session, dir string) error {
	n, err := guide.Manual(s.cmd.Root(), dir, build.CommitTime())
	if err == nil {
		_, err = fmt.Fprintf(s.stdout, "%s: %d manual pages\n", dir, n)
	}
	return err
}
