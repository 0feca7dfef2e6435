package trace

import (
	"io"
	"strings"
	"testing"
)

// endless is a text over and over.
type endless struct {
	text string
	at   int
}

func (e *endless) Read(p []byte) (int, error) {
	for i := range p {
		p[i] = e.text[e.at%len(e.text)]
		e.at++
	}
	return len(p), nil
}

// Files that do not end are stopped by the number of fixes or by size, here at
// lower limits than the usual ones.
func TestEndlessFiles(t *testing.T) {
	most := bounds{bytes: 4 << 20, piece: 8 << 20, fixes: 20_000, lines: 10}
	const fix = `<trkpt lat="1" lon="1"><time>2027-05-13T09:30:00Z</time></trkpt>`
	for _, tt := range []struct {
		name, head, body, says string
	}{
		{"rows", "time (s),lat,lon\n", "1,50,8\n", "more than 20000 fixes"},
		{"remarks", "time (s),lat,lon\n", "# nothing\n", "larger than 4 MiB"},
		{"one cell", "time (s),lat,lon\n1,2,", "3", "larger than 4 MiB"},
		{"points", "<gpx><trk><trkseg>", fix, "more than 20000 fixes"},
		{"blank lines", "<gpx>", "\n", "larger than 4 MiB"},
		{"an attribute", "<gpx version=\"", "1", "larger than 4 MiB"},
		{"a comment", "<gpx><!--", " - ", "larger than 4 MiB"},
	} {
		_, err := read(io.MultiReader(strings.NewReader(tt.head), &endless{text: tt.body}), most)
		if err == nil || !strings.Contains(err.Error(), tt.says) {
			t.Errorf("%s: %v, want an error that says %q", tt.name, err, tt.says)
		}
	}
	if usual != (bounds{MostBytes, MostPiece, MostFixes, MostLines}) {
		t.Errorf("usual limits %+v", usual)
	}
}
