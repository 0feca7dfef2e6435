package main

import (
	"fmt"
	"io"
	"time"

	"example.com/tripwear/cmd/tripwear/terminal"
	"example.com/tripwear/planner/report"
	"example.com/tripwear/planner/standing"
	"example.com/tripwear/planner/trip"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/short"
)

type shortOptions struct {
	date    string
	confirm bool
}

// runShort adds what a few words stand for.
func runShort(s *session, o shortOptions, text string) error {
	day, err := s.dayOf(o.date)
	if err != nil {
		return err
	}
	return s.addRows(o.confirm, func(folder *profiles.Folder) ([]logbook.Entry, error) {
		entries, err := s.shortRows(folder, text, day, s.wants(folder))
		if err != nil {
			return nil, err
		}
		return entries, s.byClock(folder, entries, o.date == "", o.confirm)
	}, func(w io.Writer, rows, _ []logbook.Entry, _ report.View) error {
		_, err := fmt.Fprintln(w, "added "+short.Say(rows))
		return err
	})
}

// shortRows is the rows that a few words stand for on a day.
func (s *session) shortRows(folder *profiles.Folder, text string, day time.Time, wants func() []short.Want) ([]logbook.Entry, error) {
	entry, err := short.Read(text, short.Known{Folder: folder, Wants: wants, Units: s.system})
	if err != nil {
		return nil, err
	}
	at := float64(folder.Car.Odometer)
	if entry.Done {
		row, to, err := doneRow(folder, entry.Sessions, day)
		if err != nil {
			return nil, err
		}
		entry.Rows, at = []logbook.Row{row}, max(at, to)
	}
	var out []logbook.Entry
	var errs profiles.Errors
	for _, row := range entry.Rows {
		row["date"], row["odometer"] = day.Format(time.DateOnly), short.Odometer(folder, at, entry.Odometer, s.system)
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

// doneRow says that the leg that is due is driven, or so many of its sessions,
// and at which odometer that is by the plan's miles.
func doneRow(folder *profiles.Folder, sessions int, day time.Time) (logbook.Row, float64, error) {
	due, err := trip.NextDue(trip.NewMachine(folder), folder, day)
	switch {
	case err != nil:
		return nil, 0, terminal.AsMisuse("", err, cannotDrive)
	case due == nil:
		return nil, 0, terminal.Misuse("done: no trip is under way, and not one alone leaves about "+day.Format(time.DateOnly), "say which: tripwear log add trip driven spring 1; or give the day with --date")
	case sessions == 0 || sessions == due.Sessions:
		return logbook.Row{"what": string(logbook.Trip), "value": fmt.Sprintf("%s %d", due.Trip, due.Leg), "note": due.Name}, due.From + due.Meters, nil
	case sessions > due.Sessions:
		return nil, 0, terminal.Misuse(fmt.Sprintf("done %d: %s has %d sessions", sessions, due.Name, due.Sessions), "done alone is the whole leg")
	}
	share := float64(sessions) / float64(due.Sessions)
	return logbook.Row{"what": string(logbook.Odometer), "note": fmt.Sprintf("%d of %d sessions of %s", sessions, due.Sessions, due.Name)}, due.From + float64(share*due.Meters), nil
}

// fewDraws are enough where only what is expected counts.
const fewDraws = 200

// wants is what the plan wants read, worked out once it is asked; nothing where
// the folder has no trip to plan.
func (s *session) wants(folder *profiles.Folder) func() []short.Want {
	return func() []short.Want {
		outing, options, err := s.outing(folder, "", false)
		if err != nil {
			return nil
		}
		options.Draws = fewDraws
		p, err := outing.Plan(options)
		if err != nil {
			return nil
		}
		var out []short.Want
		for _, q := range standing.Questions(p) {
			if q.Measure != "" {
				out = append(out, short.Want{What: q.What, Place: q.Place, Zone: q.Zone, Level: q.Expect})
			}
		}
		return out
	}
}
