package trace_test

import (
	"encoding/binary"
	"errors"
	"fmt"
	"strings"
	"testing"

	"example.com/tripwear/profiles/trace"
)

// checked is a sentence of NMEA 0183 with its checksum.
func checked(body string) string {
	sum := 0
	for _, c := range []byte(body) {
		sum ^= int(c)
	}
	return fmt.Sprintf("$%s*%02x\n", body, sum)
}

// Broken and hostile files of the other formats: each with the error it must
// give, and where.
func TestHostile(t *testing.T) {
	const (
		formats = "expected GPX, KML, TCX, GeoJSON, FIT, NMEA 0183 or CSV"
		track   = `<kml><Placemark><Track>%s</Track></Placemark></kml>`
		ring    = "<kml><Placemark><LineString><coordinates>%s</coordinates></LineString></Placemark></kml>"
		lap     = "<TrainingCenterDatabase><Activities><Activity><Lap><Track><Trackpoint>%s</Trackpoint></Track></Lap></Activity></Activities></TrainingCenterDatabase>"
		here    = "<Position><LatitudeDegrees>50</LatitudeDegrees><LongitudeDegrees>8</LongitudeDegrees></Position>"
		whole   = `{"type":"LineString","coordinates":%s}`
	)
	fit := string(sample(t, "lap.fit"))
	flipped := []byte(fit)
	flipped[len(fit)-3] ^= 1 // of the last speed
	far := []byte(fit)
	binary.LittleEndian.PutUint32(far[14+11+21+5:], 0x7ffffffe) // the latitude of the first record
	for _, tt := range []struct{ name, text, want string }{
		{"prose", "Dear all, we drove well.\n", "0:0 the file is of no format that is read, " + formats},
		{"one word", "lap", "0:0 the file is of no format that is read, " + formats},
		{"numbers alone", "1,2\n3,4\n", "0:0 the file is of no format that is read, " + formats},
		{"a zip", "PK\x03\x04....", "0:0 the file is a zip archive, such as KMZ or a workbook, " + formats},
		{"gzip", "\x1f\x8b\x08", "0:0 the file is compressed with gzip, " + formats},
		{"UTF-16", "\xff\xfel\x00a\x00", "0:0 the file is in UTF-16, " + formats},
		{"a JSON list", "[[8,50]]", "0:0 the file is a JSON list, " + formats},
		{"blanks", " \n\n", "0:0 the file is of no format that is read, " + formats},

		{"a bad tuple", fmt.Sprintf(ring, "\n8,50 8,51\n 8 9"), `3:2 coordinates "8", expected longitude, latitude and perhaps height, such as 8.1234567,50.1234567,12, without blanks inside`},
		{"a far tuple", fmt.Sprintf(ring, "8,50 8,91"), "1:47 a lat of 91 deg, expected -90 to 90"},
		{"no number", fmt.Sprintf(ring, "east,50"), `1:42 lon "east" is no number, expected degrees such as 50.1234567`},
		{"a point alone", "<kml><Placemark><Point><coordinates>8,50</coordinates></Point></Placemark></kml>", "0:0 the file holds no fixes, expected a recorded track or a map"},
		{"a place without a time", fmt.Sprintf(track, "<coord>8 50 1</coord>"), "1:37 a coord without a time, expected a <when> before it for every <coord>"},
		{"a time without a place", fmt.Sprintf(track, "<when>2027-05-13T00:00:01Z</when>"), "1:57 a Track with 1 time more than places, expected a <coord> for every <when>"},
		{"a bad time", fmt.Sprintf(track, "<when>noon</when>"), `1:34 time "noon", expected a date and time such as 2027-05-13T09:30:00Z`},
		{"a bad coord", fmt.Sprintf(track, "<when>2027-05-13T00:00:01Z</when><coord>8,50</coord>"), `1:68 coordinates "8,50", expected longitude, latitude and perhaps height, such as 8.1234567 50.1234567 12`},

		{"no time", fmt.Sprintf(lap, here), "1:59 a Trackpoint without a time, expected <Time> in every one"},
		{"no place", fmt.Sprintf(lap, "<Time>2027-05-13T00:00:01Z</Time>"), "0:0 the file holds no fixes, expected a recorded track or a map"},
		{"inside", fmt.Sprintf(lap, "<Trackpoint/>"), "1:71 a Trackpoint inside a Trackpoint, expected one after the other"},
		{"no height", fmt.Sprintf(lap, here+"<AltitudeMeters>high</AltitudeMeters>"), `1:187 ele "high" is no number, expected a number`},
		{"far", fmt.Sprintf(lap, "<Position><LatitudeDegrees>-91</LatitudeDegrees></Position>"), "1:101 a lat of -91 deg, expected -90 to 90"},

		{"no type", `{"coordinates":[[8,50],[8,51],[9,51]]}`, "1:39 an object without a type, expected a GeoJSON FeatureCollection, Feature or geometry"},
		{"metres", fmt.Sprintf(whole, "[[8,50],\n[350000,5500000]]"), "2:17 a lon of 350000 deg, expected -180 to 180"},
		{"one number", fmt.Sprintf(whole, "[[8],[9]]"), "1:40 a position of one number, expected longitude and latitude"},
		{"text", fmt.Sprintf(whole, `[["8","50"]]`), "1:38 coordinates that are no list of positions, expected positions such as [8.1234567, 50.1234567]"},
		{"too deep", fmt.Sprintf(whole, strings.Repeat("[", 3000)), "1:41 coordinates that are no list of positions, expected positions such as [8.1234567, 50.1234567]"},
		{"features in features", strings.Repeat(`{"features":[`, 3000), "1:833 objects nested too deep, expected at most 64 levels"},
		{"cut off", fmt.Sprintf(whole, "[[8,50],")[:43], "1:44 the file ends inside an object or a list, expected the whole file"},
		{"two documents", `{"type":"Feature"} {}`, "1:21 a second document, expected one document in a file"},
		{"not JSON", `{"type":nothing}`, "1:10 not readable as JSON: invalid character 'o' in literal null..."},
		{"points", `{"type":"MultiPoint","coordinates":[[8,50],[8,51],[9,51]]}`, "0:0 the file holds no fixes, expected a recorded track or a map"},

		{"cut off FIT", fit[:400], "0:0 the file ends after 20 records, expected a whole FIT file"},
		{"a bit of FIT", string(flipped), "0:0 the checksum of the file is wrong, expected a whole FIT file"},
		{"FIT beyond the pole", string(far), "0:0 record 1: a lat of 180 deg, expected -90 to 90"},
		{"a head alone", fit[:14], "0:0 the file ends after 0 records, expected a whole FIT file"},

		{"wrong checksums", "$GPRMC,000001,A,5818.0,N,00806.0,E,,,130527,,*00\n", "1:1 no sentence with a fix has a right checksum, expected after the * of a sentence the exclusive or of its characters"},
		{"no fix", checked("GPRMC,000001,V,,,,,,,130527,,"), "0:0 the file holds no fixes, expected a recorded track or a map"},
		{"no time of day", checked("GPRMC,noon,A,5818.0,N,00806.0,E,,,130527,,"), `1:1 time "noon", expected hhmmss.ss`},
		{"91 degrees", checked("GPRMC,000001,A,9118.0,N,00806.0,E,,,130527,,"), "1:1 a lat of 91.3 deg, expected -90 to 90"},
		{"61 minutes", checked("GPRMC,000001,A,5061.0,N,00806.0,E,,,130527,,"), "1:1 a lat of 5061 deg, expected -90 to 90"},
		{"back in time", checked("GPGGA,000009,5018.0,N,00806.0,E,1,9,1,2,M,,,,") + checked("GPGGA,000001,5018.0,N,00806.0,E,1,9,1,2,M,,,,"), "2:1 this fix is 8 s before the one above it, expected times that rise"},

		{"x alone", "x (m),z (m)\n1,2\n", "1:1 no column of y, expected a header such as x (m), y (m)"},
		{"x with times", "time (s),x,y\n1,2,3\n", "1:1 times beside x and y, expected lat and lon with times, or x and y of a map without"},
		{"x in yards", "x (yd),y (yd)\n1,2\n", `1:1 x in "yd", expected m or ft`},
		{"x twice", "x,y,x\n1,2\n", "1:5 a second column of x, expected one"},
		{"no y", "x,y\n1,\n", "2:1 a point without x and y, expected a number in both"},
		{"y in words", "# by hand\n\nx,y\n1,two\n", `4:3 y "two" is no number, expected a number`},
		{"far in a plane", "x,y\n1e300,1\n", "2:1 a point at 1e+300, 1 m, expected meters"},
		{"a width less than nothing", "x,y,w\n1,2,-3\n", "2:5 width of -3 m, expected 0 to 500 m"},
		{"two minutes", "time (s),lat,lon\n1,50°61'N,8\n", `2:3 lat "50°61'N" is no number, expected degrees such as 50.1234567, 50°07.407'N or N 50 07.407`},
		{"the wrong letter", "time (s),lat,lon\n1,50 E,8\n", `2:3 lat "50 E" is no number, expected degrees such as 50.1234567, 50°07.407'N or N 50 07.407`},
	} {
		refused(t, tt.name, tt.text, tt.want)
	}
}

// refused fails where a file does not give its error, or gives it elsewhere.
func refused(t *testing.T, name, text, want string) {
	t.Helper()
	_, err := trace.Read(strings.NewReader(text))
	var bad *trace.Error
	if !errors.As(err, &bad) {
		t.Errorf("%s: error %v, want %s", name, err, want)
		return
	}
	if got := fmt.Sprintf("%d:%d %s", bad.Line, bad.Column, bad.Error()); got != want {
		t.Errorf("%s:\n got %s\nwant %s", name, got, want)
	}
}
