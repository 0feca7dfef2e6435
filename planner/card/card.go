package card

import (
	"fmt"
	"strings"
	"time"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles/quantity"
)

// Card is what the card says, ready to be set.
type Card struct {
	Kick, Title, Lead, Weak, Cost, Rests string
	First                                string // when the first list is done
	Do                                   []string
	Orders                               []Order
	Ordered                              string // what they cost together
	Shelf                                string
	Days                                 []Day
	Circuits                             []CircuitDay
	Columns                              []Column
	Rows                                 []Row
	Stars                                []string
	Park, Sessions, Fuel                 []string
	Trunk                                []Packed
	Room, Tools                          string
	Stops                                []Stop
	Rain                                 []Wet
	Corners                              []Corner
	Loaded                               string // which side the circuit drawn loads
	Lap                                  *Lap
	Charts                               []Chart
	Cautions                             []string
	Units, PadUnits                      string
}

// Order is one thing to buy.
type Order struct{ By, What, Cost string }

// Day is a day of the trip in a sentence.
type Day struct{ Head, Text string }

// CircuitDay is a circuit day with the reading that would change it.
type CircuitDay struct{ Day, Name, If string }

// Column is one point that the checks read.
type Column struct{ Name, Where, Act, Stop string }

// Row is when a check is made, with what is expected in each column.
type Row struct {
	When, What string
	Cells      []Cell
}

// Cell is an expected reading, and the least that the day takes.
type Cell struct{ Expect, Least, Star string }

// Packed is a thing in the trunk.
type Packed struct{ Name, Volume, Mass string }

// Stop is a stop with work.
type Stop struct{ Head, Text string }

// Wet is what rain asks for on a road.
type Wet struct{ Road, Front, Rear, Far string }

// Corner is one corner of the car, leaving and home.
type Corner struct {
	Place, Note string
	Left        bool
	Loaded      bool // by the circuit drawn
	Lines       [][2]string
}

// Of is a plan's card.
func Of(p *plan.Plan, u quantity.System) *Card {
	b := builder{p, u, &Card{First: upper(p.First()), Cautions: p.Cautions}}
	b.head()
	b.before()
	b.days()
	b.circuits()
	b.checks()
	b.lists()
	b.trunk()
	b.stops()
	b.rain()
	b.corners()
	if len(b.c.Rows) > mostRows {
		return b.c
	}
	if b.c.Lap = b.lap(); b.c.Lap != nil {
		b.c.Loaded = b.c.Lap.Name
	}
	b.c.Charts = b.charts()
	return b.c
}

// mostRows is how many checks leave room for drawings on one sheet.
const mostRows = 10

type builder struct {
	*plan.Plan
	u quantity.System
	c *Card
}

func upper(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

// sentence is text with a capital and a full stop.
func sentence(s string) string { return upper(strings.TrimSuffix(s, ".")) + "." }

func day(t time.Time) string { return t.Format("Mon Jan 2") }

// money is an amount in whole units of the owner's currency.
func (b builder) money(x float64) string {
	if !quantity.Known(x) {
		return "?"
	}
	if b.Currency == "USD" {
		return fmt.Sprintf("$%.0f", x)
	}
	return strings.TrimSpace(fmt.Sprintf("%.0f %s", x, b.Currency))
}

func (b builder) distance(m float64) string { return quantity.Distance[b.u].Text(m) }

func (b builder) head() {
	road, days, _ := b.Driven()
	kick := []string{b.Car, b.Trip}
	if !b.Depart.IsZero() {
		end := b.Days[len(b.Days)-1].Date
		kick = append(kick, day(b.Depart)+" to "+day(end)+", "+end.Format("2006"))
	}
	kick = append(kick, fmt.Sprintf("%s, %d circuit %s", b.distance(road), days, plan.Plural(days, "day")))
	if s := b.Standing; s != nil {
		kick = append(kick, fmt.Sprintf("%d of %d legs driven", s.Driven, s.Legs))
	}
	b.c.Kick = strings.Join(kick, " · ")
	title := strings.ToLower(b.Headline())
	for _, s := range b.Sets { // places keep their letters
		for _, w := range []string{"LF", "RF", "LR", "RR"} {
			if strings.HasPrefix(s.Name, w) {
				title = strings.ReplaceAll(title, strings.ToLower(s.Name), s.Name)
			}
		}
	}
	b.c.Title = upper(title)
	lead := b.Why
	if b.Verdict != plan.CantSay {
		lead, _, _ = strings.Cut(lead, "; ")
	}
	b.c.Lead = sentence(lead)
	if w := b.Answer.Weak; w != nil {
		b.c.Weak = fmt.Sprintf("%s, %s: %s chance to %s", w.Name, w.Where, quantity.Chance(w.Chance), w.End)
		if w.Most >= 0 {
			b.c.Weak += ", most of it on " + b.Legs[w.Most].Name
		}
		b.c.Weak += "."
	}
	var kinds []string
	for _, k := range plan.ExpenseKinds {
		if sum := b.Spend(k); sum > 0 {
			kinds = append(kinds, k+" "+b.money(sum))
		}
	}
	b.c.Cost = fmt.Sprintf("%s: %s.", b.money(b.Spend("")), strings.Join(kinds, ", "))
	if n := b.Unpriced(); n > 0 {
		b.c.Cost += fmt.Sprintf(" %d not known.", n)
	}
	var unread []string
	for _, s := range b.Sets {
		if !s.Read {
			unread = append(unread, s.Name)
		}
	}
	if len(unread) > 0 {
		b.c.Rests = "Estimated, not read: " + strings.Join(unread, ", ") + "."
	}
}

func (b builder) before() {
	for _, f := range b.Answer.Found {
		say := "Do not drive it: " + f.Name + ", " + f.What
		if kind.CircuitOnly(f.What) {
			say = upper(f.Name) + ", " + f.What
		}
		b.c.Do = append(b.c.Do, say)
	}
	for _, r := range b.Readings {
		b.c.Do = append(b.c.Do, "Read "+r.Say(b.u))
	}
	for _, what := range b.Answer.AtHome {
		b.c.Do = append(b.c.Do, upper(what))
	}
	if len(b.Packing) > 0 && b.Standing == nil {
		b.c.Do = append(b.c.Do, "Pack the trunk")
	}
	sum, unknown := 0.0, 0
	for _, i := range b.Answer.Orders {
		it := b.Shopping[i]
		by := "any time"
		if !it.OrderBy.IsZero() {
			by = day(it.OrderBy)
		}
		b.c.Orders = append(b.c.Orders, Order{by, bought(it), b.money(it.Price)})
		if !quantity.Known(it.Price) {
			unknown++
		}
		sum += quantity.OrZero(it.Price)
	}
	b.c.Ordered = b.money(sum)
	switch {
	case unknown > 0 && sum == 0:
		b.c.Ordered = fmt.Sprintf("%d not known", unknown)
	case unknown > 0:
		b.c.Ordered += fmt.Sprintf(", %d not known", unknown)
	}
	var shelf []string
	for _, it := range b.Shopping {
		if it.OnShelf {
			shelf = append(shelf, it.Name)
		}
	}
	b.c.Shelf = strings.Join(shelf, "; ")
}
