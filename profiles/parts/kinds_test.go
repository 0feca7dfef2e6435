package parts

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
	"testing"

	"example.com/tripwear/profiles/decode"
	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/quantity"
)

// gaps lists what a row of the table of kinds lacks.
func gaps(k KindInfo, stock map[string]Part) []string {
	var out []string
	want := func(ok bool, what string, a ...any) {
		if !ok {
			out = append(out, fmt.Sprintf(what, a...))
		}
	}
	want(k.Kind != "", "a word")
	want(len(k.Sets) > 0, "sets")
	for _, s := range k.Sets {
		want(s.ID != "" && s.Name != "" && s.Kind == k.Kind && len(s.At) > 0, "an id, a name, its kind or places of set %q", s.ID)
		for _, at := range s.At {
			want(slices.Contains(logbook.Places(logbook.Replaced), at), "a place %q in the logbook", at)
		}
	}
	want(!k.Fill || len(k.Places()) == 1 && slices.Contains(logbook.Fills, k.Places()[0]), "one place, being a fill")
	found := false
	for _, p := range stock {
		found = found || p.Kind == k.Kind
	}
	want(found, "stock parts in stock/%s.yaml", k.Kind)
	if k.block == nil {
		return append(out, "a field of Part with its values")
	}
	p := Part{Kind: k.Kind}
	block := reflect.ValueOf(k.block(&p)).Elem()
	block.Set(reflect.New(block.Type().Elem()))
	for _, r := range k.Readings {
		out = append(out, r.gaps(k, &p, block.Elem())...)
	}
	return out
}

// gaps lists what a reading lacks.
func (r Reading) gaps(k KindInfo, p *Part, block reflect.Value) []string {
	var out []string
	name := fmt.Sprintf("%q %q", r.Key, r.What)
	want := func(ok bool, what string) {
		if !ok {
			out = append(out, what+" of reading "+name)
		}
	}
	want(r.Key != "" || r.What != "", "a key or a logbook word")
	if r.What != "" {
		want(slices.Contains(logbook.Words(), string(r.What)), "a logbook row")
		owner, _ := KindRead(r.What)
		want(owner == k.Kind, "a logbook row of its own")
		for _, at := range k.Places() {
			want(slices.Contains(logbook.Places(r.What), at), "place "+at+" in the logbook row")
		}
	}
	if r.Key != "" {
		_, ok := fittedField[r.Key]
		want(ok, "a field of Fitted")
		if !ok {
			return out
		}
		value := (&Fitted{}).Value(r.Key).Addr().Interface()
		finds := len(logbook.Findings(r.What)) > 0
		switch value.(type) {
		case *map[string]logbook.Finding, *logbook.Finding:
			want(finds, "findings in the logbook row")
		case *map[string][]quantity.Length:
			want(r.New != nil && logbook.Zoned(r.What), "a new level and zones")
		case *map[string][]quantity.Temperature:
			want(logbook.Zoned(r.What), "zones")
		case *map[string]quantity.Length, *quantity.Share:
			want(!finds, "words in car.yaml")
		default:
			want(r.What == "", "a form that the logbook can give")
		}
	}
	if r.New != nil || r.NewKey != "" || r.Gauge != nil {
		key := decode.Find(decode.FieldsOf(block), r.NewKey)
		want(r.New != nil && r.Gauge != nil && key != nil, "a new level, its key or its gauge")
		if r.New != nil && key != nil {
			key.Value.SetFloat(0.123)
			want(r.New(p) == 0.123, "the value of its key as the new level")
		}
	}
	return out
}

// No kind lacks anything, and what stands beside the table agrees with it.
func TestKindsAreWhole(t *testing.T) {
	stock, err := Stock()
	if err != nil {
		t.Fatal(err)
	}
	once := map[string]bool{}
	first := func(what, word string) {
		if once[what+word] {
			t.Errorf("%s %s is there twice", what, word)
		}
		once[what+word] = true
	}
	for _, k := range kinds {
		for _, gap := range gaps(k, stock) {
			t.Errorf("%s lacks %s", k.Kind, gap)
		}
		first("kind", string(k.Kind))
		if k.Limited == nil { // those share one
			first("block", fmt.Sprintf("%T", k.block(&Part{})))
		}
	}
	for _, s := range Sets() {
		first("set", s.ID)
	}
	own := slices.DeleteFunc(decode.FieldsOf(reflect.ValueOf(&Fitted{}).Elem()), func(f decode.Field) bool {
		return slices.Contains([]string{"part", "at", "since", "circuit_days", "heat_cycles", "aside", "distance", "grade"}, f.Key)
	})
	slices.SortFunc(own, func(a, b decode.Field) int { return strings.Compare(a.Key, b.Key) })
	if got := FittedKeys(); !slices.Equal(got, decode.Keys(own)) {
		t.Errorf("Fitted has the keys %v, the kinds %v", decode.Keys(own), got)
	}
	for _, w := range logbook.Words() {
		if _, ok := KindRead(logbook.What(w)); !ok && len(logbook.Findings(logbook.What(w))) > 0 {
			t.Errorf("the findings of %s are no kind's", w)
		}
	}
	for _, w := range logbook.Values(logbook.Repair) {
		if len(Kind(w).Info().Sets) == 0 {
			t.Errorf("a fix of %s, which is no kind", w)
		}
	}
}

// What a kind lacks is named.
func TestGapsAreNamed(t *testing.T) {
	stock, err := Stock()
	if err != nil {
		t.Fatal(err)
	}
	for want, spoil := range map[string]func(*KindInfo){
		"sets":                             func(k *KindInfo) { k.Sets = nil },
		"an id, a name":                    func(k *KindInfo) { k.Sets[1].Name = "" },
		"a field of Part":                  func(k *KindInfo) { k.block = nil },
		"stock parts in stock/boot.yaml":   func(k *KindInfo) { k.Kind = "boot" },
		"one place, being a fill":          func(k *KindInfo) { k.Fill = true },
		"a place \"roof\" in the logbook":  func(k *KindInfo) { k.Sets[0].At = []string{"roof"} },
		"a key or a logbook word":          func(k *KindInfo) { k.Readings[1] = Reading{} },
		"a logbook row of reading":         func(k *KindInfo) { k.Readings[1].What = "boots" },
		"a logbook row of its own":         func(k *KindInfo) { k.Readings[1].What = logbook.Hub },
		"a field of Fitted":                func(k *KindInfo) { k.Readings[1].Key = "boots" },
		"findings in the logbook row":      func(k *KindInfo) { k.Readings[1].What = logbook.Pad },
		"a form that the logbook can give": func(k *KindInfo) { k.Readings[1].Key = "built" },
		"a new level, its key":             func(k *KindInfo) { k.Readings[0].NewKey = "deep" },
		"the value of its key":             func(k *KindInfo) { k.Readings[0].NewKey = "limit" },
	} {
		k := Tire.Info()
		k.Sets, k.Readings = slices.Clone(k.Sets), slices.Clone(k.Readings)
		spoil(&k)
		if got := strings.Join(gaps(k, stock), "\n"); !strings.Contains(got, want) {
			t.Errorf("want %q in\n%s", want, got)
		}
	}
}

// A clone of what is fitted shares no reading with it.
func TestFittedIsCloned(t *testing.T) {
	for _, key := range FittedKeys() {
		var e Fitted
		v := e.Value(key)
		if v.Kind() != reflect.Map {
			continue
		}
		v.Set(reflect.MakeMap(v.Type()))
		fresh := e.Only(e.At)
		fresh.Value(key).SetMapIndex(reflect.ValueOf("LF"), reflect.Zero(v.Type().Elem()))
		if v.Len() != 0 {
			t.Errorf("%s is shared", key)
		}
	}
}

// The sets are named as a mechanic walks round the car; what has limits alone
// comes after.
func TestSets(t *testing.T) {
	var ids []string
	for _, k := range kinds {
		if k.Limited != nil {
			continue
		}
		for _, s := range k.Sets {
			ids = append(ids, s.ID)
			_, where, _ := strings.Cut(s.ID, "-")
			one := strings.TrimSpace(strings.TrimPrefix(s.Name, where))
			if several := len(k.Sets) > 1; several != (one != s.Name) || !strings.HasPrefix(k.Plural, one) {
				t.Errorf("%s is called %q, and several are %s", s.ID, s.Name, k.Plural)
			}
		}
	}
	const want = "tires-front tires-rear pads-front pads-rear rotors-front rotors-rear hub-LF hub-RF hub-LR hub-RR oil fluid"
	if got := strings.Join(ids, " "); got != want {
		t.Errorf("got %s", got)
	}
}
