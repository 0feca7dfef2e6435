package trace

import "io"

// tally knows the line and the column of what a reader that only counts bytes
// has in hand: it keeps where the lines end that the reader has ahead of it.
type tally struct {
	r        io.Reader
	consumed func() int64 // bytes that the reader is done with
	read     int64
	ends     []int64 // offsets after the ends of lines that are not yet consumed
	line     int     // lines that are
	start    int64   // where the line in hand begins
}

func (t *tally) Read(p []byte) (int, error) {
	t.settle()
	n, err := t.r.Read(p)
	for i, c := range p[:n] {
		if c == '\n' {
			t.ends = append(t.ends, t.read+int64(i)+1)
		}
	}
	t.read += int64(n)
	return n, err
}

func (t *tally) settle() {
	at, done := t.consumed(), 0
	for done < len(t.ends) && t.ends[done] <= at {
		t.start = t.ends[done]
		done++
	}
	t.line += done
	t.ends = append(t.ends[:0], t.ends[done:]...)
}

// position is where the reader is, counted from one.
func (t *tally) position() (line, column int) {
	t.settle()
	return t.line + 1, int(t.consumed()-t.start) + 1
}
