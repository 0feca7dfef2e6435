// Package complete has the shell complete a command line.
package complete

import (
	"maps"
	"slices"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"example.com/tripwear/cmd/tripwear/guide"
	"example.com/tripwear/planner/circuits"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
)

// noFiles is a list of words that no file name completes.
const noFiles = cobra.ShellCompDirectiveNoFileComp

// Of is the car folder that a command line is about, if it can be read.
type Of func(*cobra.Command) (*profiles.Folder, bool)

// Commands gives every command its arguments and every flag its values.
func Commands(root *cobra.Command, of Of) {
	dirs := cobra.FixedCompletions(nil, cobra.ShellCompDirectiveFilterDirs)
	arguments := map[string]cobra.CompletionFunc{
		"plan":    first(of.ids(trips)),
		"today":   first(of.ids(trips)),
		"learn":   first(of.ids(trips)),
		"compare": of.ids(trips),
		"season":  of.ids(trips),
		"lasts":   first(of.ids((*profiles.Folder).SetIDs)),
		"circuit": first(orFile(of.ids(circuitIDs))),
		"oil":     first(orFile(of.ids((*profiles.Folder).OilReportIDs))),
		"new":     first(dirs),
		"man":     first(dirs),
		"check":   cobra.NoFileCompletions,
		"log add": of.row,
		"log correct": func(cmd *cobra.Command, args []string, text string) ([]string, cobra.ShellCompDirective) {
			if len(args) == 0 {
				return nil, noFiles // a number
			}
			return of.row(cmd, args[1:], text)
		},
		"log walk":   cobra.NoFileCompletions,
		"log undo":   cobra.NoFileCompletions,
		"log show":   cobra.NoFileCompletions,
		"log import": first(files("xlsx", "csv")),
	}
	values := map[string]cobra.CompletionFunc{
		"units":      words("us", "metric"),
		"log-format": words("console", "json"),
		"car":        dirs,
		"config":     files("yaml", "yml"),
		"demo":       words(profiles.DemoNames()...),
		"output":     files("xlsx", "html"),
		"circuit":    of.ids(circuitIDs),
		"pace":       of.ids(func(f *profiles.Folder) []string { return f.ChangeValues("pace") }),
		"rank":       of.ids(func(f *profiles.Folder) []string { return append(f.SetIDs(), logbook.Wheels...) }),
		"direction":  words(circuits.Directions...),
		"with":       of.change,
		"at":         place,
		"of":         of.ids((*profiles.Folder).Swapping),
		"zone":       words(logbook.Zones...),
		"what":       words(logbook.Words()...),
	}
	for _, c := range guide.Listed(root) {
		c.ValidArgsFunction = arguments[strings.TrimPrefix(c.CommandPath(), root.Name()+" ")]
		for _, set := range []*pflag.FlagSet{c.LocalNonPersistentFlags(), c.PersistentFlags()} {
			set.VisitAll(func(f *pflag.Flag) {
				complete, ok := values[f.Name]
				if !ok {
					complete = cobra.NoFileCompletions // a measure or a number
				}
				must(c.RegisterFlagCompletionFunc(f.Name, complete))
			})
		}
	}
}

// ids completes with the ids that pick finds in the folder, each once.
func (of Of) ids(pick func(*profiles.Folder) []string) cobra.CompletionFunc {
	return func(cmd *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
		folder, ok := of(cmd)
		if !ok {
			return nil, noFiles
		}
		left := slices.DeleteFunc(pick(folder), func(id string) bool { return slices.Contains(args, id) })
		return left, noFiles
	}
}

func trips(f *profiles.Folder) []string { return slices.Sorted(maps.Keys(f.Trips)) }

func circuitIDs(f *profiles.Folder) []string { return slices.Sorted(maps.Keys(f.Circuits)) }

// change completes KEY=VALUE, a dotted part at a time: there are hundreds.
func (of Of) change(cmd *cobra.Command, args []string, text string) ([]string, cobra.ShellCompDirective) {
	folder, ok := of(cmd)
	if !ok {
		return nil, noFiles
	}
	if key, _, valued := strings.Cut(text, "="); valued {
		var out []string
		for _, v := range folder.ChangeValues(key) {
			out = append(out, key+"="+v)
		}
		return out, noFiles
	}
	trip, err := folder.FindTrip(strings.Join(args, ""))
	if err != nil {
		trip = profiles.Trip{} // its legs' keys are left out
	}
	var out []string
	for _, key := range folder.ChangeKeys(trip) {
		if !strings.HasPrefix(key, text) {
			continue
		}
		if dot := strings.IndexByte(key[len(text):], '.'); dot >= 0 {
			out = append(out, key[:len(text)+dot+1])
		} else {
			out = append(out, key+"=")
		}
	}
	return slices.Compact(slices.Sorted(slices.Values(out))), noFiles | cobra.ShellCompDirectiveNoSpace
}

// row completes the next word of a row of the logbook.
func (of Of) row(cmd *cobra.Command, args []string, text string) ([]string, cobra.ShellCompDirective) {
	phrases := logbook.Words()
	if what, _ := logbook.SplitWhat(strings.Join(args, " ")); slices.Contains(phrases, what) {
		values := logbook.Values(logbook.What(what))
		switch logbook.What(what) {
		case logbook.Trip:
			values, _ = of.ids(trips)(cmd, nil, text)
		case logbook.Replaced, logbook.Fitted, logbook.OilChange:
			values, _ = of.ids(parts)(cmd, nil, text)
		}
		for _, v := range values {
			phrases = append(phrases, what+" "+v)
		}
	}
	var out []string
	for _, p := range phrases {
		next := strings.Fields(p)
		if len(next) > len(args) && slices.Equal(next[:len(args)], args) {
			out = append(out, next[len(args)])
		}
	}
	return slices.Compact(slices.Sorted(slices.Values(out))), noFiles
}

// parts are the ids that a logbook's row of a new part may name.
func parts(f *profiles.Folder) []string {
	var out []string
	for _, set := range f.SetIDs() {
		out = append(out, f.ChangeValues("fitted."+set)...)
	}
	return slices.Compact(slices.Sorted(slices.Values(out)))
}

// place completes the place that a row is about.
func place(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
	what, _ := logbook.SplitWhat(strings.Join(args, " "))
	at := logbook.Places(logbook.What(what))
	if what == "" || !slices.Contains(logbook.Words(), what) {
		at = logbook.Places(logbook.Replaced) // any
	}
	return at, noFiles
}

// words completes with fixed words.
func words(list ...string) cobra.CompletionFunc {
	return cobra.FixedCompletions(list, noFiles)
}

// files completes with files by how their names end.
func files(ext ...string) cobra.CompletionFunc {
	return cobra.FixedCompletions(ext, cobra.ShellCompDirectiveFilterFileExt)
}

// orFile lets the shell go on to file names where no id fits.
func orFile(complete cobra.CompletionFunc) cobra.CompletionFunc {
	return func(cmd *cobra.Command, args []string, text string) ([]string, cobra.ShellCompDirective) {
		list, _ := complete(cmd, args, text)
		return list, cobra.ShellCompDirectiveDefault
	}
}

// first completes the first argument only.
func first(complete cobra.CompletionFunc) cobra.CompletionFunc {
	return func(cmd *cobra.Command, args []string, text string) ([]string, cobra.ShellCompDirective) {
		if len(args) > 0 {
			return nil, noFiles
		}
		return complete(cmd, args, text)
	}
}

// must is for completions of flags that the command has just defined.
func must(err error) {
	if err != nil {
		panic(err)
	}
}
