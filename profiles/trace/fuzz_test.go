package trace_test

import (
	"bytes"
	"errors"
	"math"
	"testing"

	"example.com/tripwear/profiles/trace"
)

// sound fails where a reader lets through what is no place or no time.
func sound(t *testing.T, got *trace.Trace, err error) {
	t.Helper()
	var bad *trace.Error
	if err != nil {
		if !errors.As(err, &bad) || bad.What == "" {
			t.Fatalf("error %#v", err)
		}
		return
	}
	for i, f := range got.Fixes {
		if !(math.Abs(f.Lat) <= 90) || !(math.Abs(f.Lon) <= 180) || math.IsNaN(f.Time) || math.IsInf(f.Time, 0) || math.IsInf(f.Speed, 0) || math.IsInf(f.Elevation, 0) {
			t.Fatalf("fix %d: %+v", i, f)
		}
		if i > 0 && f.Time < got.Fixes[i-1].Time {
			t.Fatalf("fix %d goes back in time", i)
		}
	}
}

func FuzzGPX(f *testing.F) {
	f.Add(asGPX(oval(20, 1)))
	f.Add([]byte(`<gpx version="1.0"><trk><trkseg><trkpt lat="1" lon="2"><speed>3</speed><time>2027-05-13T00:00:01Z</time></trkpt></trkseg></trk></gpx>`))
	f.Add([]byte(`<!DOCTYPE x [<!ENTITY a "b">]><gpx>&a;</gpx>`))
	f.Fuzz(func(t *testing.T, data []byte) {
		got, err := trace.GPX(bytes.NewReader(data))
		sound(t, got, err)
	})
}

func FuzzCSV(f *testing.F) {
	f.Add(asCSV(oval(20, 1)))
	f.Add([]byte("time;lat;lon;speed (km/h)\n23:59:59,5;50,1;8;70\n00:00:01;50;8\n"))
	f.Add([]byte("\ufefftime (ms)\tlat\tlon\tele ft\n1\t2\t3\t4\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		got, err := trace.CSV(bytes.NewReader(data))
		sound(t, got, err)
	})
}

// Two hours at 10 Hz, 72,000 fixes, as text.
func BenchmarkGPX(b *testing.B) { benchmark(b, asGPX, "a.gpx") }

func BenchmarkCSV(b *testing.B) { benchmark(b, asCSV, "a.csv") }

func benchmark(b *testing.B, write func([]trace.Fix) []byte, name string) {
	data := write(oval(72_000, 10))
	b.SetBytes(int64(len(data)))
	b.ReportAllocs()
	for b.Loop() {
		if _, err := trace.Read(bytes.NewReader(data), name); err != nil {
			b.Fatal(err)
		}
	}
}
