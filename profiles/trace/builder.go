package trace

import "fmt"

// builder takes what a reader finds, fixes and points of lines, and checks
// each against the one before.
type builder struct {
	bounds
	trace  Trace
	gap    bool
	clock  bool // times have no date: they may go past midnight
	day    float64
	lines  []Line
	points int
	notes  []Note
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

// line begins a line of a map.
func (b *builder) line(name string, plane bool) *Error {
	if len(b.lines) >= b.bounds.lines {
		return &Error{What: fmt.Sprintf("more than %d lines", b.bounds.lines), Expected: "the map of a circuit", Hint: "leave out what is not the circuit"}
	}
	b.lines = append(b.lines, Line{Name: name, Plane: plane})
	return nil
}

// point takes the next point of the line begun last.
func (b *builder) point(p Point) *Error {
	if b.points >= b.fixes {
		return &Error{What: fmt.Sprintf("more than %d points", b.fixes), Expected: "the map of a circuit", Hint: "leave out what is not the circuit"}
	}
	b.points++
	l := &b.lines[len(b.lines)-1]
	if n := len(l.Points); n > 0 && l.Points[n-1].X == p.X && l.Points[n-1].Y == p.Y {
		return nil
	}
	l.Points = append(l.Points, p)
	return nil
}

func (b *builder) note(line int, format string, args ...any) {
	b.notes = append(b.notes, Note{line, fmt.Sprintf(format, args...)})
}

// done checks the whole.
func (b *builder) done(format string) (*File, error) {
	drawn := len(b.lines)
	b.drop()
	f := &File{Format: format}
	switch {
	case len(b.trace.Fixes) > 0:
		if err := b.speeds(); err != nil {
			return nil, err
		}
		if n := len(b.lines); n > 0 {
			b.note(0, "%s without times beside the recording: left out", count(n, "line"))
		}
		f.Trace = &b.trace
	case len(b.lines) > 0:
		named(b.lines)
		f.Map = &Map{b.lines}
	case drawn > 0:
		return nil, &Error{What: "no line of the file has 3 points", Expected: "a recorded track with times, or the line of a circuit", Hint: "a recording has a time for every fix: export the activity as recorded"}
	default:
		return nil, &Error{What: "the file holds no fixes", Expected: "a recorded track or a map"}
	}
	f.Notes = b.notes
	return f, nil
}

// drop leaves out the lines that enclose nothing.
func (b *builder) drop() {
	var kept []Line
	for _, l := range b.lines {
		if len(l.Points) >= 3 {
			kept = append(kept, l)
		}
	}
	if n := len(b.lines) - len(kept); n > 0 && len(kept) > 0 {
		b.note(0, "%s of fewer than 3 points: left out", count(n, "line"))
	}
	b.lines = kept
}

func count(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}
