package main

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"golang.org/x/tools/txtar"
)

// word is a word of a shell command, with or without quotes.
var word = regexp.MustCompile(`"[^"]*"|\S+`)

// TestReadmeLogbook runs README's logbook commands on a new car folder: the
// change of the plan that it shows is the one they make. UPDATE=1 rewrites it.
func TestReadmeLogbook(t *testing.T) {
	const path, open, shut = "../../README.md", "```diff\n", "\n```"
	readme, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	before, rest, _ := strings.Cut(string(readme), open)
	shown, after, ok := strings.Cut(rest, shut)
	if !ok {
		t.Fatal("README.md shows no change of the plan")
	}
	const today = "2027-05-01"
	car := filepath.Join(t.TempDir(), "my-car")
	do(t, today, exitFine, "new", car)
	rows := 0
	for _, line := range strings.Split(before, "\n") {
		line, ok := strings.CutPrefix(line, "    go run ./cmd/tripwear log add ")
		if !ok {
			continue
		}
		args := []string{"log", "add"}
		for _, w := range word.FindAllString(line, -1) {
			w = strings.Trim(w, `"`)
			if w == "my-car" {
				w = car
			}
			args = append(args, w)
		}
		do(t, today, exitFine, args...)
		rows++
	}
	if rows != 5 {
		t.Fatalf("README.md adds %d rows", rows)
	}
	plain, _ := do(t, today, exitFine, "plan", "--car", car, "--quiet", "--prior")
	taught, _ := do(t, today, exitFine, "plan", "--car", car, "--quiet")
	want := marked("-", paragraph(plain, "front pads: ")) + "\n" + marked("+", paragraph(taught, "front pads: ")) + "\n" + marked("+", paragraph(taught, "LEARNED front pads "))
	if os.Getenv("UPDATE") != "" {
		if err := os.WriteFile(path, []byte(before+open+want+shut+after), 0o644); err != nil {
			t.Fatal(err)
		}
		shown = want
	}
	if diff := cmp.Diff(shown, want); diff != "" {
		t.Errorf("README.md shows another change (-README +now):\n%s", diff)
	}
}

// TestReadmeSeason: README's season is that of its script, command by command
// with what each prints. UPDATE=1 rewrites README, once the script is right.
func TestReadmeSeason(t *testing.T) {
	const path, script, open, shut = "../../README.md", "../../testdata/script/season.txtar", "```console\n", "```"
	readme, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	season, err := txtar.ParseFile(script)
	if err != nil {
		t.Fatal(err)
	}
	files := map[string]string{}
	for _, f := range season.Files {
		files[f.Name] = string(f.Data)
	}
	type step struct{ line, prints string }
	var steps []step
	for line := range strings.Lines(string(season.Comment)) {
		words := strings.Fields(line)
		at := slices.Index(words, "on")
		switch {
		case at >= 0 && slices.Contains(words, "tripwear"):
			steps = append(steps, step{line: strings.ReplaceAll("$ "+strings.Join(words[at+2:], " "), "'", `"`)})
		case len(words) == 3 && words[0] == "cmp":
			steps[len(steps)-1].prints = files[strings.TrimPrefix(words[2], "$WORK/")]
		case len(words) > 1 && words[0] == "cd":
			steps = append(steps, step{line: "$ cd " + words[1]})
		}
	}
	if plan, ok := files["autumn.yaml"]; !ok || !strings.Contains(string(readme), "```yaml\n"+plan+"```") {
		t.Error("README.md shows another trips/autumn.yaml than its script")
	}
	text, done := string(readme), 0
	for from := 0; ; {
		begin := strings.Index(text[from:], open)
		if begin < 0 {
			break
		}
		begin += from + len(open)
		end := begin + strings.Index(text[begin:], shut)
		var want strings.Builder
		for line := range strings.Lines(text[begin:end]) {
			if !strings.HasPrefix(line, "$ ") {
				continue
			}
			if done == len(steps) || strings.TrimSpace(line) != steps[done].line {
				t.Fatalf("README.md's season runs %q, step %d of its script is another", strings.TrimSpace(line), done+1)
			}
			want.WriteString(line + steps[done].prints)
			done++
		}
		if shown := text[begin:end]; shown != want.String() {
			if os.Getenv("UPDATE") == "" {
				t.Errorf("README.md shows another answer (-README +script):\n%s", cmp.Diff(shown, want.String()))
			}
			text = text[:begin] + want.String() + text[end:]
		}
		from = begin + want.Len() + len(shut)
	}
	if done != len(steps) {
		t.Errorf("README.md shows %d of its season's %d commands", done, len(steps))
	}
	if text != string(readme) && os.Getenv("UPDATE") != "" {
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

// paragraph is the first paragraph of a text that has some words in its first
// line: the line, and those below it that are indented further or
// begin with a mark.
func paragraph(text, words string) []string {
	lines := strings.Split(text, "\n")
	for i, line := range lines {
		if !strings.Contains(line, words) {
			continue
		}
		end := i + 1
		for end < len(lines) && (indent(lines[end]) > indent(line) || strings.HasPrefix(lines[end], "! ")) {
			end++
		}
		return lines[i:end]
	}
	return []string{"(nothing says " + words + ")"}
}

// indent is how far a line is indented; -1 for an empty one.
func indent(line string) int {
	if line == "" {
		return -1
	}
	return len(line) - len(strings.TrimLeft(line, " "))
}

func marked(mark string, lines []string) string {
	out := make([]string, len(lines))
	for i, l := range lines {
		out[i] = mark + strings.TrimPrefix(l, " ")
	}
	return strings.Join(out, "\n")
}
