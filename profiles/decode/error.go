package decode

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/sheet"
)

// Position is a place in a file, or a cell of a sheet, whose name ends in "!".
type Position struct {
	File         string
	Line, Column int
}

// Error is one thing wrong in a file, for its owner to put right.
type Error struct {
	Position        // Line is 0 where the whole file is meant, File is "" where no file is
	What     string // what is wrong
	Expected string // completes "expected ..."; "" where What says it all
	Hint     string // what to do about it; "" where that is plain
}

// Error is one line without a full stop, "car.yaml:12:5: unknown key ...,
// expected ...". The hint is not part of it.
func (e *Error) Error() string {
	var b strings.Builder
	if e.File != "" {
		b.WriteString(e.Position.String() + ": ")
	}
	b.WriteString(e.What)
	if e.Expected != "" {
		b.WriteString(", expected " + e.Expected)
	}
	return b.String()
}

// String is the position as editors read it, "car.yaml:12:5", or as spreadsheets
// do, "my.xlsx: Car!B5".
func (p Position) String() string {
	name, cell := strings.CutSuffix(p.File, "!")
	switch {
	case p.Line == 0:
		return name
	case cell:
		return fmt.Sprintf("%s!%s%d", name, sheet.Letters(max(1, p.Column)), p.Line)
	}
	return fmt.Sprintf("%s:%d:%d", p.File, p.Line, p.Column)
}

// Told is where something stands, in a sentence: "car.yaml line 12", or "Fitted!B5".
func (p Position) Told() string {
	if strings.HasSuffix(p.File, "!") || p.Line == 0 {
		return p.String()
	}
	return fmt.Sprintf("%s line %d", p.File, p.Line)
}

// Again is where in its own file a message points to: "line 12", or "cell B5".
func (p Position) Again() string {
	if _, cell, ok := strings.Cut(p.String(), "!"); ok {
		return "cell " + cell
	}
	return fmt.Sprintf("line %d", p.Line)
}

// Errors is everything that is wrong, in the order of files and lines.
type Errors []*Error

// Error is every error on a line of its own.
func (es Errors) Error() string {
	lines := make([]string, len(es))
	for i, e := range es {
		lines[i] = e.Error()
	}
	return strings.Join(lines, "\n")
}

// Add adds an error.
func (es *Errors) Add(at Position, what, expected, hint string) {
	*es = append(*es, &Error{at, what, expected, hint})
}

// Fault adds what is wrong with a row of the logbook.
func (es *Errors) Fault(at Position, f logbook.Fault) { es.Add(at, f.What, f.Expected, f.Hint) }

// Sorted is the errors in order, or nil where there is none.
func (es Errors) Sorted() error {
	if len(es) == 0 {
		return nil
	}
	slices.SortStableFunc(es, func(a, b *Error) int {
		return cmp.Or(cmp.Compare(a.File, b.File), cmp.Compare(a.Line, b.Line), cmp.Compare(a.Column, b.Column))
	})
	return es
}
