package short

import (
	"strings"
	"testing"
	"testing/fstest"

	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/faulty"
	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/quantity"
)

const header = "date,odometer,what,place,zone,value,confirmed,note\n"

// folder is the demo's with rows in its logbook.
func folder(t *testing.T, rows string) *profiles.Folder {
	t.Helper()
	files, err := profiles.Demo("juniper")
	if err != nil {
		t.Fatal(err)
	}
	all := faulty.Copy(t, files)
	all[profiles.LogFile] = &fstest.MapFile{Data: []byte(header + rows)}
	f, err := profiles.Load(all)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

const before = "2027-05-10,143200 mi,tread,RF,outside,7/32 in,,\n2027-05-10,143200 mi,pad,RF,,6.8 mm,,\n"

// said is the rows of an entry in a line each: what, place, zone, value.
func said(e Entry) string {
	var out []string
	for _, r := range e.Rows {
		out = append(out, strings.Join(strings.Fields(r["what"]+" "+r["place"]+" "+r["zone"]+" "+r["value"]), " "))
	}
	if e.Done {
		out = append(out, "done")
	}
	if e.Odometer != "" {
		out = append(out, "at "+strings.TrimSpace(e.Odometer))
	}
	return strings.Join(out, "; ")
}

// What short words stand for, each as a row written in full has it.
func TestShortWords(t *testing.T) {
	f := folder(t, before)
	wants := []Want{{logbook.Tread, "RF", "outside", 5.4 / 32 * 0.0254}, {logbook.Pad, "RF", "", 5.4e-3}}
	for text, want := range map[string]string{
		"RF 5.8mm":                "pad RF 5.8 mm",
		"rf 5.8 mm":               "pad RF 5.8 mm",
		"right front 5.8mm":       "pad RF 5.8 mm",
		"FR pad 5.8":              "pad RF 5.8 mm",
		"RF 7 7 6.5":              "tread RF inside 7/32 in; tread RF middle 7/32 in; tread RF outside 6.5/32 in",
		"RF 7, 7, 6.5":            "tread RF inside 7/32 in; tread RF middle 7/32 in; tread RF outside 6.5/32 in",
		"RF 7 7 6.5/32":           "tread RF inside 7/32 in; tread RF middle 7/32 in; tread RF outside 6.5/32 in",
		"RF 5.2/32":               "tread RF outside 5.2/32 in",
		"RF inside 5.2/32":        "tread RF inside 5.2/32 in",
		"RF 171F 180F 189F":       "probe RF inside 171 F; probe RF middle 180 F; probe RF outside 189 F",
		"LF 21.6mm":               "rotor thickness LF 21.6 mm",
		"hub LR play":             "hub LR play",
		"LR play":                 "hub LR play",
		"LF checks":               "rotor face LF checks",
		"rotor LF catches":        "rotor face LF catches",
		"RR cords":                "inspection RR cords",
		"tire RR cut":             "inspection RR cut",
		"pads LF taper":           "pad wear LF taper",
		"oil +0.3L":               "oil added engine 0.3 L",
		"oil 0.5 qt":              "oil added engine 0.5 qt",
		"oil full":                "oil level engine full",
		"oil below add":           "oil level engine below add",
		"oil changed":             "oil change engine",
		"pedal soft":              "pedal system soft",
		"fluid dark":              "fluid color system dark",
		"new front pads":          "replaced front pads-front",
		"new oil":                 "oil change engine",
		"done":                    "done",
		"done 2 at 144308":        "done; at 144308",
		"at 144308":               "odometer; at 144308",
		"RF 5.8mm at 144308":      "pad RF 5.8 mm; at 144308",
		"RF 5.8mm at 232241 km":   "pad RF 5.8 mm; at 232241 km",
		"at 144308mi hub LR play": "hub LR play; at 144308 mi",
	} {
		e, err := Read(text, Known{Folder: f, Wants: func() []Want { return wants }})
		if err != nil {
			t.Errorf("%q: %v", text, err)
		} else if got := said(e); got != want {
			t.Errorf("%q is %q, want %q", text, got, want)
		}
	}
}

// Where two things fit, or nothing does, it is asked.
func TestAsked(t *testing.T) {
	f := folder(t, before)
	bare := folder(t, "")
	for _, c := range []struct {
		text  string
		known Known
		want  string
	}{
		{"RF 5.8mm", Known{Folder: bare, Units: quantity.Metric}, "tread at RF or pad at RF"},
		{"RF 7 7 6.5", Known{Folder: bare}, "has no unit"},
		{"RF tread 7 7 6.5", Known{Folder: bare}, "has no unit"},
		{"RF 45mm", Known{Folder: f}, "fits nothing"},
		{"RF 7 7", Known{Folder: f}, "fits nothing"},
		{"RF 5,8mm", Known{Folder: f}, "has a comma in it, expected a decimal point in a number; write 5.8mm."},
		{"RF 5,8 mm", Known{Folder: f}, "write 5.8 mm."},
		{"RF 7,7", Known{Folder: f}, "write 7.7; between two readings stands a space: 7 7"},
		{"RF 7,7,6", Known{Folder: f}, "between readings stands a space: 7 7 6"},
		{"RF 32 psi", Known{Folder: f}, "32 psi is a pressure, which no row keeps"},
		{"5.8mm", Known{Folder: f}, "no place given"},
		{"LF 5.2/32", Known{Folder: f}, "no zone given"},
		{"hub LR loose", Known{Folder: f}, `unknown word "loose"`},
		{"LR wobbly", Known{Folder: f}, `unknown word "wobbly"`},
		{"hub LR", Known{Folder: f}, "what was found is missing"},
		{"", Known{Folder: f}, "nothing to write down"},
		{"at home", Known{Folder: f}, "followed by the odometer"},
		{"done RF", Known{Folder: f}, "so many of its sessions"},
		{"done 1.5", Known{Folder: f}, "not a number of sessions"},
		{"new gizmo", Known{Folder: f}, "followed by what went on"},
		{"new pads", Known{Folder: f}, "no place given"},
		{"pedal 3mm", Known{Folder: f}, "takes no number"},
		{"RF frobnicate 3mm", Known{Folder: f}, "unknown word"},
	} {
		e, err := Read(c.text, c.known)
		if err == nil {
			t.Errorf("%q is %q", c.text, said(e))
			continue
		}
		fault := err.(profiles.Errors)[0]
		if told := fault.Error() + "; " + fault.Hint + "."; !strings.Contains(told, c.want) {
			t.Errorf("%q: %s, want %q", c.text, told, c.want)
		}
	}
}

// Where a unit tells nothing, the level that the plan expects does, if another
// is not about as near.
func TestExpectedTells(t *testing.T) {
	f := folder(t, before)
	known := func(tread, pad float64) Known {
		return Known{Folder: f, Units: quantity.Metric, Wants: func() []Want {
			return []Want{{logbook.Tread, "LR", "inside", tread}, {logbook.Pad, "LR", "", pad}}
		}}
	}
	bare := folder(t, "")
	k := known(6.2e-3, 3.2e-3)
	k.Folder = bare
	if e, err := Read("LR 6.1mm", k); err != nil || said(e) != "tread LR inside 6.1 mm" {
		t.Errorf("%q, %v", said(e), err)
	}
	k = known(6.2e-3, 5.9e-3)
	k.Folder = bare
	if e, err := Read("LR 6.1mm", k); err == nil {
		t.Errorf("%q, and the pad is as near", said(e))
	}
}

// An odometer is written as the rows have it, whatever unit the words lack.
func TestOdometer(t *testing.T) {
	f := folder(t, before)
	mile := 1609.344
	for _, c := range []struct {
		meters, _   float64
		given, want string
	}{
		{meters: 143200 * mile, want: "143200 mi"}, {meters: 144216.2 * mile, want: "144216 mi"},
		{given: "144308", want: "144308 mi"}, {given: "232241 km", want: "232241 km"},
	} {
		if got := Odometer(f, c.meters, c.given, quantity.US); got != c.want {
			t.Errorf("%v %q: %q, want %q", c.meters, c.given, got, c.want)
		}
	}
}
