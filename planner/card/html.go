package card

import (
	_ "embed"
	"html/template"
	"io"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles/quantity"
)

//go:embed card.html
var form string

var page = template.Must(template.New("card").Parse(form))

// HTML writes a plan's card as a page that needs nothing else.
func HTML(w io.Writer, p *plan.Plan, u quantity.System) error { return page.Execute(w, Of(p, u)) }

// Wheel is how the wheels of a side are drawn: solid where the circuit that is
// drawn loads them.
func (c *Card) Wheel(side string) string {
	if c.Lap != nil && c.Lap.Side == side {
		return "wf"
	}
	return "wo"
}
