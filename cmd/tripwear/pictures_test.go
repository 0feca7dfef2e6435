package main

import (
	"image/png"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"testing"
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
