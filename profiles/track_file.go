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
	for _, key := range []string{"corners", "length", "left_share", "heavy_brakings", "braking"} {
		if pos, given := where[key]; given {
			l.errs.Add(pos, fmt.Sprintf("key %q beside %s", key, likeTrack), "that alone, which says it itself", "remove the line")
		}
	}
	key, ending := "", ""
	for _, k := range []struct {
		key, ending string
		given       bool
	}{{"gpx", ".gpx", c.GPX != ""}, {"csv", ".csv", c.CSV != ""}, {"track", "", len(c.Track) > 0}} {
		switch {
		case !k.given:
		case key != "":
			l.errs.Add(where[k.key], key+" and "+k.key, "one file with "+likeTrack, "remove one of the lines, or give several recordings as a list under track")
			return
		default:
			key, ending = k.key, k.ending
		}
	}
	for i, file := range c.Files() {
		l.trackFile(c, cmp.Or(where[fmt.Sprintf("%s[%d]", key, i)], where[key]), key, file, ending)
	}
	if at, given := where["line"]; given && c.Trace != nil {
		l.errs.Add(at, "line beside a recorded track", "line with a map alone", "remove the line")
	}
}

// trackFile reads a circuit's file that a key names.
func (l *loader) trackFile(c *Circuit, pos Position, key, file, ending string) {
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
		l.errs.Add(pos, fmt.Sprintf("%s: no file %q in the car folder", key, nearest.Cut(file)), likeTrack, "copy the file into the car folder")
		return
	}
	var bad Errors
	if errors.As(c.ReadTrack(l.fsys, file), &bad) {
		l.errs = append(l.errs, bad...)
	}
}

const likeTrack = "a recorded track or a map"

// ReadTrack takes the recorded track or the map that a file holds, in any format
// that is read; of several lines the one that Line says. A further recording
// goes with those read before. Its error is Errors, with the line where the
// file is wrong.
func (c *Circuit) ReadTrack(fsys fs.FS, file string) error {
	c.File = cmp.Or(c.File, file)
	f, wrong := decode.Open(fsys, file)
	if wrong != "" {
		return Errors{{Position: Position{File: file}, What: wrong, Expected: likeTrack}}
	}
	defer f.Close()
	tr, err := trace.Read(f)
	if err == nil && (c.Map != nil || c.Trace != nil && tr.Map != nil) {
		return Errors{{Position: Position{File: file}, What: "a map beside another file of the circuit", Expected: "one map alone, or recordings alone", Hint: "leave the map out: recordings say more"}}
	}
	if err == nil {
		if c.Trace != nil && tr.Trace != nil {
			c.Trace.More = append(c.Trace.More, tr.Trace)
		} else {
			c.Trace = tr.Trace
		}
		for _, n := range tr.Notes {
			c.Notes = append(c.Notes, Position{File: file, Line: n.Line, Column: 1}.String()+": "+n.Text)
		}
		if tr.Map != nil {
			c.Map, err = tr.Map.Line(c.Line)
		}
	}
	var bad *trace.Error
	switch {
	case errors.As(err, &bad):
		return Errors{{Position: Position{File: file, Line: bad.Line, Column: bad.Column}, What: bad.What, Expected: bad.Expected, Hint: bad.Hint}}
	case err != nil:
		return Errors{{Position: Position{File: file}, What: decode.Reason(err)}}
	}
	return nil
}
