package trace_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"example.com/tripwear/profiles/trace"
)

// Headers and cells as recorders of many countries write them, and what must
// come of each: seconds, lat, lon, and the speed in m/s where one is read.
func TestForms(t *testing.T) {
	const one = "1 50.5 8.25 20"
	for _, tt := range []struct{ name, text, want, notes string }{
		{"German", "Zeit (s);Breite;Länge;Geschwindigkeit (km/h)\n1;50,5;8,25;72\n", one, ""},
		{"German without accents, ISO 8859-1", "Zeit [s]\tBreitengrad\tL\xe4ngengrad\tGeschwindigkeit [m/s]\n1\t50,5\t8,25\t20\n", one, ""},
		{"German, speed by its short name", "Tempo [km/h];Zeit [s];Breite;Länge\n72;1;50,5;8,25\n", one, ""},
		{"French", "Temps (s),Latitude,Longitude,Vitesse (km/h)\n1,50.5,8.25,72\n", one, ""},
		{"Spanish", "tiempo_s,latitud,longitud,velocidad_kmh\n1,50.5,8.25,72\n", one, ""},
		{"Italian", "Tempo (ms);Latitudine;Longitudine;Velocità (km/h)\n1000;50,5;8,25;72\n", one, ""},
		{"Japanese in Latin letters", "jikan (s),ido,keido,sokudo (km/h)\n1,50.5,8.25,72\n", one, ""},
		{"Japanese", "時間 (s),緯度,経度,速度 (km/h)\n1,50.5,8.25,72\n", one, ""},
		{"a quantity over its unit", "time / s,lat / °,lon / °,speed / km/h\n1,50.5,8.25,72\n", one, ""},
		{"a preamble and units", "Session;1\nDriver\n\ntime;lat;lon;speed\ns;deg;deg;kn\n\n1;50,5;8,25;38,8768898\n", one, ""},
		{"a preamble with commas in quotes", "\"A, and \"\"B\"\"\",2\n\"no end, 3\n\"Time (s)\",\"Lat\",\"Lon\",\"Speed (m/s)\"\n\"1\",\"50,5\",\"8.25\",\"20\"\n", one, ""},
		{"a row of types", "time (s),lat,lon,speed (m/s)\nfloat,float,float,float\n1,50.5,8.25,20\n", one, ""},
		{"a speed twice", "time (s),lat,lon,Speed (m/s),GPS Speed (km/h)\n1,50.5,8.25,20,99\n", one, `line 1: a second column of speed, "GPS Speed (km/h)": left out`},
		{"a speed in rev/min", "time (s),lat,lon,Speed (rpm),GPS Speed (km/h)\n1,50.5,8.25,4000,72\n", one, `line 1: "Speed (rpm)", for its unit: left out`},
		{"a time twice", "utc,time (s),lat,lon\nnoon,1,50.5,8.25\n", "1 50.5 8.25", `line 1: a second column of time, "utc": left out`},
		{"forces called x and y", "time (s),lat,lon,x (g),y (g)\n1,50.5,8.25,0.1,0.2\n", "1 50.5 8.25", ""},
		{"words in the unit's place", "Time (UTC),Latitude (°N),Longitude (°E),Speed (GPS) (kmph)\n00:00:01,50.5,8.25,72\n", one, ""},
		{"a row of forms", "time,lat,lon,speed\nhh:mm:ss.sss,dm,dm,km/h\n00:00:01,50 30,8 15,72\n", one, ""},
		{"two sessions", "time (s),lat,lon\n1,50.5,8.25\ntime (s),lat,lon\n5,50.5,8.25\n", "1 50.5 8.25, 5 50.5 8.25!", ""},
		{"degrees in ISO 8859-1", "time (s),lat,lon\n1,50\xb030.0'N,8\xb015'E\n", "1 50.5 8.25", ""},
		{"letters beside", "time (s),lat,N/S,lon,E/W\n1,5030.0,S,00815.0,W\n", "1 -50.5 -8.25", ""},
		{"degrees and minutes", "time (s),lat,lon\n1,50°30.0'N,8° 15' E\n2,S 50 30,W 8 15 0\n3,-50 30 0,8:15:00\n", "1 50.5 8.25, 2 -50.5 -8.25, 3 -50.5 8.25", ""},
		{"minutes alone", "time (s),lat (min),lon (min)\n1,3030,495\n", "1 50.5 8.25", ""},
		{"a running time", "elapsed,lat,lon\n00:01.0,50.5,8.25\n1:02,50.5,8.25\n01:00:03,50.5,8.25\n", "1 50.5 8.25, 62 50.5 8.25, 3603 50.5 8.25", ""},
		{"noon and midnight", "time,lat,lon\n11:59:59 AM,50.5,8.25\n12:00:02 PM,50.5,8.25\n12:00:01 AM,50.5,8.25\n", "43199 50.5 8.25, 43202 50.5 8.25, 86401 50.5 8.25", ""},
		{"dates of another order", "time,lat,lon\n13/05/2027 23:59:59,50.5,8.25\n14/05/2027 00:00:01,50.5,8.25\n", "86399 50.5 8.25, 86401 50.5 8.25", ""},
		{"a day later and earlier", "date,time,lat,lon\n13.5.27,17:00:00,50.5,8.25\n14.5.27,09:00:00,50.5,8.25\n", "61200 50.5 8.25, 118800 50.5 8.25", ""},
		{"rows between the fixes", "time (s),lat,lon\n1,50.5,8.25\n1.5,,\n2,50.5,8.25\n2.5,,\n3,50.5,8.25\n3.5,,\n9,50.5,8.25\n", "1 50.5 8.25, 2 50.5 8.25, 3 50.5 8.25, 9 50.5 8.25!", ""},

		{"no date and midnight", checked("GPGGA,235959,5030.0,N,00815.0,E,1,9,1,,M,,,,") + "noise\n" + checked("GPGGA,000001,5030.0,N,00815.0,E,1,9,1,,M,,,,"), "86399 50.5 8.25, 86401 50.5 8.25", ""},
		{"a date later", checked("GPGGA,235958,5030.0,N,00815.0,E,1,9,1,,M,,,,") + checked("GNRMC,235959,A,5030.0,N,00815.0,E,38.8768898,,130527,,") + checked("GNRMC,000001,A,5030.0,N,00815.0,E,,,140527,,"), "86398 50.5 8.25, 86399 50.5 8.25 20, 86401 50.5 8.25", ""},
		{"lost and wrong sentences", checked("GPRMC,000001,A,5030.0,N,00815.0,E,,,130527,,") + checked("GPRMC,000002,V,,,,,,,130527,,") + "$GPRMC,000003,A,5030.0,N,00815.0,E,,,130527,,*00\n" + "09:30 $GPRMC,000004,A,5030.0,N,00815.0,E,,,130527,,\r\n", "1.8101664e+09+1 50.5 8.25, 1.8101664e+09+4 50.5 8.25!", "line 3: 1 sentence with a wrong checksum: left out"},
	} {
		f, err := trace.Read(strings.NewReader(tt.text))
		if err != nil || f.Trace == nil {
			t.Errorf("%s: %+v, %v", tt.name, f, err)
			continue
		}
		var got []string
		for i, x := range f.Trace.Fixes {
			at := fmt.Sprintf("%.9g", x.Time)
			if x.Time > 1e9 {
				at = fmt.Sprintf("1.8101664e+09+%g", x.Time-1_810_166_400) // 2027-05-13
			}
			one := fmt.Sprintf("%s %.9g %.9g", at, x.Lat, x.Lon)
			if x.Speed >= 0 {
				one += fmt.Sprintf(" %.6g", x.Speed)
			}
			if x.Gap && i > 0 {
				one += "!"
			}
			got = append(got, one)
		}
		if s := strings.Join(got, ", "); s != tt.want {
			t.Errorf("%s: %s, want %s", tt.name, s, tt.want)
		}
		if s := noted(f); s != tt.notes {
			t.Errorf("%s: notes %q, want %q", tt.name, s, tt.notes)
		}
	}
}

// A lap that a map has in pieces is put together end to end, whichever way each
// was drawn; a piece that is turned has its edges exchanged.
func TestJoinLines(t *testing.T) {
	at := func(x ...float64) (l trace.Line) {
		for _, x := range x {
			l.Points = append(l.Points, trace.Point{X: x, Right: 3, Left: 4})
		}
		return l
	}
	for name, lines := range map[string][]trace.Line{
		"as driven": {at(0, 1, 2), at(2, 3, 4), at(5, 6)}, "first turned": {at(2, 1, 0), at(2, 3, 4), at(5, 6)},
		"others turned": {at(0, 1, 2), at(4, 3, 2), at(6, 5)}, "all turned": {at(2, 1, 0), at(4, 3, 2), at(6, 5)},
	} {
		l, err := (&trace.Map{Lines: lines}).Line("1+2+3")
		if err != nil {
			t.Fatal(err)
		}
		var got []float64
		for _, p := range l.Points {
			got = append(got, p.X)
			if turned := lines[0].Points[0].X > 0 && p.X < 2; turned && p.Right != 4 || !turned && p.X < 2 && p.Right != 3 {
				t.Errorf("%s: %v", name, p)
			}
		}
		if want := []float64{0, 1, 2, 2, 3, 4, 5, 6}; !slices.Equal(got, want) {
			t.Errorf("%s: %v", name, got)
		}
	}
}

// A map of several lines is asked which.
func TestChooseLine(t *testing.T) {
	m := read(t, "map.gpx").Map
	for _, tt := range []struct{ which, want string }{
		{"full course", "full course"}, {"Full Course 2", "full course 2"}, {"2", "full course 2"},
		{"", `the map holds 2 lines, expected 1 "full course" (41 points) or 2 "full course 2" (41 points)`},
		{"short", `no line "short", expected 1 "full course" (41 points) or 2 "full course 2" (41 points)`},
		{"0", `no line "0", expected 1 "full course" (41 points) or 2 "full course 2" (41 points)`},
		{"1 + 2", "1 + 2"},
		{"1+3", `no line "1+3", expected 1 "full course" (41 points) or 2 "full course 2" (41 points)`},
		{"3", `no line "3", expected 1 "full course" (41 points) or 2 "full course 2" (41 points)`},
	} {
		line, err := m.Line(tt.which)
		got := ""
		if err != nil {
			got = err.Error()
		} else {
			got = line.Name
		}
		if got != tt.want {
			t.Errorf("%q: %s, want %s", tt.which, got, tt.want)
		}
	}
	if line, err := read(t, "map.csv").Map.Line(""); err != nil || len(line.Points) != 41 {
		t.Errorf("the only line: %v, %v", line, err)
	}
}

// What is left out of a map or beside a recording is said.
func TestLeftOut(t *testing.T) {
	const bare = `<trkpt lat="50" lon="8"/><trkpt lat="51" lon="8"/><trkpt lat="51" lon="9"/>`
	for _, tt := range []struct{ name, text, lines, notes string }{
		{"a short line", "<gpx><trk><trkseg>" + bare + `</trkseg><trkseg><trkpt lat="50" lon="8"/></trkseg></trk></gpx>`, "line", "1 line of fewer than 3 points: left out"},
		{"a planned track beside", "<gpx><trk><trkseg>" + bare + "</trkseg></trk><trk><trkseg>" + point("50", "8", "2027-05-13T00:00:01Z") + "</trkseg></trk></gpx>", "", "1 line without times beside the recording: left out"},
		{"a clock of another name", "sep=,\r\nlap clock,lat,lon\r\n1,1,1\r\n2,2,2\r\n3,2,1\r\n", "line", `line 2: no column of time is known, so that this is a map; "lap clock": left out`},
		{"points twice", "x,y\n1,1\n1,1\n2,2\n2,1\n", "line", ""},
		{"rings", `{"type":"Feature","properties":{"name":"both"},"geometry":{"type":"Polygon","coordinates":[[[1,2],[3,4],[5,6]],[[1,2],[3,4],[4,4]]]}}`, "both, both 2", ""},
	} {
		f, err := trace.Read(strings.NewReader(tt.text))
		if err != nil {
			t.Errorf("%s: %v", tt.name, err)
			continue
		}
		var lines []string
		if f.Map != nil {
			for _, l := range f.Map.Lines {
				if len(l.Points) != 3 {
					t.Errorf("%s: %d points", tt.name, len(l.Points))
				}
				lines = append(lines, l.Name)
			}
		}
		if s := strings.Join(lines, ", "); s != tt.lines || noted(f) != tt.notes {
			t.Errorf("%s: lines %q, notes %q", tt.name, s, noted(f))
		}
	}
}
