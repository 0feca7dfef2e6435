package profiles

import (
	"os"
	"testing"
	"testing/fstest"
)

func TestCircuitByTrack(t *testing.T) {
	for key, file := range map[string]string{"gpx": "heron-flats.gpx", "csv": "heron-flats.csv"} {
		data, err := os.ReadFile("../testdata/trace/" + file)
		if err != nil {
			t.Fatal(err)
		}
		files := plain(t)
		files["traces/"+file] = &fstest.MapFile{Data: data}
		files["circuits/heron.yaml"] = &fstest.MapFile{Data: []byte("name: Heron Flats\n" + key + ": traces/" + file + "\n")}
		edit(t, files, "trips/there.yaml\n-   - {circuit: hill, pace: novice}\n+   - {circuit: heron, reverse: true, wet: true, cool_down: 1}\n")
		f := loaded(t, files)
		c := f.Circuits["heron"]
		if c.Trace == nil || len(c.Trace.Fixes) < 600 || c.BySummary() {
			t.Fatalf("%s: no track: %+v", key, c)
		}
		leg := f.Trips["there"].Legs[3]
		if !leg.Reverse || !leg.Wet || leg.CoolDown != 1 || leg.Rain != 1 {
			t.Errorf("leg %+v, want reverse, wet and all of it in rain", leg)
		}
	}
	if c := loaded(t, plain(t)).Circuits["hill"]; !c.BySummary() {
		t.Errorf("hill is known by its summary")
	}
}
