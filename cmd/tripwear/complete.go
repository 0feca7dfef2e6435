package main

import (
	"io"
	"maps"
	"slices"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"example.com/tripwear/cmd/tripwear/guide"
	"example.com/tripwear/planner"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
)

// noFiles is a list of words that no file name completes.
const noFiles = cobra.ShellCompDirectiveNoFileComp

// completions gives every command its arguments and every flag its values.
func (env environment) completions(root *cobra.Command) {
	dirs := cobra.FixedCompletions(nil, cobra.ShellCompDirectiveFilterDirs)
	arguments := map[string]cobra.CompletionFunc{
		"plan":    first(env.ids(trips)),
		"today":   first(env.ids(trips)),
		"learn":   first(env.ids(trips)),
		"compare": env.ids(trips),
		"season":  env.ids(trips),
		"lasts":   first(env.ids((*profiles.Folder).SetIDs)),
		"circuit": first(orFile(env.ids(circuits))),
		"oil":     first(orFile(env.ids(oilReports))),
		"new":     first(dirs),
		"man":     first(dirs),
		"check":   cobra.NoFileCompletions,
		"log add": env.row,
		"log correct": func(cmd *cobra.Command, args []string, text string) ([]string, cobra.ShellCompDirective) {
			if len(args) == 0 {
				return nil, noFiles // a number
			}
			return env.row(cmd, args[1:], text)
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
		"circuit":    env.ids(circuits),
		"pace":       env.ids(func(f *profiles.Folder) []string { return f.ChangeValues("pace") }),
		"rank":       env.ids(func(f *profiles.Folder) []string { return append(f.SetIDs(), logbook.Wheels...) }),
		"direction":  words(planner.Directions...),
		"with":       env.change,
		"at":         place,
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

// folder is the car folder that a command line is about.
func (env environment) folder(cmd *cobra.Command) (*profiles.Folder, bool) {
	env.stderr, env.waiting = io.Discard, nil
	s, err := env.session(cmd)
	if err != nil {
		return nil, false
	}
	folder, err := s.load()
	return folder, err == nil
}

// ids completes with the ids that pick finds in the folder, each once.
func (env environment) ids(pick func(*profiles.Folder) []string) cobra.CompletionFunc {
	return func(cmd *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
		folder, ok := env.folder(cmd)
		if !ok {
			return nil, noFiles
		}
		left := slices.DeleteFunc(pick(folder), func(id string) bool { return slices.Contains(args, id) })
		return left, noFiles
	}
}

func trips(f *profiles.Folder) []string { return slices.Sorted(maps.Keys(f.Trips)) }

func circuits(f *profiles.Folder) []string { return slices.Sorted(maps.Keys(f.Circuits)) }

// change completes KEY=VALUE, a dotted part at a time: there are hundreds.
func (env environment) change(cmd *cobra.Command, args []string, text string) ([]string, cobra.ShellCompDirective) {
	folder, ok := env.folder(cmd)
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
func (env environment) row(cmd *cobra.Command, args []string, text string) ([]string, cobra.ShellCompDirective) {
	phrases := logbook.Words()
	if what, _ := logbook.SplitWhat(strings.Join(args, " ")); slices.Contains(phrases, what) {
		values := logbook.Values(logbook.What(what))
		switch logbook.What(what) {
		case logbook.Trip:
			values, _ = env.ids(trips)(cmd, nil, text)
		case logbook.Replaced, logbook.Fitted, logbook.OilChange:
			values, _ = env.ids(parts)(cmd, nil, text)
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
