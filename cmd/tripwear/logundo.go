package main

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"example.com/tripwear/cmd/tripwear/terminal"
	"example.com/tripwear/planner/entries"
	"example.com/tripwear/planner/report"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/quantity"
)

const numbered = "tripwear log show numbers the rows"

func newLogUndoCommand(env environment) *cobra.Command {
	var date, note string
	cmd := &cobra.Command{
		Use:   "undo [N ...]",
		Short: "Take rows of the logbook back",
		Long: `Take rows back by their numbers, or the last one that plays a part. The file
keeps them: each is taken back by a row of its own, and so can that one be. A
row taken back counts nowhere.`,
		Example: "  tripwear log undo\n  tripwear log undo 12 13",
		RunE: env.reads(func(s *session, args []string) error {
			numbers, err := rowNumbers(args)
			if err != nil {
				return err
			}
			day, err := s.dayOf(date)
			if err != nil {
				return err
			}
			return s.addRows(false, func(folder *profiles.Folder) ([]logbook.Entry, error) {
				return entries.TakeBack(folder, numbers, day, note)
			}, report.Added)
		}),
	}
	cmd.Flags().StringVar(&date, "date", "", "the day they are taken back; today unless given")
	cmd.Flags().StringVar(&note, "note", "", "why, in words")
	return cmd
}

func rowNumbers(args []string) ([]int, error) {
	var out []int
	for _, a := range args {
		n, err := strconv.Atoi(a)
		switch {
		case err != nil || n < 1:
			return nil, terminal.Misuse(terminal.Quoted(a)+" is not the number of a row", numbered+", from 1")
		case slices.Contains(out, n):
			return nil, terminal.Misuse(fmt.Sprintf("row %d is named twice", n), "name each row once")
		}
		out = append(out, n)
	}
	return out, nil
}

// dayOf is the day of --date, or today.
func (s *session) dayOf(date string) (time.Time, error) {
	if date == "" {
		return time.Parse(time.DateOnly, s.today().Format(time.DateOnly))
	}
	return dayOf("--date", date)
}

// dayOf is the day that a flag gives.
func dayOf(flag, date string) (time.Time, error) {
	day, err := quantity.ParseDay(date)
	if err != nil {
		return day, profiles.Errors{{What: flag + ": " + err.What, Expected: err.Expected}}
	}
	return day, nil
}

func newLogCorrectCommand(env environment) *cobra.Command {
	var o logAddOptions
	cmd := &cobra.Command{
		Use:   "correct N [WHAT VALUE]",
		Short: "Put a row of the logbook right",
		Long: `Take a row back by its number and add it as it should be, both at once. What is
not given stays: WHAT and VALUE, place, zone, day, odometer, note. Without
anything else, --confirm says that the row is right as it is.`,
		Example: `  tripwear log correct 12 pad 5.9 mm
  tripwear log correct 12 --odometer "143300 mi"`,
		RunE: env.reads(func(s *session, args []string) error { return runLogCorrect(s, o, args) }),
	}
	o.flags(cmd, "the day, 2027-04-18")
	return cmd
}

func runLogCorrect(s *session, o logAddOptions, args []string) error {
	if len(args) == 0 {
		return terminal.Misuse("log correct takes the number of a row", "tripwear log correct 12 pad 5.9 mm; "+numbered)
	}
	numbers, err := rowNumbers(args[:1])
	if err != nil {
		return err
	}
	today, err := s.dayOf("")
	if err != nil {
		return err
	}
	return s.addRows(o.confirm, func(folder *profiles.Folder) ([]logbook.Entry, error) {
		rows, err := entries.TakeBack(folder, numbers, today, "")
		if err != nil {
			return nil, err
		}
		right, err := corrected(folder.Rows()[numbers[0]-1], o, strings.Join(args[1:], " "))
		if err != nil {
			return nil, err
		}
		return append(rows, right), nil
	}, report.Added)
}

// corrected is a row with what is given in place of what it had.
func corrected(old logbook.Entry, o logAddOptions, text string) (logbook.Entry, error) {
	if old.What == logbook.TakenBack {
		return old, terminal.Misuse(fmt.Sprintf("row %d takes back row %d: there is nothing in it to correct", old.Number, old.Target()), fmt.Sprintf("tripwear log undo %d brings that one back", old.Number))
	}
	row := old.Row()
	delete(row, "confirmed")
	if text != "" {
		what, value := logbook.SplitWhat(text)
		row["what"], row["value"] = what, value
		if w, _ := logbook.WordOf(what); w != old.What { // what is not of it falls away
			if !slices.Contains(logbook.Places(w), old.Place) {
				row["place"] = ""
			}
			if !logbook.Zoned(w) {
				row["zone"] = ""
			}
		}
	}
	place := o.at
	if o.of != "" {
		place = o.place(cmp.Or(o.at, old.Place))
	}
	for field, given := range map[string]string{"date": o.date, "odometer": o.odometer, "place": place, "zone": o.zone, "note": o.note} {
		if given != "" {
			row[field] = given
		}
	}
	right, faults := logbook.Parse(row)
	var errs profiles.Errors
	for _, f := range faults {
		errs = append(errs, inRow(f))
	}
	if len(errs) > 0 {
		return right, errs
	}
	right.Confirmed = o.confirm
	if right.Facts() == old.Facts() && right.Note == old.Note && right.Confirmed == old.Confirmed {
		return right, terminal.Misuse(fmt.Sprintf("row %d says that already: %s", old.Number, old), "give what is to be different")
	}
	return right, nil
}
