package profiles

import (
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"path"
	"slices"
	"strings"

	"go.yaml.in/yaml/v4"

	"example.com/tripwear/profiles/decode"
	"example.com/tripwear/profiles/logbook"
)

// Load reads and checks a car folder: car.yaml, and where they exist
// parts.yaml, model.yaml, circuits/*.yaml, trips/*.yaml, oil/*, rates/*.yaml and logbook.csv, whose
// later readings and parts it puts over those of car.yaml. Every error of
// every file is reported at once, as Errors.
func Load(fsys fs.FS) (*Folder, error) { return load(fsys, false) }

// LoadLean is Load for a folder of any number of circuits: one that no trip names
// is let go once it is checked, and Circuit reads it again.
func LoadLean(fsys fs.FS) (*Folder, error) { return load(fsys, true) }

func load(fsys fs.FS, lean bool) (*Folder, error) {
	c, err := stock()
	if err != nil {
		return nil, err
	}
	l := &loader{fsys: fsys, folder: &Folder{
		Parts: map[string]Part{}, Circuits: map[string]Circuit{}, Trips: map[string]Trip{},
		Model: c.model.clone(), Reference: slices.Clone(c.reference),
	}, broken: map[string]bool{}}
	if docs, ok := fsys.(Documents); ok {
		l.docs, l.errs = docs, docs.Faults()
	}
	l.model()
	l.parts(c.parts)
	l.car()
	for _, file := range l.files("circuits") {
		l.circuit(file)
		if lean {
			l.letGo(id(file))
		}
	}
	for _, file := range l.files("trips") {
		l.trip(file)
	}
	if lean {
		l.takeBack()
	}
	l.paces()
	l.oilReports()
	l.log()
	l.rates()
	if len(l.errs) == 0 {
		for _, check := range l.later {
			check()
		}
	}
	if err := l.errs.Sorted(); err != nil {
		return nil, err
	}
	return l.folder, nil
}

// Documents is a car folder that is kept in another way than in files of text.
type Documents interface {
	fs.FS                                                      // of the files that its documents name
	Names() []string                                           // of its documents, as the files of a folder
	Document(file string) *yaml.Node                           // nil where it is wrong
	Log() (log logbook.Log, faults []logbook.Fault, of string) // and what it is of, for a Position
	Faults() Errors                                            // what is wrong with the whole of it
	Unread() []string                                          // what it holds that is none of it
}

type loader struct {
	fsys   fs.FS
	docs   Documents // nil for a folder
	folder *Folder
	errs   Errors
	broken map[string]bool // ids of parts and circuits that exist and did not decode
	later  []func()        // checks by the car as the logbook leaves it
}

func (l *loader) exists(file string) bool {
	if l.docs != nil && slices.Contains(l.docs.Names(), file) {
		return true
	}
	_, err := fs.Stat(l.fsys, file)
	return !errors.Is(err, fs.ErrNotExist)
}

// files lists the files of a directory that end in .yaml, then in the other
// endings, each by name.
func (l *loader) files(dir string, more ...string) []string {
	if l.docs != nil {
		return slices.DeleteFunc(l.docs.Names(), func(file string) bool { return path.Dir(file) != dir })
	}
	return l.listed(dir, more...)
}

// listed is files of a folder alone, or of the one that a workbook lies in.
func (l *loader) listed(dir string, more ...string) []string {
	entries, err := fs.ReadDir(l.fsys, dir)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		l.errs.Add(Position{File: dir}, decode.Reason(err), "a folder of .yaml files", "")
	}
	var out []string
	for _, ending := range append([]string{".yaml"}, more...) {
		for _, e := range entries {
			file := path.Join(dir, e.Name())
			switch {
			case e.IsDir() || strings.HasPrefix(e.Name(), "."):
			case ending == ".yaml" && path.Ext(file) == ".yml":
				l.errs.Add(Position{File: file}, "the name ends in .yml", "a name that ends in .yaml", "rename the file")
			case path.Ext(file) != ending:
			case !logbook.IDForm.MatchString(id(file)):
				l.errs.Add(Position{File: file}, "the file's name has characters other than letters, digits, dots and dashes, or more than 64 of them", "a name such as heron-flats"+ending, "rename the file")
			default:
				out = append(out, file)
			}
		}
	}
	return out
}

func id(file string) string { return strings.TrimSuffix(path.Base(file), path.Ext(file)) }

// MostFaults is how many faults are told at once, of parts, of rows, or in all.
const MostFaults = logbook.MostFaults

// document is the one mapping that a file holds, nil where it holds none.
func (l *loader) document(file string) *yaml.Node {
	limits := decode.ByHand
	switch {
	case l.docs != nil:
		return l.docs.Document(file)
	case file == "car.yaml":
		limits.Hint = "tripwear new starts a car folder"
	case file == partsFile:
		limits.Bytes, limits.Items, limits.Most = partsBytes, mostParts, fmt.Sprintf("at most %d parts", mostParts)
	case strings.EqualFold(path.Ext(file), ".csv"):
		return decode.Table(l.fsys, file, &l.errs)
	}
	return decode.Document(l.fsys, file, limits, &l.errs)
}

// decode reads a file into a struct, over what it holds where partial, and
// says whether all went well.
func (l *loader) decode(file string, into any, partial bool) (d *decode.Decoder, ok bool) {
	before := len(l.errs)
	d = decode.New(file, &l.errs)
	d.Partial = partial
	if root := l.document(file); root != nil {
		d.Seen(root, "")
		d.Mapping(root, "", decode.FieldsIn(into))
	}
	return d, len(l.errs) == before
}

// model lays the owner's model.yaml over the stock values, key by key.
func (l *loader) model() {
	const file = "model.yaml"
	if l.exists(file) {
		d, _ := l.decode(file, &l.folder.Model, true)
		maps.Copy(l.folder.Model.Sources, d.Sources)
	}
}

func (m Model) clone() Model {
	m.Paces, m.Surfaces, m.Sources = maps.Clone(m.Paces), maps.Clone(m.Surfaces), maps.Clone(m.Sources)
	return m
}

// Values of a car that may be left out. Engineering choices.
const (
	usualRollFront  = 0.58   // share of lateral load transfer: front-biased, as road cars are
	usualFriction   = 1.0    // peak friction of a good road tire
	usualTreadGauge = 0.2e-3 // m, one standard deviation
	usualPadGauge   = 0.3e-3 // m
)

func (l *loader) car() {
	car := &l.folder.Car
	car.RollFront, car.Friction = usualRollFront, usualFriction
	car.Usual, car.Budget = -1, -1
	car.Gauge = Gauge{Tread: usualTreadGauge, Pad: usualPadGauge}
	car.Costs = l.folder.Model.Costs
	d, ok := l.decode("car.yaml", car, false)
	if len(car.Assumed) > 0 {
		car.Sources = d.Sources
	}
	l.fitted(d.At, ok)
}
