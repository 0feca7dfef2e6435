package main

import (
	"fmt"
	"io"
	"time"

	"github.com/spf13/cobra"

	"example.com/tripwear/cmd/tripwear/round"
	"example.com/tripwear/cmd/tripwear/terminal"
	"example.com/tripwear/planner/entries"
	"example.com/tripwear/planner/report"
	"example.com/tripwear/planner/standing"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/short"
)

func newLogWalkCommand(env environment) *cobra.Command {
	var o shortOptions
	cmd := &cobra.Command{
		Use:   "walk",
		Short: "A walk round the car: asks for what the plan wants read now",
		Long: `Ask for what the plan of the trip wants read now, wheel by wheel in walking
order, with the figure to expect and where to act and to stop. Each answer is
written down at once, as log would have it. Enter skips, ? explains, - takes the
last answer back, a full stop ends the walk; what cannot be read is asked again,
and an unlikely answer is right with a ! after it. Last comes what the answers
made the plan want, such as the other wheel. It ends with the answer
whether the next session is on, and whether the car gets home. With --date the
figures of a printed card are typed in later.`,
		Example: "  tripwear log walk\n  tripwear log walk --date 2027-05-16",
		Args:    noArguments("log walk", "tripwear log walk --help shows its use"),
		RunE:    env.reads(func(s *session, _ []string) error { return runWalk(s, o) }),
	}
	cmd.Flags().StringVar(&o.date, "date", "", "the day, 2027-04-18; today unless given")
	return cmd
}

func runWalk(s *session, o shortOptions) error {
	if o.date != "" {
		day, err := s.dayOf(o.date)
		if err != nil {
			return err
		}
		now := s.now
		s.now = func() time.Time { return day.Add(now().Sub(now().Truncate(24 * time.Hour))) }
	}
	first := true
	wanted := func() ([]standing.Question, error) {
		folder, err := s.load()
		if err != nil {
			return nil, err
		}
		outing, options, err := s.outing(folder, "", false)
		if err != nil {
			return nil, err
		}
		options.Draws = fewDraws
		p, err := outing.Plan(options)
		if err != nil {
			return nil, terminal.AsMisuse("trip "+outing.Trip.ID+": ", err, cannotDrive)
		}
		if first {
			s.waiting.Stop() // it is the owner who is waited for now
			fmt.Fprintf(terminal.Fold(s.stdout, terminal.Width()), "%s, %s\nEnter skips, ? explains, - takes back,\n. ends\n", p.Car, s.today().Format("Mon 2 Jan"))
		}
		first = false
		return standing.Questions(p), nil
	}
	if err := round.Walk(s.stdin, s.stdout, wanted, s.system, book{s}); err != nil {
		return err
	}
	folder, err := s.load()
	if err != nil {
		return err
	}
	fmt.Fprintln(s.stdout)
	return s.paddock(folder)
}

// book is the session's logbook to a walk.
type book struct{ *session }

// Write adds what a few words say.
func (b book) Write(words string, sure bool) (rows []int, err error) {
	err = b.take(func(folder *profiles.Folder) ([]logbook.Entry, error) {
		return entries.Rows(folder, words, b.today(), b.system, b.roughly(folder))
	}, sure, func(n int) { rows = append(rows, n) })
	return rows, err
}

// TakeBack takes rows back.
func (b book) TakeBack(rows []int) error {
	return b.take(func(f *profiles.Folder) ([]logbook.Entry, error) { return entries.TakeBack(f, rows, b.today(), "") }, false, func(int) {})
}

// take adds rows and says them back; each tells of their numbers.
func (b book) take(rows func(*profiles.Folder) ([]logbook.Entry, error), sure bool, each func(int)) error {
	return b.addRows(sure, rows, func(out io.Writer, added, _ []logbook.Entry, _ report.View) error {
		for _, e := range added {
			each(e.Number)
		}
		_, err := fmt.Fprintln(out, "  "+short.Say(added))
		return err
	})
}
