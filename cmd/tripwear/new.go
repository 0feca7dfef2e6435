package main

import (
	"bufio"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"github.com/mattn/go-isatty"
	"github.com/spf13/cobra"

	"example.com/tripwear/cmd/tripwear/terminal"
	"example.com/tripwear/planner/page"
	"example.com/tripwear/profiles/durable"
	"example.com/tripwear/profiles/garage"
	"example.com/tripwear/profiles/newcar"
	"example.com/tripwear/profiles/store"
)

type newOptions struct{ usual, ask bool }

func newNewCommand(env environment) *cobra.Command {
	var o newOptions
	cmd := &cobra.Command{
		Use:   "new DIR",
		Short: "Start a car, in a folder or a workbook: a dozen questions, or a demo",
		Long: `Start a car: a folder of files or, where DIR ends in .xlsx, one workbook for any
spreadsheet program. Both hold the same, and tripwear convert turns one into the
other. At a terminal it asks a dozen questions; Enter takes what stands in
brackets. What is not asked comes from the kind of car and is marked as assumed,
with a wider spread. Without a terminal, and with --defaults, every answer is
the usual one. --demo copies an embedded demo, every key explained.`,
		Example: "  tripwear new my-car\n  tripwear new garage.xlsx\n  tripwear new look --demo",
		Args:    exactlyOne("new takes the folder to make", "tripwear new my-car"),
		RunE:    env.reads(func(s *session, args []string) error { return runNew(s, o, args[0]) }),
	}
	addDemo(cmd, "copy an embedded demo")
	cmd.Flags().BoolVar(&o.usual, "defaults", false, "ask nothing: the usual answer to every question")
	cmd.Flags().BoolVar(&o.ask, "ask", false, "ask even where the answers come from a file or a pipe, one a line")
	return cmd
}

// runNew writes a folder that does not exist yet or is empty.
func runNew(s *session, o newOptions, dir string) error {
	if dir == "" {
		return terminal.Misuse("new takes the folder to make, and its name is empty", "tripwear new my-car")
	}
	from, files, err := "by what you answered", fs.FS(nil), error(nil)
	switch in, ok := s.stdin.(*os.File); {
	case s.demo != "":
		from = "of the " + s.demo + " demo"
		files, err = s.files()
	case !o.usual && (o.ask || ok && isatty.IsTerminal(in.Fd())):
		if _, err := fs.Stat(s.open(dir), "car.yaml"); err == nil {
			return terminal.Misuse(filepath.Join(dir, "car.yaml")+" exists already", "name a folder that is new or empty")
		}
		files, err = s.asks()
	default:
		from = "by the usual answers"
		files = newcar.Files(nil, s.today())
	}
	if err != nil {
		return err
	}
	out := page.New(s.stdout, s.view())
	if garage.Is(dir) {
		if _, err := store.Start(dir, files, nil); err != nil {
			return err
		}
		out.Line("%s: a workbook %s", dir, from)
		out.Line("edit its sheets first, then run tripwear plan --car %s", dir)
		return out.Flush()
	}
	if files, err = garage.Explain(files); err != nil {
		return err
	}
	if err := durable.NewFolder(dir, files, "car.yaml"); err != nil {
		return err
	}
	var names []string
	err = fs.WalkDir(files, ".", func(path string, d fs.DirEntry, err error) error {
		if err == nil && !d.IsDir() {
			names = append(names, path)
		}
		return err
	})
	if err != nil {
		return err
	}
	out.Line("%s: %s %s", dir, page.Count(len(names), "file"), from)
	out.Line("edit %s first, then run tripwear plan --car %s", filepath.Join(dir, "car.yaml"), dir)
	return out.Flush()
}

// asks is the folder of what its owner answers.
func (s *session) asks() (fs.FS, error) {
	s.waiting.Stop()
	a, in := newcar.Answers{}, bufio.NewScanner(s.stdin)
	for _, q := range newcar.Questions() {
		answer, err := terminal.Ask(in, s.stderr, q.Ask, q.Usual(a), q.Help, q.Check)
		if err != nil {
			return nil, terminal.Misuse(err.Error()+": "+strings.ToLower(q.Key)+"; nothing was written", "answer each of them, or take --defaults")
		}
		a[q.Key] = answer
	}
	return newcar.Files(a, s.today()), nil
}
