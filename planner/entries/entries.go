// Package entries turns a few words into rows of the logbook: what they mean by
// the car and its plan, and at which odometer.
package entries

import (
	"fmt"
	"time"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/standing"
	"example.com/tripwear/planner/trip"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/quantity"
	"example.com/tripwear/profiles/short"
)

// Rows is the rows that a few words stand for on a day. made is the plan whose
// wanted readings tell where two things fit; nil where there is none.
func Rows(folder *profiles.Folder, text string, day time.Time, units quantity.System, made func() *plan.Plan) ([]logbook.Entry, error) {
	entry, err := short.Read(text, short.Known{Folder: folder, Wants: func() []short.Want { return wants(made()) }, Units: units})
	if err != nil {
		return nil, err
	}
	at := float64(folder.Car.Odometer)
	if entry.Done {
		row, to, err := done(folder, entry.Sessions, day)
		if err != nil {
			return nil, err
		}
		entry.Rows, at = []logbook.Row{row}, max(at, to)
	}
	var out []logbook.Entry
	var errs profiles.Errors
	for _, row := range entry.Rows {
		row["date"], row["odometer"] = day.Format(time.DateOnly), short.Odometer(folder, at, entry.Odometer, units)
		e, faults := logbook.Parse(row)
		for _, f := range faults {
			errs = append(errs, &profiles.Error{What: f.What, Expected: f.Expected, Hint: f.Hint})
		}
		out = append(out, e)
	}
	if len(errs) > 0 {
		return nil, errs
	}
	return out, nil
}

// done says that the leg that is due is driven, or so many of its sessions,
// and at which odometer that is by the plan's miles.
func done(folder *profiles.Folder, sessions int, day time.Time) (logbook.Row, float64, error) {
	due, err := trip.NextDue(trip.NewMachine(folder), folder, day)
	switch {
	case err != nil:
		return nil, 0, err
	case due == nil:
		return nil, 0, wrong("done: no trip is under way, and not one alone leaves about "+day.Format(time.DateOnly), "say which: tripwear log add trip driven spring 1; or give the day with --date")
	case sessions == 0 || sessions == due.Sessions:
		return logbook.Row{"what": string(logbook.Trip), "value": fmt.Sprintf("%s %d", due.Trip, due.Leg), "note": due.Name}, due.From + due.Meters, nil
	case due.Sessions == 0:
		return nil, 0, wrong(fmt.Sprintf("done %d: %s has no sessions", sessions, due.Name), "done alone says that it is driven")
	case sessions > due.Sessions:
		return nil, 0, wrong(fmt.Sprintf("done %d: %s has %d sessions", sessions, due.Name, due.Sessions), "done alone is the whole leg")
	}
	share := float64(sessions) / float64(due.Sessions)
	return logbook.Row{"what": string(logbook.Odometer), "note": fmt.Sprintf("%d of %d sessions of %s", sessions, due.Sessions, due.Name)}, due.From + float64(share*due.Meters), nil
}

func wrong(what, hint string) error { return profiles.Errors{{What: what, Hint: hint}} }

// wants is what a plan wants read, with the levels that it expects.
func wants(p *plan.Plan) []short.Want {
	var out []short.Want
	if p == nil {
		return nil
	}
	for _, q := range standing.Questions(p) {
		if q.Measure != "" {
			out = append(out, short.Want{What: q.What, Place: q.Place, Zone: q.Zone, Level: q.Expect})
		}
	}
	return out
}
