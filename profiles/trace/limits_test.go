package trace

import (
	"bytes"
	"io"
	"os"
	"runtime"
	"strings"
	"testing"
)

// endless is a text over and over.
type endless struct {
	text string
	at   int
}

func endlessly(text string) *endless { return &endless{text: strings.Repeat(text, 1+4096/len(text))} }

func (e *endless) Read(p []byte) (int, error) {
	n := 0
	for n < len(p) {
		wrote := copy(p[n:], e.text[e.at:])
		n, e.at = n+wrote, (e.at+wrote)%len(e.text)
	}
	return n, nil
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
		{"lines", "<gpx>", `<rte><rtept lat="1" lon="1"/></rte>`, "more than 10 lines"},
		{"points of a map", "x,y\n", "1,1\n2,2\n", "more than 20000 points"},
		{"positions", `{"type":"LineString","coordinates":[[1,1]`, ",[1,2],[2,1]", "more than 20000 points"},
		{"rings", `{"type":"Polygon","coordinates":[[[1,1]]`, ",[[1,2]]", "more than 10 lines"},
		{"tuples", "<kml><LineString><coordinates>", "1,1 2,2 ", "larger than 4 MiB"},
		{"times", "<kml><Track>", "<when>2027-05-13T09:30:00Z</when>", "more than 20000 fixes"},
		{"trackpoints", "<TrainingCenterDatabase>", "<Trackpoint><Time>2027-05-13T09:30:00Z</Time><LatitudeDegrees>1</LatitudeDegrees><LongitudeDegrees>1</LongitudeDegrees></Trackpoint>", "more than 20000 fixes"},
		{"sentences", "", "$GPGGA,000000,5030.0,N,00815.0,E,1,9,1,,M,,,,\n$GPGGA,000000.0,5030.0,N,00815.0,E,1,9,1,,M,,,,\n", "more than 20000 fixes"},
		{"a comment", "<gpx><!--", " - ", "larger than 4 MiB"},
	} {
		_, err := read(io.MultiReader(strings.NewReader(tt.head), endlessly(tt.body)), most)
		if err == nil || !strings.Contains(err.Error(), tt.says) {
			t.Errorf("%s: %v, want an error that says %q", tt.name, err, tt.says)
		}
	}
	if usual != (bounds{MostBytes, MostPiece, MostFixes, MostLines}) {
		t.Errorf("usual limits %+v", usual)
	}
}

// A binary file says how long it is, which a limit does not believe.
func TestMostRecords(t *testing.T) {
	data, err := os.ReadFile("../../testdata/trace/lap.fit")
	if err != nil {
		t.Fatal(err)
	}
	for _, tt := range []struct {
		most bounds
		says string
	}{
		{bounds{bytes: 1 << 20, fixes: 40}, "record 41: more than 40 fixes"},
		{bounds{bytes: 500, fixes: 131}, "larger than 0 MiB"},
		{bounds{bytes: 1 << 20, fixes: 131}, ""},
	} {
		_, err := read(bytes.NewReader(data), tt.most)
		if (err == nil) != (tt.says == "") || err != nil && !strings.Contains(err.Error(), tt.says) {
			t.Errorf("%+v: %v", tt.most, err)
		}
	}
}

// peak notes the most memory in use while it is read.
type peak struct {
	endless
	given int
	most  uint64
}

func (p *peak) Read(b []byte) (int, error) {
	n, err := p.endless.Read(b)
	if p.given += n; p.given >= 1<<20 {
		var now runtime.MemStats
		runtime.ReadMemStats(&now)
		p.given, p.most = 0, max(p.most, now.HeapAlloc)
	}
	return n, err
}

// What a file asks for in memory goes with what it says, not with its size:
// files without an end, at the usual limits but for a size of 32 MiB.
func TestMemory(t *testing.T) {
	const (
		mib   = 1 << 20
		piece = "more than 16 MiB in one piece"
		large = "larger than 32 MiB"
	)
	most := usual
	most.bytes = 32 * mib
	for _, tt := range []struct {
		name, head, body, says string
		most                   uint64 // MiB in use
	}{
		{"blank lines", "<gpx>", "\n", piece, 80},
		{"one value", "<kml><Placemark><LineString><coordinates>", "8,50 ", piece, 80},
		{"one cell", "time (s),lat,lon\n1,2,", "3", piece, 128},
		{"one line above a header", "", "abcdefg,", piece, 80},
		{"one text", `{"type":"`, "x", piece, 80},
		{"one sentence", "$GPRMC,", "1", piece, 16},
		{"other sentences", "$GPRMC,\n", "$GPGSV,1,1,01,05,40,083,46*40\n", large, 16},
		{"elements", "<gpx>", "<a>b</a>", large, 16},
		{"remarks", "time (s),lat,lon\n", "# nothing, but at length\n", large, 16},
		{"a list", `{"bbox":[1`, ",2", large, 16},
		{"fixes", "time (s),lat,lon\n", "1,50,8\n", "more than 2000000 fixes", 320}, // 92 MiB of them
	} {
		runtime.GC()
		var before runtime.MemStats
		runtime.ReadMemStats(&before)
		p := &peak{endless: *endlessly(tt.body)}
		_, err := read(io.MultiReader(strings.NewReader(tt.head), p), most)
		if err == nil || !strings.Contains(err.Error(), tt.says) {
			t.Errorf("%s: %v, want an error that says %q", tt.name, err, tt.says)
		}
		got := (max(p.most, before.HeapAlloc) - before.HeapAlloc) / mib
		t.Logf("%s: %d MiB", tt.name, got)
		if got > tt.most {
			t.Errorf("%s: %d MiB in use, want at most %d", tt.name, got, tt.most)
		}
	}
}
