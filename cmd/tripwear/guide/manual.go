package guide

import (
	"bytes"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"time"

	"github.com/spf13/cobra"
	"github.com/spf13/cobra/doc"

	"example.com/tripwear/profiles/durable"
)

// Manual writes the manual pages of all commands into a folder, dated with the
// build's commit, and says how many they are.
func Manual(root *cobra.Command, dir string, when time.Time) (int, error) {
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return 0, durable.Problem(dir, err)
	}
	commands := Listed(root)
	for _, c := range commands {
		name := strings.ReplaceAll(c.CommandPath(), " ", "-")
		text, err := manPage(c, name, when)
		if err != nil {
			return 0, err
		}
		err = durable.Replace(filepath.Join(dir, name+".1"), func(w io.Writer) error {
			_, err := w.Write(text)
			return err
		})
		if err != nil {
			return 0, err
		}
	}
	return len(commands), nil
}

// manPage is a command's page. Its date is the commit's, and empty where the
// build has none.
func manPage(c *cobra.Command, name string, when time.Time) ([]byte, error) {
	const month = "Jan 2006"
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
