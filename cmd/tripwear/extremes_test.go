//go:build unix

package main

import (
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

var (
	// figure is a number with its unit, as it stands in a file of a car folder.
	figure = regexp.MustCompile(`([:{\[,] *)(-?\d+(?:\.\d+)?)((?: ?(?:%|[a-zA-Z0-9]+(?:/[a-zA-Z0-9]+)?))*)(\s*[,}\]#]|\s*$)`)
	// bounds are in the message about a figure out of range.
	bounds = regexp.MustCompile(`out of range, expected (-?[\d.]+)[^,;]*? to (-?[\d.]+)`)
)

// leastExtremes is how many figures of the demo have bounds, or more.
const leastExtremes = 150

// TestExtremes puts every figure of the demo's folder to the least and to the
// most that is accepted, one at a time: the plan answers or says what is wrong,
// with numbers only, on the screen and in its workbook. Of the figures every
// ninth is tried, with -short every fortieth, all with TRIPWEAR_EXTREMES=all.
func TestExtremes(t *testing.T) {
	every := 9
	switch {
	case os.Getenv("TRIPWEAR_EXTREMES") == "all":
		every = 1
	case testing.Short():
		every = 40
	}
	t.Chdir(t.TempDir())
	step{"car"}.lay(t)
	var files []string
	err := filepath.WalkDir("car", func(path string, d fs.DirEntry, err error) error {
		if filepath.Ext(path) == ".yaml" {
			files = append(files, path)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	found := 0
	for _, path := range files {
		data, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		was := string(data)
		from := 0
		for line := range strings.Lines(was) {
			code, _, _ := strings.Cut(line, "#")
			for _, at := range figure.FindAllStringSubmatchIndex(code, -1) {
				put := func(v string) {
					if err := os.WriteFile(path, []byte(was[:from+at[4]]+v+was[from+at[5]:]), 0o644); err != nil {
						t.Fatal(err)
					}
				}
				put("99999999999")
				ends := bounds.FindStringSubmatch(command(t, []string{"check", "--car", "car"}).stderr)
				if ends == nil {
					continue // text, a time or a list of sessions
				}
				if found++; found%every != 0 {
					continue
				}
				for _, end := range ends[1:] {
					put(end)
					t.Run(filepath.Base(path)+" "+strings.TrimSpace(code)+" "+end, func(t *testing.T) {
						before := asItStands(t)
						r := command(t, []string{"plan", "spring", "--car", "car", "--draws", "100", "-o", "plan.xlsx", "--quiet"})
						r.checkAnswer(t)
						r.checkFiles(t, before, asItStands(t))
						os.Remove("plan.xlsx") // there is none where the folder was refused
					})
				}
			}
			from += len(line)
		}
		if err := os.WriteFile(path, data, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if found < leastExtremes {
		t.Errorf("%d figures with bounds, fewer than %d", found, leastExtremes)
	}
}
