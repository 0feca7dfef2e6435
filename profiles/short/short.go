package short

import (
	"cmp"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/nearest"
	"example.com/tripwear/profiles/quantity"
)

// Want is something that a plan wants read now, with the level it expects.
type Want struct {
	What        logbook.What
	Place, Zone string
	Level       float64
}

// Known is what short words are read by.
type Known struct {
	Folder *profiles.Folder
	Wants  func() []Want   // asked only where two things fit; nil for none
	Units  quantity.System // of its owner, where nothing was written yet
}

// Entry is what short words stand for: rows without their day and odometer, or
// that a leg was driven.
type Entry struct {
	Rows     []logbook.Row
	Odometer string // as given, with its unit; "" where it was not
	Done     bool   // the leg that is due is driven,
	Sessions int    // or so many sessions of it
}

// As the parts of the words are written.
var (
	numeral = regexp.MustCompile(`^\+?(\d+(?:\.\d+)?)(/32)?([a-z%°]*)$`)
	commaed = regexp.MustCompile(`\d+(,\d+)+(\s*[a-z%"]*)`)
	units   = []string{"mm", "in", "mi", "km", "l", "ml", "qt", "c", "f", "%", "psi", "bar", "kpa"}
)

// number is one measure among the words: its digits and its unit, "" without.
type number struct{ digits, unit string }

func (n number) String() string { return strings.TrimSpace(n.digits + " " + n.unit) }

// words are short words, sorted by what they are.
type words struct {
	Known
	place, zone string
	part        string // that lies aside, and is read; "" for the one that is on
	numbers     []number
	rest        []string // what is left
	out         Entry
}

// Read works out what short words stand for. Its error is profiles.Errors.
func Read(text string, k Known) (Entry, error) {
	if m := commaed.FindStringSubmatch(text); m != nil {
		point, space := "write "+strings.Replace(m[0], ",", ".", 1), strings.ReplaceAll(m[0], ",", " ")
		switch {
		case strings.Count(m[0], ",") > 1:
			point = "between readings stands a space: " + space
		case strings.TrimSpace(m[2]) == "": // one reading or two
			point += "; between two readings stands a space: " + space
		}
		return Entry{}, wrong(quoted(m[0])+" has a comma in it", "a decimal point in a number", point)
	}
	w := words{Known: k}
	said := strings.Fields(strings.NewReplacer(",", " ", "°", "", `"`, " in", "”", " in").Replace(strings.ToLower(text)))
	if err := w.sort(said); err != nil {
		return Entry{}, err
	}
	if err := w.mean(); err != nil {
		return Entry{}, err
	}
	return w.out, nil
}

// sort puts every word where it belongs.
func (w *words) sort(said []string) error {
	for i := 0; i < len(said); i++ {
		two := strings.Join(said[i:min(i+2, len(said))], " ")
		place, both := logbook.OneOf(places, said[i]), logbook.OneOf(places, two)
		m := numeral.FindStringSubmatch(said[i])
		switch {
		case said[i] == "at" && i+1 < len(said):
			n, used := measure(said[i+1:])
			if used == 0 {
				return wrong("at is followed by the odometer, not by "+quoted(said[i+1]), "at 144308", "")
			}
			w.out.Odometer = cmp.Or(n.digits+" "+n.unit, "")
			i += used
		case said[i] == "of" && i+1 < len(said):
			ids := w.Folder.Swapping()
			if w.part = nearest.Same(said[i+1], ids); w.part == "" {
				return wrong(nearest.Unknown("part", said[i+1], ids)+" that lies aside", cmp.Or(nearest.OneOf(ids), "one that car.yaml lists with aside: true"), "")
			}
			i++
		case both != "" && place == "" || both != "" && len(strings.Fields(two)) == 2:
			w.place, i = both, i+1
		case place != "":
			w.place = place
		case logbook.OneOf(logbook.Zones, said[i]) != "":
			w.zone = logbook.OneOf(logbook.Zones, said[i])
		case m != nil:
			n, used := measure(said[i:])
			w.numbers = append(w.numbers, n)
			i += used - 1
		default:
			w.rest = append(w.rest, said[i])
		}
	}
	w.shareUnit()
	return nil
}

// shareUnit gives numbers the unit that one of them has.
func (w *words) shareUnit() {
	for _, one := range w.numbers {
		_, thirty := strings.CutSuffix(one.digits, "/32")
		for i := range w.numbers {
			if n := &w.numbers[i]; n.unit == "" && one.unit != "" {
				n.unit = one.unit
				if thirty {
					n.digits += "/32"
				}
			}
		}
	}
}

// places are all that short words may name.
var places = slices.Concat(logbook.Wheels, []string{"front", "rear"})

// measure is the number that words begin with, and how many of them it takes.
func measure(said []string) (number, int) {
	m := numeral.FindStringSubmatch(said[0])
	if m == nil {
		return number{}, 0
	}
	n, used := number{m[1] + m[2], m[3]}, 1
	if n.unit == "" && len(said) > 1 && slices.Contains(units, said[1]) {
		n.unit, used = said[1], 2
	}
	switch {
	case m[2] != "":
		n.unit = "in"
	case n.unit == "l" || n.unit == "f" || n.unit == "c":
		n.unit = strings.ToUpper(n.unit)
	}
	return n, used
}

// mean works out what was meant.
func (w *words) mean() error {
	about := strings.Join(w.rest, " ")
	switch {
	case about == "done" || about == "driven":
		return w.done()
	case about == "oil" && len(w.numbers) == 1:
		return w.add(logbook.OilAdded, "engine", w.numbers[0].String())
	case about == "" && len(w.numbers) == 0 && w.place == "":
		if w.out.Odometer == "" {
			return wrong("there is nothing to write down", "a reading, such as RF 5.8mm", "")
		}
		return w.add(logbook.Odometer, "", "")
	case len(w.rest) > 0 && slices.Contains([]string{"new", "fitted"}, w.rest[0]):
		return w.fitted(strings.Join(w.rest[1:], " "))
	case len(w.rest) > 0 && len(w.numbers) == 0 && trunk(w.rest[0]) != "":
		return w.inTrunk(trunk(w.rest[0]), strings.Join(w.rest[1:], " "))
	case len(w.numbers) > 0:
		return w.read(about)
	}
	return w.found()
}

func (w *words) done() error {
	w.out.Done = true
	if len(w.numbers) > 1 || len(w.numbers) == 1 && w.numbers[0].unit != "" || w.place != "" {
		return wrong("done is the leg that is due, or so many of its sessions", "done, or done 2", "")
	}
	if len(w.numbers) == 1 {
		var err error
		if w.out.Sessions, err = strconv.Atoi(w.numbers[0].digits); err != nil || w.out.Sessions < 1 {
			return wrong(quoted(w.numbers[0].digits)+" is not a number of sessions", "done 2", "")
		}
	}
	return nil
}

func (w *words) add(what logbook.What, place, value string) error {
	if w.part != "" {
		place += " of " + w.part
	}
	w.out.Rows = append(w.out.Rows, logbook.Row{"what": string(what), "place": place, "zone": w.zone, "value": value})
	return nil
}

// like is how each reading is written.
var like = map[logbook.What]string{
	logbook.Tread: "7/32 or 5.5mm", logbook.Pad: "5.8mm", logbook.Thickness: "21.6mm", logbook.Probe: "185F", logbook.Water: "1.2%",
}

// When a level can be one of a kind, and when one expected lies clearly nearer
// than another. Engineering choices.
const (
	thinnest = 0.6 // of a new rotor: what is thinner is something else

	clearly = 3.0
	apart   = 0.5e-3 // m
)
