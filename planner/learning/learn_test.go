package learning

import (
	"fmt"
	"io/fs"
	"math"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/trip"
	"example.com/tripwear/profiles"
	"example.com/tripwear/wearmodel/reliability"
)

// neverReplaced is a logbook in which pads that do not wear are read after every
// trip, with a reading of the right-hand one wrong by 2 mm now and then.
func neverReplaced(trips, outlierEvery int) string {
	var out strings.Builder
	out.WriteString("date,odometer,what,place,zone,value,confirmed\n")
	day := time.Date(2027, 4, 18, 0, 0, 0, 0, time.UTC)
	for i := range trips {
		miles := 144000 + 1200*i
		date := day.AddDate(0, 0, 2*i).Format(time.DateOnly)
		fmt.Fprintf(&out, "%s,%d mi,trip driven,,,spring 1-3,yes\n%s,%d mi,pad,LF,,5 mm,yes\n", date, miles, date, miles)
		level := 5.0
		if i%outlierEvery == outlierEvery-1 {
			level += 2
		}
		fmt.Fprintf(&out, "%s,%d mi,pad,RF,,%g mm,yes\n", date, miles, level)
	}
	return out.String()
}

// A part that is never replaced is followed over so many visits at most, and
// all readings still count: the circuit wears next to nothing.
func TestLongLife(t *testing.T) {
	f := withLog(t, neverReplaced(150, 1000))
	w, err := trip.BeforeTrip(trip.NewMachine(f), f)
	if err != nil {
		t.Fatal(err)
	}
	all, err := Learn(trip.NewMachine(f), w)
	if err != nil {
		t.Fatal(err)
	}
	h := all.histories[profiles.Pads]
	longest := 0
	for _, r := range h.readings {
		longest = max(longest, len(r.taken))
	}
	if longest != mostVisits {
		t.Errorf("a level is followed over %d pieces of driving, want %d", longest, mostVisits)
	}
	if n := len(h.readings); n < 2*150 {
		t.Errorf("%d readings, want each of the 300", n)
	}
	m := all.Sets["pads-front"].Learned.Circuit
	if !(m.High < 0.2) || math.IsNaN(m.Median) {
		t.Errorf("the circuit wears %.3f times the model's, up to %.3f", m.Median, m.High)
	}
}

// Of more readings than teach the latest do, the others are counted and said, and
// what was learned is the same: the circuit wears next to nothing.
func TestLatestTeach(t *testing.T) {
	f := withLog(t, neverReplaced(mostReadings/2+50, 1000))
	w, err := trip.BeforeTrip(trip.NewMachine(f), f)
	if err != nil {
		t.Fatal(err)
	}
	all, err := Learn(trip.NewMachine(f), w)
	if err != nil {
		t.Fatal(err)
	}
	h := all.histories[profiles.Pads]
	if h.unheard < 100 || len(h.readings) != mostReadings || h.readings[0].odometer < 144050*1609.344 {
		t.Errorf("%d readings from %.0f m on, %d before them", len(h.readings), h.readings[0].odometer, h.unheard)
	}
	var told plan.Teaching
	all.Teach(&told)
	if said := strings.Join(told.Warnings, "; "); !strings.Contains(said, fmt.Sprintf("the latest %d readings of the %s teach, the %d before them do not", mostReadings, profiles.Pads.Info().Plural, h.unheard)) {
		t.Errorf("said: %s", said)
	}
	if m := all.Sets["pads-front"].Learned.Circuit; !(m.High < 0.2) {
		t.Errorf("the circuit wears %.3f times the model's, up to %.3f", m.Median, m.High)
	}
}

// BenchmarkLearn learns from 4,500 rows, two thirds of them of pads.
func BenchmarkLearn(b *testing.B) {
	f := withLog(b, neverReplaced(1_500, 50))
	m := trip.NewMachine(f)
	w, err := trip.BeforeTrip(m, f)
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, err := Learn(m, w); err != nil {
			b.Fatal(err)
		}
	}
}

// Among many readings, several of the worst are left out at once,
// of each part's point one, the worst first.
func TestWorstOfMany(t *testing.T) {
	h := &history{kind: kind.Pads}
	r := reliability.Rates{}
	levels := map[int]int{}
	var l estimate
	for start := range 3 {
		r.Starts = append(r.Starts, reliability.Start{Mean: 8, SD: 1})
		for k := range 8 {
			level := 8.0
			if k == 2 || k == 5 && start == 1 {
				level += 2 + float64(start) - float64(k)/10
			}
			l.used = append(l.used, len(h.readings))
			h.readings = append(h.readings, reading{start: start, level: level, gauge: 0.1})
			r.Readings = append(r.Readings, reliability.Reading{Start: start, Level: level, Gauge: 0.1})
			levels[start]++
		}
	}
	l.fit = r.Fit(reliability.Fit{})
	if got := h.worst(l, levels, 9); fmt.Sprint(got) != "[18 10 2]" {
		t.Errorf("the worst are %v, want one of each part: 18, 10 and 2", got)
	}
	if got := h.worst(l, levels, 1); fmt.Sprint(got) != "[18]" {
		t.Errorf("the worst is %v, want 18", got)
	}
	if got := h.worst(l, map[int]int{}, 9); len(got) != 0 {
		t.Errorf("of levels too few to tell %v are left out", got)
	}
}

// withLog is the juniper demo with another logbook.
func withLog(t testing.TB, log string) *profiles.Folder {
	t.Helper()
	demo, err := profiles.Demo("juniper")
	if err != nil {
		t.Fatal(err)
	}
	files := fstest.MapFS{profiles.LogFile: {Data: []byte(log)}}
	for _, name := range []string{"car.yaml", "parts.yaml", "trips/spring.yaml", "circuits/heron-flats.yaml", "circuits/quarry-ridge.yaml"} {
		text, err := fs.ReadFile(demo, name)
		if err != nil {
			t.Fatal(err)
		}
		files[name] = &fstest.MapFile{Data: text}
	}
	f, err := profiles.Load(files)
	if err != nil {
		text := err.Error()
		t.Fatal(text[:min(len(text), 600)])
	}
	return f
}
