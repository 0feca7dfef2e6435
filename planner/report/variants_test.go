package report_test

import (
	"fmt"
	"io"
	"strings"
	"testing"

	"example.com/tripwear/planner"
	"example.com/tripwear/planner/circuits"
	"example.com/tripwear/planner/report"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/quantity"
)

// TestVariants: what the sample of a command does not show, in the other units,
// as JSON, of fewer or more things, by the lines that differ.
func TestVariants(t *testing.T) {
	f, _ := season(t)
	for _, c := range []struct {
		name  string
		print func(io.Writer) error
		says  []string
	}{
		{"plan, metric", func(w io.Writer) error {
			return report.Text(w, planned(t, "juniper"), report.Options{View: report.View{Units: quantity.Metric}})
		}, []string{
			"   1  Home to Heron Flats       1625 km 14 May                             142 L",
			"   2  Heron Flats day 1          158 km 15 May  2:04.4  75 %    500/410     37 L",
			"4667 km of road, 3 circuit days (99 hot laps), 9 days in all",
			"  LF  tread lost 2.6 mm at its inside zone, hub life used 0.15 of L10",
			"  LF  80/81/76 C                5 K  fine     even",
			"  tread left at the zone nearest its limit, mm: median",
			"  equivalent distance left to its ceiling, hundred km: median",
			"  lowest margin to boiling so far, K: median",
			"  Planes: where hydroplaning begins in 2.5 mm of water on a usual road",
			"24 of 50 kg, fits",
			fmt.Sprintf("\n  %d values come from the stock profiles: --assumptions lists each", len(planned(t, "juniper").Assumptions)),
		}},
		{"lasts, one set, no road", func(w io.Writer) error {
			l := lasts(t, planner.Ask{Sets: "tires-rear"})
			l.Road = 0
			return report.Lasts(w, l, report.View{Units: quantity.Metric})
		}, []string{"Juniper at Heron Flats, no road: 5 x 20 min", "\n! rear tires           42 %     8 %     2 %     0.8    0.1  LR inside\n  Under days"}},
		{"lasts, metric", func(w io.Writer) error {
			return report.Lasts(w, lasts(t, planner.Ask{}), report.View{Units: quantity.Metric})
		}, []string{"Juniper at Heron Flats, 400 km of road"}},
		{"compare, three", func(w io.Writer) error {
			c := compared(t, nil, []profiles.Change{{Key: "pace", Value: "advanced"}}, []profiles.Change{{Key: "alignment.RR.toe", Value: "0.4deg"}})
			c.Ways[0].Found = []string{"front tires, LF: cords show"}
			return report.Compare(w, c, report.View{Units: quantity.US})
		}, []string{
			"Juniper, 3 ways\n  A  []\n     YES, ONCE THE REAR TIRES ARE NEW\n  B  [pace=advanced]\n     NO, NOT AS IT STANDS: front ",
			"  C  [alignment.RR.toe=0.4deg]\n     YES, ONCE THE REAR TIRES ARE NEW\n",
			"  STOP     A: front tires, LF: cords show. Do not drive the car like this.",
			"  road                        2900 mi    2900 mi    2900 mi\n",
			"  taken by the whole trip      A     B     C  limit A  limit B  limit C\n",
			"  RF outside tread, /32 in   3.0   4.3   3.0      9 %     36 %     10 %\n",
			"  RF  A               inside 3.4    outside 3.0     3.2    88 %           1.8\n",
		}},
		{"circuit, plain", func(w io.Writer) error {
			return report.Circuit(w, circuit(t, "heron-flats", circuits.Drive{}), report.CircuitOptions{Plain: true})
		}, []string{
			"  2.17 mi, anticlockwise, lap 2:04.4 at 80 % pace, 40 to 95 mph\n",
			"\n            .                    .2\n            .                     .\n",
			"\n              9S..>...............1\n",
			"            at  to      angle    radius    apex mph\n   1   1912 ft  left   90 deg    197 ft          48\n",
			"            at    from mph    to      g      kJ\n       1646 ft          95    49   0.84     881\n",
			"  LF       742 lb   1275 lb           21 %          16 %\n",
			"  front tires         RF outside    0.025/32 in    0.52/32 in    8.7 % an h\n",
			"  engine oil                            6.73 mi        142 mi    2.4 % an h\n",
		}},
		{"circuit by its summary", func(w io.Writer) error {
			return report.Circuit(w, circuit(t, "quarry-ridge", circuits.Drive{}), report.CircuitOptions{View: report.View{Units: quantity.Metric}})
		}, []string{
			"Quarry Ridge, known by its summary, with Juniper\n  4.20 km, lap 2:25.0 at 80 % pace, 57 to 157 km/h\n",
			"  left share 30 % of the cornering load in left turns, so right turns, which\n  lean on the left-hand wheels, take most\n\n10 HEAVY BRAKINGS A LAP\n\nTHE LAP\n",
			"  By its summary alone these are wider; corners or a recorded track would narrow\n  them.\n",
		}},
		{"learn, US", func(w io.Writer) error { return report.Learn(w, learned(t), report.View{Units: quantity.US}) }, []string{
			"  Doubted: tires-rear LR inside of car.yaml reads 3.0/32 in where all together\n           say 6.4/32 in; read it again.\n",
			"  2026-12-01  tires-rear LR inside      6.9/32 in   6.5-7.4/32 in 6.9/32 in\n",
		}},
		{"log show --json", func(w io.Writer) error { return report.JSON(w, f.Evidence[:1]) }, []string{
			`[
  {
    "confirmed": false,
    "date": "2026-09-06",
    "effect": "counts",
    "first": 2,
    "last": 2,
    "line": 2,
    "mark": "140300 mi",
    "note": "",
    "number": 1,
    "odometer": 2.25791e+08,
    "part": "",
    "place": "",
    "sessions": 0,
    "text": "spring",
    "value": 0,
    "wet": false,
    "what": "trip driven",
    "why": "",
    "written": "spring 2",
    "zone": ""
  }
]
`}},
		{"log show, nothing", func(w io.Writer) error { return report.Log(w, nil, report.View{Units: quantity.US}) }, []string{"no rows\n"}},
		{"log add", func(w io.Writer) error { return report.Added(w, f.Log[:2], nil, report.View{}) }, []string{"added 2026-09-06 at 140300 mi: trip driven spring 2\nadded 2026-09-06 at 140300 mi: pad RF 8.9 mm\n"}},
		{"log add --json, nothing", func(w io.Writer) error { return report.JSON(w, []logbook.Entry(nil)) }, []string{"[]\n"}},
		{"oil, metric", func(w io.Writer) error { return report.Oil(w, oil(t), report.View{Units: quantity.Metric}) }, []string{
			"at 112 C on circuit", "its line gets there at 12062 km", "  iron, ppm                      1     16    most 100        +2.50  fine\n",
		}},
		{"oil --json", func(w io.Writer) error { return report.JSON(w, oil(t)) }, []string{
			"{\n  \"acid_method\": \"D664\",\n", `"next": 7.04088e+06,`, `
      {
        "below": false,
        "figure": "viscosity at 100 C",
        "has_new": true,
        "least": 12.69,
        "limit_at": 1.20618e+07,
        "most": 16.3,
        "new": 14.1,
        "rate": -1.16898e-07,
        "used": 13.4,
        "verdict": "fine",
        "why": "inside its grade, SAE J300, and -10 to +20 % of new, common practice, no source"
      },`, `"limit_at": null,`,
		}},
	} {
		var b strings.Builder
		if err := c.print(&b); err != nil {
			t.Fatal(err)
		}
		for _, want := range c.says {
			if !strings.Contains(b.String(), want) {
				t.Errorf("%s: no\n%s\nin\n%s", c.name, want, b.String())
			}
		}
	}
}

// TestAssumptions: asked for, every value is listed with where it comes from
// and how to replace it.
func TestAssumptions(t *testing.T) {
	p := planned(t, "juniper")
	got := strings.Join(strings.Fields(text(t, p, report.Options{All: true})), " ")
	for _, a := range p.Assumptions {
		want := fmt.Sprintf("- %s: %s [%s] %s; %s", a.What, a.Value, a.Tag, a.Source, a.Replace)
		if !strings.Contains(got, want) {
			t.Errorf("no %q", want)
		}
	}
	if len(p.Assumptions) < 100 {
		t.Errorf("%d values", len(p.Assumptions))
	}
}
