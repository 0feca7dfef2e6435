package main

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"example.com/tripwear/cmd/tripwear/terminal"
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
and an unlikely answer is right with a ! after it. It ends with the answer
whether the next session is on, and whether the car gets home. With --date the
figures of a printed card are typed in later.`,
		Example: "  tripwear log walk\n  tripwear log walk --date 2027-05-16",
		Args:    noArguments("log walk", "tripwear log walk --help shows its use"),
		RunE:    env.reads(func(s *session, _ []string) error { return runWalk(s, o) }),
	}
	cmd.Flags().StringVar(&o.date, "date", "", "the day, 2027-04-18; today unless given")
	return cmd
}

// walk is a walk in progress.
type walk struct {
	*session
	lines   *bufio.Scanner
	asked   []standing.Question
	answers []answered // in the order given
}

// answered is a question that was answered, by rows of these numbers.
type answered struct {
	question int
	rows     []int
}

func runWalk(s *session, o shortOptions) error {
	folder, err := s.load()
	if err != nil {
		return err
	}
	if o.date != "" {
		day, err := s.dayOf(o.date)
		if err != nil {
			return err
		}
		now := s.now
		s.now = func() time.Time { return day.Add(now().Sub(now().Truncate(24 * time.Hour))) }
	}
	outing, options, err := s.outing(folder, "", false)
	if err != nil {
		return err
	}
	options.Draws = fewDraws
	p, err := outing.Plan(options)
	if err != nil {
		return terminal.AsMisuse("trip "+outing.Trip.ID+": ", err, cannotDrive)
	}
	w := walk{session: s, lines: bufio.NewScanner(s.stdin), asked: standing.Questions(p)}
	fmt.Fprintf(s.stdout, "%s, %s. Enter skips, ? explains, - takes back,\n. ends\n", p.Car, s.today().Format("Mon 2 Jan"))
	if err := w.round(); err != nil {
		return err
	}
	if folder, err = s.load(); err != nil {
		return err
	}
	fmt.Fprintln(s.stdout)
	return s.paddock(folder)
}

// round asks one question after another.
func (w *walk) round() error {
	for i := 0; i < len(w.asked); {
		q := w.asked[i]
		fmt.Fprint(w.stdout, w.prompt(q)+" ")
		if !w.lines.Scan() {
			fmt.Fprintln(w.stdout)
			return w.lines.Err()
		}
		switch line := strings.TrimSpace(w.lines.Text()); line {
		case "":
			i++
		case ".":
			return nil
		case "?":
			fmt.Fprintln(w.stdout, explain(q))
		case "-":
			n := len(w.answers) - 1
			if n < 0 {
				fmt.Fprintln(w.stdout, "  nothing to take back")
				continue
			}
			back := w.answers[n]
			if err := w.take(func(f *profiles.Folder) ([]logbook.Entry, error) { return takeBack(f, back.rows, w.today(), "") }, false, nil); err != nil {
				return err
			}
			w.answers, i = w.answers[:n], back.question
		default:
			text, sure := strings.CutSuffix(line, "!")
			rows, err := w.write(q, text, sure)
			if err != nil {
				var known profiles.Errors
				if !errors.As(err, &known) && !terminal.IsMisuse(err) {
					return err
				}
				fmt.Fprintln(w.stdout, "  "+strings.ReplaceAll(err.Error(), "\n", "\n  "))
				if len(known) > 0 && strings.Contains(known[len(known)-1].Hint, "--confirm") {
					fmt.Fprintln(w.stdout, "  if it is right, write it with a ! after it")
				}
				continue
			}
			w.answers = append(w.answers, answered{i, rows})
			i++
		}
	}
	return nil
}

// prompt is a question with what to expect.
func (w *walk) prompt(q standing.Question) string {
	at := strings.TrimSpace(q.Place + " " + string(q.What) + " " + q.Zone)
	if q.Place == "engine" || q.Place == "system" {
		at = string(q.What)
	}
	if q.Measure == "" {
		return at + ", " + choices(q) + "?"
	}
	level := q.Measure.Info().Level[w.system]
	return fmt.Sprintf("%s, expect %s, act %s, stop %s?", at, level.Text(q.Expect), level.Number(q.Act), level.Number(q.Stop))
}

// choices are the words that a question is answered with.
func choices(q standing.Question) string {
	var out []string
	for _, word := range q.Words {
		out = append(out, string(word))
	}
	return strings.Join(out, "/")
}

// explain says how a question is answered.
func explain(q standing.Question) string {
	switch {
	case q.Zone != "":
		return "  the depth of that groove at its shallowest, or all three: inside, middle,\n  outside; below the first figure do what the plan says, at the last park it"
	case q.Measure != "":
		return "  the thinnest end, in the unit you read; at the last figure park it"
	case len(q.Forbids) > 0:
		return fmt.Sprintf("  by %s, a word or its first letters; park it at: %s", q.By, q.Forbids[0])
	}
	return "  a word or its first letters"
}

// write adds what a line says about a question, or in full about anything else.
func (w *walk) write(q standing.Question, line string, sure bool) (rows []int, err error) {
	text := line
	if q.Measure == "" {
		begin := slices.DeleteFunc(slices.Clone(q.Words), func(word logbook.Finding) bool { return !strings.HasPrefix(string(word), strings.ToLower(line)) })
		switch {
		case len(begin) > 0 && (len(begin) == 1 || line == string(begin[0])):
			text = string(q.What) + " " + q.Place + " " + string(begin[0])
		case len(strings.Fields(line)) == 1:
			return nil, profiles.Errors{{What: terminal.Quoted(line) + " is none of them", Expected: choices(q)}}
		}
	} else if line[0] >= '0' && line[0] <= '9' {
		zone := q.Zone
		if len(strings.Fields(line)) > 2 {
			zone = ""
		}
		if strings.Trim(line, "0123456789., ") == "" { // in the unit of the question
			line += strings.TrimSuffix(strings.TrimLeft(q.Measure.Info().Level[w.system].Text(q.Expect), "0123456789."), " in")
		}
		text = strings.Join(strings.Fields(q.Place+" "+string(q.What)+" "+zone+" "+line), " ")
	}
	err = w.take(func(folder *profiles.Folder) ([]logbook.Entry, error) {
		return w.shortRows(folder, text, w.today(), w.wants(folder))
	}, sure, func(n int) { rows = append(rows, n) })
	return rows, err
}

// take adds rows and says them back; each tells of their numbers.
func (w *walk) take(rows func(*profiles.Folder) ([]logbook.Entry, error), sure bool, each func(int)) error {
	return w.addRows(sure, rows, func(out io.Writer, added, _ []logbook.Entry, _ report.View) error {
		for _, e := range added {
			if each != nil {
				each(e.Number)
			}
		}
		_, err := fmt.Fprintln(out, "  "+short.Say(added))
		return err
	})
}
