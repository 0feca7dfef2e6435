package profiles

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/parts"
	"example.com/tripwear/profiles/quantity"
)

// newestDay is the last day that the car folder knows anything of.
func (f *Folder) newestDay() time.Time {
	var days []time.Time
	for _, fit := range f.AsWritten().Fitted {
		days = append(days, fit.Since.Date)
	}
	for _, e := range f.Log {
		days = append(days, e.Date)
	}
	for _, r := range f.OilReports {
		days = append(days, r.Sampled)
	}
	return slices.MaxFunc(append(days, time.Time{}), time.Time.Compare)
}

// below questions a row of today, or newer than all that is known, at an
// odometer that the car was past when car.yaml was written.
func (h *History) below(e logbook.Entry, newest, today time.Time) []string {
	if e.Odometer >= h.start.Written || e.Date.Before(today) && !e.Date.After(newest) {
		return nil
	}
	return []string{fmt.Sprintf("the odometer %s of %s is below the %s of car.yaml%s",
		e.Mark, e.Date.Format(time.DateOnly), miles(h.start.Written), h.slip(e))}
}

// placed questions a reading that does not go with the part at its place: since
// when it is on, or what car.yaml reads of it later.
func (h *History) placed(e logbook.Entry) []string {
	kind, reading, ok := parts.ReadingOf(e.What)
	if !ok || e.Place == "" || e.Part != "" {
		return nil
	}
	id, day, since, logged := h.newest(kind.Kind, e.Place)
	if id == "" {
		return nil
	}
	on := fmt.Sprintf("%s went on at %s", id, miles(since))
	if !day.IsZero() {
		on += " on " + day.Format(time.DateOnly)
	}
	switch before := !day.IsZero() && e.Date.Before(day); {
	case e.Odometer < since && before && logged:
		return nil // of the part before
	case e.Odometer < since:
		return []string{fmt.Sprintf("%s at %s is from before the part there: %s%s", e.Subject(), e.Mark, on, h.slip(e))}
	case before:
		return []string{fmt.Sprintf("%s of %s is from before the part there: %s, and this row is at %s", e.Subject(), e.Date.Format(time.DateOnly), on, e.Mark)}
	}
	if fit := h.fit(kind.Kind, e.Place); !logged && fit != nil && reading.Key != "" && e.Odometer < h.start.Written && fit.Has(e) {
		return []string{fmt.Sprintf("%s at %s would not be used: car.yaml has its own of %s", e.Subject(), e.Mark, miles(h.start.Written))}
	}
	return nil
}

// newest is the last part that went on at a place, and whether the logbook says
// so.
func (h *History) newest(k Kind, at string) (id string, day time.Time, since quantity.Length, logged bool) {
	if fit := h.fit(k, at); fit != nil {
		id, day, since = fit.Part, fit.Since.Date, fit.Since.Odometer
	}
	rows := h.by["new "+string(k)+" "+at]
	if len(rows) == 0 || h.rows[rows[len(rows)-1]].Odometer <= since {
		return id, day, since, false
	}
	last := h.rows[rows[len(rows)-1]]
	if last.Text != "" {
		id = last.Text
	}
	return id, last.Date, last.Odometer, true
}

// slip names the likely slip behind an odometer: the other unit, where the
// figure in it lies near what is known.
func (h *History) slip(e logbook.Entry) string {
	i := strings.LastIndexAny(e.Mark, "0123456789") + 1
	unit := strings.TrimSpace(e.Mark[i:])
	other, shown := "mi", quantity.Distance[quantity.US]
	if unit == "mi" {
		other, shown = "km", quantity.Distance[quantity.Metric]
	}
	meant, err := quantity.Parse[quantity.Length](e.Mark[:i] + " " + other)
	if err != nil || unit == other || meant < h.start.Written || meant > h.furthest+farOff {
		return ""
	}
	return fmt.Sprintf("; %s is %s: %s for %s?", e.Mark, shown.Text(float64(e.Odometer)), unit, other)
}

func miles(v quantity.Length) string { return quantity.Distance[quantity.US].Text(float64(v)) }
