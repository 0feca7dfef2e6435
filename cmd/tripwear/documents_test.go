package main

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"example.com/tripwear/cmd/tripwear/guide"
	"example.com/tripwear/cmd/tripwear/terminal"
)

// commandLine is a command that stands without what it prints.
var commandLine = regexp.MustCompile(`^    (?:go run \./cmd/)?tripwear (.*)`)

// word is a word of a shell command, with or without quotes.
var word = regexp.MustCompile(`"[^"]*"|\S+`)

// TestDocuments runs README and the help topics: each is a script, whose
// commands stand in console blocks with what they print, or indented without.
// Comments, which nobody sees, say the rest:
//
//	<!-- on DAY -->               the day from here on
//	<!-- show WORDS | WORDS -->   of the next block's last command, the paragraphs that have these words in their first lines
//	<!-- until WORDS -->          of it, what stands before the line that begins so
//	<!-- write FILE -->           the next block is that file
//	<!-- FILE without WORDS -->   the lines that have these words go from the file
//
// UPDATE=1 rewrites what the commands print. With -short, as under the race
// detector, README stands for all.
func TestDocuments(t *testing.T) {
	files, err := filepath.Glob("topics/*.md")
	if err != nil || len(files) < 8 {
		t.Fatalf("%d topics, %v", len(files), err)
	}
	if testing.Short() {
		files = nil
	}
	for _, file := range append(files, "../../README.md") {
		t.Run(filepath.Base(file), func(t *testing.T) {
			data, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			path, err := filepath.Abs(file)
			if err != nil {
				t.Fatal(err)
			}
			traces, err := filepath.Abs("../../testdata/trace")
			if err != nil {
				t.Fatal(err)
			}
			t.Chdir(t.TempDir())
			if err := os.CopyFS(".", os.DirFS(traces)); err != nil {
				t.Fatal(err)
			}
			d := document{T: t, day: "2027-05-01"}
			now := d.run(string(data))
			if now != string(data) && os.Getenv("UPDATE") != "" {
				if err := os.WriteFile(path, []byte(now), 0o644); err != nil {
					t.Fatal(err)
				}
			} else if diff := cmp.Diff(string(data), now); diff != "" {
				t.Errorf("it shows what is not so (-shown +now):\n%s", diff)
			}
		})
	}
}

// document is a text that is run; words are those of the comments before the
// next block.
type document struct {
	*testing.T
	day         string
	show        []string
	until, file string
}

// run gives a text as it should be.
func (d *document) run(text string) string {
	var out strings.Builder
	lines := slices.Collect(strings.Lines(text))
	for i := 0; i < len(lines); i++ {
		line := lines[i]
		out.WriteString(line)
		if comment, ok := strings.CutPrefix(line, "<!-- "); ok {
			d.obey(strings.TrimSuffix(strings.TrimSpace(comment), " -->"))
		} else if m := commandLine.FindStringSubmatch(line); m != nil {
			d.command(m[1])
		} else if kind, ok := strings.CutPrefix(line, "```"); ok {
			end := i + 1
			for lines[end] != "```\n" {
				end++
			}
			body := lines[i+1 : end]
			if kind == "console\n" {
				out.WriteString(d.console(body))
			} else {
				out.WriteString(strings.Join(body, ""))
			}
			if d.file != "" {
				d.must(os.WriteFile(d.file, []byte(strings.Join(body, "")), 0o644))
			}
			out.WriteString(lines[end])
			i = end
			d.show, d.until, d.file = nil, "", ""
		}
	}
	return out.String()
}

// obey does what a comment says.
func (d *document) obey(comment string) {
	verb, rest, _ := strings.Cut(comment, " ")
	file, words, without := strings.Cut(comment, " without ")
	switch {
	case without:
		data, err := os.ReadFile(file)
		d.must(err)
		lines := slices.Collect(strings.Lines(string(data)))
		kept := slices.DeleteFunc(slices.Clone(lines), func(l string) bool { return strings.Contains(l, words) })
		if len(kept) == len(lines) {
			d.Fatalf("%s has no line with %q", file, words)
		}
		d.must(os.WriteFile(file, []byte(strings.Join(kept, "")), 0o644))
	case verb == "on":
		d.day = rest
	case verb == "show":
		d.show = strings.Split(rest, " | ")
	case verb == "until":
		d.until = rest
	case verb == "write":
		d.file = rest
	default:
		d.Fatalf("unknown comment %q", comment)
	}
}

// console runs a block's commands and gives the block with what they print.
func (d *document) console(block []string) string {
	var out strings.Builder
	var prints string
	for _, line := range block {
		what, ok := strings.CutPrefix(line, "$ ")
		if !ok {
			continue
		}
		out.WriteString(prints + line)
		prints = ""
		if dir, ok := strings.CutPrefix(what, "cd "); ok {
			d.must(os.Chdir(strings.TrimSpace(dir)))
		} else if args, ok := strings.CutPrefix(what, "tripwear "); ok {
			prints = d.command(args)
		} else {
			d.Fatalf("%q is not run", what)
		}
	}
	if d.show != nil {
		prints = d.paragraphs(prints)
	} else if d.until != "" {
		before, _, ok := strings.Cut(prints, "\n"+d.until)
		if !ok {
			d.Fatalf("no line begins with %q", d.until)
		}
		prints = before + "\n"
	}
	return out.String() + prints
}

// command runs a command line that is right, and gives what it prints.
func (d *document) command(line string) string {
	var args []string
	for _, w := range word.FindAllString(line, -1) {
		args = append(args, strings.Trim(w, `"`))
	}
	var out, printed strings.Builder
	today, err := time.Parse(time.DateOnly, d.day)
	d.must(err)
	w := environment{stdout: &out, stderr: &printed, now: func() time.Time { return today }, open: os.DirFS}
	if status := run(w, args); status != terminal.ExitFine && status != terminal.ExitUnsafe {
		d.Fatalf("tripwear %s: status %d\n%s", line, status, printed.String())
	}
	return out.String()
}

func (d *document) must(err error) {
	if err != nil {
		d.Helper()
		d.Fatal(err)
	}
}

// paragraphs are those of a text that are to be shown, headings after a blank
// line: from the first line that has the words to the last that is indented
// further or begins with a mark.
func (d *document) paragraphs(text string) string {
	lines := strings.Split(text, "\n")
	var out []string
	for _, words := range d.show {
		begin := slices.IndexFunc(lines, func(l string) bool { return strings.Contains(l, words) })
		if begin < 0 {
			d.Fatalf("nothing says %q", words)
		}
		if len(out) > 0 && indent(lines[begin]) == 0 {
			out = append(out, "")
		}
		end := begin + 1
		for end < len(lines) && (indent(lines[end]) > indent(lines[begin]) || strings.HasPrefix(lines[end], "! ")) {
			end++
		}
		out = append(out, lines[begin:end]...)
	}
	return strings.Join(out, "\n") + "\n"
}

// indent is how far a line is indented; -1 for an empty one.
func indent(line string) int {
	if line == "" {
		return -1
	}
	return len(line) - len(strings.TrimLeft(line, " "))
}

// TestTopics: a terminal of 80 columns shows each topic without marks, and help
// lists it.
func TestTopics(t *testing.T) {
	list, _ := do(t, "2027-05-01", terminal.ExitFine, "help")
	for _, c := range guide.Topics() {
		printed, _ := do(t, "2027-05-01", terminal.ExitFine, "help", c.Name())
		for line := range strings.Lines(printed) {
			if n := len([]rune(strings.TrimSuffix(line, "\n"))); n > 80 || strings.HasPrefix(line, "```") || strings.HasPrefix(line, "#") || strings.HasPrefix(line, "<!--") {
				t.Errorf("help %s: %d columns: %s", c.Name(), n, line)
			}
		}
		if !strings.Contains(strings.Join(strings.Fields(list), " "), "tripwear "+c.Name()+" "+c.Short) {
			t.Errorf("help does not list %s: %s", c.Name(), c.Short)
		}
	}
}
