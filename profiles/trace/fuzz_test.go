package trace_test

import (
	"bytes"
	"errors"
	"math"
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

func FuzzRead(f *testing.F) {
	f.Fuzz(func(t *testing.T, data []byte) {
		got, err := trace.Read(bytes.NewReader(data))
		sound(t, got, err)
	})
}

// Two hours at 10 Hz, 72,000 fixes, as text.
func BenchmarkGPX(b *testing.B) { benchmark(b, asGPX) }

func BenchmarkCSV(b *testing.B) { benchmark(b, asCSV) }

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
