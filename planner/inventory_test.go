package planner

import (
	"bytes"
	"math"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/randomcar"
	"example.com/tripwear/profiles"
)

// What comes due when, by hand: on 2 May 2027 the car has come 72,000 mi in 72
// months on the disc, with 36 circuit days.
func TestInventoryByHand(t *testing.T) {
	f, _ := limitedCar(t, `
  - {id: disc, class: limited, name: flex disc, limits: {distance: 75000 mi}}
  - {id: straps, class: harness, name: harness, limits: {expires: 2027-12-31}}
`, `
  - {part: disc, at: [body], since: {date: 2021-05-02, odometer: 71200 mi}, circuit_days: 36}
  - {part: gearbox-oil, at: [gearbox], since: {date: 2026-01-01, odometer: 140000 mi}, circuit_days: 7}
  - {part: straps, at: [driver], since: {date: 2026-01-01, odometer: 140000 mi}}
  - {part: spark-plugs, at: [engine], since: {date: 2026-01-01, odometer: 110000 mi}}
`)
	f.Car.Usual = -1
	inv, err := Inventory(f, Options{})
	if err != nil {
		t.Fatal(err)
	}
	if miles := inv.Meters / float64(mile); math.Abs(miles-1000) > 1 || math.Abs(inv.Days-0.5) > 0.001 {
		t.Errorf("usual: %.1f mi and %.3f circuit days a month", miles, inv.Days)
	}
	for id, want := range map[string]struct {
		used float64
		by   string
		due  string
	}{
		"limited-body": {72.0 / 75, "body distance", "2027-08-01"},           // 3,000 mi left
		"gearbox-oil":  {7.0 / 12, "gearbox circuit days", "2028-03-01"},     // five days, in ten months
		"harness":      {486.0 / 729, "driver date", "2028-01-01"},           // the day after the one on its label
		"spark-plugs":  {33_200.0 / 30_000, "engine distance", "2027-05-02"}, // past its limit
	} {
		var got plan.InUse
		for _, s := range inv.Parts {
			if s.Set == id {
				got = s
			}
		}
		day, err := time.Parse(time.DateOnly, want.due)
		if off := got.Due.Sub(day).Hours() / 24; err != nil || math.Abs(off) > 1.01 || math.Abs(got.Used-want.used) > 2e-3 || got.By != want.by {
			t.Errorf("%s: %.4f used by %s, due %s; want %.4f by %s, %s", id, got.Used, got.By, got.Due.Format(time.DateOnly), want.used, want.by, want.due)
		}
	}
}

// TestEverydayByHand: 15,600 mi in 26.4 months since the rear rotors went on, 3,198
// of them on a trip in the logbook, its laps among them; the owner's word stands
// before that.
func TestEverydayByHand(t *testing.T) {
	for _, own := range []bool{false, true} {
		files := randomcar.Files(t, "juniper", "car.yaml", "parts.yaml", "trips/spring.yaml", "circuits/heron-flats.yaml", "circuits/quarry-ridge.yaml")
		files[profiles.LogFile] = &fstest.MapFile{Data: []byte("date,odometer,what,place,zone,value\n2027-06-01,146600 mi,trip driven,,,spring\n")}
		want, trips := 500.0, 3198/26.38
		if !own {
			files["car.yaml"].Data = bytes.Replace(files["car.yaml"].Data, []byte("\nusual: 500 mi/month"), nil, 1)
			want = (146_600 - 131_000 - 3198) / 26.38
		}
		inv, err := Inventory(mustLoad(t, files), Options{})
		if err != nil {
			t.Fatal(err)
		}
		got, all := inv.Everyday/float64(mile), inv.Meters/float64(mile)
		if math.Abs(got-want) > 1 || math.Abs(all-want-trips) > 1 || inv.Given != own {
			t.Errorf("own %t: %.1f mi a month everyday of %.1f in all, want %.1f of %.1f", own, got, all, want, want+trips)
		}
	}
}

// Heat cycles by hand: eight noted of the circuit tires that lie aside, and a day
// of five sessions logged with them on; the road tires keep the five of the one
// day that car.yaml gives them. Three more days bring the circuit tires to 28.
func TestHeatCyclesByHand(t *testing.T) {
	f, trip := randomcar.Edited(t, map[string]string{
		"parts.yaml": `
  - {id: tires-day, class: tire-400, name: circuit tires, radius: 316 mm, tread_width: 195 mm, heat_cycles: 20}
`,
		"car.yaml # What lies in the garage already.": `
  - {part: tires-day, aside: true, at: [LF, RF], since: {date: 2026-08-30, odometer: 139500 mi}, distance: 100 mi, circuit_days: 2, heat_cycles: 8}
`,
		profiles.LogFile: "date,odometer,what,place,zone,value,confirmed,note\n2027-05-03,143400 mi,trip driven,,,one,,\n",
		"trips/one.yaml": "trip: A day\ndepart: 2027-05-03\nfit: {front tires: tires-day}\nlegs:\n  - {circuit: heron-flats, days: 1, sessions: 5 x 20 min, pace: intermediate}\n",
	})
	inv, err := Inventory(f, Options{})
	if err != nil {
		t.Fatal(err)
	}
	want := map[string][2]float64{"tires-front": {5, 0}, "tires-front:tires-day": {13, 20}, "tires-rear": {25, 0}}
	for _, s := range inv.Parts {
		if w, ok := want[s.Set]; ok != (s.Cycles != nil) || ok && (math.Abs(*s.Cycles-w[0]) > 1e-9 || s.Most != w[1]) {
			t.Errorf("%s: %v of %v, want %v", s.Set, s.Cycles, s.Most, w)
		}
		delete(want, s.Set)
	}
	if len(want) > 0 {
		t.Errorf("no %v", want)
	}
	trip.Fit = profiles.Outfit{"tires-front": "tires-day"}
	p := planned(t, f, trip)
	if got := strings.Join(setOf(p, t, "tires-front:tires-day").Seen, "; "); !strings.Contains(got, "RF comes to 28 heat cycles, past the 20 you give it") {
		t.Error(got)
	}
	if got := strings.Join(setOf(p, t, "tires-front").Seen, "; "); strings.Contains(got, "heat") {
		t.Error(got)
	}
}

// What ends a tire's life beside its tread, by hand: built in the second week of
// 2020 it is past ten years in that of 2030, whatever tread is left.
func TestTireAgeComesDue(t *testing.T) {
	f, _ := randomcar.Edited(t, nil)
	for i := range f.Car.Fitted { // a car that stands
		e := &f.Car.Fitted[i]
		e.Since.Odometer, e.CircuitDays = f.Car.Odometer, 0
		if e.Part == "tires-front" {
			e.Built = map[string]string{"LF": "0220", "RF": "0222"}
		}
	}
	inv, err := Inventory(f, Options{})
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range inv.Parts {
		if s.Set == "tires-front" && (s.By != "LF age" || s.Due.Format("2006-01") != "2030-01" || math.Abs(s.Used-0.731) > 0.002) {
			t.Errorf("%.3f used by %s, due %s", s.Used, s.By, s.Due)
		}
	}
}
