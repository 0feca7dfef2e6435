package card

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
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
	b.c.Lap = b.lap()
	if b.c.Lap != nil {
		b.c.Loaded = b.c.Lap.Name
	}
	if len(b.c.Rows) <= mostRows {
		b.c.Charts = b.charts()
	}
	return b.c
}

// mostRows is how many checks leave room for charts on one sheet.
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
	lead, _, _ := strings.Cut(b.Why, "; ")
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
		b.c.Do = append(b.c.Do, "Do not drive it: "+f.Name+", "+f.What)
	}
	for _, what := range b.Answer.AtHome {
		b.c.Do = append(b.c.Do, upper(what))
	}
	if len(b.Packing) > 0 && b.Standing == nil {
		b.c.Do = append(b.c.Do, "Pack the trunk")
	}
	sum := 0.0
	for _, i := range b.Answer.Orders {
		it := b.Shopping[i]
		by := "any time"
		if !it.OrderBy.IsZero() {
			by = day(it.OrderBy)
		}
		b.c.Orders = append(b.c.Orders, Order{by, bought(it), b.money(it.Price)})
		sum += quantity.OrZero(it.Price)
	}
	b.c.Ordered = b.money(sum)
	var shelf []string
	for _, it := range b.Shopping {
		if it.OnShelf {
			shelf = append(shelf, it.Name)
		}
	}
	b.c.Shelf = strings.Join(shelf, "; ")
}

func (b builder) days() {
	all := b.Days
	for i, d := range all {
		if i > 1 {
			break
		}
		head := []string{"Today", "Tomorrow"}[i]
		if !d.Date.IsZero() {
			head += ", " + day(d.Date)
		}
		b.c.Days = append(b.c.Days, Day{head, b.today(d)})
	}
	var then []string
	for _, d := range all[min(2, len(all)):] {
		var legs []string
		for _, j := range d.Legs {
			name := b.Legs[j].Name
			if b.Legs[j].Kind == profiles.RoadLeg {
				name = "road"
			}
			legs = append(legs, name)
		}
		if len(legs) > 0 {
			then = append(then, d.Date.Format("Mon ")+strings.Join(legs, ", "))
		}
	}
	if len(then) > 0 {
		b.c.Days = append(b.c.Days, Day{"Then", strings.Join(then, "; ") + "."})
	}
}

// today is a day in sentences.
func (b builder) today(d plan.Day) string {
	var out []string
	for _, j := range d.Legs {
		l := b.Legs[j]
		switch l.Kind {
		case profiles.RoadLeg:
			text := l.Name + ", " + b.distance(l.Meters)
			if len(l.RefuelAt) > 0 {
				var at []string
				for _, m := range l.RefuelAt {
					at = append(at, quantity.Distance[b.u].Number(m))
				}
				text += ", fuel by " + strings.Join(at, ", ") + " " + quantity.Distance[b.u].Name
			}
			out = append(out, text)
		case profiles.CircuitLeg:
			out = append(out, fmt.Sprintf("%s, %d sessions of %.0f min", l.Name, l.Sessions, l.SessionTime/60))
		case profiles.StopLeg:
			out = append(out, l.Name)
		}
	}
	if d.Driving > 0 {
		out = append(out, fmt.Sprintf("%.1f h at the wheel", d.Driving))
	}
	return sentence(strings.Join(out, "; "))
}

func (b builder) circuits() {
	for _, d := range b.Answer.Days {
		l := b.Legs[d.Leg]
		one := CircuitDay{Day: "day " + fmt.Sprint(int(l.EndDay)+1), Name: l.Circuit}
		if !l.Start.IsZero() {
			one.Day = day(l.Start)
		}
		switch t := d.Turns; {
		case d.Call == plan.DayOff:
			one.If = "off: not as it stands"
		case t != nil:
			then := "day off"
			if t.Action == plan.Bring {
				then = "the spare goes on first"
			}
			level := t.Measure.Info().Level[b.u]
			one.If = fmt.Sprintf("%s under %s (expect %s): %s", point(t.Place, t.Zone, t.Measure), level.Up(t.Under), level.Number(t.Expect), then)
		default:
			one.If = "no single reading"
		}
		if len(d.Fit) > 0 {
			one.If = "Spare " + strings.Join(d.Fit, ", ") + " on before it. " + one.If
		}
		b.c.Circuits = append(b.c.Circuits, one)
	}
}

// point is a point in words, such as RF outside or RF pad.
func point(place, zone string, m kind.Measure) string {
	if zone == "" {
		zone = string(m)
	}
	return place + " " + zone
}

// read are the courses that the checks read, one a set.
func (b builder) read() []plan.Course {
	var out []plan.Course
	for _, s := range b.Sets {
		for _, c := range b.Checks {
			if c.Set != s.ID || c.Looks != kind.ByGauge || c.Measure == "" {
				continue
			}
			i := slices.IndexFunc(b.Courses, func(w plan.Course) bool {
				return w.Set == s.ID && w.Place == c.Place && w.Zone == c.Zone && w.Measure == c.Measure
			})
			if i >= 0 {
				out = append(out, b.Courses[i])
				break
			}
		}
	}
	return out
}

func (b builder) checks() {
	ways := b.read()
	name := func(id string) string {
		return b.Sets[slices.IndexFunc(b.Sets, func(s plan.Set) bool { return s.ID == id })].Name
	}
	for _, c := range ways {
		level := c.Measure.Info().Level[b.u]
		b.c.Columns = append(b.c.Columns, Column{upper(name(c.Set)), point(c.Place, c.Zone, ""), level.Number(c.Act), level.Number(c.Stop)})
		if c.New > 0 {
			b.c.Stars = append(b.c.Stars, fmt.Sprintf("%s New %s on before %s: %s expected of the old.", "*", name(c.Set), b.until(c.New), c.Measure.Show(b.u, c.Old)))
		}
	}
	for _, m := range b.moments() {
		row := Row{When: m.when, What: m.what}
		for _, c := range ways {
			level := c.Measure.Info().Level[b.u]
			cell := Cell{Expect: level.Number(c.Level[m.leg])}
			if c.New > 0 && m.leg >= c.New {
				cell.Star = "*"
			}
			for _, s := range b.Sets {
				for _, n := range s.Decision.Days {
					if m.circuit && s.ID == c.Set && n.Leg == m.leg && n.Place == c.Place && n.Zone == c.Zone {
						cell.Least = strings.Fields(strings.SplitN(level.Up(n.Under), "/", 2)[0])[0]
					}
				}
			}
			row.Cells = append(row.Cells, cell)
		}
		b.c.Rows = append(b.c.Rows, row)
	}
}

// until names the leg before which something is, or home.
func (b builder) until(leg int) string {
	if leg < len(b.Legs) {
		return b.Legs[leg].Name
	}
	return "home"
}

// moment is when the card has a check.
type moment struct {
	leg        int
	when, what string
	circuit    bool
}

// moments are leaving, each circuit day, the road after a visit, and home.
func (b builder) moments() []moment {
	start := "leave home"
	if b.Standing != nil {
		start = "now, here"
	}
	var out []moment
	add := func(leg int, at time.Time, what string, circuit bool) {
		when := fmt.Sprintf("Leg %d", leg+1)
		if !at.IsZero() {
			when = day(at)
		}
		out = append(out, moment{leg, when, what, circuit})
	}
	n := len(b.Legs)
	for j, l := range b.Legs {
		circuit := l.Kind == profiles.CircuitLeg
		switch {
		case circuit:
			add(j, l.Start, "before "+l.Circuit, true)
		case j == 0:
			add(j, b.Depart, start, false)
		case b.Legs[j-1].Kind == profiles.CircuitLeg:
			add(j, b.Legs[j-1].End, "before the road", false)
		}
	}
	add(n, b.Legs[n-1].End, "back home", false)
	return out
}

// lists are what the car is parked for, and what is looked at on the way.
func (b builder) lists() {
	b.c.Park = []string{"Cords showing", "Crack at a rotor's edge", "Pad at its plate", "Play in a hub", "Soft pedal", "Coolant in the oil"}
	for _, w := range b.Answer.Watch {
		text := upper(w.Look) + ", " + w.Where + " first"
		if w.Measure != "" {
			level := w.Measure.Info().Level[b.u]
			text = fmt.Sprintf("%s %s: act at %s, stop at %s", w.Where, w.Look, level.Number(w.Act), level.Number(w.Stop))
		}
		b.c.Sessions = append(b.c.Sessions, text)
	}
	b.c.Sessions = append(b.c.Sessions, "Oil at full, fluid level, firm pedal", "Wheel torque, cold: the maker's figure; after a wheel was off, again within the first hour on the road")
	b.c.Fuel = []string{"Tires: cuts, cords, cold pressure"}
	for _, c := range b.Checks {
		if c.When == kind.Fuel && c.Oil > 0 {
			b.c.Fuel = append(b.c.Fuel, upper(b.Say(c, b.u)))
		}
	}
}

// bought is an item with how much of it.
func bought(it plan.Item) string {
	return fmt.Sprintf("%s, %d %s", it.Name, it.Count, plan.Plural(it.Count, it.As))
}

func (b builder) trunk() {
	volume, mass := quantity.Boot[b.u], quantity.Weight[b.u]
	unknown := func(d quantity.Display, x float64) string {
		if !quantity.Known(x) {
			return "?"
		}
		return d.Number(x)
	}
	for _, it := range b.Packing {
		b.c.Trunk = append(b.c.Trunk, Packed{upper(bought(it)), unknown(volume, it.Volume), unknown(mass, it.Mass)})
	}
	fits := "it fits"
	switch {
	case !b.Boot.Fits:
		fits = "it does not fit"
	case b.Boot.Unknown > 0:
		fits = "whether it fits is not known"
	}
	b.c.Room = fmt.Sprintf("%s of %s, %s of %s beside the luggage: %s", volume.Number(b.Boot.UsedVolume), volume.Text(b.Boot.Volume), mass.Number(b.Boot.UsedMass), mass.Text(b.Boot.Payload), fits)
	b.c.Units, b.c.PadUnits = volume.Name, mass.Name
	var tools []string
	for _, t := range b.Tools {
		tools = append(tools, t.Name)
	}
	b.c.Tools = strings.Join(tools, ", ")
}

func (b builder) stops() {
	for _, w := range b.Answer.Stops {
		head := upper(strings.Join(w.Sets, ", ")) + ": " + w.Name
		if !w.Day.IsZero() {
			head += ", " + day(w.Day)
		}
		text := ""
		if w.Cost > 0 {
			text = b.money(w.Cost) + ". "
		}
		for _, c := range b.Checks {
			if c.When == "at "+w.Name {
				text += sentence(c.What) + " "
			}
		}
		b.c.Stops = append(b.c.Stops, Stop{head, fmt.Sprintf("%sSkipped: %s chance to %s.", text, quantity.Chance(w.Skipped), w.End)})
	}
}

func (b builder) rain() {
	speed := quantity.Velocity[b.u]
	for _, l := range b.Legs {
		if len(l.Wet) == 0 {
			continue
		}
		w, far := Wet{Road: l.Name}, 0.0
		for _, x := range l.Wet {
			far = math.Max(far, x.Stop)
			if strings.HasSuffix(x.Set, "front") {
				w.Front = speed.Text(x.Planes)
			} else {
				w.Rear = speed.Text(x.Planes)
			}
		}
		w.Far = fmt.Sprintf("%.2f×", far)
		b.c.Rain = append(b.c.Rain, w)
	}
}

func (b builder) corners() {
	names := map[string]string{"LF": "left front", "RF": "right front", "LR": "left rear", "RR": "right rear"}
	for _, place := range []string{"LF", "RF", "LR", "RR"} {
		c := Corner{Place: place, Note: names[place], Left: place[0] == 'L'}
		if b.Suffers == place {
			c.Note = "suffers most"
		}
		var tread, pad *plan.Course
		for i, w := range b.Courses {
			last := len(w.Level) - 1
			switch {
			case w.Place != place:
			case w.Zone != "" && (tread == nil || w.Level[last] < tread.Level[last]):
				tread = &b.Courses[i]
			case w.Measure == kind.PadLining:
				pad = &b.Courses[i]
			}
		}
		for _, x := range []struct {
			name string
			way  *plan.Course
		}{{"tread", tread}, {"pad", pad}} {
			if x.way == nil {
				continue
			}
			level := x.way.Measure.Info().Level[b.u]
			end := level.Number(x.way.Level[len(x.way.Level)-1])
			if x.way.New > 0 {
				end = "new"
			}
			c.Lines = append(c.Lines, [2]string{x.name, level.Number(x.way.Level[0]) + " → " + end})
		}
		for _, s := range b.Sets {
			if s.Kind == profiles.Bearing && s.Points[0].Place == place {
				c.Lines = append(c.Lines, [2]string{"hub fails", quantity.Chance(s.Decision.POut)})
			}
		}
		b.c.Corners = append(b.c.Corners, c)
	}
}
