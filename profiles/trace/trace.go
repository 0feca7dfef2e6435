// Package trace reads recorded tracks, GPX 1.1 and plain CSV, into fixes. It
// says where a file is wrong and changes nothing: what a car did there is for
// others to find.
package trace

import (
	"errors"
	"fmt"
	"io"
	"math"
	"path"
	"strings"
)

// Trace is a recorded track.
type Trace struct {
	Fixes []Fix
}

// Fix is one place at one time.
type Fix struct {
	Time      float64 // s: since 1970 UTC, or of the recorder's clock where that has no date
	Lat, Lon  float64 // deg, WGS84
	Elevation float64 // m above the sea, NaN where the file has none
	Speed     float64 // m/s as the receiver says, NaN where the file has none
	Gap       bool    // the first after a break: a new segment, or fixes that were lost
}

// Limits on a file. A day at 25 Hz is two million fixes.
const (
	MostBytes = 256 << 20
	MostFixes = 2_000_000
)

// Error is what is wrong with a file, and where.
type Error struct {
	Line, Column int    // 0 where the whole file is meant
	What         string // what is wrong
	Expected     string // completes "expected ..."; may be ""
	Hint         string // what to do about it; may be ""
}

// Error is one line, without the position and the hint.
func (e *Error) Error() string {
	if e.Expected == "" {
		return e.What
	}
	return e.What + ", expected " + e.Expected
}

// Is says whether a file's name is that of a track, by its ending.
func Is(name string) bool {
	_, ok := readers[strings.ToLower(path.Ext(name))]
	return ok
}

var readers = map[string]func(io.Reader) (*Trace, error){".gpx": GPX, ".csv": CSV}

// Read reads a file by the ending of its name, .gpx or .csv. Its error is an *Error.
func Read(r io.Reader, name string) (*Trace, error) {
	read, ok := readers[strings.ToLower(path.Ext(name))]
	if !ok {
		return nil, &Error{What: fmt.Sprintf("a name that ends in %q", path.Ext(name)), Expected: "a track that ends in .gpx or .csv"}
	}
	return read(r)
}

// bounds are the limits in force; tests lower them.
type bounds struct {
	bytes int64
	fixes int
}

var usual = bounds{MostBytes, MostFixes}

// errLong stops a file that does not end.
var errLong = errors.New("too long")

// limited gives at most so many bytes and then errLong.
type limited struct {
	r    io.Reader
	left int64
}

func (l *limited) Read(p []byte) (int, error) {
	if l.left <= 0 {
		return 0, errLong
	}
	if int64(len(p)) > l.left {
		p = p[:l.left]
	}
	n, err := l.r.Read(p)
	l.left -= int64(n)
	return n, err
}

// tooLarge is what is said of a file that errLong has stopped.
func (b bounds) tooLarge() *Error {
	return &Error{What: fmt.Sprintf("the file is larger than %d MiB", b.bytes>>20), Expected: "a recording of a day at a circuit", Hint: "cut the recording to the sessions on the circuit"}
}

// builder adds fixes and checks each against the one before.
type builder struct {
	bounds
	trace Trace
	gap   bool
	clock bool // times have no date: they may go past midnight
	day   float64
}

// halfDay tells a clock that went past midnight from one that went back, s.
const halfDay = 12 * 3600.0

// add takes the next fix. A place of 0, 0 is how some recorders write that
// they had none.
func (b *builder) add(f Fix) *Error {
	if f.Lat == 0 && f.Lon == 0 {
		b.gap = true
		return nil
	}
	f.Time += b.day
	if n := len(b.trace.Fixes); n > 0 {
		last := b.trace.Fixes[n-1].Time
		if b.clock && last-f.Time > halfDay {
			b.day += 2 * halfDay
			f.Time += 2 * halfDay
		}
		if back := last - f.Time; back > 0 {
			return &Error{What: fmt.Sprintf("this fix is %s before the one above it", seconds(back)), Expected: "times that rise", Hint: "sort the file by time, or give one recording by itself"}
		}
	}
	if len(b.trace.Fixes) >= b.fixes {
		return &Error{What: fmt.Sprintf("more than %d fixes", b.fixes), Expected: "a day at a circuit", Hint: "cut the recording to the sessions on the circuit"}
	}
	f.Gap = b.gap
	b.gap = false
	b.trace.Fixes = append(b.trace.Fixes, f)
	return nil
}

func seconds(s float64) string {
	if s >= 120 {
		return fmt.Sprintf("%.0f min", s/60)
	}
	return fmt.Sprintf("%.3g s", s)
}

// done checks the whole.
func (b *builder) done() (*Trace, error) {
	if len(b.trace.Fixes) == 0 {
		return nil, &Error{What: "the file holds no fixes", Expected: "a recorded track"}
	}
	if err := b.speeds(); err != nil {
		return nil, err
	}
	return &b.trace, nil
}

// speeds compares the receiver's speeds with the way between the fixes: an
// error of the unit shows.
func (b *builder) speeds() *Error {
	const (
		radius = 6371e3 // m, mean of the earth: a percent is plenty here
		moving = 10.0   // m/s
		off    = 1.25
	)
	var told, gone float64
	for i := 1; i < len(b.trace.Fixes); i++ {
		a, f := b.trace.Fixes[i-1], b.trace.Fixes[i]
		dt := f.Time - a.Time
		if math.IsNaN(f.Speed) || f.Gap || dt <= 0 || dt > 3 {
			continue
		}
		const degree = math.Pi / 180
		way := float64(radius * degree * math.Hypot(f.Lat-a.Lat, math.Remainder(f.Lon-a.Lon, 360)*math.Cos(f.Lat*degree)))
		if way > moving*dt {
			told, gone = told+float64(f.Speed*dt), gone+way
		}
	}
	if ratio := told / gone; gone > 0 && (ratio > off || ratio < 1/off) {
		return &Error{
			What:     fmt.Sprintf("the speeds say %.1f times the way between the fixes", ratio),
			Expected: "speeds in the unit that the header names",
			Hint:     "correct the unit, or leave the speeds out",
		}
	}
	return nil
}

// degrees checks a coordinate.
func degrees(what string, v, most float64) *Error {
	if !(math.Abs(v) <= most) {
		return &Error{What: fmt.Sprintf("a %s of %.6g deg", what, v), Expected: fmt.Sprintf("-%g to %g", most, most)}
	}
	return nil
}

// short cuts what is too long to repeat in a message.
func short(s string) string {
	const most = 40
	if r := []rune(s); len(r) > most {
		return string(r[:most-3]) + "..."
	}
	return s
}
