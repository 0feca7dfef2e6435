package plan

import (
	"fmt"
	"strings"
)

// What an owner does not know.
const (
	WorthReading = "reading" // how much of a set is left
	WorthAge     = "age"     // when it went on
	WorthRoom    = "room"    // that its spare takes
)

// Worth is what it is worth to know something before leaving: the expected saving
// over the plan that is made without it, in the owner's currency.
type Worth struct {
	Set    string  `json:"set"`
	Name   string  `json:"name"`
	Place  string  `json:"place"` // where a reading tells most; "" for the rest
	Zone   string  `json:"zone"`
	What   string  `json:"what"`
	Saving float64 `json:"saving"`
	AtMost bool    `json:"at_most"` // it is a bound: knowing it may save less
}

// Say puts it in words.
func (v Worth) Say(currency string) string {
	what := map[string]string{WorthReading: "a reading of the " + v.Name, WorthAge: "the age of the " + v.Name, WorthRoom: "the room that new " + v.Name + " take"}[v.What]
	if at := strings.TrimSpace(v.Place + " " + v.Zone); at != "" {
		what += ", " + at + " first"
	}
	most := ""
	if v.AtMost {
		most = "at most "
	}
	return strings.TrimSpace(fmt.Sprintf("%s: %s%.0f %s", what, most, v.Saving, currency))
}
