package short

import (
	"fmt"
	"slices"
	"strings"

	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/nearest"
)

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
	if about == "" && finding == "" {
		return wrong(strings.TrimSpace(w.place+" "+w.zone)+" alone says nothing", "a reading or what was found, such as RF 5.8mm or RF hub tight", "")
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
	if w.part != "" && kind != w.Folder.Parts[w.part].Kind {
		return false
	}
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
	switch part, place, known := w.fittedAs(about); {
	case known && part == "":
		return wrong("new "+about+": no place given", "new front "+about, "")
	case known:
		return w.add(logbook.Replaced, place, part)
	}
	return wrong("new is followed by what went on, not by "+quoted(about), "new front pads", "")
}

// fittedAs is the part of a kind that is on the car at the place named, and that
// place; none where it is not named, or the car has none.
func (w *words) fittedAs(about string) (id, place string, known bool) {
	for _, k := range profiles.Kinds() {
		named := slices.ContainsFunc([]string{string(k.Kind), k.Plural}, func(name string) bool {
			return strings.TrimSuffix(name, "s") == strings.TrimSuffix(about, "s")
		}) || k.Kind == profiles.Bearing && strings.TrimSuffix(about, "s") == "hub"
		if !named || len(k.Sets) == 0 {
			continue
		}
		place = w.place
		if all := k.Places(); place == "" && len(all) == 1 {
			place = all[0]
		}
		at := []string{place}
		if pair, ok := logbook.Axles[place]; ok {
			at = pair
		}
		if part, on := w.Folder.On(k.Kind, at[0]); on != nil {
			id = part.ID
		}
		return id, place, true
	}
	return "", "", false
}

// trunk is the row of what went into the trunk or is not in there.
func trunk(word string) logbook.What {
	what, _ := logbook.WordOf(word)
	if what == logbook.Packed || what == logbook.Unpacked {
		return what
	}
	return ""
}

// inTrunk takes words for a spare of a part of the car, or for a part's id.
func (w *words) inTrunk(what logbook.What, about string) error {
	id, _, known := w.fittedAs(about)
	if _, has := w.Folder.Parts[about]; has {
		id = about
	}
	if id == "" {
		if !known {
			about = "pads"
		}
		return wrong(string(what)+" is followed by the part", string(what)+" front "+about+", or a part's id", "tripwear parts has the ids")
	}
	w.place = ""
	return w.add(what, "", id)
}
