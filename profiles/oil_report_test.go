package profiles

import (
	"testing"
	"testing/fstest"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"example.com/tripwear/profiles/faulty"
)

const oilYAML = `sampled: 2027-02-20
grade: 5W-40
fill: {distance: 3480 mi, circuit: 4.2 h, oil_temp: 255 F, added: 0.5 qt}
used: {kv40: 82 mm2/s, kv100: 13.6 cSt, base_number: 6.9 mg KOH/g, base_method: D2896, fuel: <2 %, water: <0.1 %, glycol: none, iron: 14 ppm}
new: {kv100: 14.1 mm2/s, base_number: 8.0 mg KOH/g, base_method: D2896}
`

const oilCSV = `key,value
# the same report as a table
sampled,2027-02-20
grade,5W-40
fill.distance,3480 mi
fill.circuit,4.2 h
fill.oil_temp,255 F
fill.added, 0.5 qt
used.kv40,82 mm2/s
used.kv100,13.6 cSt
used.base_number,6.9 mg KOH/g
used.base_method,D2896
used.fuel,<2 %
used.water,"<0.1 %"
used.glycol,none
used.iron,14 ppm
new.kv100,14.1 mm2/s
new.base_number,8.0 mg KOH/g
new.base_method,D2896
`

// One report in both forms is the same report; what it lacks is known to be
// lacking, and a bound counts as its figure.
func TestOilReport(t *testing.T) {
	files := fstest.MapFS{"a.yaml": {Data: []byte(oilYAML)}, "a.csv": {Data: []byte(oilCSV)}}
	fromYAML, err := LoadOilReport(files, "a.yaml")
	if err != nil {
		t.Fatal(err)
	}
	fromCSV, err := LoadOilReport(files, "a.csv")
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(fromYAML, fromCSV, cmpopts.IgnoreFields(OilReport{}, "File", "Sources")); diff != "" {
		t.Errorf("the table differs (- YAML, + CSV):\n%s", diff)
	}
	for key, want := range map[string]bool{"fill.added": true, "used.iron": true, "used.tin": false, "new.kv40": false, "interval": false} {
		if fromYAML.Has(key) != want || fromCSV.Has(key) != want {
			t.Errorf("%s: %v and %v, want %v", key, fromYAML.Has(key), fromCSV.Has(key), want)
		}
	}
	if fromYAML.Used.Fuel != 0.02 || fromYAML.Used.Water != 0.001 {
		t.Errorf("bounds: %g and %g", float64(fromYAML.Used.Fuel), float64(fromYAML.Used.Water))
	}
}

// The folder holds its reports in the order of sampling, not of names.
func TestOilReportsInOrder(t *testing.T) {
	files := lay(t, faulty.Archive{})
	later := "sampled: 2027-03-20\nfill: {distance: 100 mi}\nused: {kv100: 13 cSt}\n"
	files["oil/a.yaml"], files["oil/b.csv"] = &fstest.MapFile{Data: []byte(later)}, &fstest.MapFile{Data: []byte(oilCSV)}
	f, err := Load(files)
	if err != nil {
		t.Fatal(err)
	}
	if len(f.OilReports) != 2 || f.OilReports[0].ID != "b" || f.OilReports[1].ID != "a" {
		t.Errorf("%d reports", len(f.OilReports))
	}
}

// Whatever the file holds, it is a report or errors with a place in the file.
func FuzzOilReport(f *testing.F) {
	f.Add("a.yaml", []byte(oilYAML))
	f.Add("a.csv", []byte(oilCSV))
	f.Add("a.csv", []byte("key,value\nused..iron,1\n,\n.,.\nused,5\nused.iron,2 ppm\n"))
	f.Fuzz(func(t *testing.T, name string, data []byte) {
		if name != "a.csv" {
			name = "a.yaml"
		}
		r, err := LoadOilReport(fstest.MapFS{name: {Data: data}}, name)
		if err == nil {
			if r.Fill.Distance < 0 || r.Used.KV100 <= 0 {
				t.Errorf("%+v", r)
			}
			return
		}
		for _, e := range err.(Errors) {
			if e.File != name || e.What == "" {
				t.Errorf("%+v", e)
			}
		}
	})
}
