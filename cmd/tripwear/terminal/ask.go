package terminal

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"strings"

	"example.com/tripwear/planner/page"
)

// ErrNoAnswer is what a question comes to where the answers end before it.
var ErrNoAnswer = errors.New("the answers end before the last question")

// Ask asks until an answer is taken: an empty one is the usual one, and what is
// wrong is said and asked again.
func Ask(in *bufio.Scanner, out io.Writer, question, usual, help string, check func(string) (string, error)) (string, error) {
	out = Folded(out)
	for {
		fmt.Fprintf(out, "%s [%s]: ", question, usual)
		if !in.Scan() {
			fmt.Fprintln(out)
			return "", errors.Join(ErrNoAnswer, in.Err())
		}
		answer := strings.TrimSpace(in.Text())
		if answer == "" {
			answer = usual
		}
		got, err := check(answer)
		if err == nil {
			return got, nil
		}
		fmt.Fprintf(out, "  %s: %s\n", page.Plainly(err.Error()), help)
	}
}
