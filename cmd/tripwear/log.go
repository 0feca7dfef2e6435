package main

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"example.com/tripwear/cmd/tripwear/terminal"
	"example.com/tripwear/planner/report"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/nearest"
)

var logCommands = []string{"walk", "add", "correct", "undo", "show", "import"}

func newLogCommand(env environment) *cobra.Command {
	var o shortOptions
	cmd := &cobra.Command{
		Use:   "log [WORDS]",
		Short: "Measurements in and out: add, correct, undo, import, show",
		Long: `The logbook is logbook.csv in the car folder: dated rows of what was measured,
replaced, found and driven, which any spreadsheet opens. Rows are only ever
added, in their order: a mistake is put right by a row that takes another one
back, which undo and correct add. From it come the car's state, its odometer and what tripwear learn
learns; tripwear help log add lists what a row may be about.

A few WORDS are enough for most rows: what they mean is worked out from the
place, the size, the unit and what the plan wants read, and said back in one
line; where two things fit it is asked. The odometer is that of the last row,
or "at 144308" among the words. done says that the leg that is due is driven,
done 2 so many of its sessions.`,
		Example: `  tripwear log RF 5.8mm
  tripwear log RF 7 7 6.5
  tripwear log hub LR play
  tripwear log oil +0.3L at 144308
  tripwear log new front pads
  tripwear log done`,
		Args: cobra.ArbitraryArgs,
		RunE: func(cmd *cobra.Command, args []string) error {
			if len(args) == 0 {
				return cmd.Help()
			}
			if len(args) == 1 && nearest.Word(args[0], logCommands) != "" {
				return terminal.Misuse("unknown command "+terminal.Quoted(args[0])+" of log", "tripwear log "+nearest.OneOf(logCommands)+", or a few words such as RF 5.8mm")
			}
			return env.reads(func(s *session, args []string) error { return runShort(s, o, strings.Join(args, " ")) })(cmd, args)
		},
	}
	cmd.Flags().StringVar(&o.date, "date", "", "the day, 2027-04-18; today unless given")
	cmd.Flags().BoolVarP(&o.confirm, "confirm", "y", false, "an unlikely row is right")
	cmd.AddCommand(newLogWalkCommand(env), newLogAddCommand(env), newLogCorrectCommand(env), newLogUndoCommand(env), newLogShowCommand(env), newLogImportCommand(env))
	return cmd
}

type logAddOptions struct {
	sessions                           int
	wet                                bool
	date, odometer, at, of, zone, note string
	confirm                            bool
}

func newLogAddCommand(env environment) *cobra.Command {
	var o logAddOptions
	cmd := &cobra.Command{
		Use:   "add WHAT [VALUE]",
		Short: "Add a row to the logbook",
		Long: "Add a row to the logbook. WHAT is one of: " + strings.Join(logbook.Words(), ", ") + `.

Three values for a tread or a probe are its zones inside, middle and outside.
A row that does not go with what is known of the car (an odometer that goes
back or lies below car.yaml's, a tread that grows, a depth beyond new, a reading
from before the part at its place went on, or one that would not be used) is
refused unless --confirm says that it is right.`,
		Example: `  tripwear log add pad 5.9 mm --at RF --odometer "143900 mi"
  tripwear log add tread 3/32 in, 3.5/32 in, 4/32 in --at LR --odometer "143900 mi"
  tripwear log add pad 8.7 mm --at RF --of pads-track --odometer "143900 mi"
  tripwear log add trip driven spring --odometer "146100 mi" --date 2027-05-24
  tripwear log add replaced pads-front --at front --odometer "146110 mi"`,
		RunE: env.reads(func(s *session, args []string) error { return runLogAdd(s, o, strings.Join(args, " ")) }),
	}
	o.flags(cmd, "the day, 2027-04-18; today unless given")
	cmd.Flags().IntVar(&o.sessions, "sessions", 0, "of a trip driven: the sessions each circuit day had, without what red flags took")
	cmd.Flags().BoolVar(&o.wet, "wet", false, "of a trip driven: its circuit days were wet")
	return cmd
}

func (o *logAddOptions) flags(cmd *cobra.Command, day string) {
	flags := cmd.Flags()
	flags.StringVar(&o.date, "date", "", day)
	flags.StringVar(&o.odometer, "odometer", "", "the odometer with its unit, such as \"143900 mi\"")
	flags.StringVar(&o.at, "at", "", "the place: LF, RF, LR, RR; front, rear, engine, system and others for some")
	flags.StringVar(&o.of, "of", "", "the part that is read while it lies aside, such as pads-track")
	flags.StringVar(&o.zone, "zone", "", "of a tread: inside, middle or outside")
	flags.StringVar(&o.note, "note", "", "anything worth remembering")
	flags.BoolVarP(&o.confirm, "confirm", "y", false, "an unlikely row is right")
}

// place is where a row is about, with the part that lies aside for it.
func (o *logAddOptions) place(at string) string {
	if o.of == "" {
		return at
	}
	return at + " of " + o.of
}

func runLogAdd(s *session, o logAddOptions, text string) error {
	what, value := logbook.SplitWhat(text)
	if what == "" {
		return terminal.Misuse("log add takes what the row is about", "WHAT is "+strings.Join(logbook.Words(), ", "))
	}
	if o.odometer == "" {
		return terminal.Misuse("--odometer is missing", `add --odometer "143900 mi"`)
	}
	if w, _ := logbook.WordOf(what); w != logbook.Trip && (o.sessions != 0 || o.wet) {
		return terminal.Misuse("--sessions and --wet are of a trip driven", "tripwear log add trip driven spring 2 --sessions 3 --wet")
	}
	if o.sessions != 0 {
		value += fmt.Sprintf(" %d sessions", o.sessions)
	}
	if o.wet {
		value += " wet"
	}
	byClock := o.date == ""
	if byClock {
		o.date = s.today().Format(time.DateOnly)
	}
	row := logbook.Row{"date": o.date, "odometer": o.odometer, "what": what, "place": o.place(o.at), "zone": o.zone, "note": o.note}
	values := []string{value}
	zones := []string{o.zone}
	if three := strings.Split(value, ","); len(three) == 3 && o.zone == "" && (what == string(logbook.Tread) || what == string(logbook.Probe)) {
		values, zones = three, logbook.Zones
	}
	if n := strings.Count(value, ",") + 1; len(values) == 1 && n > 1 && strings.Contains(value, ", ") {
		return terminal.Misuse(fmt.Sprintf("VALUE: %d values in %s, expected one, or a tread's or a probe's three without --zone", n, terminal.Quoted(value)), "write a decimal point in a number, and three values as inside, middle, outside")
	}
	var entries []logbook.Entry
	var errs profiles.Errors
	for i := range values {
		row["value"], row["zone"] = values[i], zones[i]
		e, faults := logbook.Parse(row)
		for _, f := range faults {
			errs = append(errs, inRow(f))
		}
		entries = append(entries, e)
	}
	if len(errs) > 0 {
		return errs
	}
	return s.addRows(o.confirm, func(folder *profiles.Folder) ([]logbook.Entry, error) {
		return entries, s.byClock(folder, entries, byClock, o.confirm)
	}, report.Added)
}

// byClock questions rows of today where the logbook has later ones, unless their
// day was given; with confirm it marks them.
func (s *session) byClock(folder *profiles.Folder, entries []logbook.Entry, byClock, confirm bool) error {
	for _, e := range folder.Log {
		if !byClock || !e.Date.After(s.today()) {
			continue
		}
		if !confirm {
			return terminal.Misuse(fmt.Sprintf("today is %s by this computer's clock, and the logbook has a row of %s", s.today().Format(time.DateOnly), e.Date.Format(time.DateOnly)),
				"give the day with --date, or set the clock; --confirm if it is right; nothing was added")
		}
		for i := range entries {
			entries[i].Confirmed = true
		}
	}
	return nil
}

// inRow names the argument or the flag that a fault of a row is about.
func inRow(f logbook.Fault) *profiles.Error {
	name, ok := map[string]string{"what": "WHAT", "value": "VALUE", "place": "--at"}[f.Field]
	if !ok {
		name = "--" + f.Field
	}
	return &profiles.Error{What: name + ": " + strings.TrimPrefix(f.What, f.Field+": "), Expected: f.Expected, Hint: f.Hint}
}

// mostTries is how often rows are checked again because others came in between.
const mostTries = 100

// sayRows says which rows were added, and which of those before they take back.
type sayRows func(w io.Writer, rows, before []logbook.Entry, units report.View) error

// addRows gets rows by the car folder, checks them and adds them all, or none.
// Where another process adds rows meanwhile, it starts over, so that no row
// goes in twice and none unchecked.
func (s *session) addRows(confirm bool, rows func(*profiles.Folder) ([]logbook.Entry, error), say sayRows) error {
	for try := 1; ; try++ {
		folder, err := s.load()
		if err != nil {
			return err
		}
		entries, err := rows(folder)
		if err != nil {
			return err
		}
		if len(entries) > 0 {
			err = s.addChecked(folder, entries, confirm)
		}
		switch {
		case err == nil:
			return show(s, entries, func(w io.Writer, rows []logbook.Entry, v report.View) error {
				return say(w, rows, folder.Rows(), v)
			})
		case !errors.Is(err, logbook.ErrChanged):
			return err
		case try == mostTries:
			return terminal.Misuse("nothing was added: others add to the logbook all the time", "try again when they have ended")
		}
	}
}

// addChecked adds rows unless there is doubt about them, and numbers them.
func (s *session) addChecked(folder *profiles.Folder, entries []logbook.Entry, confirm bool) error {
	judged, err := folder.Judge(entries, s.today())
	if err != nil {
		return err
	}
	doubts := judged.Questions
	for _, e := range entries {
		if e.Date.After(s.today()) {
			doubts = append(doubts, fmt.Sprintf("the date %s is yet to come", e.Date.Format(time.DateOnly)))
			break
		}
	}
	if len(doubts) > 0 && !confirm {
		var odd profiles.Errors
		for _, d := range doubts {
			odd = append(odd, &profiles.Error{What: d})
		}
		odd[len(odd)-1].Hint = "if it is right, say so with --confirm; nothing was added"
		return odd
	}
	copy(entries, judged.Rows)
	return s.append(folder, entries)
}

// append puts rows into the logbook that the folder was read with.
func (s *session) append(folder *profiles.Folder, entries []logbook.Entry) error {
	defer s.stage("append")()
	notes, err := s.kept.Append(entries, folder.Rows())
	s.tell(notes)
	return err
}

type logShowOptions struct {
	what, at, since string
	last            int
}

func newLogShowCommand(env environment) *cobra.Command {
	var o logShowOptions
	cmd := &cobra.Command{
		Use:   "show",
		Short: "Print the logbook, or some of its rows",
		Long: `Print the logbook in the order driven: each row with its number, for undo and
correct, and what it did: counts; doubted or not used, with the reason; taken
back, with the row that does so.`,
		Example: "  tripwear log show --what pad --at RF --since 2027-01-01",
		Args:    noArguments("log show", "tripwear log show --help shows its use"),
		RunE:    env.reads(func(s *session, _ []string) error { return runLogShow(s, o) }),
	}
	cmd.Flags().StringVar(&o.what, "what", "", "rows about this only, such as pad")
	cmd.Flags().StringVar(&o.at, "at", "", "rows of this place only, such as RF")
	cmd.Flags().StringVar(&o.since, "since", "", "rows from this day on, 2027-01-01")
	cmd.Flags().IntVar(&o.last, "last", 0, "the last so many rows only")
	return cmd
}

func runLogShow(s *session, o logShowOptions) error {
	var since time.Time
	if o.since != "" {
		var err error
		if since, err = dayOf("--since", o.since); err != nil {
			return err
		}
	}
	what, known := logbook.WordOf(o.what)
	if o.what != "" && !known {
		return terminal.Misuse("--what "+terminal.Quoted(o.what)+" is not a word of the logbook", "one of "+strings.Join(logbook.Words(), ", ")+" or "+string(logbook.TakenBack))
	}
	at, places := "", logbook.Places(logbook.Replaced)
	if o.at != "" {
		if at = logbook.OneOf(places, o.at); at == "" {
			return terminal.Misuse("--at "+terminal.Quoted(o.at)+" is not a place", "one of "+strings.Join(places, ", "))
		}
	}
	if o.last < 0 {
		return terminal.Misuse(fmt.Sprintf("--last %d is negative", o.last), "write --last 10")
	}
	folder, err := s.load()
	if err != nil {
		return err
	}
	rows := slices.DeleteFunc(slices.Clone(folder.Evidence), func(e profiles.Evidence) bool {
		return e.Date.Before(since) || o.what != "" && e.What != what ||
			at != "" && e.Place != at && !slices.Contains(e.At(), at)
	})
	if o.last > 0 {
		rows = rows[max(0, len(rows)-o.last):]
	}
	return show(s, rows, report.Log)
}
