package report

import (
	"io"

	"example.com/tripwear/planner/page"
)

// View is how a result is printed: its units and the columns of the terminal.
type View = page.View

// printer writes the results of this room.
type printer struct{ page.Page }

func newPrinter(w io.Writer, v View) printer { return printer{page.New(w, v)} }
