package profiles

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"example.com/tripwear/profiles/decode"
	"example.com/tripwear/profiles/durable"
	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/nearest"
	"example.com/tripwear/profiles/parts"
)

// Rates are how fast the parts of one car wear by its logbook, without dates,
// places or names, for owners of other cars.
type Rates struct {
	File string     `key:"-"`
	Mark string     `key:"rates" need:"yes" as:"mark" doc:"the same in every file of one car, which is not counted twice"`
	Sets []SetRates `need:"yes"` // each of an axle and a class
}

const ratesHint = "tripwear learn --share rates.yaml writes such a file from a car's logbook"

// rates reads the other cars' rates of the car folder.
func (l *loader) rates() {
	for _, file := range l.listed("rates") {
		l.otherCar(file)
	}
}

// AddRates takes another car's rates from a file. Its error is Errors.
func (f *Folder) AddRates(fsys fs.FS, file string) error {
	l := &loader{fsys: fsys, folder: f}
	l.otherCar(file)
	return l.errs.Sorted()
}

// otherCar reads one file of rates, whose car is neither this one nor one of those
// read before.
func (l *loader) otherCar(file string) {
	r := Rates{File: file}
	before := len(l.errs)
	d := decode.New(file, &l.errs)
	root := decode.Document(l.fsys, file, decode.ByHand, &l.errs)
	if root == nil {
		return
	}
	if decode.Lookup(root, "rates") == nil {
		d.Fail(root, "no file of another car's rates", "a mapping with the keys rates and sets", ratesHint)
		return
	}
	d.Mapping(root, "", decode.FieldsIn(&r))
	seen := map[string]bool{}
	for i, s := range r.Sets {
		at := func(key string) Position { return d.At[fmt.Sprintf("sets[%d].%s", i, key)] }
		switch k := parts.KindOf(s.Class); {
		case s.Class == "":
		case k == "":
			l.errs.Add(at("class"), nearest.Unknown("class", s.Class, rated()), nearest.OneOf(rated()), "")
		case !k.Info().Rated:
			l.errs.Add(at("class"), fmt.Sprintf("%s: nothing is read of %s that tells how fast they wear", s.Class, k.Info().Plural), nearest.OneOf(rated()), "")
		case seen[s.Class+s.Axle]:
			l.errs.Add(at("class"), fmt.Sprintf("%s %s twice", s.Axle, s.Class), "each class once an axle", "")
		}
		seen[s.Class+s.Axle] = true
		for _, of := range []struct {
			key string
			Rate
		}{{"road", s.Road}, {"circuit", s.Circuit}} {
			if of.Spread > of.Before {
				l.errs.Add(at(of.key+".spread"), fmt.Sprintf("%s: a spread of %g where it was %g before any reading", of.key, of.Spread, of.Before), "at most what it was before", "spread and before may be exchanged; readings only narrow it")
			}
		}
	}
	if len(l.errs) > before {
		return
	}
	for _, other := range l.folder.Rates {
		if other.Mark == r.Mark {
			l.errs.Add(d.At["rates"], "the same car as "+other.File, "each car once", "keep the newer of the two files")
			return
		}
	}
	if r.Mark == l.folder.Mark() {
		l.errs.Add(d.At["rates"], "this car's own rates", "those of other cars", "take the file out: the logbook counts already")
		return
	}
	l.folder.Rates = append(l.folder.Rates, r)
}

// rated are the classes whose readings teach how fast they wear.
func rated() (out []string) {
	all, _ := parts.Stock() // loaded with the folder
	for id, p := range all {
		if p.Kind.Info().Rated {
			out = append(out, id)
		}
	}
	slices.Sort(out)
	return out
}

// Mark tells the car's rates from other cars': a digest of the first row of its
// logbook, too short to find the row by. "" without a logbook.
func (f *Folder) Mark() string {
	rows := f.Rows()
	if len(rows) == 0 {
		return ""
	}
	sum := sha256.New()
	row := rows[0].Row()
	for _, column := range logbook.Columns {
		fmt.Fprintf(sum, "%s\n", row[column])
	}
	return hex.EncodeToString(sum.Sum(nil)[:4])
}

// Write writes the rates as a file, over an older one of the same car alone.
func (r Rates) Write(file string) error {
	if _, err := os.Stat(file); !errors.Is(err, fs.ErrNotExist) {
		var older Folder
		if err := older.AddRates(os.DirFS(filepath.Dir(file)), filepath.Base(file)); err != nil || older.Rates[0].Mark != r.Mark {
			return Errors{{What: file + " is there already and does not hold this car's rates", Hint: "name another file; nothing was written"}}
		}
	}
	return durable.Replace(file, func(w io.Writer) error {
		_, err := io.WriteString(w, r.text())
		return err
	})
}

func (r Rates) text() string {
	var b strings.Builder
	fmt.Fprintf(&b, "# How fast the parts of one car wear by its logbook, as multiples of what tripwear's\n"+
		"# model has, for owners of other cars: tripwear help learning.\nrates: %q\nsets:\n", r.Mark)
	for _, s := range r.Sets {
		fmt.Fprintf(&b, "  - class: %s\n    axle: %s\n    readings: %d\n    visits: %d\n    distance: %.0f km\n", s.Class, s.Axle, s.Readings, s.Visits, s.Distance/1000)
		fmt.Fprintf(&b, "    road: %s\n    circuit: %s\n", s.Road, s.Circuit)
	}
	return b.String()
}
