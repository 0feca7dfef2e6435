// Package topics holds the help topics, a file each: the first line is the
// heading, and console blocks are run by tests.
package topics

import (
	"embed"
	"fmt"
	"io/fs"
	"strings"

	"example.com/tripwear/profiles/keys"
)

//go:embed *.md
var files embed.FS

// Topic is a long text.
type Topic struct {
	Name, Heading string
	Markdown      string // as written, below its heading
}

// All are the topics, by name.
func All() ([]Topic, error) {
	names, err := fs.Glob(files, "*.md")
	if err != nil {
		return nil, err
	}
	var out []Topic
	for _, file := range names {
		data, err := files.ReadFile(file)
		if err != nil {
			return nil, err
		}
		heading, text, _ := strings.Cut(string(data), "\n")
		t := Topic{strings.TrimSuffix(file, ".md"), strings.TrimPrefix(heading, "# "), text}
		if t.Name == "formats" {
			t.Markdown += allKeys()
		}
		out = append(out, t)
	}
	return out, nil
}

// Plain is the text as a terminal shows it: without the marks around its
// blocks and words. Its lines are written in 80 columns.
func (t Topic) Plain() string {
	var b strings.Builder
	fenced := false
	for line := range strings.Lines(strings.TrimPrefix(t.Markdown, "\n")) {
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

// allKeys lists the keys that the readers accept, with what each is.
func allKeys() string {
	var b strings.Builder
	b.WriteString("\nAll keys, * where there must be one; inner ones dotted, ANY is a word such as\nadvanced or city. They are the headings of a garage workbook too:\n\n```text\n")
	for _, g := range keys.All() {
		fmt.Fprintf(&b, "  %s\n", g.Of)
		for _, k := range g.Keys {
			name := k.Path
			if k.Need {
				name += "*"
			}
			line := fmt.Sprintf("    %-20s", name)
			for _, word := range strings.Fields(k.Doc) {
				if len(line)+1+len(word) > width {
					b.WriteString(line + "\n")
					line = strings.Repeat(" ", 24)
				}
				line += " " + word
			}
			b.WriteString(strings.TrimRight(line, " ") + "\n")
		}
	}
	return b.String() + "```\n"
}

const width = 80
