// Package trace reads the files of recorders and of map programs: a recording
// becomes fixes, a map becomes lines. The format is told by what stands in the
// file. It says where a file is wrong and changes nothing: what a car did
// there is for others to find.
package trace

import "fmt"

// File is what a file holds: a recording or a map, never both.
type File struct {
	Format string // one of Formats
	Trace  *Trace // nil where the file is a map
	Map    *Map   // nil where the file is a recording
	Notes  []Note // what was left out
}

// Note is what was left out of a file, and where it stands.
type Note struct {
	Line int // 0 where the whole file is meant
	Text string
}

// String is the note as one line.
func (n Note) String() string {
	if n.Line == 0 {
		return n.Text
	}
	return fmt.Sprintf("line %d: %s", n.Line, n.Text)
}

// Trace is a recorded track.
type Trace struct {
	Fixes []Fix
	More  []*Trace // further recordings of the same circuit, each on its own clock
}

// Fix is one place at one time.
type Fix struct {
	Time      float64 // s: since 1970 UTC, or of the recorder's clock where that has no date
	Lat, Lon  float64 // deg, WGS84
	Elevation float64 // m above the sea, NaN where the file has none
	Speed     float64 // m/s as the receiver says, NaN where the file has none
	Gap       bool    // the first after a break: a new segment, or fixes that were lost
}
