package main

import (
	"io/fs"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"example.com/tripwear/cmd/tripwear/terminal"
	"example.com/tripwear/planner/page"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/durable"
	"example.com/tripwear/profiles/garage"
	"example.com/tripwear/profiles/store"
)

func newNewCommand(env environment) *cobra.Command {
	var like string
	cmd := &cobra.Command{
		Use:   "new DIR",
		Short: "Start a car folder or a workbook from a demo, to be edited",
		Long: `Start a car from a demo, to be edited: a folder of files or, where DIR ends in
.xlsx, one workbook for any spreadsheet program. Both hold the same, and
tripwear convert turns one into the other.`,
		Example: "  tripwear new my-car\n  tripwear new garage.xlsx",
		Args:    exactlyOne("new takes the folder to make", "tripwear new my-car"),
		RunE:    env.reads(func(s *session, args []string) error { return runNew(s, like, args[0]) }),
	}
	cmd.Flags().StringVar(&like, "like", profiles.DemoNames()[0], "the demo to start from: "+strings.Join(profiles.DemoNames(), " or "))
	return cmd
}

// runNew copies a demo into a folder that does not exist yet or is empty.
func runNew(s *session, like, dir string) error {
	files, err := profiles.Demo(like)
	if err != nil {
		return terminal.Misuse(err.Error(), "demos are "+strings.Join(profiles.DemoNames(), " and "))
	}
	if dir == "" {
		return terminal.Misuse("new takes the folder to make, and its name is empty", "tripwear new my-car")
	}
	out := page.New(s.stdout, s.view())
	if garage.Is(dir) {
		if _, err := store.Start(dir, files, nil); err != nil {
			return err
		}
		out.Line("%s: the %s demo in a workbook", dir, like)
		out.Line("edit its sheets first, then run tripwear plan --car %s", dir)
		return out.Flush()
	}
	if err := durable.NewFolder(dir, files, "car.yaml"); err != nil {
		return err
	}
	names := 0
	err = fs.WalkDir(files, ".", func(path string, d fs.DirEntry, err error) error {
		if err == nil && !d.IsDir() {
			names++
		}
		return err
	})
	if err != nil {
		return err
	}
	out.Line("%s: %d files of the %s demo", dir, names, like)
	out.Line("edit %s first, then run tripwear plan --car %s", filepath.Join(dir, "car.yaml"), dir)
	return out.Flush()
}
