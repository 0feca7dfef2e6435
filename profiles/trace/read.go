package trace

import (
	"bufio"
	"bytes"
	"errors"
	"io"
	"path"
	"regexp"
	"slices"
	"strings"
	"unicode/utf8"

	"example.com/tripwear/profiles/nearest"
)

// Formats are the formats that are read, by the names their standards give them.
var Formats = []string{"GPX", "KML", "TCX", "GeoJSON", "FIT", "NMEA 0183", "CSV"}

// Endings are those that files of these formats usually have.
var Endings = []string{".gpx", ".kml", ".tcx", ".geojson", ".json", ".fit", ".nmea", ".nma", ".csv", ".tsv", ".txt"}

// Is says whether a file's name is that of a track or a map, by its ending.
func Is(name string) bool { return slices.Contains(Endings, strings.ToLower(path.Ext(name))) }

// Read reads a recording or a map in any of the formats, told by what stands
// in the file. Its error is an *Error.
func Read(r io.Reader) (*File, error) { return read(r, usual) }

func read(r io.Reader, most bounds) (*File, error) {
	b := bufio.NewReaderSize(r, 64<<10)
	head, err := b.Peek(8 << 10)
	if len(head) == 0 {
		if err != nil && !errors.Is(err, io.EOF) {
			return nil, &Error{What: "not readable: " + short(err.Error())}
		}
		return nil, &Error{What: "the file is empty", Expected: "a recorded track or a map"}
	}
	if bytes.HasPrefix(head, []byte(byteOrder)) {
		head = head[len(byteOrder):]
		b.Discard(len(byteOrder))
	}
	text := bytes.TrimLeft(head, " \t\r\n")
	switch {
	case len(head) >= 12 && string(head[8:12]) == ".FIT":
		return readFIT(b, most)
	case bytes.HasPrefix(text, []byte("<")):
		return readXML(b, most)
	case bytes.HasPrefix(text, []byte("{")):
		return readGeoJSON(b, most)
	case sentence.Match(head):
		return readNMEA(b, most)
	}
	for _, k := range known {
		if bytes.HasPrefix(head, []byte(k.head)) {
			return nil, &Error{What: "the file is " + k.what, Expected: likeFormats, Hint: k.hint}
		}
	}
	return readCSV(b, most)
}

// byteOrder is the mark some programs put before UTF-8.
const byteOrder = "\ufeff"

// sentence is the start of one of NMEA 0183's, on any line.
var sentence = regexp.MustCompile(`(?m)\$[A-Z]{2}[A-Z]{3},`)

// known are the formats that people mistake for tracks, by their first bytes.
var known = []struct{ head, what, hint string }{
	{"PK\x03\x04", "a zip archive, such as KMZ or a workbook", "unpack it and give the file within"},
	{"\x1f\x8b", "compressed with gzip", "unpack it first"},
	{"\xff\xfe", "in UTF-16", "save it in UTF-8 encoding"},
	{"\xfe\xff", "in UTF-16", "save it in UTF-8 encoding"},
	{"%PDF", "a PDF", ""},
	{"SQLite format 3\x00", "a database", "export the recording from the program that wrote it"},
	{"[", "a JSON list", "GeoJSON is one object: export a FeatureCollection"},
}

var likeFormats = nearest.OneOf(Formats)

// unknown is what is said of a format that is not read.
func unknown(what string) *Error {
	return &Error{What: what, Expected: likeFormats, Hint: "export the recording or the map in one of them; a CSV has a header such as time (s), lat, lon, or x (m), y (m)"}
}

// latin1 turns text that is not UTF-8 into it, as if it were ISO 8859-1.
func latin1(s string) string {
	if utf8.ValidString(s) {
		return s
	}
	r := make([]rune, len(s))
	for i := range len(s) {
		r[i] = rune(s[i])
	}
	return string(r)
}
