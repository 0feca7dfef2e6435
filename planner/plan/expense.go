package plan

import "example.com/tripwear/profiles/quantity"

// The kinds of expense.
const (
	ForFuel   = "fuel"
	ForFees   = "fees"
	ForNights = "nights"
	ForParts  = "parts to buy"
	ForLabor  = "labor"
	ForVisits = "shop visits"
)

// ExpenseKinds are the kinds of expense in the order of the budget.
var ExpenseKinds = []string{ForFuel, ForFees, ForNights, ForParts, ForLabor, ForVisits}

// Expense is one line of the budget, in the owner's currency.
type Expense struct {
	Kind   string  `json:"kind"`
	What   string  `json:"what"`
	Amount float64 `json:"amount"` // not a number where it is unknown
	Leg    int     `json:"leg"`    // where it is paid; -1 at home or on the whole way
}

// Spend is what the expenses of one kind add up to, or of all where kind is "",
// as far as they are known.
func (p *Plan) Spend(kind string) float64 {
	sum := 0.0
	for _, e := range p.Budget {
		if (kind == "" || e.Kind == kind) && quantity.Known(e.Amount) {
			sum += e.Amount
		}
	}
	return sum
}

// Unpriced counts the expenses that are not known.
func (p *Plan) Unpriced() int {
	n := 0
	for _, e := range p.Budget {
		if !quantity.Known(e.Amount) {
			n++
		}
	}
	return n
}
