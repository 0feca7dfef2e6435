package main

import (
	"fmt"
	"io"

	"example.com/tripwear/planner/entries"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/report"
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
		rows, err := entries.Rows(folder, text, day, s.system, s.roughly(folder))
		if err != nil {
			return nil, err
		}
		return rows, s.byClock(folder, rows, o.date == "", o.confirm)
	}, func(w io.Writer, rows, _ []logbook.Entry, _ report.View) error {
		_, err := fmt.Fprintln(w, "added "+short.Say(rows))
		return err
	})
}

// fewDraws are enough where only what is expected counts.
const fewDraws = 200

// roughly is the plan of the trip with few draws, made once it is asked; nil where
// the folder has none to plan.
func (s *session) roughly(folder *profiles.Folder) func() *plan.Plan {
	return func() *plan.Plan {
		outing, options, err := s.outing(folder, "", false)
		if err != nil {
			return nil
		}
		options.Draws = fewDraws
		p, err := outing.Plan(options)
		if err != nil {
			return nil
		}
		return p
	}
}
