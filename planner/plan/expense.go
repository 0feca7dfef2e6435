package plan

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
	Amount float64 `json:"amount"`
}

// Spend is what the expenses of one kind add up to, or of all where kind is "".
func (p *Plan) Spend(kind string) float64 {
	sum := 0.0
	for _, e := range p.Budget {
		if kind == "" || e.Kind == kind {
			sum += e.Amount
		}
	}
	return sum
}
