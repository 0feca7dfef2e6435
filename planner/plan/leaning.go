package plan

// Leaning is an assumption at one of its ends, and what that turns or moves.
type Leaning struct {
	What   string   `json:"what"`
	Usual  []string `json:"usual"`  // values as written
	Times  float64  `json:"times"`  // of them at its own 10 or 90 %
	Turned int      `json:"turned"` // decisions
	Set    string   `json:"set"`    // of those that turn, or of all, the one that moves most
	Name   string   `json:"name"`
	End    string   `json:"end"` // in a verb
	Action Action   `json:"action"`
	Turns  Action   `json:"turns"` // "" where none turns
	From   float64  `json:"from"`  // chance of its limit as it is
	To     float64  `json:"to"`
}
