package report_test

import (
	"fmt"
	"io"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"golang.org/x/tools/txtar"

	"example.com/tripwear/planner"
	"example.com/tripwear/planner/circuits"
	"example.com/tripwear/planner/labreport"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/report"
	"example.com/tripwear/planner/trip"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/quantity"
)

// few is enough draws for what is printed about them.
var few = planner.Options{Draws: 400, Today: time.Date(2027, 4, 23, 0, 0, 0, 0, time.UTC)}

// TestPrinted compares one sample of what each command prints with what was
// last looked at and found good, all in one file. It comes first: a word or a
// figure out of place is seen here before other tests say what rule it breaks.
// UPDATE=1 rewrites the file.
func TestPrinted(t *testing.T) {
	const path = "../../testdata/golden/printed.txtar"
	archive, err := txtar.ParseFile(path)
	if err != nil {
		t.Fatal(err)
	}
	var now []txtar.File
	for i, s := range samples {
		t.Run(s.name, func(t *testing.T) {
			var b strings.Builder
			if err := s.print(t, &b); err != nil {
				t.Fatal(err)
			}
			now = append(now, txtar.File{Name: s.name, Data: []byte(b.String())})
			if os.Getenv("UPDATE") != "" {
				return
			}
			if len(archive.Files) != len(samples) || archive.Files[i].Name != s.name {
				t.Fatalf("%s holds %d samples, want %d, this one in place %d", path, len(archive.Files), len(samples), i+1)
			}
			if diff := cmp.Diff(strings.Split(string(archive.Files[i].Data), "\n"), strings.Split(b.String(), "\n")); diff != "" {
				t.Errorf("(-want +got):\n%s", diff)
			}
		})
	}
	if os.Getenv("UPDATE") != "" && len(now) == len(samples) {
		archive.Files = now
		if err := os.WriteFile(path, txtar.Format(archive), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

var samples = []struct {
	name  string
	print func(*testing.T, io.Writer) error
}{
	{"plan", func(t *testing.T, w io.Writer) error {
		f, trip := season(t)
		for i := range f.Car.Fitted {
			if e := &f.Car.Fitted[i]; e.Part == "tires-front" {
				e.Found = map[string]logbook.Finding{"LF": logbook.Cords}
			}
		}
		p, err := planner.Make(f, trip, few)
		if err != nil {
			return err
		}
		p.Assumptions = p.Assumptions[:3]
		return report.Text(w, p, report.Options{All: true})
	}},
	{"lasts", func(t *testing.T, w io.Writer) error {
		return report.Lasts(w, lasts(t, planner.Ask{}), report.View{Units: quantity.US})
	}},
	{"compare", func(t *testing.T, w io.Writer) error {
		c := compared(t, nil, []profiles.Change{{Key: "pace", Value: "advanced"}, {Key: "alignment.RR.toe", Value: "0.4deg"}, {Key: "boot.volume", Value: "90L"}})
		return report.Compare(w, c, report.View{Units: quantity.Metric})
	}},
	{"circuit", func(t *testing.T, w io.Writer) error {
		return report.Circuit(w, circuit(t, "heron-flats", circuits.Drive{}), report.CircuitOptions{View: report.View{Units: quantity.Metric}})
	}},
	{"circuit --rank", func(t *testing.T, w io.Writer) error {
		r, err := circuits.Rank(folder(t, "juniper", nil), "RF hub", circuits.Drive{})
		if err != nil {
			return err
		}
		return report.Ranking(w, r, report.View{Units: quantity.US})
	}},
	{"learn", func(t *testing.T, w io.Writer) error {
		return report.Learn(w, learned(t), report.View{Units: quantity.Metric})
	}},
	{"log show", func(t *testing.T, w io.Writer) error {
		f, _ := season(t)
		return report.Log(w, f.Evidence, report.View{Units: quantity.US})
	}},
	{"oil", func(t *testing.T, w io.Writer) error { return report.Oil(w, oil(t), report.View{Units: quantity.US}) }},
}

// season is the demo with a logbook.
func season(t *testing.T) (*profiles.Folder, profiles.Trip) {
	t.Helper()
	log, err := os.ReadFile("../../testdata/golden/season.csv")
	if err != nil {
		t.Fatal(err)
	}
	f := folder(t, "juniper", log)
	trip, err := f.FindTrip("")
	if err != nil {
		t.Fatal(err)
	}
	return f, trip
}

func lasts(t *testing.T, ask planner.Ask) *plan.Lasting {
	t.Helper()
	f, _ := season(t)
	weekend, err := trip.Weekend(f, "heron-flats", time.Time{})
	if err != nil {
		t.Fatal(err)
	}
	weekend.Legs[0].Distance, weekend.Legs[1].Days = 400e3, 2
	l, err := planner.Lasts(f, weekend, ask, few)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

// compared are ways to drive the trip, by what each changes.
func compared(t *testing.T, changes ...[]profiles.Change) *plan.Comparison {
	t.Helper()
	f, trip := season(t)
	var ways []planner.Way
	for _, c := range changes {
		changed, p, err := planner.Vary(f, trip, c, few)
		if err != nil {
			t.Fatal(err)
		}
		ways = append(ways, planner.Way{Label: fmt.Sprint(c), Folder: changed, Plan: p})
	}
	return planner.Compare(ways)
}

func learned(t *testing.T) *plan.Teaching {
	t.Helper()
	f, trip := season(t)
	l, err := planner.Learn(f, &trip, few)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

func oil(t *testing.T) labreport.Reading {
	t.Helper()
	f := folder(t, "juniper", nil)
	r, err := labreport.Read(f, f.OilReports[0])
	if err != nil {
		t.Fatal(err)
	}
	return r
}
