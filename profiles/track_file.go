package profiles

import (
	"errors"
	"fmt"
	"io/fs"
	"path"
	"strings"

	"example.com/tripwear/profiles/nearest"
	"example.com/tripwear/profiles/trace"
)

func (l *loader) track(c *Circuit, where map[string]Position) {
	for _, key := range []string{"corners", "length", "left_share", "heavy_brakings"} {
		if pos, given := where[key]; given {
			l.errs.add(pos, fmt.Sprintf("key %q beside a recorded track", key), "the track alone, which says it itself", "remove the line")
		}
	}
	if c.GPX != "" && c.CSV != "" {
		l.errs.add(where["csv"], "gpx and csv", "one recorded track", "remove one of the lines")
		return
	}
	key, file, ending := "gpx", c.GPX, ".gpx"
	if c.CSV != "" {
		key, file, ending = "csv", c.CSV, ".csv"
	}
	pos := where[key]
	switch {
	case !fs.ValidPath(file):
		l.errs.add(pos, fmt.Sprintf("%s: %q is no path inside the car folder", key, nearest.Cut(file)), "a path such as traces/heron"+ending, "copy the file into the car folder")
		return
	case !strings.EqualFold(path.Ext(file), ending):
		l.errs.add(pos, fmt.Sprintf("%s: %q does not end in %s", key, nearest.Cut(file), ending), "a path such as traces/heron"+ending, "")
		return
	}
	if !l.exists(file) {
		l.errs.add(pos, fmt.Sprintf("%s: no file %q in the car folder", key, nearest.Cut(file)), "a recorded track", "copy the file into the car folder")
		return
	}
	tr, err := ReadTrack(l.fsys, file)
	var bad Errors
	if errors.As(err, &bad) {
		l.errs = append(l.errs, bad...)
		return
	}
	c.Trace = tr
}

// ReadTrack reads a recorded track, .gpx or .csv. Its error is Errors, with
// the line where the file is wrong.
func ReadTrack(fsys fs.FS, file string) (*trace.Trace, error) {
	f, wrong := open(fsys, file)
	if wrong != "" {
		return nil, Errors{{Position: Position{File: file}, What: wrong, Expected: "a recorded track"}}
	}
	defer f.Close()
	tr, err := trace.Read(f, file)
	var bad *trace.Error
	switch {
	case errors.As(err, &bad):
		return nil, Errors{{Position{file, bad.Line, bad.Column}, bad.What, bad.Expected, bad.Hint}}
	case err != nil:
		return nil, Errors{{Position: Position{File: file}, What: reason(err)}}
	}
	return tr, nil
}
