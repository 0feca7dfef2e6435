package main

import (
	"bytes"
	"compress/zlib"
	"image/png"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/tripwear/cmd/tripwear/terminal"
)

// README shows every picture that there is, and none that there is not; each
// is large enough to read and small enough to load.
func TestPictures(t *testing.T) {
	const root, most = "../..", 200_000
	readme, err := os.ReadFile(filepath.Join(root, "README.md"))
	if err != nil {
		t.Fatal(err)
	}
	var shown []string
	for _, m := range regexp.MustCompile(`!\[[^\]]+\]\(([^)]+)\)`).FindAllStringSubmatch(string(readme), -1) {
		shown = append(shown, m[1])
	}
	made, err := filepath.Glob(filepath.Join(root, "testdata/pictures/*.png"))
	if err != nil {
		t.Fatal(err)
	}
	for _, path := range made {
		name, err := filepath.Rel(root, path)
		if err != nil || !slices.Contains(shown, filepath.ToSlash(name)) {
			t.Errorf("README.md does not show %s", name)
		}
	}
	if len(shown) != len(made) || len(made) < 3 {
		t.Errorf("README.md shows %d pictures of %d", len(shown), len(made))
	}
	for _, name := range shown {
		f, err := os.Open(filepath.Join(root, name))
		if err != nil {
			t.Error(err)
			continue
		}
		defer f.Close()
		info, err := f.Stat()
		if err != nil {
			t.Fatal(err)
		}
		picture, err := png.DecodeConfig(f)
		if err != nil || picture.Width < 600 || picture.Height < 400 || info.Size() > most {
			t.Errorf("%s: %d x %d in %d bytes, %v", name, picture.Width, picture.Height, info.Size(), err)
		}
	}
}

// Each picture carries the text that it shows; make pictures makes them anew.
func TestPicturesAreOfToday(t *testing.T) {
	answer, _ := do(t, "2027-05-01", terminal.ExitFine, "plan", "--demo", "--quiet")
	listing, err := os.ReadFile("../../testdata/golden/workbook-juniper.txt")
	if err != nil {
		t.Fatal(err)
	}
	sheet := func(name string) string {
		lines := regexp.MustCompile(`(?m)^`+name+` \d+\|.*$`).FindAllString(string(listing), -1)
		return regexp.MustCompile(` =[^|\n]*`).ReplaceAllString(strings.Join(lines, "\n"), "")
	}
	for name, want := range map[string]string{
		"answer": "$ tripwear plan --demo -o plan.xlsx\n" + strings.TrimSuffix(answer, "\n"), "summary": sheet("Summary"), "tread": sheet("Wear"), "card": sheet("Card"),
	} {
		data, err := os.ReadFile("../../testdata/pictures/" + name + ".png")
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(strings.Split(want, "\n"), strings.Split(comment(t, data), "\n")); diff != "" {
			t.Errorf("%s.png is old, make pictures (-now +picture):\n%s", name, diff)
		}
	}
}

// comment is the compressed text of a PNG (ISO/IEC 15948, 11.3.4.4).
func comment(t *testing.T, data []byte) string {
	_, rest, ok := bytes.Cut(data, []byte("zTXtcomment\x00\x00"))
	if !ok {
		t.Fatal("a picture without a comment")
	}
	r, err := zlib.NewReader(bytes.NewReader(rest))
	if err != nil {
		t.Fatal(err)
	}
	text, err := io.ReadAll(r)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}
