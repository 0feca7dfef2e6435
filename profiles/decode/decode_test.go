package decode

import (
	"fmt"
	"reflect"
	"testing"
	"time"

	"go.yaml.in/yaml/v4"

	"example.com/tripwear/profiles/quantity"
)

// A range includes both its ends, also one that a unit turns round, and the
// years of a date run from 1950 to 2200.
func TestRangesIncludeTheirEnds(t *testing.T) {
	for _, c := range []struct {
		kind           *quantity.Kind
		min, max       string
		inside, beyond []string
	}{
		{quantity.Length(0).Kind(), "1 mm", "20 mm", []string{"1 mm", "20 mm", "0.1 cm"}, []string{"0.99 mm", "20.1 mm"}},
		{quantity.Economy(0).Kind(), "5 L/100km", "40 L/100km", []string{"5 L/100km", "40 L/100km"}, []string{"4.9 L/100km", "41 L/100km"}},
		{quantity.Mass(0).Kind(), "1 kg", "30 kg", []string{"1 kg", "30 kg"}, []string{"0.9 kg", "31 kg"}},
	} {
		f := Field{Min: c.min, Max: c.max}
		for want, texts := range map[bool][]string{true: c.inside, false: c.beyond} {
			for _, text := range texts {
				v, unit, err := c.kind.Parse(text)
				if err != nil {
					t.Fatal(err)
				}
				if wrong := f.InRange(text, c.kind, unit, v); (wrong == nil) != want {
					t.Errorf("%s in %s to %s: %v", text, c.min, c.max, wrong)
				}
			}
		}
	}
	for _, c := range []struct {
		text string
		good bool
	}{{"3", true}, {"2", false}, {"7", true}, {"8", false}} {
		var v int
		wrong := Field{Min: "3", Max: "7", Value: reflect.ValueOf(&v).Elem()}.read(c.text)
		if good := wrong == nil; good != c.good || good && fmt.Sprint(v) != c.text {
			t.Errorf("%s in 3 to 7: %d, %v", c.text, v, wrong)
		}
	}
	for _, c := range []struct {
		text string
		good bool
	}{{"1949-12-31", false}, {"1950-01-01", true}, {"2200-12-31", true}, {"2201-01-01", false}} {
		var at time.Time
		wrong := Field{Value: reflect.ValueOf(&at).Elem()}.read(c.text)
		if good := wrong == nil; good != c.good || good && at.Format(time.DateOnly) != c.text {
			t.Errorf("%s: %v, %v", c.text, at, wrong)
		}
	}
}

// A list is told as it was written.
func TestWritten(t *testing.T) {
	for _, c := range []struct{ yaml, want string }{
		{"[a, b]", "a, b"}, {"[]", ""}, {"[[a, b], [c, d]]", "2 items"}, {"[{a: b}]", "1 items"}, {"{a: b}", "a, b"},
	} {
		var n yaml.Node
		if err := yaml.Unmarshal([]byte(c.yaml), &n); err != nil {
			t.Fatal(err)
		}
		if got := written(n.Content[0]); got != c.want {
			t.Errorf("%s is told as %q, want %q", c.yaml, got, c.want)
		}
	}
}

func TestSnake(t *testing.T) {
	for name, want := range map[string]string{
		"CGHeight": "cg_height", "DragArea": "drag_area", "Name": "name", "MaxBulk": "max_bulk", "HeavyBrakings": "heavy_brakings", "OilUse": "oil_use",
	} {
		if got := Snake(name); got != want {
			t.Errorf("%s: got %s, want %s", name, got, want)
		}
	}
}
