package report_test

import (
	"bytes"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"testing"
	"time"

	"example.com/tripwear/planner"
	"example.com/tripwear/planner/labreport"
	"example.com/tripwear/planner/report"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
)

// few is enough draws for what is printed about them.
var few = planner.Options{Draws: 400}

// TestPrinted compares all text that can be printed, in both units, and what of
// JSON is as the owner wrote it, with what was last looked at and found good. It comes first: a word or
// a figure out of place is seen here before other tests say what rule it
// breaks. UPDATE=1 rewrites the files.
func TestPrinted(t *testing.T) {
	log, err := os.ReadFile("../../testdata/golden/season.csv")
	if err != nil {
		t.Fatal(err)
	}
	f := folder(t, "juniper", log)
	trip, err := f.FindTrip("")
	if err != nil {
		t.Fatal(err)
	}
	must := func(err error) {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
	}
	units := func(print func(io.Writer, quantity.System) error) func(io.Writer) {
		return func(w io.Writer) {
			for _, u := range []quantity.System{quantity.US, quantity.Metric} {
				fmt.Fprintf(w, "==== %s\n", u)
				must(print(w, u))
			}
		}
	}
	for name, print := range map[string]func(io.Writer){
		"plan.txt": func(w io.Writer) {
			o := few
			o.Today = time.Date(2027, 4, 23, 0, 0, 0, 0, time.UTC)
			p, err := planner.Make(f, trip, o)
			must(err)
			units(func(w io.Writer, u quantity.System) error {
				return report.Text(w, p, report.Options{Units: u, All: u == quantity.US})
			})(w)
		},
		"learn.txt": func(w io.Writer) {
			l, err := planner.Learn(f, &trip, few)
			must(err)
			units(func(w io.Writer, u quantity.System) error { return report.Learn(w, l, u) })(w)
		},
		"compare.txt": func(w io.Writer) {
			var ways []planner.Way
			for _, changes := range [][]profiles.Change{nil, {{Key: "pace", Value: "advanced"}}, {{Key: "alignment.RR.toe", Value: "0.4deg"}, {Key: "boot.volume", Value: "90L"}}} {
				changed, p, err := planner.Vary(f, trip, changes, few)
				must(err)
				ways = append(ways, planner.Way{Label: fmt.Sprint(changes), Folder: changed, Plan: p})
			}
			units(func(w io.Writer, u quantity.System) error { return report.Compare(w, planner.Compare(ways), u) })(w)
		},
		"two.txt": func(w io.Writer) {
			var ways []planner.Way
			for _, changes := range [][]profiles.Change{nil, {{Key: "alignment.RR.toe", Value: "0.4deg"}, {Key: "alignment.front.camber", Value: "-3deg"}, {Key: "fitted.tires-rear", Value: "tires-rear"}}} {
				changed, p, err := planner.Vary(f, trip, changes, few)
				must(err)
				ways = append(ways, planner.Way{Label: fmt.Sprint(len(changes), " changes"), Folder: changed, Plan: p})
			}
			ways[0].Plan.Sets[0].Stop = []string{"LF: cords show"}
			units(func(w io.Writer, u quantity.System) error { return report.Compare(w, planner.Compare(ways), u) })(w)
		},
		"lasts.txt": func(w io.Writer) {
			weekend, err := planner.Weekend(f, "heron-flats", time.Time{})
			must(err)
			weekend.Legs[0].Distance, weekend.Legs[1].Days = 400e3, 2
			l, err := planner.Lasts(f, weekend, planner.Ask{}, few)
			must(err)
			units(func(w io.Writer, u quantity.System) error { return report.Lasts(w, l, u) })(w)
			weekend.Legs[0].Distance, weekend.Legs[2].Distance = 0, 0
			one, err := planner.Lasts(f, weekend, planner.Ask{Sets: "front pads"}, few)
			must(err)
			units(func(w io.Writer, u quantity.System) error { return report.Lasts(w, one, u) })(w)
		},
		"oil.txt": func(w io.Writer) {
			r, err := labreport.Read(f, f.OilReports[0])
			must(err)
			units(func(w io.Writer, u quantity.System) error { return report.Oil(w, r, u) })(w)
			must(report.OilJSON(w, r))
		},
		"circuit.txt": func(w io.Writer) {
			for _, id := range []string{"heron-flats", "quarry-ridge"} {
				c := circuit(t, id, planner.Drive{})
				units(func(w io.Writer, u quantity.System) error {
					return report.Circuit(w, c, report.CircuitOptions{Units: u, Plain: u == quantity.US})
				})(w)
			}
			r, err := planner.RankCircuits(f, "RF hub", planner.Drive{})
			must(err)
			units(func(w io.Writer, u quantity.System) error { return report.Ranking(w, r, u) })(w)
		},
		"log.txt": func(w io.Writer) {
			must(report.Log(w, f.Log, false))
			must(report.Log(w, f.Log, true))
			must(report.Log(w, nil, false))
			must(report.Added(w, f.Log[:2], false))
			must(report.Added(w, nil, true))
		},
	} {
		t.Run(name, func(t *testing.T) {
			var b bytes.Buffer
			print(&b)
			golden(t, filepath.Join("printed", name), b.String())
		})
	}
}
