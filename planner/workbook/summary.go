package workbook

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/tripwear/planner/card"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/workbook/expr"
	"example.com/tripwear/profiles"

	"example.com/tripwear/planner/workbook/form"
)

const summaryName = "Summary"

// summarySheet is the sheet in the making.
type summarySheet struct {
	*sheet
	v    view
	c    *card.Card
	wear *wearSheet
	legs *legs
	fits trunkRoom
}

// summary is the answer in the order of the first screen, then every set with its
// status, live, then the warnings and cautions.
func summary(v view, c *card.Card, wear *wearSheet, l *legs, fits trunkRoom) *sheet {
	s := summarySheet{&sheet{name: summaryName, widths: []float64{15.5, 13, 14, 31, 11.5, 13}}, v, c, wear, l, fits}
	s.title(v.Car+": "+v.Trip, v.journey())
	warnAll(s.sheet)
	loud := look{weight: alert}
	if !v.Safe {
		loud = look{weight: stop}
	}
	s.add(joined(asPlanned(text(loud, v.Headline()+".")), len(s.widths))...)
	s.span(look{}, c.Lead)
	for _, r := range v.Readings {
		s.span(look{weight: stop}, "READ FIRST: "+v.u.system.Words(r.Say(v.u.system)))
	}
	for _, set := range v.Sets {
		for _, found := range set.Stop {
			s.span(look{weight: stop}, "STOP: "+set.Name+", "+found+". What was found comes before any forecast.")
		}
	}
	s.answer()
	s.sets()
	s.fuel()
	s.trunk()
	s.key()
	s.span(look{weight: strong}, strings.Join(v.Cautions, " "))
	return s.sheet
}

// answer has a row for each part of the first screen, with the sheet that has it
// at length.
func (s summarySheet) answer() {
	c := s.c
	said := func(name, t string, to string) {
		if t == "" {
			return
		}
		head := text(look{weight: strong, box: true}, name)
		if to != "" {
			head = linked(head, expr.At(to, 1, 1, 0))
		}
		s.add(append([]cell{head}, joined(asPlanned(text(look{box: true}, s.v.u.system.Words(t))), len(s.widths)-1)...)...)
	}
	said(c.First, strings.Join(c.Do, "; "), form.Sheet)
	var orders []string
	for _, o := range c.Orders {
		orders = append(orders, o.What+" by "+o.By+", "+o.Cost)
	}
	said("Order", strings.ReplaceAll(strings.Join(orders, "; "), "by any", "any"), shopName)
	var trunk []string
	for _, t := range c.Trunk {
		trunk = append(trunk, t.Name)
	}
	said("Bring", strings.Join(trunk, "; "), shopName)
	for _, w := range c.Stops {
		said("On the way", w.Head+". "+w.Text, decisionsName)
	}
	var circuits []string
	for _, d := range c.Circuits {
		circuits = append(circuits, d.Day+", "+d.Name+": "+d.If)
	}
	said("Days change if", strings.Join(circuits, "; "), form.Sheet)
	said("Watch", strings.Join(c.Sessions[:len(c.Sessions)-2], "; "), form.Sheet)
	var days []string
	for _, d := range c.Days {
		days = append(days, d.Head+": "+strings.TrimSuffix(d.Text, "."))
	}
	said("Day by day", strings.Join(days, ". "), legsName)
	said("Weak spot", c.Weak, decisionsName)
	said("Cost, nominal", c.Cost, shopName)
	var warnings []string
	for _, w := range s.v.Warnings {
		if w = strings.TrimSuffix(w, ".") + "."; !slices.Contains(warnings, w) {
			warnings = append(warnings, sentenceCase(w))
		}
	}
	said("Warnings", strings.Join(warnings, " "), "")
}

// key explains how cells look, on every sheet alike.
func (s summarySheet) key() {
	s.add(append([]cell{text(look{input: true, across: "center"}, "write here")}, joined(text(look{weight: quiet},
		"A dashed frame is an input; so is the switch on the Card. The rest follows or, \"as planned\", is struck out; from here to Wear, to Workings, with Rates and Inputs hidden machinery."), len(s.widths)-1)...)...)
}

// journey is the trip in one line.
func (v view) journey() string {
	road, days, _ := v.Driven()
	d := v.u.distance
	out := []string{sentenceCase(v.leaves())}
	if !v.Depart.IsZero() {
		out = append(out, "home about "+v.ends(v.last()).Format("2 Jan 2006"))
	}
	out = append(out, fmt.Sprintf("%.0f %s of road, %d circuit %s", d.of(road), d.name, days, plan.Plural(days, "day")),
		fmt.Sprintf("odometer %.0f %s", d.of(v.Odometer), d.name))
	return strings.Join(out, "; ")
}

// sets gives each set its decision and, live, where it stands at home.
func (s summarySheet) sets() {
	s.section("Every set at home")
	s.add(left("Set"), left("Live: status"), left("Live: tightest point"), left("Decided, as planned"), right("Live: life left"), right("Stopped short"))
	for i := range s.v.Sets {
		s.set(&s.v.Sets[i])
	}
	s.span(look{weight: quiet}, "Nominal, as the switch on the Card says; of hubs the chance to last, of fluid the margin to boiling, as planned.")
}

// set is a row of the state of the car.
func (s summarySheet) set(t *plan.Set) {
	k, d, box := kindOf(t.Kind), t.Decision, look{box: true}
	loud := doingOf(d.Action).look
	decided := asPlanned(text(look{weight: loud, box: true}, choose(d.Action == plan.Run, "good for the trip", s.v.action(d))))
	short := linked(asPlanned(s.v.u.chance.in(box, d.POut)), expr.At(decisionsName, 1, 1, 0))
	status, where, life := s.wear.ofSet(*t)
	head := text(look{weight: strong, box: true}, t.Name)
	if len(where) > 0 {
		head = linked(head, where[0])
	}
	if k.left != shareLeft || len(status) == 0 {
		s.add(head, text(look{weight: quiet, box: true}, choose(k.left == chanceLeft, "by hand", "by the pedal")), asPlanned(text(box, d.Where)), decided, asPlanned(s.v.leftAtHome(t)), short)
		return
	}
	words := orNotNumber(wearWrong, expr.F("IF(COUNTIF(a,b)>0,b,IF(COUNTIF(a,c)>0,c,d))", status, expr.Text(pastLimit), expr.Text(belowMargin), expr.Text(good)))
	n := s.add(head, live(look{box: true, weight: strong}, "", words), live(box, "", expr.F(`IF(a>0,"",INDEX(b,MATCH(MIN(c),c,0)))`, wearWrong, where, life)), decided,
		live(box, asShare, expr.F(`IF(a>0,"",MIN(b))`, wearWrong, life)), short)
	at := s.at(2, n, 0)
	if heats(*t) {
		s.heated(at, s.at(len(s.widths)-1, n, 0))
	}
	s.wordAt(at, pastLimit, out)
	s.wordAt(at, notNumber, out)
	s.wordAt(at, belowMargin, low)
}

// leftAtHome is what a set has left then, as it stands: of a hub its chance of
// lasting, of the fluid the margin to boiling, of the rest a share of life.
func (v view) leftAtHome(t *plan.Set) cell {
	a, box := t.After[v.last()], look{box: true}
	switch kindOf(t.Kind).left {
	case chanceLeft:
		return number(box, `[>0.995]"lasts >99 %";"lasts "0 %`, 1-a.PLimit)
	case marginLeft:
		if len(t.Points) == 0 || !v.beenOnCircuit(v.last()) {
			return number(box, asWhole, math.NaN())
		}
		u := v.u.warmth
		return number(box, asWhole+`" `+u.name+`"`, u.of(t.Points[0].After[v.last()].P50))
	case shareLeft:
	}
	return v.u.share.in(box, a.P50)
}

// beenOnCircuit says whether a circuit is among the legs up to j: before one
// the fluid has no peak to speak of.
func (v view) beenOnCircuit(j int) bool {
	return slices.ContainsFunc(v.Legs[:j+1], func(l plan.Leg) bool { return l.Kind == profiles.CircuitLeg })
}

// line is a row of one live text.
func (s summarySheet) line(name, to string, x expr.X) int {
	d := s.draft(look{})
	head := linked(text(look{weight: strong, box: true}, name), expr.At(to, 1, 1, 0))
	copy(d.cells, append([]cell{head}, joined(live(look{box: true}, "", x), 3)...))
	d.add()
	return d.row
}

// fuel and trunk are the two that do not wear.
func (s summarySheet) fuel() {
	u := s.v.u.fuel
	s.line("Fuel", legsName, expr.F(`"about "&FIXED(a,b,TRUE)&c&FIXED(d,1,TRUE)&" tanks"`, s.legs.fuel, expr.Num(u.digits()), expr.Text(" "+u.name+", "), s.legs.tanks))
}

func (s summarySheet) trunk() {
	const yes, no = "the packing fits", "THE PACKING DOES NOT FIT"
	n := s.line(sentenceCase(s.v.u.system.Words("trunk")), shopName, orNotNumber(roomWrong, expr.F("IF(AND(a>=-0.000000001,b>=-0.000000001),c,d)", s.fits.volume, s.fits.mass, expr.Text(yes), expr.Text(no))))
	at := s.at(2, n, 0)
	s.wordAt(at, no, out)
	s.wordAt(at, notNumber, out)
}
