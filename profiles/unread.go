package profiles

import (
	"io/fs"
	"path"
	"slices"
	"strings"

	"example.com/tripwear/profiles/nearest"
)

// Unread is a file or a folder of a car folder that nothing reads.
type Unread struct {
	Name  string `json:"name"`
	Meant string `json:"meant"` // the name that was probably meant; "" where none is near
}

// roots are the names of a car folder that are read.
var roots = []string{"car.yaml", partsFile, "model.yaml", LogFile, "circuits", "trips", "oil"}

// FindUnread lists what a car folder holds that Load does not read, by name.
// Hidden files and recorded tracks that a circuit names are left out.
func FindUnread(fsys fs.FS, f *Folder) []Unread {
	tracks := map[string]bool{}
	for _, c := range f.Circuits {
		for _, file := range []string{c.GPX, c.CSV, c.Track} {
			tracks[path.Clean(file)] = true
		}
	}
	out := []Unread{} // JSON has a list where there is none
	add := func(name, meant string) {
		if !tracks[name] {
			out = append(out, Unread{name, meant})
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

// At is where a circuit's file says what it is: its lap time, its length or its
// first line.
func (c Circuit) At() Position {
	for _, key := range []string{"lap_time", "corners", "length"} {
		if s, ok := c.Sources[key]; ok && s.Line > 0 {
			return s.Position
		}
	}
	return Position{File: "circuits/" + c.ID + ".yaml", Line: 1, Column: 1}
}
