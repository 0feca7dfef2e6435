package workbook

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/workbook/expr"
	"example.com/tripwear/profiles"
)

// summarySheet is the sheet in the making.
type summarySheet struct {
	*sheet
	v    view
	all  worn
	rows []carRow // of all
	legs *legs
	fits trunkRoom
}

// summary is the page to read first: the answer, then the state of each group
// of kinds, then the warnings and cautions.
func summary(v view, all worn, rows []carRow, l *legs, fits trunkRoom) *sheet {
	s := summarySheet{&sheet{name: "Summary", widths: []float64{17, 18, 21, 22, 11, 11}}, v, all, rows, l, fits}
	s.title(v.Car+": "+v.Trip, v.journey())
	warnAll(s.sheet)
	loud := look{weight: alert}
	if !v.Safe {
		loud = look{weight: stop}
	}
	s.add(joined(asPlanned(text(loud, v.Headline()+".")), len(s.widths))...)
	s.span(look{}, sentenceCase(v.Why)+".")
	n := s.add(joined(live(look{weight: warning}, "", firstWrong), len(s.widths))...)
	s.mark(s.at(1, n, 0), s.at(len(s.widths), n, 0), expr.F(`LEFT(a,3)="NOT"`, s.at(1, n, 0)), out)
	s.decide()
	for _, set := range v.Sets {
		for _, found := range set.Stop {
			s.span(look{weight: stop}, "STOP: "+set.Name+", "+found+". What was found comes before any forecast.")
		}
	}
	s.key()
	s.todo()
	s.groups()
	s.list("Warnings", v.Warnings)
	s.list("Cautions", v.Cautions)
	return s.sheet
}

// decide lists the readings that the answer waits for.
func (s summarySheet) decide() {
	for _, r := range s.v.Readings {
		s.span(look{weight: stop}, "READ FIRST: "+s.v.u.system.Words(r.Say(s.v.u.system)))
	}
}

// key explains how cells look, on every sheet alike.
func (s summarySheet) key() {
	s.gap()
	entry := func(c cell, what string) {
		s.add(append([]cell{c}, joined(text(look{weight: quiet}, what), len(s.widths)-1)...)...)
	}
	entry(text(look{input: true, across: "center"}, "write here"), "Dashed frame: an input, the only cells to write in. Distances and days on Legs; readings, margins and limits on Car; prices on Shopping list; volumes and weights on Packing; what you measure on Measurements.")
	entry(text(look{weight: strong, across: "center"}, "live"), "Everything else follows from the inputs, except what is marked \"as planned\": that comes from the program's draws and is struck out once an input changes. The sheets are protected without a password.")
}

// journey is the trip in one line.
func (v view) journey() string {
	road, days := 0.0, 0
	for _, l := range v.Legs {
		switch l.Kind {
		case profiles.RoadLeg:
			road += l.Meters
		case profiles.CircuitLeg:
			days++
		}
	}
	d := v.u.distance
	out := []string{sentenceCase(v.leaves())}
	if !v.Depart.IsZero() {
		out = append(out, "home about "+v.ends(v.last()).Format("2 Jan 2006"))
	}
	out = append(out, fmt.Sprintf("%.0f %s of road, %d circuit %s", d.of(road), d.name, days, plan.Plural(days, "day")),
		fmt.Sprintf("odometer %.0f %s", d.of(v.Odometer), d.name))
	return strings.Join(out, "; ")
}

// todo has a row for every set that needs something, the first due on top.
func (s summarySheet) todo() {
	s.section("What to do")
	sets := slices.Clone(s.v.Sets)
	sets = slices.DeleteFunc(sets, func(t plan.Set) bool { return t.Decision.Action == plan.Run })
	if len(sets) == 0 {
		s.span(look{}, "Nothing: every set runs the whole trip. Check as the Decisions sheet says.")
		return
	}
	slices.SortStableFunc(sets, func(a, c plan.Set) int {
		return urgency(a.Decision.Action) - urgency(c.Decision.Action)
	})
	s.add(left("When"), left("Set"), left("Action"), left("Where"), right("Limit crossed if nothing is done"), right("Stopped short as decided"))
	for _, t := range sets {
		d := t.Decision
		s.add(asPlanned(text(look{box: true}, doingOf(d.Action).due)), text(look{weight: strong, box: true}, t.Name),
			asPlanned(text(look{weight: doingOf(d.Action).look, box: true}, s.v.action(d))), asPlanned(text(look{box: true}, d.Where)),
			asPlanned(s.v.u.chance.in(look{box: true}, d.PAsIs)), asPlanned(s.v.u.chance.in(look{box: true}, d.POut)))
	}
	s.span(look{weight: quiet}, "Decided for the trip as planned. Chances in %. Reasons stand on the Decisions sheet, what to buy on the Shopping list.")
}

// groups gives each group its decision and, live, where it stands at the end.
func (s summarySheet) groups() {
	s.section("State of the car at the end, nothing replaced")
	s.add(left("Group"), left("Live: status"), left("Live: tightest point"), left("Decided, as planned"), right("Live: life left"), center("Set, 5 – 95 %, as planned"))
	last := s.v.last()
	for _, of := range kind.All {
		k := kindOf(of.ID)
		sets := slices.DeleteFunc(slices.Clone(s.v.Sets), func(t plan.Set) bool { return t.Kind != k.ID })
		if len(sets) == 0 {
			continue
		}
		// of equals the first
		worst := slices.MinFunc(sets, func(a, c plan.Set) int { return urgency(a.Decision.Action) - urgency(c.Decision.Action) })
		first := slices.MaxFunc(sets, func(a, c plan.Set) int { return cmp.Compare(a.After[last].PLimit, c.After[last].PLimit) })
		s.group(k, worst.Decision, first)
	}
	s.fuel()
	s.trunk()
	s.span(look{weight: quiet}, "Life left: share of a new part's life down to the limit, nominal, at the tightest point; for a hub its chance of lasting, for the fluid the least margin to boiling, both as planned.")
}

// group is a row of the state of the car.
func (s summarySheet) group(k part, d plan.Decision, t plan.Set) {
	box, mid := look{box: true}, look{weight: quiet, box: true, across: "center"}
	decided := asPlanned(text(look{weight: doingOf(d.Action).look, box: true}, choose(d.Action == plan.Run, "good for the trip", s.v.action(d))))
	head := text(look{weight: strong, box: true}, sentenceCase(k.ID.Info().Plural))
	level, around := s.v.leftOf(t, s.v.last())
	level.look.box = true
	band := asPlanned(text(mid, around))
	status, where, life := s.columnsOf(k)
	if k.left != shareLeft || len(status) == 0 {
		s.add(head, text(look{weight: quiet, box: true}, "as planned"), asPlanned(text(box, t.Name)), decided, asPlanned(level), band)
		return
	}
	words := orNotNumber(wearWrong, expr.F("IF(COUNTIF(a,b)>0,b,IF(COUNTIF(a,c)>0,c,d))", status, expr.Text(pastLimit), expr.Text(belowMargin), expr.Text(good)))
	n := s.add(head, live(look{box: true, weight: strong}, "", words), live(box, "", expr.F(`IF(a>0,"",INDEX(b,MATCH(MIN(c),c,0)))`, wearWrong, where, life)), decided,
		live(box, asShare, expr.F(`IF(a>0,"",MIN(b))`, wearWrong, life)), band)
	at := s.at(2, n, 0)
	if heats(t) {
		s.heated(at, s.at(len(s.widths)-1, n, 0))
	}
	s.wordAt(at, pastLimit, out)
	s.wordAt(at, notNumber, out)
	s.wordAt(at, belowMargin, low)
}

// columnsOf are the cells of the Car sheet from the first point of a kind to its
// last.
func (s summarySheet) columnsOf(k part) (status, where, life expr.Run) {
	var run []int
	for i, w := range s.all {
		if w.ID == k.ID {
			run = append(run, i)
		}
	}
	if len(run) == 0 {
		return nil, nil, nil
	}
	for _, r := range s.rows[run[0] : run[len(run)-1]+1] {
		status, where, life = append(status, r.status), append(where, r.spot), append(life, r.life)
	}
	return status, where, life
}

// leftOf is what a set has left after leg j, with its band: a share of life; for
// a hub its chance of lasting, for the fluid the margin to boiling.
func (v view) leftOf(t plan.Set, j int) (level cell, around string) {
	a := t.After[j]
	switch kindOf(t.Kind).left {
	case chanceLeft:
		return number(look{}, `[>0.995]"lasts >99 %";"lasts "0 %`, 1-a.PLimit), ""
	case marginLeft:
		if len(t.Points) == 0 || !v.beenOnCircuit(j) {
			return number(look{}, asWhole, math.NaN()), ""
		}
		u, p := v.u.warmth, t.Points[0]
		return number(look{}, asWhole+`" `+u.name+`"`, u.of(p.After[j].P50)), u.band(p.After[j])
	case shareLeft:
	}
	return v.u.share.in(look{}, a.P50), v.u.share.band(a)
}

// beenOnCircuit says whether a circuit is among the legs up to j: before one
// the fluid has no peak to speak of.
func (v view) beenOnCircuit(j int) bool {
	return slices.ContainsFunc(v.Legs[:j+1], func(l plan.Leg) bool { return l.Kind == profiles.CircuitLeg })
}

// line is a row of one live text.
func (s summarySheet) line(name string, x expr.X) int {
	d := s.draft(look{})
	copy(d.cells, append([]cell{text(look{weight: strong, box: true}, name)}, joined(live(look{box: true}, "", x), 3)...))
	d.add()
	return d.row
}

// fuel and trunk are the two groups that do not wear.
func (s summarySheet) fuel() {
	u := s.v.u.fuel
	s.line("Fuel", expr.F(`"about "&FIXED(a,b,TRUE)&c&FIXED(d,1,TRUE)&" tanks"`, s.legs.fuel, expr.Num(u.digits()), expr.Text(" "+u.name+", "), s.legs.tanks))
}

func (s summarySheet) trunk() {
	const yes, no = "the packing fits", "THE PACKING DOES NOT FIT"
	n := s.line(sentenceCase(s.v.u.system.Words("trunk")), orNotNumber(roomWrong, expr.F("IF(AND(a>=-0.000000001,b>=-0.000000001),c,d)", s.fits.volume, s.fits.mass, expr.Text(yes), expr.Text(no))))
	at := s.at(2, n, 0)
	s.wordAt(at, no, out)
	s.wordAt(at, notNumber, out)
}

func (s summarySheet) list(heading string, lines []string) {
	if len(lines) == 0 {
		return
	}
	s.section(heading)
	for _, l := range lines {
		s.span(look{}, "– "+s.v.u.system.Words(l))
	}
}
