package trace_test

import (
	"bytes"
	"errors"
	"math"
	"path/filepath"
	"testing"

	"example.com/tripwear/profiles/trace"
)

// sound fails where a reader lets through what is no place or no time.
func sound(t *testing.T, file *trace.File, err error) {
	t.Helper()
	var bad *trace.Error
	if err != nil {
		if !errors.As(err, &bad) || bad.What == "" {
			t.Fatalf("error %#v", err)
		}
		return
	}
	if (file.Trace == nil) == (file.Map == nil) {
		t.Fatalf("neither a recording nor a map, or both: %+v", file)
	}
	if file.Map != nil {
		for _, l := range file.Map.Lines {
			for i, p := range l.Points {
				if math.IsNaN(p.X) || math.IsNaN(p.Y) || math.IsInf(p.X, 0) || math.IsInf(p.Y, 0) || !l.Plane && (math.Abs(p.X) > 180 || math.Abs(p.Y) > 90) || p.Right < 0 || p.Left < 0 {
					t.Fatalf("line %s, point %d: %+v", l.Name, i, p)
				}
			}
		}
		return
	}
	got := file.Trace
	for i, f := range got.Fixes {
		if !(math.Abs(f.Lat) <= 90) || !(math.Abs(f.Lon) <= 180) || math.IsNaN(f.Time) || math.IsInf(f.Time, 0) || math.IsInf(f.Speed, 0) || math.IsInf(f.Elevation, 0) {
			t.Fatalf("fix %d: %+v", i, f)
		}
		if i > 0 && f.Time < got.Fixes[i-1].Time {
			t.Fatalf("fix %d goes back in time", i)
		}
	}
}

// Seeds are the samples of every format, and forms beside them. A target a
// format keeps the fuzzer from spending its time on telling them apart.
func seeded(f *testing.F, like string, more ...string) {
	names, err := filepath.Glob("../../testdata/trace/*" + like)
	if err != nil || len(names) == 0 {
		f.Fatalf("no samples of %s: %v", like, err)
	}
	for _, name := range names {
		if data := sample(f, filepath.Base(name)); len(data) < 20_000 {
			f.Add(data)
		}
	}
	for _, text := range more {
		f.Add([]byte(text))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		got, err := trace.Read(bytes.NewReader(data))
		sound(t, got, err)
	})
}

func FuzzGPX(f *testing.F) {
	seeded(f, ".gpx", `<gpx version="1.0"><trk><trkseg><trkpt lat="1" lon="2"><speed>3</speed><time>2027-05-13T00:00:01Z</time></trkpt></trkseg></trk></gpx>`,
		`<!DOCTYPE x [<!ENTITY a "b">]><gpx>&a;</gpx>`, string(asGPX(oval(20, 1))))
}

func FuzzKML(f *testing.F) { seeded(f, ".kml") }

func FuzzTCX(f *testing.F) { seeded(f, ".tcx") }

func FuzzGeoJSON(f *testing.F) {
	seeded(f, ".geojson", `{"type":"Polygon","coordinates":[[[1,2],[3,4],[5,6]]]}`, `{"type":"MultiPoint","coordinates":[[1,2],[3,4],[5,6]]}`)
}

func FuzzFIT(f *testing.F) { seeded(f, ".fit") }

func FuzzNMEA(f *testing.F) {
	seeded(f, ".nmea", "$GPRMC,235959,A,5818.0,N,00806.0,E,,,130527,,\n$GPGGA,000000,5818.0,N,00806.0,E,1,9,1,2,M,,,,\n")
}

func FuzzCSV(f *testing.F) {
	seeded(f, ".csv", "time;lat;lon;speed (km/h)\n23:59:59,5;50,1;8;70\n00:00:01;50;8\n", "\ufefftime (ms)\tlat\tlon\tele ft\n1\t2\t3\t4\n",
		"date,time,lat,N/S,lon,E/W\n13/5/27,9:30:00 PM,50 07.407,N,00806.0,E\n", "x,y,w\n1,2,3\n2,2,3\n2,3,3\n")
}

// Two hours at 10 Hz, 72,000 fixes, as text.
func BenchmarkGPX(b *testing.B) { benchmark(b, asGPX) }

func BenchmarkCSV(b *testing.B) { benchmark(b, asCSV) }

func BenchmarkNMEA(b *testing.B) { benchmark(b, asNMEA) }

func benchmark(b *testing.B, write func([]trace.Fix) []byte) {
	data := write(oval(72_000, 10))
	b.SetBytes(int64(len(data)))
	b.ReportAllocs()
	for b.Loop() {
		if _, err := trace.Read(bytes.NewReader(data)); err != nil {
			b.Fatal(err)
		}
	}
}
