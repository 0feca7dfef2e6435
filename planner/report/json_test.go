package report_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"maps"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"example.com/tripwear/planner/labreport"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/report"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/quantity"
)

// TestJSONKeys: the names of all objects are those that are written down: who
// reads the format counts on them. A new one is added with UPDATE=1.
func TestJSONKeys(t *testing.T) {
	objects := map[string]string{}
	var list func(at string, of reflect.Type)
	list = func(at string, of reflect.Type) {
		switch of.Kind() {
		case reflect.Pointer:
			list(at, of.Elem())
		case reflect.Slice, reflect.Array:
			list(at+"[]", of.Elem())
		case reflect.Map, reflect.Interface:
			t.Errorf("%s is a %s: its names are not known", at, of)
		case reflect.Float64:
			if !slices.Contains([]string{"float64", "quantity.Length", "quantity.Duration"}, of.String()) {
				t.Errorf("%s is a %s, which encode does not round", at, of)
			}
		case reflect.Struct:
			if of == reflect.TypeFor[time.Time]() {
				return
			}
			var keys []string
			for _, f := range reflect.VisibleFields(of) { // those of an embedded struct stand beside its own
				key := f.Tag.Get("json")
				switch {
				case f.Anonymous && key == "":
				case key == "":
					t.Errorf("%s.%s has no name in JSON", of, f.Name)
				case key == "-":
				default:
					keys = append(keys, key)
					list(at+"."+key, f.Type)
				}
			}
			slices.Sort(keys)
			objects[at] = strings.Join(keys, " ")
		}
	}
	for command, result := range map[string]any{
		"plan": plan.Plan{}, "lasts": plan.Lasting{}, "compare": plan.Comparison{}, "circuit": plan.Circuit{},
		"circuit --rank": plan.Ranking{}, "learn": plan.Teaching{}, "parts": plan.Inventory{}, "oil": labreport.Reading{}, "log add": []logbook.Entry{}, "log show": []profiles.Evidence{},
	} {
		list(command, reflect.TypeOf(result))
	}
	var b strings.Builder
	for _, at := range slices.Sorted(maps.Keys(objects)) {
		fmt.Fprintf(&b, "%s: %s\n", at, objects[at])
	}
	name := filepath.Join("..", "..", "testdata", "golden", "json-keys.txt")
	if os.Getenv("UPDATE") != "" {
		if err := os.WriteFile(name, []byte(b.String()), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(string(want), b.String()); diff != "" {
		t.Errorf("%s (-want +got):\n%s", name, diff)
	}
}

// TestJSONValues: six significant figures, whatever a number is called; what
// is no number, and no date, is null; an hour is told where it counts.
func TestJSONValues(t *testing.T) {
	day := time.Date(2027, 5, 13, 0, 0, 0, 0, time.UTC)
	written := func(print func(*bytes.Buffer) error) (out map[string]any) {
		t.Helper()
		var b bytes.Buffer
		if err := print(&b); err != nil {
			t.Fatal(err)
		}
		if err := json.Unmarshal(b.Bytes(), &out); err != nil {
			t.Fatal(err)
		}
		return out
	}
	p := written(func(b *bytes.Buffer) error {
		return report.JSON(b, &plan.Plan{Car: "a < b & \xff", Odometer: 123456789, Rain: math.NaN(), Draws: 12345678, Legs: []plan.Leg{{Start: day, End: day.Add(90 * time.Minute)}}})
	})
	leg := p["legs"].([]any)[0].(map[string]any)
	circuit := &plan.Circuit{Meters: math.Inf(1)}
	circuit.Sessions.Each = quantity.Duration(1e6 / 3.0)
	c := written(func(b *bytes.Buffer) error { return report.JSON(b, circuit) })
	for _, v := range []struct{ got, want any }{
		{p["car"], "a < b & \ufffd"}, {p["odometer"], 123457000.0}, {p["rain"], nil}, {p["draws"], 12345678.0}, {p["depart"], nil},
		{leg["start"], "2027-05-13"}, {leg["end"], "2027-05-13T01:30"}, {leg["wet"], []any{}},
		{c["meters"], nil}, {c["sessions"].(map[string]any)["each"], 333333.0}, {c["track"], nil},
	} {
		if !reflect.DeepEqual(v.got, v.want) {
			t.Errorf("%v, want %v", v.got, v.want)
		}
	}
	var b bytes.Buffer
	if err := report.JSON(&b, &plan.Plan{Car: "a < b & c\u2028"}); err != nil || !strings.Contains(b.String(), `"a \u003c b \u0026 c\u2028"`) {
		t.Errorf("%v: a name that a page of HTML could not hold: %s", err, b.String())
	}
}
