// Package strays finds what a car folder holds and nothing reads.
package strays

import (
	"io/fs"
	"path"
	"slices"
	"strings"

	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/nearest"
)

// Stray is a file or a folder of a car folder that nothing reads.
type Stray struct {
	Name  string `json:"name"`
	Meant string `json:"meant"` // the name that was probably meant; "" where none is near
}

// roots are the names of a car folder that are read.
var roots = []string{"car.yaml", "parts.yaml", "model.yaml", profiles.LogFile, "circuits", "trips", "oil", "rates"}

// Find lists what a car folder holds that profiles.Load does not read, by name.
// Hidden files and recorded tracks that a circuit names are left out.
func Find(fsys fs.FS, f *profiles.Folder) []Stray {
	tracks := map[string]bool{}
	for _, c := range f.Circuits {
		for _, file := range c.Files() {
			tracks[path.Clean(file)] = true
		}
	}
	out := []Stray{} // JSON has a list where there is none
	if docs, ok := fsys.(profiles.Documents); ok {
		for _, name := range docs.Unread() {
			out = append(out, Stray{Name: name})
		}
		return out
	}
	add := func(name, meant string) {
		if !tracks[name] {
			out = append(out, Stray{name, meant})
		}
	}
	entries, _ := fs.ReadDir(fsys, ".") // Load has read it
	for _, e := range entries {
		name := e.Name()
		folder := slices.Contains(roots[4:], name)
		switch {
		case strings.HasPrefix(name, "."):
		case !slices.Contains(roots, name) || folder != e.IsDir():
			shown := name
			if e.IsDir() {
				shown += "/"
				if holdsTrack(tracks, name) {
					continue
				}
			}
			add(shown, likely(name, e.IsDir()))
		case folder:
			inside, _ := fs.ReadDir(fsys, name)
			for _, e := range inside {
				file := path.Join(name, e.Name())
				ext := path.Ext(file)
				read := !e.IsDir() && (ext == ".yaml" || name == "oil" && ext == ".csv")
				if !read && !strings.HasPrefix(e.Name(), ".") {
					meant := ""
					if strings.EqualFold(ext, ".yaml") || strings.EqualFold(ext, ".yml") {
						meant = strings.TrimSuffix(file, ext) + ".yaml"
					}
					add(file, meant)
				}
			}
		}
	}
	return out
}

func holdsTrack(tracks map[string]bool, dir string) bool {
	for name := range tracks {
		if strings.HasPrefix(name, dir+"/") {
			return true
		}
	}
	return false
}

// likely is the name that was probably meant.
func likely(name string, dir bool) string {
	from, end := roots[:4], ""
	if dir {
		from, end = roots[4:], "/"
	}
	if meant := nearest.Word(strings.ToLower(name), from); meant != "" {
		return meant + end
	}
	return ""
}
