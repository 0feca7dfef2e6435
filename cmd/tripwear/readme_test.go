package main

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
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

// paragraph is the paragraph of a plan that holds some words.
func paragraph(plan, words string) []string {
	lines := strings.Split(plan, "\n")
	for i, line := range lines {
		if !strings.Contains(line, words) {
			continue
		}
		end := i + 1
		for end < len(lines) && strings.HasPrefix(lines[end], "        ") {
			end++
		}
		return lines[i:end]
	}
	return nil
}

func marked(mark string, lines []string) string {
	out := make([]string, len(lines))
	for i, l := range lines {
		out[i] = mark + strings.TrimPrefix(l, " ")
	}
	return strings.Join(out, "\n")
}
