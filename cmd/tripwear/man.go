package main

import (
	"bytes"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/cobra/doc"

	"example.com/tripwear/profiles/durable"
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
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return durable.Problem(dir, err)
	}
	commands := listed(s.cmd.Root())
	for _, c := range commands {
		name := strings.ReplaceAll(c.CommandPath(), " ", "-")
		text, err := manPage(c, name)
		if err != nil {
			return err
		}
		err = durable.Replace(filepath.Join(dir, name+".1"), func(w io.Writer) error {
			_, err := w.Write(text)
			return err
		})
		if err != nil {
			return err
		}
	}
	_, err := fmt.Fprintf(s.stdout, "%s: %d manual pages\n", dir, len(commands))
	return err
}

// manPage is a command's page. Its date is the commit's, and empty where the
// build has none.
func manPage(c *cobra.Command, name string) ([]byte, error) {
	const month = "Jan 2006"
	when := commitTime()
	page := *c
	page.DisableAutoGenTag = true
	page.DisableFlagsInUseLine = !c.Runnable()
	page.Long = indented.ReplaceAllString(c.Long, "    $0")
	if text, ok := c.Annotations[markdown]; ok {
		page.Long = text
	}
	var b bytes.Buffer
	err := doc.GenMan(&page, &doc.GenManHeader{Title: strings.ToUpper(name), Section: "1", Date: &when, Source: "tripwear", Manual: "tripwear"}, &b)
	text := b.Bytes()
	if when.IsZero() {
		text = bytes.Replace(text, []byte(when.Format(month)), nil, 1)
	}
	// Tables have up to 78 columns beside their two of indent.
	text = bytes.ReplaceAll(text, []byte(".EX\n"), []byte(".in 0\n.EX\n"))
	return bytes.ReplaceAll(text, []byte(".EE\n"), []byte(".EE\n.in\n")), err
}

// indented is a line of the help that keeps its form.
var indented = regexp.MustCompile(`(?m)^  .*$`)
