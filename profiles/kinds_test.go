package profiles

import (
	"slices"
	"strings"
	"testing"

	"example.com/tripwear/profiles/logbook"
)

// A kind that not every car has is missed on none, read only where it is, and
// comes onto the car by the logbook or by a change.
func TestKindThatNotEveryCarHas(t *testing.T) {
	kinds := Kinds()
	i := slices.IndexFunc(kinds, func(k KindInfo) bool { return k.Kind == Bearing })
	kinds[i].Needed = false
	t.Cleanup(func() { kinds[i].Needed = true })
	bare := func(rows string) (*Folder, error) {
		files := withLog(t, rows)
		before, rest, _ := strings.Cut(string(files["car.yaml"].Data), "  - part: hub-front\n")
		_, after, _ := strings.Cut(rest, "  - part: oil\n")
		files["car.yaml"].Data = []byte(before + "  - part: oil\n" + after)
		return Load(files)
	}
	if _, err := bare(""); err != nil {
		t.Fatalf("without hubs: %v", err)
	}
	if _, err := bare("2027-04-18,143900 mi,hub,LR,,play,,\n"); err == nil || !strings.Contains(err.Error(), "no bearing fitted at LR") {
		t.Errorf("play in no hub: %v", err)
	}
	f, err := bare("2027-04-18,143900 mi,renewal,LR,,hub-rear,,\n2027-04-19,143950 mi,hub,LR,,play,,\n")
	if err != nil {
		t.Fatal(err)
	}
	if hub := on(t, f, Bearing, "LR"); hub.Feel["LR"] != logbook.Play || hub.Seen[SeenKey(logbook.Hub, "LR", "")].Odometer == 0 {
		t.Errorf("%+v", hub)
	}
	trip := f.Trips["spring"]
	if err := f.Apply(&trip, Change{"fitted.hub-RR.used.RR", "30 %"}); err == nil || !strings.Contains(err.Error(), "no RR hub bearing fitted") {
		t.Errorf("a reading of no hub: %v", err)
	}
	if err := f.Apply(&trip, Change{"fitted.hub-RR", "hub-rear"}); err != nil {
		t.Fatal(err)
	}
	if hub := on(t, f, Bearing, "RR"); hub.Part != "hub-rear" || hub.Since.Odometer != f.Car.Odometer {
		t.Errorf("%+v", hub)
	}
}

// The words under found are those of the fitted part's kind; of any kind where
// the part is not known.
func TestFoundDependsOnKind(t *testing.T) {
	kinds := Kinds()
	i := slices.IndexFunc(kinds, func(k KindInfo) bool { return k.Kind == Bearing })
	own := kinds[i].Readings
	kinds[i].Readings = append(slices.Clone(own), Reading{Key: "found", What: logbook.Hub})
	t.Cleanup(func() { kinds[i].Readings = own })
	for _, c := range []struct{ part, word, want string }{
		{"tires-front", "cords", ""},
		{"tires-front", "play", `found.LF: unknown word "play", expected sound, cut or cords`},
		{"hub-front", "play", ""},
		{"hub-front", "cords", `found.LF: unknown word "cords", expected tight, play, rough or moved`},
		{"pads-front", "slack", `found.LF: unknown word "slack", expected sound, cut, cords, tight, play`},
	} {
		files := withLog(t, "")
		car := string(files["car.yaml"].Data)
		files["car.yaml"].Data = []byte(strings.Replace(car, "part: "+c.part+"\n", "part: "+c.part+"\n    found: {LF: "+c.word+"}\n", 1))
		_, err := Load(files)
		if c.want == "" && err != nil || c.want != "" && (err == nil || !strings.Contains(err.Error(), c.want)) {
			t.Errorf("%s of %s: %v, want %q", c.word, c.part, err, c.want)
		}
		if c.part == "pads-front" {
			continue
		}
		f, trip := juniper(t)
		err = f.Apply(&trip, Change{"fitted." + map[string]string{"tires-front": "tires-front", "hub-front": "hub-LF"}[c.part] + ".found.LF", c.word})
		if (err == nil) != (c.want == "") {
			t.Errorf("%s of %s as a change: %v", c.word, c.part, err)
		}
	}
}
