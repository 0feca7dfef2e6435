package terminal

import (
	"os"
	"strconv"

	"golang.org/x/term"
)

// widest is how many columns text is set in at most: longer lines are hard to read.
const widest = 120

// Width is how many columns standard output has: what COLUMNS says, or the
// terminal; 0 where neither does.
func Width() int { return width(os.Stdout) }

func width(of *os.File) int {
	if n, err := strconv.Atoi(os.Getenv("COLUMNS")); err == nil && n > 0 {
		return min(n, widest)
	}
	n, _, err := term.GetSize(int(of.Fd()))
	if err != nil {
		return 0
	}
	return min(n, widest)
}
