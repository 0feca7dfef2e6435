package planner

import (
	"fmt"
	"io/fs"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/randomcar"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
)

// folder is the juniper demo's files, with more parts and a logbook.
func folder(b testing.TB, parts, log string) fstest.MapFS {
	b.Helper()
	files := randomcar.Files(b, "juniper", "car.yaml", "parts.yaml", "trips/spring.yaml", "circuits/heron-flats.yaml", "circuits/quarry-ridge.yaml")
	files["parts.yaml"].Data = append(files["parts.yaml"].Data, parts...)
	if log != "" {
		files[profiles.LogFile] = &fstest.MapFile{Data: []byte(log)}
	}
	return files
}

// logOf is a made-up logbook, a row every 12 miles: every hundred rows the
// spring trip is driven up to Heron Flats and, over and over, front pads and
// rear tread are read and renewed.
func logOf(rows int) string {
	var out strings.Builder
	out.WriteString("date,odometer,what,place,zone,value\n")
	day, miles := time.Date(2027, 4, 18, 0, 0, 0, 0, time.UTC), 143300
	pad, tread := 5.0, 3.0 // mm
	row := func(rest string) {
		fmt.Fprintf(&out, "%s,%d mi,%s\n", day.Format(time.DateOnly), miles, rest)
	}
	for i := range rows {
		miles += 12
		switch i % 100 {
		case 0:
			day = day.AddDate(0, 0, 2)
			pad, tread = pad-1.2, tread-0.8
			row("trip driven,,,spring 1-3")
		case 1:
			if pad < 4 {
				pad = 10
				row("renewal,front,,pads-front")
				continue
			}
			row("odometer,,,")
		case 2:
			if tread < 3 {
				tread = 6.3
				row("renewal,rear,,tires-rear")
				continue
			}
			row("odometer,,,")
		case 3, 53:
			row(fmt.Sprintf("pad,LF,,%.1f mm", pad))
		case 4, 54:
			row(fmt.Sprintf("pad,RF,,%.1f mm", pad))
		case 5, 6, 7:
			row(fmt.Sprintf("tread,LR,%s,%.1f mm", kind.Zones[i%100-5], tread))
		case 8:
			row("hub,RF,,tight")
		default:
			row("inspection,LF,,sound")
		}
	}
	return out.String()
}

// catalogueOf is so many more parts for a parts.yaml.
func catalogueOf(parts int) string {
	var out strings.Builder
	for i := range parts {
		fmt.Fprintf(&out, "\n  - id: pads-more-%d\n    class: pads-street-performance-front\n    name: pads %d\n    price: %d\n    volume: 2.5 L\n    weight: 2.4 kg\n", i, i, 100+i%90)
	}
	return out.String()
}

func mustLoad(b testing.TB, files fs.FS) *profiles.Folder {
	b.Helper()
	f, err := profiles.Load(files)
	if err != nil {
		text := err.Error()
		b.Fatal(text[:min(len(text), 600)])
	}
	return f
}

// BenchmarkSeason plans as many trips as its name says, one after the other,
// each from the car folder with its logbook.
func BenchmarkSeason(b *testing.B) {
	for _, trips := range []int{10, 20, 40} {
		files := folder(b, "", logOf(400))
		b.Run(fmt.Sprint(trips), func(b *testing.B) {
			for b.Loop() {
				for range trips {
					f := mustLoad(b, files)
					if _, err := Make(f, f.Trips["spring"], Options{}); err != nil {
						b.Fatal(err)
					}
				}
			}
		})
	}
}

// BenchmarkWhole plans a season of as many trips as its name says as one, three
// weeks apart.
func BenchmarkWhole(b *testing.B) {
	for _, n := range []int{2, 4, 6, 12} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			f, first := demo(b, "juniper")
			f.Car.Usual = 900_000
			var trips []profiles.Trip
			for k := range n {
				t := first.Clone()
				t.ID, t.Name, t.Depart = fmt.Sprint("trip-", k), fmt.Sprint("trip ", k), first.Depart.AddDate(0, 0, 21*k)
				trips = append(trips, t)
			}
			for b.Loop() {
				if _, err := Season(f, trips, Options{}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// BenchmarkEvents picks two and three of twenty events, all of them different, ten
// days apart.
func BenchmarkEvents(b *testing.B) {
	f, first := demo(b, "juniper")
	f.Car.Usual = 900_000
	var trips []profiles.Trip
	for k := range 20 {
		t := first.Clone()
		t.ID, t.Name, t.Depart = fmt.Sprint("event-", k), fmt.Sprint("Event ", k), first.Depart.AddDate(0, 0, 10*k)
		way, visit := t.Legs[0], t.Legs[1]
		way.Distance = quantity.Length(float64(150+k*53%17*40) * float64(mile))
		visit.Days, visit.Sessions.Count, visit.Fee = 1+k%2, 3+k*7%4, quantity.Money(200+k*37%11*30)
		t.Legs = []profiles.Leg{way, visit, way}
		trips = append(trips, t)
	}
	for _, n := range []int{2, 3} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			for b.Loop() {
				if e, err := Events(f, trips, plan.Events{Weekends: n}, Options{}); err != nil || !e.Proved {
					b.Fatal(e, err)
				}
			}
		})
	}
}

// BenchmarkLog reads a logbook of as many rows as its name says and
// learns from one.
func BenchmarkLog(b *testing.B) {
	for _, rows := range []int{1_000, 10_000, 100_000} {
		files := folder(b, "", logOf(rows))
		b.Run(fmt.Sprint("read/", rows), func(b *testing.B) {
			for b.Loop() {
				mustLoad(b, files)
			}
		})
	}
	for _, rows := range []int{1_000, 10_000, 100_000} { // a fit takes time with the cube of the visits
		files := folder(b, "", logOf(rows))
		b.Run(fmt.Sprint("learn/", rows), func(b *testing.B) {
			f := mustLoad(b, files)
			for b.Loop() {
				if _, err := Learn(f, nil, Options{}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// BenchmarkCatalogue loads a car folder with as many more parts as its name
// says, and plans its trip.
func BenchmarkCatalogue(b *testing.B) {
	for _, parts := range []int{100, 1_000, 10_000} {
		files := folder(b, catalogueOf(parts), "")
		b.Run(fmt.Sprint("load/", parts), func(b *testing.B) {
			for b.Loop() {
				mustLoad(b, files)
			}
		})
		b.Run(fmt.Sprint("plan/", parts), func(b *testing.B) {
			f := mustLoad(b, files)
			for b.Loop() {
				if _, err := Make(f, f.Trips["spring"], Options{}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
