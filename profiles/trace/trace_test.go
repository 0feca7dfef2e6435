package trace_test

import (
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"example.com/tripwear/profiles/trace"
)

func TestReadBack(t *testing.T) {
	fixes := oval(1000, 5)
	for name, data := range map[string][]byte{"GPX": asGPX(fixes), "CSV": asCSV(fixes), "NMEA": asNMEA(fixes)} {
		got, err := recorded(string(data))
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		if len(got.Fixes) != len(fixes) {
			t.Fatalf("%s: %d fixes, want %d", name, len(got.Fixes), len(fixes))
		}
		for i, f := range got.Fixes {
			dt := f.Time - got.Fixes[0].Time - (fixes[i].Time - fixes[0].Time)
			if math.Abs(f.Lat-fixes[i].Lat) > 1.1e-7 || math.Abs(f.Lon-fixes[i].Lon) > 1.1e-7 || math.Abs(dt) > 2e-3 {
				t.Fatalf("%s: fix %d is %+v, want %+v", name, i, f, fixes[i])
			}
		}
	}
}

const wrap = `<?xml version="1.0"?>
<gpx version="1.1" creator="x" xmlns="http://www.topografix.com/GPX/1/1"><trk><trkseg>
%s
</trkseg></trk></gpx>`

func point(lat, lon, at string) string {
	return fmt.Sprintf(`<trkpt lat="%s" lon="%s"><time>%s</time></trkpt>`, lat, lon, at)
}

// What recorders write, and what must come of it.
func TestGPXForms(t *testing.T) {
	for _, tt := range []struct {
		name, text string
		want       string // of each fix: seconds after 2027-05-13T00:00:00Z, lat, and ! after a gap
	}{
		{"zones and fractions", fmt.Sprintf(wrap, point("50", "8", "2027-05-13T01:00:00Z")+point("51", "8", "2027-05-13T02:00:00.5+01:00")+point("52", "8", "2027-05-13T01:00:01")), "3600 50! 3600.5 51 3601 52"},
		{"a time in 200 characters", fmt.Sprintf(wrap, point("50", "8", strings.Repeat(" ", 180)+"2027-05-13T00:00:01Z")), "1 50!"},
		{"midnight", fmt.Sprintf(wrap, point("50", "8", "2027-05-13T23:59:59Z")+point("51", "8", "2027-05-14T00:00:01Z")), "86399 50! 86401 51"},
		{"two segments", fmt.Sprintf(wrap, point("50", "8", "2027-05-13T01:00:00Z")+"</trkseg><trkseg>"+point("51", "8", "2027-05-13T02:00:00Z")), "3600 50! 7200 51!"},
		{"a lost fix", fmt.Sprintf(wrap, point("50", "8", "2027-05-13T00:00:01Z")+point("0", "0.0", "2027-05-13T00:00:02Z")+point("51", "8", "2027-05-13T00:00:03Z")), "1 50! 3 51!"},
		{"extensions with their own time and lat", fmt.Sprintf(wrap, `<trkpt lon="8" lat="50"><extensions><x:time xmlns:x="y">never</x:time><x:speed>fast</x:speed></extensions><time> 2027-05-13T00:00:01Z
		</time></trkpt>`), "1 50!"},
		{"waypoints beside", `<gpx><wpt lat="1" lon="1"><name>gate</name></wpt><trk><trkseg>` + point("50", "8", "2027-05-13T00:00:01Z") + `</trkseg></trk></gpx>`, "1 50!"},
		{"a prefix of its own", `<g:gpx xmlns:g="http://www.topografix.com/GPX/1/1"><g:trk><g:trkseg><g:trkpt lat="50" lon="8"><g:time>2027-05-13T00:00:01Z</g:time></g:trkpt></g:trkseg></g:trk></g:gpx>`, "1 50!"},
	} {
		got, err := recorded(tt.text)
		if err != nil {
			t.Errorf("%s: %v", tt.name, err)
			continue
		}
		if s := told(got, float64(time.Date(2027, 5, 13, 0, 0, 0, 0, time.UTC).Unix())); s != tt.want {
			t.Errorf("%s: %s, want %s", tt.name, s, tt.want)
		}
	}
}

// recorded reads a recording.
func recorded(text string) (*trace.Trace, error) {
	f, err := trace.Read(strings.NewReader(text))
	if err != nil {
		return nil, err
	}
	if f.Trace == nil {
		return nil, fmt.Errorf("a map: %+v", f.Map)
	}
	return f.Trace, nil
}

func told(tr *trace.Trace, from float64) string {
	var out []string
	for _, f := range tr.Fixes {
		mark := map[bool]string{true: "!"}[f.Gap]
		out = append(out, fmt.Sprintf("%g %g%s", f.Time-from, f.Lat, mark))
	}
	return strings.Join(out, " ")
}

func TestCSVForms(t *testing.T) {
	for _, tt := range []struct{ name, text, want string }{
		{"commas", "time (s),lat,lon\n1,50,8\n2.5,51,8\n", "1 50 2.5 51"},
		{"any order, names, units", "Longitude;note;Latitude (deg);timestamp [ms]\n8;x;50;1000\n8;;51;2500\n", "1 50 2.5 51"},
		{"decimal commas", "time s;lat;lon\n1,5;50,25;8,5\n2,5;51;8\n", "1.5 50.25 2.5 51"},
		{"tabs and a mark at the front", "\ufefftime_s\tlat\tlon\n1\t50\t8\n", "1 50"},
		{"past midnight", "time,lat,lon\n23:59:59.5,50,8\n00:00:00.5,51,8\n00:00:01,52,8\n", "86399.5 50 86400.5 51 86401 52"},
		{"the pole at the date line", "time (s),lat,lon\n1,90,180\n2,-90,-180\n", "1 90 2 -90"},
		{"a leap second", "time,lat,lon\n23:59:60.5,50,8\n", "86400.5 50"},
		{"the last year", "time,lat,lon\n2200-12-31T23:59:59Z,50,8\n", "7.289654399e+09 50"},
		{"dates", "time,lat,lon\n1980-01-06T00:00:00Z,50,8\n1980-01-06 00:00:01,51,8\n", "3.159648e+08 50 3.15964801e+08 51"},
		{"lost fixes and remarks", "# by hand\ntime (s),lat,lon\n1,50,8\n2,,\n3,51,8\n\n", "1 50 3 51!"},
		{"a blank row is no lost fix, a remark without a mark is", "time (s),lat,lon\n1,50,8\n   \n2,51,8\npit\n3,52,8\n", "1 50 2 51 3 52!"},
		{"quotes", "\"time (s)\",\"lat\",\"lon\"\n\"1\",\"50\",\"8\"\n", "1 50"},
	} {
		got, err := recorded(tt.text)
		if err != nil {
			t.Errorf("%s: %v", tt.name, err)
			continue
		}
		if s := told(got, 0); s != tt.want {
			t.Errorf("%s: %s, want %s", tt.name, s, tt.want)
		}
	}
	got, err := recorded("time (s),lat,lon,speed (km/h),ele (ft)\n1,50,8,72,1000\n2,50,8,,\n")
	if err != nil {
		t.Fatal(err)
	}
	if f := got.Fixes[0]; math.Abs(f.Speed-20) > 1e-12 || math.Abs(f.Elevation-304.8) > 1e-9 {
		t.Errorf("72 km/h and 1000 ft: %+v", f)
	}
	if f := got.Fixes[1]; !math.IsNaN(f.Speed) || !math.IsNaN(f.Elevation) {
		t.Errorf("no speed and no height: %+v", f)
	}
}

// Hostile and broken files: each with the error it must give, and where.
func TestBadFiles(t *testing.T) {
	at := "2027-05-13T00:00:01Z"
	laughs := `<?xml version="1.0"?>
<!DOCTYPE lolz [<!ENTITY lol "lol"><!ENTITY lol2 "&lol;&lol;&lol;&lol;&lol;&lol;&lol;&lol;&lol;&lol;">]>
<gpx><trk><name>&lol2;</name></trk></gpx>`
	fast := "time (s),lat,lon,speed (m/s)\n"
	for i := range 50 {
		fast += fmt.Sprintf("%d,%.5f,8,108\n", i, 50+27e-5*float64(i)) // 30 m/s, written in km/h
	}
	const seconds = "expected seconds, a clock time such as 09:30:00.5, or a date and time such as 2027-05-13T09:30:00Z"
	for _, tt := range []struct{ text, want string }{
		{"", "0:0 the file is empty, expected a recorded track or a map"},
		{laughs, "2:1 a document type definition, expected a plain GPX, KML or TCX file"},
		{`<gpx>&lol;</gpx>`, "1:11 not readable as XML: invalid character entity &lol;"},
		{"<html></html>", "1:1 the file is <html>, expected <gpx>, <kml> or <TrainingCenterDatabase>"},
		{`<gpx version="2.0"/>`, `1:1 GPX version "2.0", expected 1.1`},
		{strings.Repeat("<gpx>", 100), "1:321 elements nested too deep, expected at most 64 levels"},
		{"<gpx><trk></gpx>", "1:11 </gpx> closes nothing, expected elements that close in order"},
		{"<gpx><trk>", "1:11 the file ends inside <trk>, expected the whole file"},
		{"<gpx/><gpx/>", "1:7 a second document <gpx>, expected one document in a file"},
		{"<gpx/>", "0:0 the file holds no fixes, expected a recorded track or a map"},
		{`<gpx><rte><rtept lat="1" lon="1"/></rte></gpx>`, "0:0 no line of the file has 3 points, expected a recorded track with times, or the line of a circuit"},
		{fmt.Sprintf(wrap, point("50", "1e9", at)), "3:1 a lon of 1e+09 deg, expected -180 to 180"},
		{fmt.Sprintf(wrap, point("NaN", "8", at)), `3:1 lat "NaN" is no number, expected degrees such as 50.1234567`},
		{fmt.Sprintf(wrap, point("1e999", "8", at)), `3:1 lat "1e999" is no number, expected degrees such as 50.1234567`},
		{fmt.Sprintf(wrap, point("north", "8", at)), `3:1 lat "north" is no number, expected degrees such as 50.1234567`},
		{fmt.Sprintf(wrap, `<trkpt lat="50"><time>`+at+`</time></trkpt>`), `3:1 a trkpt without lat and lon, expected <trkpt lat="..." lon="...">`},
		{fmt.Sprintf(wrap, `<trkpt lat="50" lon="8"/>`), "0:0 no line of the file has 3 points, expected a recorded track with times, or the line of a circuit"},
		{fmt.Sprintf(wrap, `<trkpt lat="50" lon="8"/>`+point("50", "8", at)), "3:1 a trkpt without a time, expected <time> in every one"},
		{fmt.Sprintf(wrap, point("50", "8", "noon")), `3:35 time "noon", expected a date and time such as 2027-05-13T09:30:00Z`},
		{fmt.Sprintf(wrap, point("50", "8", "2027-05-13T00:00:09Z")+"\n"+point("50", "8", at)), "4:1 this fix is 8 s before the one above it, expected times that rise"},
		{fmt.Sprintf(wrap, point("50", "8", strings.Repeat("9", 300))), "3:31 a value of more than 200 characters, expected a time or a number"},
		{fmt.Sprintf(wrap, `<trkpt lat="50" lon="8"><ele>high</ele></trkpt>`), `3:34 ele "high" is no number, expected a number`},
		{fmt.Sprintf(wrap, `<trkpt lat="50" lon="8"><trkpt lat="50" lon="8"/></trkpt>`), "3:25 a trkpt inside a trkpt, expected one after the other"},
		{`<?xml version="1.0" encoding="ISO-8859-1"?><gpx/>`, "1:44 the file says that it is not in UTF-8, expected UTF-8"},
		{"\x00\x01", "0:0 the file is of no format that is read, expected GPX, KML, TCX, GeoJSON, FIT, NMEA 0183 or CSV"},
		{"<gpx>\x00", "1:7 not readable as XML: illegal character code U+0000"},
		{"a,b\n1,2\n", "0:0 the file is of no format that is read, expected GPX, KML, TCX, GeoJSON, FIT, NMEA 0183 or CSV"},
		{"time (s),lat\n1,2\n", "1:1 no column of lon, expected a header such as time (s), lat, lon, speed (km/h)"},
		{"lat,lon,speed (km/h)\n1,2,3\n", "1:1 no column of time, expected a header such as time (s), lat, lon, speed (km/h)"},
		{"time (s),lat,lon\n", "0:0 the file holds no fixes, expected a recorded track or a map"},
		{"time,lat,lon\n1,50,8\n", `2:1 time "1" without a unit, expected time (s) or time (ms) in the header`},
		{"time (h),lat,lon\n", `1:1 time in "h", expected s or ms`},
		{"time (s),lat,lon,lat\n", "1:18 a second column of lat, expected one"},
		{"time (s),lat,lon\n1,50,8\n2,1e9,8\n", "3:3 a lat of 1e+09 deg, expected -90 to 90"},
		{"time (s),lat,lon\n1,NaN,8\n", `2:3 lat "NaN" is no number, expected degrees such as 50.1234567, 50°07.407'N or N 50 07.407`},
		{"time (s),lat,lon\n,50,8\n", "2:1 a fix without a time, expected seconds, a clock time such as 09:30:00.5, or a date and time such as 2027-05-13T09:30:00Z"},
		{"lat,lon,time (s)\n50,8\n", "2:4 a fix without a time, expected seconds, a clock time such as 09:30:00.5, or a date and time such as 2027-05-13T09:30:00Z"},
		{"time (s),lat,lon\n9,50,8\n1,50,8\n", "3:1 this fix is 8 s before the one above it, expected times that rise"},
		{"time (s),lat,lon\n1,\"50,8\n", "2:9 not readable as CSV: extraneous or missing \" in quoted-field"},
		{"time,lat,lon\n12:00:00,50,8\n00:00:00,50,8\n", "3:1 this fix is 720 min before the one above it, expected times that rise"}, // not past midnight
		{"time (s),lat,lon\n121,50,8\n1,50,8\n", "3:1 this fix is 2 min before the one above it, expected times that rise"},
		{"time,lat,lon\n24:00:00,50,8\n", `2:1 time "24:00:00", ` + seconds},
		{"time,lat,lon\n23:60:00,50,8\n", `2:1 time "23:60:00", ` + seconds},
		{"time,lat,lon\n23:59:61,50,8\n", `2:1 time "23:59:61", ` + seconds},
		{"time,lat,lon\n2201-01-01T00:00:00Z,50,8\n", `2:1 time "2201-01-01T00:00:00Z", ` + seconds},
		{"time,lat,lon\n1979-12-31T23:59:59Z,50,8\n", `2:1 time "1979-12-31T23:59:59Z", ` + seconds},
		{fast, "0:0 the speeds say 3.6 times the way between the fixes, expected speeds in the unit that the header names"},
	} {
		refused(t, fmt.Sprintf("%.60q", tt.text), tt.text, tt.want)
	}
}
