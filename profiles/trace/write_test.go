package trace_test

import (
	"bytes"
	"fmt"
	"math"
	"time"

	"example.com/tripwear/profiles/trace"
)

// oval is invented: so many fixes at a rate (Hz) of a car that laps an oval of
// 800 by 300 m in 40 s. What stands in files and not on the ground is under
// test here, so that noise would add nothing.
func oval(count int, rate float64) []trace.Fix {
	const metresPerDegree = 111_320
	fixes := make([]trace.Fix, count)
	for i := range fixes {
		t := float64(i) / rate
		sin, cos := math.Sincos(2 * math.Pi * t / 40)
		fixes[i] = trace.Fix{Time: t, Lat: 58.3 + 150*sin/metresPerDegree, Lon: 8.1 + 400*cos/(metresPerDegree*0.525)}
	}
	return fixes
}

// start is when the invented sessions begin: late, so that some go past midnight.
var start = time.Date(2027, 5, 13, 9, 30, 0, 0, time.UTC)

func asGPX(fixes []trace.Fix) []byte {
	var b bytes.Buffer
	b.WriteString(`<?xml version="1.0" encoding="UTF-8"?>
<gpx version="1.1" creator="tripwear's own generator" xmlns="http://www.topografix.com/GPX/1/1">
<trk><name>invented</name><trkseg>
`)
	for _, f := range fixes {
		at := start.Add(time.Duration(f.Time * float64(time.Second)))
		fmt.Fprintf(&b, "<trkpt lat=\"%.7f\" lon=\"%.7f\"><ele>12.0</ele><time>%s</time></trkpt>\n", f.Lat, f.Lon, at.Format("2006-01-02T15:04:05.000Z"))
	}
	b.WriteString("</trkseg></trk>\n</gpx>\n")
	return b.Bytes()
}

func asCSV(fixes []trace.Fix) []byte {
	var b bytes.Buffer
	b.WriteString("# an invented session\ntime (s),lat,lon\n")
	for _, f := range fixes {
		fmt.Fprintf(&b, "%.3f,%.7f,%.7f\n", f.Time, f.Lat, f.Lon)
	}
	return b.Bytes()
}

func asNMEA(fixes []trace.Fix) []byte {
	var b bytes.Buffer
	minutes := func(deg float64) float64 { return 100*math.Trunc(deg) + 60*math.Mod(deg, 1) }
	for _, f := range fixes {
		at := start.Add(time.Duration(math.Round(f.Time*1000)) * time.Millisecond)
		b.WriteString(checked(fmt.Sprintf("GPRMC,%s,A,%010.5f,N,%011.5f,E,,,%s,,", at.Format("150405.00"), minutes(f.Lat), minutes(f.Lon), at.Format("020106"))))
	}
	return b.Bytes()
}
