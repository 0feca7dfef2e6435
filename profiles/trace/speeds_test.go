package trace

import (
	"fmt"
	"math"
	"strings"
	"testing"
)

// eastward is a recording along a parallel at 60 degrees north, where a degree
// is half of one of the equator's (111.19 km on a sphere of 6371 km), with
// what the receiver says of its speed.
func eastward(fixes int, every, mps, told float64) string {
	var b strings.Builder
	b.WriteString("time (s),lat,lon,speed (m/s)\n")
	for i := range fixes {
		at := float64(i) * every
		fmt.Fprintf(&b, "%.2f,60,%.9f,%.4f\n", at, 8+at*mps/(111_194.93/2), told)
	}
	return b.String()
}

// A speed in a wrong unit shows at any rate of fixes up to one in 3 s, too
// large as well as too small; a right one passes.
func TestSpeeds(t *testing.T) {
	for _, c := range []struct {
		every, mps, told float64
		says             string
	}{
		{0.1, 30, 30, ""}, {1, 30, 30, ""}, {2, 30, 30, ""}, {3, 30, 30, ""},
		{0.1, 30, 108, "3.6 times"}, {1, 30, 108, "3.6 times"}, {2, 30, 108, "3.6 times"}, {3, 30, 108, "3.6 times"},
		{0.1, 30, 30 / 3.6, "0.3 times"}, {2, 30, 30 / 3.6, "0.3 times"},
		{4, 30, 108, ""}, // too far between to be compared
		{1, 5, 18, ""},   // too slow
	} {
		_, err := Read(strings.NewReader(eastward(40, c.every, c.mps, c.told)))
		if (err == nil) != (c.says == "") || err != nil && !strings.Contains(err.Error(), "the speeds say "+c.says+" the way") {
			t.Errorf("%g m/s told as %g, every %g s: %v", c.mps, c.told, c.every, err)
		}
	}
}

// round is a circle of 200 m at 30 m/s about a place, which its speeds confirm:
// a degree of latitude is 111.19 km, one of longitude that by the cosine.
func round(lat, lon float64, header string) string {
	var b strings.Builder
	b.WriteString(header + "\n")
	for i := range 200 {
		angle := float64(i) * 30 / 200
		fmt.Fprintf(&b, "%d,%.7f,%.7f,30\n", i, lat+200*math.Sin(angle)/111_195, lon+200*math.Cos(angle)/111_195/math.Cos(lat*math.Pi/180))
	}
	return b.String()
}

// Lat and lon exchanged are told from a unit that is wrong, wherever a degree of
// the one is not as long as one of the other.
func TestExchanged(t *testing.T) {
	const right, wrong = "time (s),lat,lon,speed (m/s)", "time (s),lon,lat,speed (m/s)"
	for _, place := range [][2]float64{{50, 8}, {33.5, -86.6}, {-34, 18}, {60, 25}, {36, -80}} {
		if _, err := Read(strings.NewReader(round(place[0], place[1], right))); err != nil {
			t.Errorf("%v: %v", place, err)
		}
		_, err := Read(strings.NewReader(round(place[0], place[1], wrong)))
		if err == nil || !strings.Contains(err.Error(), "lat and lon exchanged") {
			t.Errorf("%v exchanged: %v", place, err)
		}
	}
}

// Two fixes of one time have no speed between them.
func TestSpeedsOfOneTime(t *testing.T) {
	text := eastward(40, 1, 30, 30) + "39.00,60,8.5,30\n40.00,60,8.5005,30\n"
	if _, err := Read(strings.NewReader(text)); err != nil {
		t.Error(err)
	}
}

// As many fixes as are allowed are allowed.
func TestMostFixes(t *testing.T) {
	for fixes, says := range map[int]string{3: "", 4: "more than 3 fixes"} {
		_, err := read(strings.NewReader("time (s),lat,lon\n"+strings.Repeat("1,50,8\n", fixes)), bounds{bytes: 1 << 20, piece: 1 << 20, fixes: 3})
		if (err == nil) != (says == "") || err != nil && !strings.Contains(err.Error(), says) {
			t.Errorf("%d fixes: %v", fixes, err)
		}
	}
}

// Forty characters are repeated, of one more the first 37.
func TestShort(t *testing.T) {
	whole := strings.Repeat("é", 40)
	if got := short(whole); got != whole {
		t.Errorf("40 characters become %q", got)
	}
	if got, want := short(whole+"x"), strings.Repeat("é", 37)+"..."; got != want {
		t.Errorf("41 characters become %q, want %q", got, want)
	}
}
