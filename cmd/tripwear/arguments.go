package main

import (
	"fmt"

	"github.com/spf13/cobra"
)

// exactlyOne wants one argument.
func exactlyOne(what, hint string) cobra.PositionalArgs {
	return refuse(func(n int) bool { return n != 1 }, what, hint)
}

// noArguments wants none.
func noArguments(name, hint string) cobra.PositionalArgs {
	return refuse(func(n int) bool { return n > 0 }, name+" takes no arguments", hint)
}

func refuse(wrong func(n int) bool, what, hint string) cobra.PositionalArgs {
	return func(_ *cobra.Command, args []string) error {
		if wrong(len(args)) {
			return &useError{what, hint}
		}
		return nil
	}
}

// atMostOne allows one argument.
func atMostOne(name string) cobra.PositionalArgs {
	return func(cmd *cobra.Command, args []string) error {
		if len(args) > 1 {
			return &useError{fmt.Sprintf("%s takes one %s, not %d", cmd.CommandPath(), name, len(args)), cmd.CommandPath() + " --help shows its use"}
		}
		return nil
	}
}

// aCommand is for commands that only have others below them: what stands there
// is none of those.
func aCommand(of, hint string) cobra.PositionalArgs {
	return func(_ *cobra.Command, args []string) error {
		if len(args) > 0 {
			return &useError{"unknown command " + shown(args[0]) + of, hint}
		}
		return nil
	}
}
