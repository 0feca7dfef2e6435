package report_test

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"
	"testing/fstest"
	"unicode/utf8"

	"example.com/tripwear/planner"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/randomcar"
	"example.com/tripwear/planner/report"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
)

// plans are the demos' plans, made once; printing leaves them as they are.
var plans = map[string]*plan.Plan{}

func planned(t *testing.T, name string) *plan.Plan {
	t.Helper()
	if p := plans[name]; p != nil {
		return p
	}
	f := folder(t, name, nil)
	trip, err := f.FindTrip("")
	if err != nil {
		t.Fatal(err)
	}
	p, err := planner.Make(f, trip, planner.Options{})
	if err != nil {
		t.Fatal(err)
	}
	plans[name] = p
	return p
}

// folder is a demo's folder, with a logbook where one is given.
func folder(t *testing.T, name string, log []byte) *profiles.Folder {
	t.Helper()
	files := randomcar.Files(t, name)
	if log != nil {
		files[profiles.LogFile] = &fstest.MapFile{Data: log}
	}
	f, err := profiles.Load(files)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

func text(t *testing.T, p *plan.Plan, o report.Options) string {
	t.Helper()
	var b bytes.Buffer
	if err := report.Text(&b, p, o); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// TestFits: every line fits 80 columns in both units, with and without the
// assumptions, and holds no broken number.
func TestFits(t *testing.T) {
	for _, name := range profiles.DemoNames() {
		p := planned(t, name)
		for _, units := range []quantity.System{quantity.US, quantity.Metric} {
			for _, all := range []bool{false, true} {
				for i, line := range strings.Split(text(t, p, report.Options{View: report.View{Units: units}, All: all}), "\n") {
					if n := utf8.RuneCountInString(line); n > 80 {
						t.Errorf("%s line %d has %d characters: %s", name, i+1, n, line)
					}
					for _, bad := range []string{"NaN", "Inf", "%!", "-0 "} {
						if strings.Contains(line, bad) {
							t.Errorf("%s line %d holds %s: %s", name, i+1, bad, line)
						}
					}
				}
			}
		}
	}
}

// TestOrder: the answer comes before the tables, the cautions are there.
func TestOrder(t *testing.T) {
	got := text(t, planned(t, "juniper"), report.Options{})
	at := -1
	for _, part := range []string{"THE ANSWER", "Replace before leaving", "Bring a spare", "On the way", "In the trunk", "Order", "WHICH CORNER", "LEGS", "DAYS AND MONEY", "RAIN", "\nTIRES", "PADS", "ROTORS", "HUB", "ENGINE OIL", "BRAKE FLUID", "CHECK ON THE WAY", "REST ON", "CAUTIONS"} {
		i := strings.Index(got, part)
		if i <= at {
			t.Errorf("%q is missing or out of order", part)
		}
		at = i
	}
}

// TestJSON: the object parses, its chances are chances and its bands are in order.
func TestJSON(t *testing.T) {
	var b bytes.Buffer
	if err := report.JSON(&b, planned(t, "juniper")); err != nil {
		t.Fatal(err)
	}
	var got struct {
		Safe   bool   `json:"safe"`
		Depart string `json:"depart"`
		Legs   []struct {
			Kind  string `json:"kind"`
			Start string `json:"start"`
		} `json:"legs"`
		Sets []struct {
			ID       string `json:"id"`
			Decision struct {
				Action string `json:"action"`
			} `json:"decision"`
			Points []struct {
				After []struct {
					P5     float64 `json:"p5"`
					P50    float64 `json:"p50"`
					P95    float64 `json:"p95"`
					PLimit float64 `json:"p_limit"`
				} `json:"after"`
			} `json:"points"`
		} `json:"sets"`
	}
	if err := json.Unmarshal(b.Bytes(), &got); err != nil {
		t.Fatal(err)
	}
	if !got.Safe || len(got.Sets) != 12 || len(got.Legs) != 8 {
		t.Errorf("safe %v, %d sets, %d legs", got.Safe, len(got.Sets), len(got.Legs))
	}
	if got.Depart != "2027-05-13" || got.Legs[1].Start != "2027-05-15T08:00" {
		t.Errorf("departs %s, first circuit day starts %s", got.Depart, got.Legs[1].Start)
	}
	for _, s := range got.Sets {
		if s.Decision.Action == "" {
			t.Errorf("%s has no decision", s.ID)
		}
		for _, p := range s.Points {
			for _, a := range p.After {
				if !(a.P5 <= a.P50 && a.P50 <= a.P95 && a.PLimit >= 0 && a.PLimit <= 1) {
					t.Errorf("%s: %+v", s.ID, a)
				}
			}
		}
	}
}
