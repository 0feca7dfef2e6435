package profiles

import (
	"errors"
	"fmt"
	"io/fs"
	"math"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"example.com/tripwear/profiles/decode"
	"example.com/tripwear/profiles/faulty"
	"example.com/tripwear/profiles/quantity"
)

func plain(t *testing.T) fstest.MapFS {
	t.Helper()
	files := lay(t, faulty.Archive{})
	return files
}

func loaded(t *testing.T, files fs.FS) *Folder {
	t.Helper()
	f, err := Load(files)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// refused loads a folder that has one fault and returns its message.
func refused(t *testing.T, files fs.FS) string {
	t.Helper()
	_, err := Load(files)
	var errs Errors
	if !errors.As(err, &errs) || len(errs) != 1 {
		t.Fatalf("want one error, got %v", err)
	}
	return errs[0].Error()
}

func TestLoadFillsIn(t *testing.T) {
	f := loaded(t, plain(t))
	car := f.Car
	if car.RollFront != 0.58 || car.Friction != 1 || car.Gauge != (Gauge{Tread: 0.2e-3, Pad: 0.3e-3}) {
		t.Errorf("car: %v %v %v", car.RollFront, car.Friction, car.Gauge)
	}
	want := []Leg{
		{Kind: RoadLeg, Name: "There", At: Position{File: "trips/there.yaml", Line: 4, Column: 5}, Distance: 300 * 1609.344, Surface: "highway", Ambient: 20},
		{Kind: CircuitLeg, Name: "oval", At: Position{File: "trips/there.yaml", Line: 5, Column: 5}, Days: 2, Sessions: Sessions{5, 1200}, Ambient: 20},
		{Kind: StopLeg, Name: "Workshop", At: Position{File: "trips/there.yaml", Line: 6, Column: 5}, Can: []string{"shop"}, Ambient: 20},
		{Kind: CircuitLeg, Name: "hill", At: Position{File: "trips/there.yaml", Line: 7, Column: 5}, Days: 1, Sessions: Sessions{5, 1200}, Pace: "novice", Ambient: 20},
		{Kind: RoadLeg, Name: "Back", At: Position{File: "trips/there.yaml", Line: 8, Column: 5}, Distance: 300 * 1609.344, Surface: "highway", Ambient: 20},
	}
	if diff := cmp.Diff(want, f.Trips["there"].Legs); diff != "" {
		t.Errorf("legs (- wanted, + got):\n%s", diff)
	}
	if got := f.Trips["there"].Depart; !got.Equal(time.Date(2027, 5, 13, 0, 0, 0, 0, time.UTC)) {
		t.Errorf("departs %v", got)
	}
	oval := f.Circuits["oval"]
	if oval.LapTime != 70 || len(oval.Corners) != 2 || oval.Corners[0].Turn != math.Pi {
		t.Errorf("oval: %+v", oval)
	}
}

func TestZeroDegreesIsNotMissing(t *testing.T) {
	files := plain(t)
	edit(t, files, "trips/there.yaml\n-   - {road: There, distance: 300 mi}\n+   - {road: There, distance: 300 mi, ambient: 0 C}\n")
	if got := loaded(t, files).Trips["there"].Legs[0].Ambient; got != 0 {
		t.Errorf("ambient %v", got)
	}
}

// A part is its class's stock values with the owner's over them, and tells
// which is which.
func TestPartProvenance(t *testing.T) {
	files := plain(t)
	edit(t, files, "parts.yaml\n-     radius: 315 mm\n+     radius: 315 mm\n+     land: 70 %\n+     price: 310\n")
	p := loaded(t, files).Parts["tires"]
	if p.Kind != Tire || p.Class != "tire-300" || p.Tire.Treadwear != 300 || math.Abs(float64(p.Tire.Land)-0.70) > 1e-12 || p.Tire.Radius != 0.315 || p.Price != 310 {
		t.Errorf("%+v %+v", p, p.Tire)
	}
	want := Source{Value: "70 %", Tag: "owner", Text: "parts.yaml:5:11", Position: Position{File: "parts.yaml", Line: 5, Column: 11}}
	if got := p.Sources["land"]; got != want {
		t.Errorf("land: %+v", got)
	}
	if got := p.Sources["treadwear"]; got.Tag != "published" || got.File != "stock/tire.yaml" || got.Value != "300" {
		t.Errorf("treadwear: %+v", got)
	}
	for _, key := range []string{"id", "class", "name"} {
		if _, ok := p.Sources[key]; ok {
			t.Errorf("%s has a source", key)
		}
	}
	if stock := loaded(t, plain(t)).Parts["tire-300"]; stock.Tire.Land != 0.75 {
		t.Errorf("the stock part changed: %v", stock.Tire.Land)
	}
}

func TestModelKeyByKey(t *testing.T) {
	files := plain(t)
	before := loaded(t, files).Model
	files["model.yaml"] = &fstest.MapFile{Data: []byte("surfaces: {highway: {speed: 65 mph}}\nsafety: {cap: 1 %}\npaces: {expert: 99 %}\nsession: {ambient: 59 F, per_day: 4}\n")}
	f := loaded(t, files)
	m := f.Model
	if m.Surfaces["highway"].Tread != before.Surfaces["highway"].Tread || m.Surfaces["city"] != before.Surfaces["city"] {
		t.Errorf("surfaces: %+v", m.Surfaces)
	}
	if math.Abs(float64(m.Surfaces["highway"].Speed)-29.0576) > 1e-9 || m.Safety.Cap != 0.01 || m.Safety.Run != before.Safety.Run || m.Paces["expert"] != 0.99 {
		t.Errorf("%+v", m)
	}
	if m.Sources["surfaces.highway.speed"].Tag != "owner" || m.Sources["surfaces.highway.tread"].Tag == "owner" {
		t.Errorf("sources: %+v", m.Sources)
	}
	if leg := f.Trips["there"].Legs[1]; leg.Sessions.Count != 4 || math.Abs(float64(leg.Ambient)-15) > 1e-9 {
		t.Errorf("a leg without its own does not take the model's: %+v", leg)
	}
	if again := loaded(t, plain(t)).Model; !cmp.Equal(before, again) {
		t.Error("the stock model changed")
	}
}

func TestFindTrip(t *testing.T) {
	f := loaded(t, plain(t))
	for _, id := range []string{"", "there"} {
		if trip, err := f.FindTrip(id); err != nil || trip.Name != "There and back" {
			t.Errorf("%q: %v, %v", id, trip.Name, err)
		}
	}
	find := func(id string) string {
		_, err := f.FindTrip(id)
		var errs Errors
		if !errors.As(err, &errs) || len(errs) != 1 {
			t.Fatalf("%q: %v", id, err)
		}
		return errs[0].Error()
	}
	if got, want := find("ther"), `unknown trip "ther" (did you mean "there"?), expected there`; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
	f.Trips["away"] = Trip{}
	if got, want := find(""), "the car folder has 2 trips, expected the name of one: away or there"; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
	f.Trips = nil
	if got, want := find(""), "the car folder has no trip"; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
}

func TestFolderWithoutCar(t *testing.T) {
	if got, want := refused(t, fstest.MapFS{}), "car.yaml: no such file, expected a file that can be read"; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
}

func TestLimits(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"large", "name: x # " + strings.Repeat("x", decode.ByHand.Bytes), "circuits/hill.yaml: the file is larger than 1 MiB, expected a file written by hand"},
		{"long list", "name: Hill\ncorners: [" + strings.Repeat("{straight: 1 m}, ", decode.ByHand.Items+1) + "]\n", "circuits/hill.yaml:2:10: a list of 501 items, expected at most 500"},
		{"bottomless", "name: " + strings.Repeat("[", 1<<19), "circuits/hill.yaml"},
		{"control", "name: \x01", "circuits/hill.yaml:1:7: a control character, expected text"},
	} {
		files := plain(t)
		files["circuits/hill.yaml"] = &fstest.MapFile{Data: []byte(c.text)}
		if got := refused(t, files); !strings.HasPrefix(got, c.want) {
			t.Errorf("%s: got %s, want %s", c.name, got, c.want)
		}
	}
}

// Line ends of another system and a byte order mark change nothing.
func TestEditors(t *testing.T) {
	want := loaded(t, plain(t))
	files := plain(t)
	for name, f := range files {
		files[name] = &fstest.MapFile{Data: []byte("\ufeff" + strings.ReplaceAll(string(f.Data), "\n", "\r\n"))}
	}
	if diff := cmp.Diff(want.Car, loaded(t, files).Car); diff != "" {
		t.Error(diff)
	}
}

type broken struct{ fs.FS }

func (b broken) Open(name string) (fs.File, error) {
	if name == "parts.yaml" || name == "trips" {
		return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrPermission}
	}
	return b.FS.Open(name)
}

func TestUnreadable(t *testing.T) {
	_, err := Load(broken{plain(t)})
	want := "parts.yaml: permission denied, expected a file that can be read\ntrips: permission denied, expected a folder of .yaml files"
	if err == nil || strings.ReplaceAll(err.Error(), "permission does not exist", "permission denied") != want {
		t.Errorf("got %v, want %s", err, want)
	}
}

// Errors come in the order of files and lines, whatever the order of checks.
func TestErrorsInOrder(t *testing.T) {
	files := plain(t)
	edit(t, files, "car.yaml\n-   - {part: pads-street-front, quantity: 1}\n+   - {part: umbrella, quantity: one}\ncar.yaml\n- name: Plain\n+ name: [Plain]\ntrips/there.yaml\n- depart: 2027-05-13\n+ depart: then\n")
	_, err := Load(files)
	var got []string
	for _, e := range err.(Errors) {
		got = append(got, fmt.Sprintf("%s:%d:%d", e.File, e.Line, e.Column))
	}
	if diff := cmp.Diff([]string{"car.yaml:1:7", "car.yaml:44:12", "car.yaml:44:32", "trips/there.yaml:2:9"}, got); diff != "" {
		t.Error(diff)
	}
}

// Whatever one file holds, Load gives a folder of finite numbers or errors
// that say where and what, and says the same again. The seeds are whole files:
// fuzz with -fuzzminimizetime 0x, or the time goes into shortening them.
func FuzzLoad(f *testing.F) {
	names := []string{"car.yaml", "parts.yaml", "model.yaml", "circuits/hill.yaml", "trips/there.yaml"}
	files, err := Demo("juniper")
	if err != nil {
		f.Fatal(err)
	}
	for i, name := range []string{"car.yaml", "parts.yaml", "", "circuits/heron-flats.yaml", "trips/spring.yaml"} {
		if data, err := fs.ReadFile(files, name); err == nil {
			f.Add(i, data)
		}
	}
	f.Add(2, []byte("spread: {pace: 0.1}\npaces: {novice: 60 %}"))
	f.Add(3, []byte("name: H\ncorners:\n  - {turn: 360 deg left, radius: 1/8 in}"))
	base, err := fs.Sub(demoFiles, "demo/fjord")
	if err != nil {
		f.Fatal(err)
	}
	f.Fuzz(func(t *testing.T, which int, data []byte) {
		over := fstest.MapFS{names[abs(which)%len(names)]: &fstest.MapFile{Data: data}}
		folder, err := Load(layered{over, base})
		_, again := Load(layered{over, base})
		if fmt.Sprint(err) != fmt.Sprint(again) {
			t.Fatalf("first %v, then %v", err, again)
		}
		if err == nil {
			for id, trip := range folder.Trips {
				for _, leg := range trip.Legs {
					if math.IsNaN(float64(leg.Distance)) || leg.Kind == CircuitLeg && (leg.Days < 1 || leg.Sessions.Count < 1) {
						t.Fatalf("%s: %+v", id, leg)
					}
				}
			}
			return
		}
		errs, ok := err.(Errors)
		if !ok || len(errs) == 0 || folder != nil {
			t.Fatalf("%T %v", err, err)
		}
		for _, e := range errs {
			if e.File == "" || e.What == "" || strings.ContainsAny(e.Error(), "\n\r") || strings.HasSuffix(e.Error(), ".") && e.Expected != "" {
				t.Fatalf("%+v", e)
			}
		}
	})
}

func abs(i int) int { return max(i, -(i + 1)) }

// layered is a folder over another.
type layered struct{ over, under fs.FS }

func (l layered) Open(name string) (fs.File, error) {
	if f, err := l.over.Open(name); err == nil && strings.HasSuffix(name, ".yaml") {
		return f, nil
	}
	return l.under.Open(name)
}

// Places, words and units as people write them are those that are printed.
func TestSpellings(t *testing.T) {
	want, err := Load(lay(t, faulty.Archive{}))
	if err != nil {
		t.Fatal(err)
	}
	files := lay(t, faulty.Archive{})
	said := strings.NewReplacer("LF", "front left", "RF", "FR", "LR", "RL", "RR", "right rear", " mi}", " miles}", "1300 kg", "1300kgs", "6/32 in", `6/32"`, "rear\npower", "Rear\npower")
	files["car.yaml"] = &fstest.MapFile{Data: []byte(said.Replace(string(files["car.yaml"].Data)))}
	got, err := Load(files)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(want.Car, got.Car, cmpopts.IgnoreTypes(decode.Sources{}), cmpopts.EquateComparable(quantity.Unit{})); diff != "" {
		t.Error(diff)
	}
}
