package profiles

import (
	"cmp"
	"errors"
	"fmt"
	"io/fs"
	"path"
	"strings"

	"example.com/tripwear/profiles/decode"
	"example.com/tripwear/profiles/nearest"
	"example.com/tripwear/profiles/trace"
)

func (l *loader) track(c *Circuit, where map[string]Position) {
	for _, key := range []string{"corners", "length", "left_share", "heavy_brakings"} {
		if pos, given := where[key]; given {
			l.errs.Add(pos, fmt.Sprintf("key %q beside a recorded track", key), "the track alone, which says it itself", "remove the line")
		}
	}
	var key, file, ending string
	for _, k := range []struct{ key, file, ending string }{{"gpx", c.GPX, ".gpx"}, {"csv", c.CSV, ".csv"}, {"track", c.Track, ""}} {
		switch {
		case k.file == "":
		case file != "":
			l.errs.Add(where[k.key], key+" and "+k.key, "one recorded track", "remove one of the lines")
			return
		default:
			key, file, ending = k.key, k.file, k.ending
		}
	}
	pos := where[key]
	like := "a path such as traces/heron" + cmp.Or(ending, ".gpx")
	switch {
	case !fs.ValidPath(file):
		l.errs.Add(pos, fmt.Sprintf("%s: %q is no path inside the car folder", key, nearest.Cut(file)), like, "copy the file into the car folder")
		return
	case ending != "" && !strings.EqualFold(path.Ext(file), ending):
		l.errs.Add(pos, fmt.Sprintf("%s: %q does not end in %s", key, nearest.Cut(file), ending), like, "")
		return
	}
	if !l.exists(file) {
		l.errs.Add(pos, fmt.Sprintf("%s: no file %q in the car folder", key, nearest.Cut(file)), "a recorded track", "copy the file into the car folder")
		return
	}
	tr, notes, err := ReadRecording(l.fsys, file)
	var bad Errors
	if errors.As(err, &bad) {
		l.errs = append(l.errs, bad...)
		return
	}
	c.Trace, c.Notes = tr, notes
}

// ReadRecording reads a recorded track and what was left out of it, in words;
// a map is refused. Its error is Errors.
func ReadRecording(fsys fs.FS, file string) (*trace.Trace, []string, error) {
	f, err := ReadTrack(fsys, file)
	if err != nil {
		return nil, nil, err
	}
	if f.Trace == nil {
		return nil, nil, Errors{{Position: Position{File: file}, What: f.Format + " without times, a map", Expected: "a recorded track", Hint: "export the activity as recorded, not the course"}}
	}
	var notes []string
	for _, n := range f.Notes {
		notes = append(notes, Position{File: file, Line: n.Line, Column: 1}.String()+": "+n.Text)
	}
	return f.Trace, notes, nil
}

// ReadTrack reads a recorded track or a map in any format that is read. Its
// error is Errors, with the line where the file is wrong.
func ReadTrack(fsys fs.FS, file string) (*trace.File, error) {
	f, wrong := decode.Open(fsys, file)
	if wrong != "" {
		return nil, Errors{{Position: Position{File: file}, What: wrong, Expected: "a recorded track"}}
	}
	defer f.Close()
	tr, err := trace.Read(f)
	var bad *trace.Error
	switch {
	case errors.As(err, &bad):
		return nil, Errors{{Position: Position{File: file, Line: bad.Line, Column: bad.Column}, What: bad.What, Expected: bad.Expected, Hint: bad.Hint}}
	case err != nil:
		return nil, Errors{{Position: Position{File: file}, What: decode.Reason(err)}}
	}
	return tr, nil
}
