package workbook

import (
	"io"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles/durable"
	"example.com/tripwear/profiles/quantity"
)

// Save writes the plan to path, whole or not at all: its error is a
// *durable.Error, and the file that was there before is then as it was.
func Save(path string, p *plan.Plan, units quantity.System) error {
	return durable.Replace(path, func(w io.Writer) error { return Write(w, p, units) })
}
