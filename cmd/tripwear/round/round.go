// Package round asks the questions of a walk round the car, line by line over
// any terminal.
package round

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"example.com/tripwear/cmd/tripwear/terminal"
	"example.com/tripwear/planner/standing"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/quantity"
)

// Book is where the answers are written down, each at once; what was written is
// said by it, and known by the numbers of its rows.
type Book interface {
	Write(words string, sure bool) (rows []int, err error)
	TakeBack(rows []int) error
}

// walk is a walk in progress.
type walk struct {
	stdout  io.Writer
	system  quantity.System
	book    Book
	lines   *bufio.Scanner
	asked   []standing.Question
	answers []answered // in the order given
	ended   bool       // by its owner
}

// answered is a question that was answered, by rows of these numbers.
type answered struct {
	question int
	rows     []int
}

// Walk asks one question after another, until the lines end: those that are wanted,
// and once they are through what the answers made wanted.
func Walk(in io.Reader, out io.Writer, wanted func() ([]standing.Question, error), units quantity.System, book Book) error {
	w := walk{stdout: terminal.Fold(out, terminal.Width()), system: units, book: book, lines: bufio.NewScanner(in)}
	for !w.ended {
		now, err := wanted()
		if err != nil {
			return err
		}
		from := len(w.asked)
		for _, q := range now {
			if !slices.ContainsFunc(w.asked, q.Same) {
				w.asked = append(w.asked, q)
			}
		}
		if len(w.asked) == from || from > 0 && len(w.answers) == 0 {
			return nil
		}
		if err := w.round(from); err != nil {
			return err
		}
	}
	return nil
}

// round asks one question after another.
func (w *walk) round(from int) error {
	for i := from; i < len(w.asked); {
		q := w.asked[i]
		fmt.Fprint(w.stdout, w.prompt(q)+" ")
		if !w.lines.Scan() {
			fmt.Fprintln(w.stdout)
			w.ended = true
			return w.lines.Err()
		}
		switch line := strings.TrimSpace(w.lines.Text()); line {
		case "":
			i++
		case ".":
			w.ended = true
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
			if err := w.book.TakeBack(back.rows); err != nil {
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
	return w.book.Write(text, sure)
}
