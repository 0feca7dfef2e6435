package trace_test

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"testing"
	"time"

	"example.com/tripwear/wearmodel/duty"
	survey "example.com/tripwear/wearmodel/duty/trace"
	"example.com/tripwear/wearmodel/duty/trace/synthetic"
)

const deg = 3.14159265358979323846 / 180

// session is invented: a car on the circuit of the demo.
func session(t testing.TB, day synthetic.Day) []survey.Fix {
	t.Helper()
	var segs []duty.Segment
	for _, c := range [][3]float64{
		{582.646, 90, 60}, {208.518, 70, 120}, {172.435, -80, 40}, {197.686, 100, 50}, {304.983, -60, 85},
		{210.171, 130, 80}, {389.678, 80, 40}, {278.752, -50, 70}, {306.902, 80, 55},
	} {
		segs = append(segs, duty.Segment{Straight: c[0], Turn: c[1] * deg, Radius: c[2]})
	}
	v := duty.Vehicle{
		Mass: 1385, FrontShare: 0.53, Wheelbase: 2.51, TrackFront: 1.49, TrackRear: 1.50, CGHeight: 0.48,
		Drive: duty.RearDrive, Power: 128e3, DragArea: 0.66, RollFront: 0.58, Friction: 1,
		Rolling: 0.013, AirDensity: 1.20, Driveline: 0.87, Rotating: 1.04,
	}
	day.Lat, day.Lon, day.Heading = 58.3, 8.1, 0.7
	fixes, err := synthetic.Record(v, segs, 0.80, day, rand.New(rand.NewPCG(11, 1)))
	if err != nil {
		t.Fatal(err)
	}
	return fixes
}

// start is when the invented sessions begin: late, so that some go past midnight.
var start = time.Date(2027, 5, 13, 9, 30, 0, 0, time.UTC)

func asGPX(fixes []survey.Fix) []byte {
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

func asCSV(fixes []survey.Fix) []byte {
	var b bytes.Buffer
	b.WriteString("# an invented session\ntime (s),lat,lon\n")
	for _, f := range fixes {
		fmt.Fprintf(&b, "%.3f,%.7f,%.7f\n", f.Time, f.Lat, f.Lon)
	}
	return b.Bytes()
}
