package planner

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/randomcar"
	tripwalk "example.com/tripwear/planner/trip"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/quantity"
)

const (
	trackPads = `
  - {id: pads-track, class: pads-track-front, name: track pads, price: 240, volume: 2.5 L, weight: 2.4 kg, hours: 1 h}
`
	trackPadsAside = `
  - {part: pads-track, aside: true, at: [LF, RF], since: {date: 2026-08-30, odometer: 139500 mi}, distance: 400 mi, circuit_days: 2, pad: {LF: 9.0 mm, RF: 8.8 mm}}
`
)

// Track pads at the circuit and street pads on the road, by hand. The road takes
// 0.03 MJ/km for 1,300 kg, of which a car of 1,385 kg brakes 0.53 + 0.2 x 0.48 /
// 2.51 = 0.568 at the front, half of that at a wheel; 30 mm3/MJ from two pads of
// 4,500 mm2, 1.25 times that at the thinnest end: over 2,000 mi 2,000 x 1.609 x 0.03
// x 1.065 x 0.568 / 2 x 30 / 9,000 x 1.25 = 0.122 mm. What a circuit day takes is what it takes from a car that has
// nothing else on.
func TestTrackPadsForCircuits(t *testing.T) {
	files := map[string]string{"parts.yaml": trackPads, "car.yaml # What lies in the garage already.": trackPadsAside}
	f, trip := randomcar.Edited(t, files)
	trip.Legs = []profiles.Leg{road(1000), days("heron-flats", 2, "intermediate"), road(1000)}
	trip.Fit = profiles.Outfit{"pads-front": "pads-track"}
	p := planned(t, f, trip)

	alone, _ := demo(t, "juniper")
	alone.Parts["pads-track"] = f.Parts["pads-track"]
	for i := range alone.Car.Fitted {
		if e := &alone.Car.Fitted[i]; e.Part == "pads-front" {
			e.Part = "pads-track"
		}
	}
	only := trip
	only.Fit, only.Legs = nil, []profiles.Leg{days("heron-flats", 2, "intermediate")}
	hot := setOf(planned(t, alone, only), t, "pads-front")

	street, track := setOf(p, t, "pads-front"), setOf(p, t, "pads-front:pads-track")
	level := func(s plan.Set, i int) float64 { return s.Points[i].Start - sum(s.Points[i].Loss) }
	for i, start := range []float64{6.9, 6.8} {
		if got, want := level(street, i), start*1e-3-0.122e-3; math.Abs(got-want) > 0.003e-3 {
			t.Errorf("street pads %s: %.3f mm at the end, by hand %.3f", street.Points[i].Place, 1e3*got, 1e3*want)
		}
		if got, want := sum(track.Points[i].Loss), sum(hot.Points[i].Loss); math.Abs(got-want) > 1e-9 || want < 0.3e-3 {
			t.Errorf("track pads %s: %.4f mm, alone on the car %.4f", track.Points[i].Place, 1e3*got, 1e3*want)
		}
	}
	if street.On[0] != true || street.On[1] || street.On[2] || !street.On[3] || track.On[0] || !track.On[1] {
		t.Errorf("street pads on %v, track pads on %v", street.On, track.On)
	}
	if len(p.Swaps) != 2 || p.Swaps[0].Leg != 1 || p.Swaps[0].On != "pads-track" || p.Swaps[1].Leg != 3 || p.Swaps[1].On != "pads-front" {
		t.Errorf("swaps %+v", p.Swaps)
	}
	packed := false
	for _, it := range p.Packing {
		packed = packed || it.Part == "pads-track" && it.Volume == 2.5e-3 && it.Mass == 2.4 && it.ToPay() == 0
	}
	if !packed || !strings.Contains(fmt.Sprint(p.Tools), "piston tool") {
		t.Errorf("packed %+v with %+v", p.Packing, p.Tools)
	}
	// Left at home, the track pads are no part of the plan.
	trip.Fit = nil
	for _, s := range planned(t, f, trip).Sets {
		if s.Part == "pads-track" || s.ID == "pads-front" && strings.Contains(s.Name, "(") {
			t.Errorf("%s, %s", s.ID, s.Name)
		}
	}
}

// The choice proposes what the owner has: where the pads on the car would want a
// spare, the track pads that lie aside make do; where they are worn, or the trip
// has them on already, it does not.
func TestOwnPadsProposed(t *testing.T) {
	for _, c := range []struct {
		read, fit string
		want      bool
	}{{"9.0", "", true}, {"3.2", "", false}, {"9.0", "pads-track", false}} {
		f, trip := randomcar.Edited(t, map[string]string{
			"parts.yaml": trackPads,
			"car.yaml # What lies in the garage already.": strings.ReplaceAll(strings.ReplaceAll(trackPadsAside, "9.0 mm", c.read+" mm"), "8.8 mm", c.read+" mm"),
		})
		if c.fit != "" {
			trip.Fit = profiles.Outfit{"pads-front": c.fit}
		}
		p := planned(t, f, trip)
		if got := len(p.Own) == 1; got != c.want {
			t.Errorf("track pads of %s mm, %q: proposes %+v", c.read, c.fit, p.Own)
		}
		if c.want && !strings.Contains(p.Own[0].What, "pads-track") {
			t.Error(p.Own[0].What)
		}
	}
}

// Over a season the choice proposes it too: two trips wear the pads on the car down,
// and with the track pads on at every circuit they do both.
func TestOwnPadsProposedOverASeason(t *testing.T) {
	for _, c := range []struct {
		read, second string
		want         bool
	}{{"9.0", "", true}, {"3.2", "", false}, {"9.0", "pads-track", true}} {
		f, trip := randomcar.Edited(t, map[string]string{
			"parts.yaml": trackPads,
			"car.yaml # What lies in the garage already.": strings.ReplaceAll(strings.ReplaceAll(trackPadsAside, "9.0 mm", c.read+" mm"), "8.8 mm", c.read+" mm"),
		})
		trip.Legs = []profiles.Leg{road(300), days("heron-flats", 1, "intermediate"), road(300)}
		if p := planned(t, f, trip); len(p.Own) > 0 {
			t.Fatalf("one trip alone asks for %+v", p.Own)
		}
		trips := []profiles.Trip{trip, trip.Clone(), trip.Clone(), trip.Clone()}
		for k := range trips {
			trips[k].ID, trips[k].Name, trips[k].Depart = fmt.Sprint("trip-", k), fmt.Sprint("Trip ", k), trip.Depart.AddDate(0, k, 0)
		}
		if c.second != "" {
			trips[1].Fit = profiles.Outfit{"pads-front": c.second}
		}
		s, err := Season(f, trips, Options{Draws: 1000})
		if err != nil {
			t.Fatal(err)
		}
		if got := len(s.Own) == 1; got != c.want {
			t.Errorf("track pads of %s mm, %q: proposes %+v", c.read, c.second, s.Own)
		}
		if !c.want {
			continue
		}
		for k := range trips {
			trips[k].Fit = profiles.Outfit{"pads-front": "pads-track"}
		}
		then, err := Season(f, trips, Options{Draws: 1000})
		if err != nil {
			t.Fatal(err)
		}
		if strings.Contains(s.Own[0].What, "(") || len(then.Own) > 0 {
			t.Errorf("says %q, and once done %+v", s.Own[0].What, then.Own)
		}
		for _, w := range then.Work {
			if w.Set == "pads-front" || !strings.Contains(s.Own[0].What, "asks") && w.Set == "pads-front:pads-track" {
				t.Errorf("as proposed: %s %s for %s", w.Action, w.Name, then.Calendar[w.Trip].Trip)
			}
		}
		pocket := func(s *plan.Season) (sum float64) {
			for _, m := range s.Months {
				sum += m.Amount
			}
			return sum
		}
		if got, want := s.Own[0].Cost, pocket(then)-pocket(s); math.Abs(got-want) > 0.01 || got > 0 {
			t.Errorf("said to cost %.2f more, planned so it costs %.2f more", got, want)
		}
	}
}

// What the car leaves home with is on for the road, also where the circuits want
// that: and under way, whatever was put on since.
func TestRoadsHaveWhatLeftHome(t *testing.T) {
	for name, tt := range map[string]struct {
		rows string
		want string // each leg's pads
	}{
		"track pads on at home":        {"2027-05-02,143400 mi,fitted,front,,pads-track,,\n", "pads-track pads-track pads-track"},
		"swapped and nothing written":  {"2027-05-03,143700 mi,trip driven,,,one 1,,\n", "pads-track pads-front"},
		"swapped in the paddock":       {"2027-05-03,143700 mi,trip driven,,,one 1,,\n2027-05-03,143700 mi,fitted,front,,pads-track,,\n", "pads-track pads-front"},
		"left on track pads, all same": {"2027-05-02,143400 mi,fitted,front,,pads-track,,\n2027-05-03,143700 mi,trip driven,,,one 1,,\n", "pads-track pads-track"},
	} {
		f, _ := randomcar.Edited(t, map[string]string{
			"parts.yaml": trackPads, "car.yaml # What lies in the garage already.": trackPadsAside,
			profiles.LogFile: "date,odometer,what,place,zone,value,confirmed,note\n" + tt.rows,
			"trips/one.yaml": "trip: A day\ndepart: 2027-05-03\nfit: {front pads: pads-track}\nlegs:\n  - {road: there, distance: 300 mi, surface: highway}\n  - {circuit: heron-flats, days: 1, sessions: 5 x 20 min, pace: intermediate}\n  - {road: back, distance: 300 mi, surface: highway}\n",
		})
		trip := f.Trips["one"]
		b, err := tripwalk.Under(tripwalk.NewMachine(f), f, f.Trips["one"].Depart)
		if err != nil {
			t.Fatal(err)
		}
		if b != nil {
			trip = b.Rest(f, b.Day)
		}
		var on []string
		for _, l := range planned(t, f, trip).Legs {
			on = append(on, l.Fit["pads-front"])
		}
		if got := strings.Join(on, " "); got != tt.want {
			t.Errorf("%s: %s, want %s", name, got, tt.want)
		}
	}
}

func sum(of []float64) float64 {
	total := 0.0
	for _, v := range of {
		total += v
	}
	return total
}

// A used set goes on by a row of the logbook, what comes off keeps its state, and
// readings are of what was on.
func TestFittedRows(t *testing.T) {
	f, trip := randomcar.Edited(t, map[string]string{
		"parts.yaml": trackPads, "car.yaml # What lies in the garage already.": trackPadsAside,
		profiles.LogFile: `date,odometer,what,place,zone,value,confirmed,note
2027-05-02,143300 mi,pad,RF,,6.6 mm,,
2027-05-03,143400 mi,fitted,front,,pads-track,,
2027-05-04,143500 mi,pad,RF,,8.1 mm,,
2027-05-04,143500 mi,pad,LF,,8.2 mm,,
2027-05-05,143600 mi,fitted,front,,pads-front,,
2027-05-06,143700 mi,pad,LF,,6.7 mm,,
2027-05-07,143800 mi,pad,LF of pads-track,,8.0 mm,,
`})
	for part, want := range map[string][2]float64{"pads-front": {6.7, 6.6}, "pads-track": {8.0, 8.1}} {
		var got [2]quantity.Length
		for _, list := range [][]profiles.Fitted{f.Car.Fitted, f.Car.Aside} {
			for _, e := range list {
				for i, at := range logbook.Axles["front"] {
					if v, ok := e.Pad[at]; ok && e.Part == part {
						got[i] = v
					}
				}
			}
		}
		if math.Abs(float64(got[0])-want[0]*1e-3) > 1e-9 || math.Abs(float64(got[1])-want[1]*1e-3) > 1e-9 {
			t.Errorf("%s: read %v, want %v mm", part, got, want)
		}
	}
	for _, e := range f.Evidence {
		if e.Effect != profiles.Counts {
			t.Errorf("%s: %s, %s", e, e.Effect, e.Why)
		}
	}
	trip.Legs, trip.Fit = []profiles.Leg{road(10)}, nil
	p := planned(t, f, trip)
	if s := setOf(p, t, "pads-front"); s.Part != "pads-front" || s.Points[1].Start > 6.6e-3 || s.Points[1].Start < 6.58e-3 {
		t.Errorf("%s starts from %.3f mm", s.Part, 1e3*s.Points[1].Start)
	}
}

// A reading taken on the bench teaches of the set that lay there, and of no other.
func TestBenchReadingTeaches(t *testing.T) {
	read := func(row string) (street, track int) {
		f, trip := randomcar.Edited(t, map[string]string{
			"parts.yaml": trackPads, "car.yaml # What lies in the garage already.": trackPadsAside,
			profiles.LogFile: "date,odometer,what,place,zone,value,confirmed,note\n2027-05-02,143300 mi,pad,RF,,6.7 mm,,\n2027-05-03,143400 mi,trip driven,,,one,,\n" + row,
			"trips/one.yaml": "trip: A day\ndepart: 2027-05-03\nfit: {front pads: pads-track}\nlegs:\n  - {circuit: heron-flats, days: 1, sessions: 5 x 20 min, pace: intermediate}\n",
		})
		trip.Fit = profiles.Outfit{"pads-front": "pads-track"}
		p := planned(t, f, trip)
		return setOf(p, t, "pads-front").Learned.Readings, setOf(p, t, "pads-front:pads-track").Learned.Readings
	}
	street, track := read("")
	if s, r := read("2027-05-07,143800 mi,pad,RF of pads-track,,8.2 mm,,\n"); s != street || track != 0 || r != 2 {
		t.Errorf("a bench reading: the street pads' readings went from %d to %d, the track pads' from %d to %d", street, s, track, r)
	}
}

// Two sets of front tires alternate, one for circuits and one for the road, and
// wear as the model says: both are learned at 1.0x. The truth is what trips take
// from cars that have one of the sets and nothing aside.
func TestAlternatingSetsLearned(t *testing.T) {
	const tires = `
  - {id: tires-day, class: tire-400, name: circuit tires, radius: 316 mm, tread_width: 195 mm, fit: [shop, home]}
`
	takes := func(part string, leg profiles.Leg) [3]float64 {
		f, trip := randomcar.Edited(t, map[string]string{"parts.yaml": tires})
		for i := range f.Car.Fitted {
			if e := &f.Car.Fitted[i]; e.Part == "tires-front" {
				e.Part = part
			}
		}
		trip.Legs = []profiles.Leg{leg}
		var out [3]float64
		for i, p := range setOf(planned(t, f, trip), t, "tires-front").Points[3:] { // RF
			out[i] = p.Loss[0]
		}
		return out
	}
	visit := days("heron-flats", 1, "intermediate")
	visit.Ambient = 24
	day, way := takes("tires-day", visit), takes("tires-front", road(1000))
	meters := 0.0
	{
		f, trip := demo(t, "juniper")
		trip.Legs = []profiles.Leg{visit}
		meters = planned(t, f, trip).Legs[0].Meters / float64(mile)
	}
	for _, by := range []string{"rows", "the trip"} {
		fit := ""
		if by == "the trip" {
			fit = "fit: {front tires: tires-day}\n"
		}
		rows := "date,odometer,what,place,zone,value,confirmed,note\n"
		on := [2][3]float64{{5.5, 5.5, 5.5}, {7.5 * 25.4 / 32, 7.5 * 25.4 / 32, 7 * 25.4 / 32}} // mm, of the circuit's and the road's
		read := func(date string, at float64, which int) {
			for z, name := range logbook.Zones {
				rows += fmt.Sprintf("%s,%.1f mi,tread,RF,%s,%.2f mm,,\n", date, at, name, on[which][z])
			}
		}
		at := 143_200.0
		for n := range 6 {
			month := fmt.Sprintf("2027-%02d", 6+n)
			at += 1000
			for z := range way {
				on[1][z] -= 1000 * way[z]
			}
			read(month+"-02", at, 1)
			swap := func(date, part string) {
				if by == "rows" {
					rows += fmt.Sprintf("%s,%.1f mi,fitted,front,,%s,,\n", date, at, part)
				}
			}
			swap(month+"-03", "tires-day")
			if by == "rows" {
				read(month+"-03", at, 0)
			}
			at += meters
			for z := range day {
				on[0][z] -= 1000 * day[z]
			}
			if by == "rows" {
				read(month+"-03", at, 0)
			}
			rows += fmt.Sprintf("%s-03,%.1f mi,trip driven,one,,,,\n", month, at)
			swap(month+"-04", "tires-front")
		}
		rows = strings.ReplaceAll(rows, "trip driven,one,,,,", "trip driven,,,one,,")
		f, trip := randomcar.Edited(t, map[string]string{
			"parts.yaml": tires, profiles.LogFile: rows,
			"car.yaml # What lies in the garage already.": `
  - {part: tires-day, aside: true, at: [LF, RF], since: {date: 2026-08-30, odometer: 139500 mi}, distance: 0 mi, tread: {RF: [5.5 mm, 5.5 mm, 5.5 mm]}}
`,
			"trips/one.yaml": "trip: A day\ndepart: 2027-06-01\n" + fit + "legs:\n  - {road: there, distance: 1000 mi, surface: highway, ambient: 20 C}\n  - {circuit: heron-flats, days: 1, sessions: 5 x 20 min, pace: intermediate, ambient: 24 C}\n",
		})

		trip.Legs, trip.Fit = []profiles.Leg{road(100), visit}, profiles.Outfit{"tires-front": "tires-day"}
		p := planned(t, f, trip)
		own, aside := setOf(p, t, "tires-front").Learned, setOf(p, t, "tires-front:tires-day").Learned
		if own.Readings < 6 || !own.Road.Taught || math.Abs(own.Road.Median-1) > 0.05 {
			t.Errorf("by %s, the road's set: %+v", by, own)
		}
		if math.Abs(own.Circuit.Median-1) > 0.05 {
			t.Errorf("by %s, the road's set on circuit: %+v", by, own.Circuit)
		}
		if by == "rows" && (aside.Readings < 6 || !aside.Circuit.Taught || math.Abs(aside.Circuit.Median-1) > 0.05) {
			t.Errorf("by %s, the circuit's set: %+v", by, aside)
		}
	}
}
