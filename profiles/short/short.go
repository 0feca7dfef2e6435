package short

import (
	"cmp"
	"fmt"
	"math"
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
	commaed = regexp.MustCompile(`\d+(,\d+)+\S*`)
	units   = []string{"mm", "in", "mi", "km", "l", "ml", "qt", "c", "f", "%"}
)

// number is one measure among the words: its digits and its unit, "" without.
type number struct{ digits, unit string }

func (n number) String() string { return strings.TrimSpace(n.digits + " " + n.unit) }

// words are short words, sorted by what they are.
type words struct {
	Known
	place, zone string
	numbers     []number
	rest        []string // what is left
	out         Entry
}

// Read works out what short words stand for. Its error is profiles.Errors.
func Read(text string, k Known) (Entry, error) {
	if at := commaed.FindString(text); at != "" {
		return Entry{}, wrong(quoted(at)+" has a comma in it", "a decimal point in a number, and a space between readings", "")
	}
	w := words{Known: k}
	said := strings.Fields(strings.NewReplacer(",", " ", "°", "").Replace(strings.ToLower(text)))
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
	w.out.Rows = append(w.out.Rows, logbook.Row{"what": string(what), "place": place, "zone": w.zone, "value": value})
	return nil
}

// found takes words for what an eye or a hand found.
func (w *words) found() error {
	about, finding := logbook.What(""), ""
	var whats []logbook.What
	for n := len(w.rest); n > 0; n-- { // what it is about may come first, the finding last
		head, tail := strings.Join(w.rest[:n], " "), strings.Join(w.rest[n:], " ")
		if what, ok := spoken(head); ok && (about == "" || len(finds(what, tail)) > 0) {
			about, finding = what, tail
		}
	}
	if about == "" {
		finding = strings.Join(w.rest, " ")
	}
	for _, word := range logbook.Words() {
		what := logbook.What(word)
		if about != "" && what != about && !(about == logbook.OilAdded && what == logbook.OilLevel) {
			continue
		}
		if found := finds(what, finding); len(found) > 0 && w.fits(what) {
			whats = append(whats, what)
		}
	}
	switch {
	case about == logbook.OilChange && finding == "":
		return w.add(about, "engine", "")
	case len(whats) == 1:
		return w.add(whats[0], w.at(whats[0]), finds(whats[0], finding)[0])
	case len(whats) > 1:
		return w.asks(whats, finding)
	case finding == "" && about != "":
		return wrong(fmt.Sprintf("%s: what was found is missing", about), nearest.OneOf(logbook.Values(about)), "")
	}
	known := findings()
	if about != "" {
		known = logbook.Values(about)
	}
	if len(known) == 0 {
		return wrong(fmt.Sprintf("%s takes a number", about), "a reading, such as RF 5.8mm", "")
	}
	return wrong(nearest.Unknown("word", finding, nil), nearest.OneOf(known), "tripwear log add takes any row in full")
}

// spoken is what words are about, as a mechanic says it.
func spoken(text string) (logbook.What, bool) {
	switch strings.TrimSuffix(text, "s") {
	case "oil":
		return logbook.OilLevel, true
	case "tire":
		return logbook.Inspection, true
	case "rotor", "disc", "face":
		return logbook.Face, true
	case "pad", "lining":
		return logbook.Lining, true
	case "fluid":
		return logbook.Color, true
	case "oil changed":
		return logbook.OilChange, true
	}
	return logbook.WordOf(text)
}

// finds are the findings of a row that a word stands for.
func finds(what logbook.What, word string) []string {
	var all []string
	for _, f := range logbook.Findings(what) {
		all = append(all, string(f))
	}
	if one := logbook.OneOf(all, word); one != "" {
		return []string{one}
	}
	return nil
}

// findings are all words for what is found, each once.
func findings() []string {
	var out []string
	for _, word := range logbook.Words() {
		for _, f := range logbook.Findings(logbook.What(word)) {
			if !slices.Contains(out, string(f)) {
				out = append(out, string(f))
			}
		}
	}
	return out
}

// fits says whether a row can be about the place that was named, of a part that
// the car has.
func (w *words) fits(what logbook.What) bool {
	all := logbook.Places(what)
	if w.place != "" && !slices.Contains(all, w.place) {
		return false
	}
	kind, ok := profiles.KindRead(what)
	if !ok || len(all) == 0 {
		return true
	}
	_, on := w.Folder.On(kind, w.at(what))
	return on != nil || kind.Info().Needed
}

// at is the place of a row: the one named, or the only one it can have.
func (w *words) at(what logbook.What) string {
	if all := logbook.Places(what); w.place == "" && len(all) == 1 {
		return all[0]
	}
	return w.place
}

// fitted takes words for a new part that went on.
func (w *words) fitted(about string) error {
	if strings.TrimSuffix(about, "s") == "oil" {
		return w.add(logbook.OilChange, "engine", "")
	}
	for _, k := range profiles.Kinds() {
		named := slices.ContainsFunc([]string{string(k.Kind), k.Plural}, func(name string) bool {
			return strings.TrimSuffix(name, "s") == strings.TrimSuffix(about, "s")
		}) || k.Kind == profiles.Bearing && strings.TrimSuffix(about, "s") == "hub"
		if !named || len(k.Sets) == 0 {
			continue
		}
		place := w.place
		if all := k.Places(); place == "" && len(all) == 1 {
			place = all[0]
		}
		at := []string{place}
		if pair, ok := logbook.Axles[place]; ok {
			at = pair
		}
		part, on := w.Folder.On(k.Kind, at[0])
		if on == nil {
			return wrong("new "+about+": no place given", "new front "+about, "")
		}
		return w.add(logbook.Replaced, place, part.ID)
	}
	return wrong("new is followed by what went on, not by "+quoted(about), "new front pads", "")
}

// read takes numbers for readings.
func (w *words) read(about string) error {
	var fit []logbook.What
	what, named := logbook.WordOf(about)
	if about == "rotor" || about == "rotors" {
		what, named = logbook.Thickness, true
	}
	if about != "" && !named {
		return wrong(nearest.Unknown("word", about, nil), nearest.OneOf(logbook.Words()), "")
	}
	if named && len(logbook.Values(what)) > 0 {
		return wrong(fmt.Sprintf("%s takes no number", what), nearest.OneOf(logbook.Values(what)), "")
	}
	for _, one := range []logbook.What{logbook.Tread, logbook.Pad, logbook.Thickness, logbook.Probe, logbook.Water} {
		if (!named || one == what) && w.fits(one) && w.measures(one, named) {
			fit = append(fit, one)
		}
	}
	if !named {
		fit = w.likely(fit)
	}
	switch {
	case len(fit) > 1:
		return w.asks(fit, w.numbers[0].String())
	case len(fit) == 0 && w.place == "":
		return wrong("no place given", nearest.OneOf(logbook.Wheels), "")
	case len(fit) == 0 && w.numbers[0].unit == "" && !named && !w.habit():
		return wrong(listed(w.numbers)+" has no unit, and no row before says in which you read", "a unit once, such as RF 7 7 6.5/32 or RF 5.8mm", "rows after it go by its unit")
	case len(fit) == 0:
		return wrong(fmt.Sprintf("%s fits nothing that is read at %s", listed(w.numbers), w.place), "tread of 1 or 3 zones, a pad or a rotor's thickness, with its unit", "tripwear log add takes any row in full")
	}
	return w.write(fit[0])
}

// write adds the rows of a reading whose meaning is known.
func (w *words) write(what logbook.What) error {
	var values []string
	for _, n := range w.numbers {
		v, ok := w.inUnit(what, n)
		if !ok {
			return wrong(fmt.Sprintf("%s %s has no unit", what, n), "the unit once, such as "+like[what], "rows after it go by its unit")
		}
		values = append(values, v)
	}
	if !logbook.Zoned(what) {
		return w.add(what, w.at(what), values[0])
	}
	if len(values) == len(logbook.Zones) {
		for i, v := range values {
			w.zone = logbook.Zones[i]
			_ = w.add(what, w.place, v)
		}
		return nil
	}
	if w.zone == "" {
		for _, want := range w.wants() {
			if want.What == what && want.Place == w.place {
				w.zone = want.Zone
			}
		}
	}
	if w.zone == "" {
		return wrong(fmt.Sprintf("%s at %s: no zone given", what, w.place), nearest.OneOf(logbook.Zones), "or give all three: inside, middle, outside")
	}
	return w.add(what, w.place, values[0])
}

// like is how each reading is written.
var like = map[logbook.What]string{
	logbook.Tread: "7/32 or 5.5mm", logbook.Pad: "5.8mm", logbook.Thickness: "21.6mm", logbook.Probe: "185F", logbook.Water: "1.2%",
}

// inUnit is a number with its unit, or with the one that readings like it were
// last written in.
func (w *words) inUnit(what logbook.What, n number) (string, bool) {
	if n.unit != "" {
		return n.String(), true
	}
	unit, written := w.usual(what)
	return n.digits + unit, written
}

// usual is the unit that readings of a kind were last written in, and whether
// any was; otherwise the one that its owner's units have.
func (w *words) usual(what logbook.What) (unit string, written bool) {
	for _, e := range slices.Backward(w.Folder.Log) {
		if e.What == what {
			return strings.TrimLeft(e.Written, "0123456789."), true
		}
	}
	if what == logbook.Tread && w.Units == quantity.US {
		return "/32 in", false
	}
	return " mm", false
}

// habit says whether the logbook has a reading that tells the owner's unit.
func (w *words) habit() bool {
	_, tread := w.usual(logbook.Tread)
	_, pad := w.usual(logbook.Pad)
	return tread || pad
}

// measures says whether the numbers can be readings of a kind: as many, of its
// dimension, and no more than there is of it when new.
func (w *words) measures(what logbook.What, named bool) bool {
	if n := len(w.numbers); n != 1 && !(n == len(logbook.Zones) && logbook.Zoned(what) && w.zone == "") {
		return false
	}
	for _, n := range w.numbers {
		if n.unit == "" && named {
			return true
		}
		level, ok := w.level(what, n)
		if !ok {
			return false
		}
		if new, wears := w.new(what); !named && wears && (level > new || what == logbook.Thickness && level < thinnest*new) {
			return false
		}
	}
	return true
}

// level is a number as a reading of a kind, SI.
func (w *words) level(what logbook.What, n number) (float64, bool) {
	text, ok := w.inUnit(what, n)
	if !ok {
		return 0, false
	}
	e, faults := logbook.Parse(logbook.Row{"date": "2000-01-01", "odometer": "1 mi", "what": string(what), "place": w.at(what), "zone": zone(what), "value": text})
	return e.Value, len(faults) == 0
}

// zone is any zone where a row takes one.
func zone(what logbook.What) string {
	if logbook.Zoned(what) {
		return logbook.Zones[0]
	}
	return ""
}

// new is the level of a new part there, with what a gauge may be off.
func (w *words) new(what logbook.What) (float64, bool) {
	kind, _ := profiles.KindRead(what)
	for _, r := range kind.Info().Readings {
		if part, on := w.Folder.On(kind, w.place); r.What == what && r.New != nil && on != nil {
			return float64(r.New(&part)) + 2*float64(r.Gauge(&w.Folder.Car)), true
		}
	}
	return 0, false
}

// likely narrows readings that fit down to those written in their usual unit,
// then to one that the plan wants read and expects near.
func (w *words) likely(fit []logbook.What) []logbook.What {
	usual := slices.DeleteFunc(slices.Clone(fit), func(what logbook.What) bool {
		unit, _ := w.usual(what)
		given, _ := w.inUnit(what, w.numbers[0])
		return compact(strings.TrimLeft(given, "0123456789.")) != compact(unit)
	})
	if len(usual) > 0 {
		fit = usual
	}
	if len(fit) < 2 {
		return fit
	}
	best, least, second := logbook.What(""), math.Inf(1), math.Inf(1)
	for _, what := range fit {
		for _, want := range w.wants() {
			if level, ok := w.level(what, w.numbers[0]); ok && want.What == what && want.Place == w.place {
				if off := math.Abs(level - want.Level); off < least {
					best, least, second = what, off, least
				} else {
					second = min(second, off)
				}
			}
		}
	}
	if best != "" && second > float64(clearly*least)+apart {
		return []logbook.What{best}
	}
	return fit
}

// When a level can be one of a kind, and when one expected lies clearly nearer
// than another. Engineering choices.
const (
	thinnest = 0.6 // of a new rotor: what is thinner is something else

	clearly = 3.0
	apart   = 0.5e-3 // m
)

func (w *words) wants() []Want {
	if w.Wants == nil {
		return nil
	}
	return w.Wants()
}

func compact(s string) string { return strings.ReplaceAll(s, " ", "") }

// asks says which things fit.
func (w *words) asks(whats []logbook.What, value string) error {
	var each, say []string
	for _, what := range whats {
		each = append(each, strings.TrimSpace(string(what)+" at "+w.place))
		say = append(say, strings.Join(strings.Fields(w.place+" "+string(what)+" "+value), " "))
	}
	return wrong(fmt.Sprintf("%s can be %s", value, nearest.OneOf(each)), "which: "+nearest.OneOf(say), "nothing was added")
}

func listed(numbers []number) string {
	var out []string
	for _, n := range numbers {
		out = append(out, n.String())
	}
	return strings.Join(out, ", ")
}

func quoted(s string) string { return fmt.Sprintf("%q", nearest.Cut(s)) }

func wrong(what, expected, hint string) error {
	return profiles.Errors{{What: what, Expected: expected, Hint: hint}}
}

// Odometer is an odometer in the unit that the logbook's rows have it in.
func Odometer(f *profiles.Folder, meters float64, given string, units quantity.System) string {
	unit := map[quantity.System]string{quantity.US: "mi", quantity.Metric: "km"}[units]
	if n := len(f.Log); n > 0 {
		unit = strings.TrimLeft(f.Log[n-1].Mark, "0123456789. ")
	}
	if given != "" {
		if strings.TrimLeft(given, "0123456789. ") != "" {
			return strings.TrimSpace(given)
		}
		return strings.TrimSpace(given) + " " + unit
	}
	for _, e := range slices.Backward(f.Log) { // the car has not moved since: as it was written
		if float64(e.Odometer) == meters {
			return e.Mark
		}
	}
	per := 1609.344
	if unit == "km" {
		per = 1000
	}
	return fmt.Sprintf("%.0f %s", meters/per, unit)
}

// Say is rows of one subject in one line.
func Say(rows []logbook.Entry) string {
	var out []string
	for i, e := range rows {
		if n := e.Target(); n > 0 {
			out = append(out, fmt.Sprintf("row %d taken back", n))
			continue
		}
		place, zone := e.Place, e.Zone
		if len(logbook.Places(e.What)) == 1 {
			place = ""
		}
		same := func(k int) bool {
			return e.Zone != "" && k >= 0 && k < len(rows) && rows[k].What == e.What && rows[k].Place == e.Place
		}
		if same(i - 1) {
			out[len(out)-1] += ", " + e.Written
			continue
		}
		if same(i + 1) { // inside, middle, outside
			zone = ""
		}
		line := strings.Join(strings.Fields(place+" "+string(e.What)+" "+zone+" "+e.Written), " ")
		if e.Note != "" && e.What == logbook.Odometer {
			line = e.Note
		} else if e.Note != "" {
			line += ", " + e.Note
		}
		out = append(out, line)
	}
	last := rows[len(rows)-1]
	return fmt.Sprintf("%s; at %s, %s", strings.Join(out, "; "), last.Mark, last.Date.Format("Mon 2 Jan"))
}
