package main

import (
	"maps"
	"slices"

	"github.com/spf13/cobra"

	"example.com/tripwear/profiles"
)

// Completions come from the car folder that --car names; a folder that does
// not load completes nothing.

// idsOf completes with the ids that pick finds in the folder.
func (w world) idsOf(pick func(*profiles.Folder) []string) cobra.CompletionFunc {
	return func(cmd *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
		s, err := w.session(cmd)
		if err != nil {
			return nil, cobra.ShellCompDirectiveNoFileComp
		}
		folder, err := profiles.Load(s.open(s.Car))
		if err != nil {
			return nil, cobra.ShellCompDirectiveNoFileComp
		}
		return pick(folder), cobra.ShellCompDirectiveNoFileComp
	}
}

func trips(f *profiles.Folder) []string { return slices.Sorted(maps.Keys(f.Trips)) }

// words completes with fixed words.
func words(list ...string) cobra.CompletionFunc {
	return func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
		return list, cobra.ShellCompDirectiveNoFileComp
	}
}

// must is for completions of flags that the command has just defined.
func must(err error) {
	if err != nil {
		panic(err)
	}
}
