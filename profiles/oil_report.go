package profiles

import (
	"cmp"
	"fmt"
	"io/fs"
	"slices"
	"time"

	"example.com/tripwear/profiles/quantity"
)

// OilReport is a laboratory's report on a sample of used engine oil, from a
// YAML or a CSV file. What it does not hold has no entry in Sources.
type OilReport struct {
	ID         string          `key:"-"` // the file's name without its ending
	File       string          `key:"-"`
	Sampled    time.Time       `need:"yes" doc:"when the sample was taken"`
	Odometer   quantity.Length `range:"0 mi to 2000000 mi" doc:"then; with it, tripwear oil --keep also writes a row into the logbook"`
	Engine     string          `doc:"reports of the same engine are compared with each other; the car's own unless given"`
	Laboratory string          `doc:"who read it"`
	Grade      string          `as:"grade" doc:"SAE J300; the fitted oil's unless given"`
	Interval   quantity.Length `range:"500 mi to 50000 mi" doc:"today's; the fitted oil's unless given"`
	Fill       OilFill         `need:"yes"`
	Used       OilFigures      `need:"yes"`
	New        OilFigures      // the same oil unused, to compare with
	Sources    Sources         `key:"-"`
}

// OilFill is what the sampled fill had been through.
type OilFill struct {
	Distance quantity.Length      `need:"yes" range:"0 mi to 50000 mi" doc:"on the odometer, circuits included"`
	Circuit  quantity.Duration    `range:"0 h to 500 h" doc:"hours on circuit"`
	OilTemp  quantity.Temperature `range:"60 C to 180 C" doc:"on circuit, by gauge"`
	Added    quantity.Volume      `range:"0 L to 30 L" doc:"since the fill; 0 qt where nothing was"`
}

// OilFigures are a laboratory's figures. A bound such as "<2 %" counts as the
// figure itself.
type OilFigures struct {
	KV40       quantity.Viscosity `range:"4 mm2/s to 1000 mm2/s" doc:"viscosity at 40 C"`
	KV100      quantity.Viscosity `range:"1.5 mm2/s to 60 mm2/s" doc:"viscosity at 100 C"`
	BaseNumber quantity.Neutral   `range:"0 mg KOH/g to 80 mg KOH/g" as:"bound" doc:"what is left against acids"`
	BaseMethod string             `words:"D2896 D4739" doc:"never compared with another"`
	AcidNumber quantity.Neutral   `range:"0 mg KOH/g to 50 mg KOH/g" as:"bound" doc:"acids"`
	AcidMethod string             `words:"D664 D974 D3339 D8045" doc:"never compared with another"`
	Fuel       quantity.Share     `range:"0 % to 40 %" as:"bound" doc:"a bound such as <1 % counts as the figure itself"`
	Water      quantity.Share     `range:"0 % to 30 %" as:"bound" doc:"a bound counts as the figure itself"`
	Glycol     string             `words:"none found" doc:"of the coolant"`
	Iron       quantity.Trace     `range:"0 ppm to 5000 ppm" as:"bound" doc:"the metal, a bound counts as the figure"`
	Chromium   quantity.Trace     `range:"0 ppm to 1000 ppm" as:"bound" doc:"the metal, a bound counts as the figure"`
	Copper     quantity.Trace     `range:"0 ppm to 5000 ppm" as:"bound" doc:"the metal, a bound counts as the figure"`
	Tin        quantity.Trace     `range:"0 ppm to 1000 ppm" as:"bound" doc:"the metal, a bound counts as the figure"`
	Lead       quantity.Trace     `range:"0 ppm to 5000 ppm" as:"bound" doc:"the metal, a bound counts as the figure"`
	Aluminium  quantity.Trace     `range:"0 ppm to 1000 ppm" as:"bound" was:"aluminum" doc:"the metal, a bound counts as the figure"`
	Silicon    quantity.Trace     `range:"0 ppm to 2000 ppm" as:"bound" doc:"dirt, a bound counts as the figure"`
}

// Has says whether the report holds a value, by its key such as "used.iron".
func (r OilReport) Has(key string) bool { _, ok := r.Sources[key]; return ok }

// LoadOilReport reads one report, .yaml or .csv. Its error is Errors.
func LoadOilReport(fsys fs.FS, file string) (OilReport, error) {
	l := &loader{fsys: fsys, folder: &Folder{}}
	r, ok := l.oilReport(file)
	if !ok {
		return OilReport{}, l.errs.Sorted()
	}
	return r, nil
}

// oilReports reads the reports of the car folder, oil/*.yaml and oil/*.csv.
func (l *loader) oilReports() {
	for _, file := range l.files("oil", ".csv") {
		if r, ok := l.oilReport(file); ok {
			l.folder.OilReports = append(l.folder.OilReports, r)
		}
	}
	slices.SortStableFunc(l.folder.OilReports, func(a, b OilReport) int {
		return cmp.Or(a.Sampled.Compare(b.Sampled), cmp.Compare(a.File, b.File))
	})
}

func (l *loader) oilReport(file string) (OilReport, bool) {
	r := OilReport{ID: id(file), File: file}
	before := len(l.errs)
	d, _ := l.decode(file, &r, false)
	r.Sources = d.Sources
	l.figures(r, d.At, "used", r.Used)
	l.figures(r, d.At, "new", r.New)
	if pos, given := d.At["used"]; given && !r.Has("used.kv100") {
		l.errs.Add(pos, "used has no kv100", "the viscosity at 100 C, without which a report says nothing of the grade", "")
	}
	return r, len(l.errs) == before
}

// figures reports what cannot be of one sample's figures.
func (l *loader) figures(r OilReport, where map[string]Position, part string, f OilFigures) {
	if f.KV40 > 0 && f.KV40 <= f.KV100 {
		l.errs.Add(where[part+".kv40"], fmt.Sprintf("%s: %g mm2/s at 40 C is not thicker than %g at 100 C", part, f.KV40, f.KV100), "a higher viscosity at 40 C", "the two may be swapped")
	}
	for _, number := range []string{"base", "acid"} {
		value, method := part+"."+number+"_number", part+"."+number+"_method"
		if r.Has(method) && !r.Has(value) {
			l.errs.Add(where[method], fmt.Sprintf("%s_method without %s_number", number, number), "the number beside its method", "")
		}
	}
}

// OilReportIDs lists the reports on used oil, the oldest first.
func (f *Folder) OilReportIDs() (ids []string) {
	for _, r := range f.OilReports {
		ids = append(ids, r.ID)
	}
	return ids
}
