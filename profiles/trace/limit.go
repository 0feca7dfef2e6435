package trace

import (
	"bytes"
	"errors"
	"fmt"
	"io"
)

// Limits on a file. A day at 25 Hz is two million fixes. What stands in one
// piece, such as the text of an element or a row, is held whole while it is read.
const (
	MostBytes = 256 << 20
	MostFixes = 2_000_000 // and points of a map
	MostPiece = 16 << 20
	MostLines = 1000 // of a map
)

// bounds are the limits in force; tests lower them.
type bounds struct {
	bytes, piece int64
	fixes, lines int
}

var usual = bounds{MostBytes, MostPiece, MostFixes, MostLines}

// What stops a file that does not end.
var (
	errLong  = errors.New("too long")
	errPiece = errors.New("too long a piece")
)

// limited gives at most so many bytes and then errLong, and errPiece where so
// many pass without the mark that ends a piece.
type limited struct {
	r           io.Reader
	left, piece int64
	mark        byte
	run         int64 // bytes since the last mark
}

func (b bounds) limit(r io.Reader, mark byte) *limited {
	return &limited{r: r, left: b.bytes, piece: b.piece, mark: mark}
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
	if at := bytes.LastIndexByte(p[:n], l.mark); at >= 0 {
		l.run = int64(n - 1 - at)
	} else {
		l.run += int64(n)
	}
	if l.run > l.piece {
		return 0, errPiece
	}
	return n, err
}

// stopped is what is said of a file that a limit or its disk has stopped, nil
// where err is about something else.
func (b bounds) stopped(err error) *Error {
	switch {
	case errors.Is(err, errLong):
		return &Error{What: fmt.Sprintf("the file is larger than %d MiB", b.bytes>>20), Expected: "a recording of a day at a circuit", Hint: "cut the recording to the sessions on the circuit"}
	case errors.Is(err, errPiece):
		return &Error{What: fmt.Sprintf("more than %d MiB in one piece", b.piece>>20), Expected: "values, rows and lines of a usual length", Hint: "the file is damaged, or holds more than a track"}
	}
	return nil
}
