package profiles

import "example.com/tripwear/profiles/logbook"

// Effect is what a row of the logbook did.
type Effect string

// The effects. No row is dropped in silence: it counts, or it is named with
// the reason why it does not.
const (
	Counts    Effect = "counts"
	Doubted   Effect = "doubted"
	TakenBack Effect = "taken back"
	NotUsed   Effect = "not used"
	Noted     Effect = "a note" // in words of its own
)

// Evidence is a row of the logbook and what it did.
type Evidence struct {
	logbook.Entry
	Effect Effect `json:"effect"`
	Why    string `json:"why"`
}
