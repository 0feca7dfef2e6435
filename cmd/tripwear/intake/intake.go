// Package intake reads rows for the logbook from other files: a CSV file, or the
// filled-in form of a workbook.
package intake

import (
	"errors"
	"fmt"
	"os"
	"time"

	"example.com/tripwear/cmd/tripwear/terminal"
	"example.com/tripwear/planner/workbook/form"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/durable"
	"example.com/tripwear/profiles/logbook"
)

// CSV reads another file's rows.
func CSV(path string) ([]logbook.Entry, error) {
	const hint = "name a CSV file that can be read"
	if info, err := os.Stat(path); err == nil && !info.Mode().IsRegular() { // a pipe would keep the command waiting
		return nil, terminal.Misuse(path+": not an ordinary file", hint)
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, terminal.AtFile(path, err, hint)
	}
	defer f.Close()
	log, faults := logbook.Read(f)
	var errs profiles.Errors
	for _, fault := range faults {
		errs = append(errs, &profiles.Error{Position: profiles.Position{File: path, Line: fault.Line, Column: fault.Column}, What: fault.What, Expected: fault.Expected, Hint: fault.Hint})
	}
	if log.Torn != "" {
		errs = append(errs, &profiles.Error{Position: profiles.Position{File: path}, What: "the last row is not whole: " + log.Torn, Expected: "a whole row", Hint: "complete it, and end it with a line break"})
	}
	if len(errs) > 0 {
		return nil, errs
	}
	live, _ := logbook.Live(log.Entries)
	return live, nil
}

// Workbook reads the filled-in form of a workbook, and adds the legs that its
// pages say were driven; warnings says what it could not add.
func Workbook(folder *profiles.Folder, path string) (rows []logbook.Entry, warnings []string, err error) {
	readings, err := form.Read(path)
	if err != nil {
		return nil, nil, inWorkbook(path, err)
	}
	var out []logbook.Entry
	var errs profiles.Errors
	blank := map[string]bool{} // pages without a date or an odometer, reported once
	read := func(r form.Reading, what, value string) logbook.Entry {
		row := logbook.Row{
			"odometer": r.Odometer, "what": what, "place": r.Place, "zone": r.Zone, "value": value, "note": r.Note,
		}
		if !r.Date.IsZero() {
			row["date"] = r.Date.Format(time.DateOnly)
		}
		e, faults := logbook.Parse(row)
		for _, f := range faults {
			where, hint := "cell "+r.Cell, f.Hint
			if f.Field == "date" || f.Field == "odometer" {
				where, hint = pageOf(r.Leg), "fill in the date and the odometer of each page that has readings"
				if blank[where+f.Field] {
					continue
				}
				blank[where+f.Field] = true
			}
			errs = append(errs, &profiles.Error{Position: profiles.Position{File: path}, What: where + ": " + f.What, Expected: f.Expected, Hint: hint})
		}
		return e
	}
	page := -1
	var upTo []logbook.Entry
	for _, r := range readings {
		if r.Leg != page {
			page = r.Leg
			if _, known := folder.Trips[r.Trip]; !known {
				warnings = append(warnings, fmt.Sprintf("trip %s of the workbook is not in trips/, so what was driven is not added: add a row trip driven yourself", r.Trip))
			} else if r.Leg > 0 {
				legs := fmt.Sprintf("%s 1-%d", r.Trip, r.Leg)
				upTo = append(upTo, read(form.Reading{Date: r.Date, Odometer: r.Odometer, Leg: r.Leg}, string(logbook.Trip), legs))
			}
		}
		out = append(out, read(r, r.What, r.Value))
	}
	if len(errs) > 0 {
		return nil, nil, errs
	}
	return append(folder.Driven(upTo), out...), warnings, nil
}

// pageOf names a page of the form.
func pageOf(leg int) string {
	if leg == 0 {
		return "the page before leaving"
	}
	return fmt.Sprintf("the page after leg %d", leg)
}

// inWorkbook turns the faults of a workbook into errors with their hints.
func inWorkbook(path string, err error) (errs profiles.Errors) {
	if many, ok := err.(interface{ Unwrap() []error }); ok {
		for _, e := range many.Unwrap() {
			errs = append(errs, inWorkbook(path, e)...)
		}
		return errs
	}
	hint := "name a workbook that plan -o wrote and that can be read"
	if fault := (*form.ReadError)(nil); errors.As(err, &fault) {
		hint = fault.Hint()
	}
	return profiles.Errors{{Position: profiles.Position{File: path}, What: durable.Reason(err), Hint: hint}}
}
