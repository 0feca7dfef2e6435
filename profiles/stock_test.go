package profiles

import (
	"math"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"example.com/tripwear/profiles/decode"
	"example.com/tripwear/profiles/quantity"
)

var tags = []string{"published", "common practice", "from memory", "engineering choice"}

func sourced(t *testing.T, what string, sources Sources) {
	t.Helper()
	for key, s := range sources {
		if !slices.Contains(tags, s.Tag) || s.Text == "" || s.Value == "" || s.Line == 0 {
			t.Errorf("%s, %s: %+v lacks its value, tag, source or position", what, key, s)
		}
	}
}

// Every stock value has its source, and a stock part lacks nothing but what
// differs from car to car.
func TestStock(t *testing.T) {
	c, err := stock()
	if err != nil {
		t.Fatal(err)
	}
	parts := c.parts
	owners := map[Kind][]string{
		Tire: {"radius", "tread_width"}, Rotors: {"new_thickness", "discard"},
		"harness": {"limits"}, "helmet": {"limits"}, "limited part": {"limits"}, // as the label says
	}
	count := map[Kind]int{}
	for id, p := range parts {
		count[p.Kind]++
		if p.ID != id || p.Class != id || p.Name == "" {
			t.Errorf("%s: id %q, class %q, name %q", id, p.ID, p.Class, p.Name)
		}
		if got := p.Lacks(); !slices.Equal(got, owners[p.Kind]) {
			t.Errorf("%s lacks %v, want %v", id, got, owners[p.Kind])
		}
		if quantity.Known(p.Price) || p.LeadTime != 0 {
			t.Errorf("%s has a price or a lead time, which are the owner's", id)
		}
		sourced(t, id, p.Sources)
	}
	for kind, least := range map[Kind]int{Tire: 5, Pads: 6, Rotors: 8, Bearing: 1, Oil: 6, Fluid: 3} {
		if count[kind] < least {
			t.Errorf("%d stock parts of kind %s, want %d", count[kind], kind, least)
		}
	}
}

// A folder's stock parts are its own: what is done to them leaves the next
// folder's alone.
func TestStockIsACopy(t *testing.T) {
	a, err := logged(t, "")
	if err != nil {
		t.Fatal(err)
	}
	changed := a.Parts["tire-200"]
	changed.Fit[0] = "moon"
	changed.Sources["land"] = Source{}
	b, err := logged(t, "")
	if err != nil {
		t.Fatal(err)
	}
	if p := b.Parts["tire-200"]; p.Fit[0] == "moon" || p.Sources["land"].Tag == "" {
		t.Errorf("a folder changed the catalogue: %+v", p)
	}
}

// FMVSS 116 (49 CFR 571.116): least boiling points, dry and at 3.70 % water.
func TestFluidGrades(t *testing.T) {
	c, err := stock()
	if err != nil {
		t.Fatal(err)
	}
	for id, want := range map[string][2]quantity.Temperature{
		"fluid-dot-3": {205, 140}, "fluid-dot-4": {230, 155}, "fluid-dot-5.1": {260, 180},
	} {
		if f := c.parts[id].Fluid; f.Dry != want[0] || f.Wet != want[1] {
			t.Errorf("%s boils at %v and %v C, want %v", id, f.Dry, f.Wet, want)
		}
	}
}

// The model has no hole: every number is set and has its source.
func TestStockModel(t *testing.T) {
	c, err := stock()
	if err != nil {
		t.Fatal(err)
	}
	sourced(t, "model", c.model.Sources)
	var walk func(path string, v reflect.Value)
	walk = func(path string, v reflect.Value) {
		switch v.Kind() {
		case reflect.Struct:
			for _, f := range decode.FieldsOf(v) {
				walk(decode.Join(path, f.Key), f.Value)
			}
		case reflect.Map:
			if v.Len() != 4 {
				t.Errorf("%s has %d entries", path, v.Len())
			}
			for iter := v.MapRange(); iter.Next(); {
				walk(decode.Join(path, iter.Key().String()), iter.Value())
			}
		default:
			if v.IsZero() {
				t.Errorf("%s is 0", path)
			}
			if _, ok := c.model.Sources[path]; !ok {
				t.Errorf("%s has no source", path)
			}
		}
	}
	walk("", reflect.ValueOf(c.model))
}

// Hopf's Umlaufsatz: a simple closed curve turns 360 degrees in all.
func TestReferenceLapCloses(t *testing.T) {
	c, err := stock()
	if err != nil {
		t.Fatal(err)
	}
	turn, turned, length, x, y, heading := 0.0, 0.0, 0.0, 0.0, 0.0, 0.0
	for _, k := range c.reference {
		x += float64(k.Straight) * math.Cos(heading)
		y += float64(k.Straight) * math.Sin(heading)
		side := math.Copysign(float64(k.Radius), float64(k.Turn))
		next := heading + float64(k.Turn)
		x += side * (math.Sin(next) - math.Sin(heading))
		y -= side * (math.Cos(next) - math.Cos(heading))
		heading = next
		turn += float64(k.Turn)
		turned += math.Abs(float64(k.Turn))
		length += float64(k.Straight) + float64(k.Radius)*math.Abs(float64(k.Turn))
	}
	const degree = math.Pi / 180
	if math.Abs(turn-360*degree) > 1e-9 || math.Abs(turned-1224*degree) > 1e-9 || math.Abs(length-4080) > 1 || math.Hypot(x, y) > 1 {
		t.Errorf("turns %.1f of %.1f deg over %.0f m and ends %.1f m from its start", turn/degree, turned/degree, length, math.Hypot(x, y))
	}
}

// Every range tag reads in its own kind, least before most.
func TestRangesRead(t *testing.T) {
	count := 0
	var walk func(name string, typ reflect.Type)
	walk = func(name string, typ reflect.Type) {
		for typ.Kind() == reflect.Map || typ.Kind() == reflect.Slice || typ.Kind() == reflect.Pointer {
			typ = typ.Elem()
		}
		if typ.Kind() != reflect.Struct || typ == reflect.TypeFor[time.Time]() || typ == reflect.TypeFor[Sources]() {
			return
		}
		for _, f := range decode.FieldsOf(reflect.New(typ).Elem()) {
			walk(name+"."+f.Key, f.Value.Type())
			if f.Min == "" {
				continue
			}
			count++
			value := f.Value.Type()
			for value.Kind() == reflect.Map || value.Kind() == reflect.Slice {
				value = value.Elem()
			}
			if value.Kind() == reflect.Int {
				least, err1 := strconv.Atoi(f.Min)
				most, err2 := strconv.Atoi(f.Max)
				if err1 != nil || err2 != nil || least >= most {
					t.Errorf("%s.%s: %q to %q", name, f.Key, f.Min, f.Max)
				}
				continue
			}
			kind := f.Kind(reflect.Zero(value).Interface().(interface{ Kind() *quantity.Kind }).Kind())
			least, a, err1 := kind.Parse(f.Min)
			most, b, err2 := kind.Parse(f.Max)
			if err1 != nil || err2 != nil || least >= most || f.As == "" && a.Name == "" && len(kind.Units) > 0 || b.Name == "" && len(kind.Units) > 0 {
				t.Errorf("%s.%s: %q to %q: %v %v", name, f.Key, f.Min, f.Max, err1, err2)
			}
		}
	}
	for _, typ := range []reflect.Type{
		reflect.TypeFor[Car](), reflect.TypeFor[Circuit](), reflect.TypeFor[Trip](), reflect.TypeFor[Model](), reflect.TypeFor[Part](),
		reflect.TypeFor[TirePart](), reflect.TypeFor[PadsPart](), reflect.TypeFor[RotorsPart](),
		reflect.TypeFor[BearingPart](), reflect.TypeFor[OilPart](), reflect.TypeFor[FluidPart](), reflect.TypeFor[LimitedPart](),
		reflect.TypeFor[OilReport](), reflect.TypeFor[wheelSetting](), reflect.TypeFor[axleSetting](),
	} {
		walk(typ.Name(), typ)
	}
	if count < 100 {
		t.Errorf("only %d ranges", count)
	}
}

// The documents' fields are told by their keys alone: none may clash within a part.
func TestPartKeysAreDistinct(t *testing.T) {
	for _, kind := range Kinds() {
		all := decode.Keys(PartFields(kind.Kind))
		slices.Sort(all)
		if len(slices.Compact(slices.Clone(all))) != len(all) {
			t.Errorf("%s: %s", kind.Kind, strings.Join(all, " "))
		}
	}
}
