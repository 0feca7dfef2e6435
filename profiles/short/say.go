package short

import (
	"fmt"
	"slices"
	"strings"

	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/nearest"
	"example.com/tripwear/profiles/quantity"
)

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
		place, zone := e.Where(), e.Zone
		if len(logbook.Places(e.What)) == 1 {
			place = ""
		}
		same := func(k int) bool {
			return e.Zone != "" && k >= 0 && k < len(rows) && rows[k].What == e.What && rows[k].Where() == e.Where()
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
