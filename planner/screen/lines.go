package screen

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strings"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/page"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
)

// level is a level in the owner's units, short: 5.9/32, 4.8 mm, 84 %.
func level(m kind.Measure, u quantity.System, x float64) string {
	return strings.TrimSuffix(m.Show(u, x), " in")
}

// needs is a level that must be there at least.
func needs(m kind.Measure, u quantity.System, x float64) string {
	return strings.TrimSuffix(m.Wants(u, x), " in")
}

// name is what an item is called on the first screen: the set that it is for.
func (s *screen) name(it plan.Item) string {
	for _, set := range s.Sets {
		if set.ID == it.Set {
			return set.Name
		}
	}
	return "top-up oil"
}

// aside says whether what is not yet to be done is left out: there is no yes.
func (s *screen) aside() bool { return s.cut >= later && !s.Safe }

// shown is how many of a list's entries are told, and how many are left.
func (s *screen) shown(n int) (told, left int) {
	if most := s.lines(); most > 0 && n > most {
		told = max(1, most-1)
		return told, n - told
	}
	return n, 0
}

// order is what is ordered by one day.
type order struct {
	when  string
	what  []string
	price float64
	asked bool // of a part of it the price is not known
}

// ordered lists what is to be ordered, each by itself or a day's together, the
// last ones together where there are too many.
func (s *screen) ordered() []order {
	var out []order
	for _, i := range s.a.Orders {
		it := s.Shopping[i]
		o := order{when: "any time", what: []string{s.name(it)}, price: it.Price}
		switch {
		case it.Late:
			o.when = "LATE, was " + s.Day(it.OrderBy)
		case !it.OrderBy.IsZero():
			o.when = "by " + s.Day(it.OrderBy)
		}
		if !s.small() && s.cut < where {
			much, _, _ := strings.Cut(it.Quantity(s.Units), ", ")
			o.what[0] += ", " + much
		}
		if !quantity.Known(it.Price) {
			o.price, o.asked = 0, true
		}
		if last := len(out) - 1; last >= 0 && (s.cut >= together && out[last].when == o.when || s.lines() > 0 && len(out) == s.lines()) {
			if k := slices.Index(out[last].what, o.what[0]); k >= 0 {
				out[last].what[k] += " twice"
			} else {
				out[last].what = append(out[last].what, o.what[0])
			}
			out[last].price, out[last].asked = out[last].price+o.price, out[last].asked || o.asked
			continue
		}
		out = append(out, o)
	}
	return out
}

func (s *screen) orders() {
	label, total, unpriced := "Order", 0.0, 0
	all := s.ordered()
	for _, i := range s.a.Orders {
		if price := s.Shopping[i].Price; quantity.Known(price) {
			total += price
		} else {
			unpriced++
		}
	}
	for k, o := range all {
		what, price := strings.Join(o.what, ", "), s.money(o.price)
		switch {
		case o.asked && o.price == 0:
			price = "price?"
		case o.asked:
			price += " + ?"
		}
		if k > 0 && k == len(all)-1 && !s.small() && total > 0 {
			what += "; all " + s.money(total)
			if unpriced > 0 {
				what += " and " + page.Count(unpriced, "unknown price")
			}
		}
		if !s.small() || len(all) == len(s.a.Orders) {
			s.columns(s.gutter(label)+page.Pad(o.when, 14), what, price, len(price)+2)
		} else {
			s.amount(label, o.when+" "+what, price)
		}
		label = ""
	}
}

func (s *screen) atHome() {
	if len(s.a.AtHome) == 0 || s.aside() {
		return
	}
	label := "At home"
	if s.Standing != nil {
		label, _, _ = strings.Cut(page.First(s.First()), ",")
	}
	work := s.a.AtHome
	if s.cut >= upkeep && len(work) > 0 {
		work = work[:1]
	}
	s.entry(label, strings.Join(work, "; "))
}

func (s *screen) trunk() {
	if len(s.Packing) == 0 || s.aside() && s.cut == barest {
		return
	}
	var names []string
	for _, it := range s.Packing {
		names = append(names, s.name(it))
	}
	text := strings.Join(names, ", ")
	used := ": " + s.Boot.Room(s.Units)
	switch {
	case !s.Boot.Fits:
		text += "; IT DOES NOT FIT" + used
	case s.Boot.Unknown > 0:
		text += "; " + page.Count(s.Boot.Unknown, "thing") + " of unknown room"
	case s.cut < room:
		text += "; it fits" + used
	case s.cut >= room:
		text += "; it fits"
	}
	s.entry("Trunk", text)
}

// swaps are the used sets that go on, and before which legs.
func (s *screen) swaps() {
	var all []string
	before := map[string][]string{}
	for _, w := range s.Swaps {
		what := fmt.Sprintf("%s on as the %s", w.On, w.Name)
		if before[what] == nil {
			all = append(all, what)
		}
		before[what] = append(before[what], s.Legs[w.Leg].Name)
	}
	for i, what := range all {
		legs := before[what]
		if s.cut >= upkeep {
			legs = legs[:1]
		}
		all[i] = what + " before " + plan.Listed(legs)
	}
	for _, c := range s.Own {
		s.entry("Or", c.What)
	}
	if len(all) == 0 || s.aside() && s.cut == barest {
		return
	}
	if s.cut >= upkeep && len(all) > 1 {
		all = append(all[:1], "more: --all")
	}
	s.entry("Swap", strings.Join(all, "; "))
}

// stops are what is done on the way, and where.
func (s *screen) stops() {
	label := "On the way"
	for _, w := range s.a.Stops {
		day := ""
		if !w.Day.IsZero() {
			day = s.Day(w.Day) + ", "
		}
		text := fmt.Sprintf("%s%s, after %s: %s", day, w.Name, s.Miles(w.Meters), plan.Listed(w.Sets))
		if s.cut >= where && day != "" {
			text = fmt.Sprintf("%s%s: %s", day, w.Name, plan.Listed(w.Sets))
		}
		if w.Due {
			text = fmt.Sprintf("%s due after %s, on %s: no stop is there", plan.Listed(w.Sets), s.Miles(w.Meters), w.Name)
		}
		if w.Cost > 0 {
			text += ", " + s.money(w.Cost)
		}
		if s.cut < reasons && !w.Due {
			text += fmt.Sprintf(". Skipped: %s chance to %s", quantity.Chance(w.Skipped), w.End)
		}
		s.entry(label, text)
		label = ""
	}
}

// days has a line for each circuit day.
func (s *screen) days() {
	if len(s.a.Days) == 0 {
		return
	}
	head := "Circuit days, all on"
	switch s.Verdict {
	case plan.CantSay:
		if s.aside() {
			s.Line("Circuit days: on if these pass")
			return
		}
		head = "Circuit days, on if these pass"
	case plan.No:
		if s.cut >= bare { // which the verdict says
			return
		}
		s.Line("Circuit days: none is on until it is safe")
		return
	}
	const expect = "expect"
	s.Line("%s%s", page.Pad(head, s.Width-len(expect)), expect)
	told, left := s.shown(len(s.a.Days))
	if n := min(len(s.a.Days), leastDays); told < n { // what the trip is for
		told, left = n, len(s.a.Days)-n
	}
	for _, d := range s.a.Days[:told] {
		s.day(d)
	}
	if left > 0 {
		s.Line("  and %s more: --all", page.Count(left, "day"))
	}
}

func (s *screen) day(d plan.CircuitDay) {
	l := s.Legs[d.Leg]
	when := ""
	if !l.Start.IsZero() {
		when = page.Pad(s.Day(l.Start), 11)
		if s.small() {
			when = l.Start.Format("Mon ")
		}
	}
	lead := "  " + when
	if !s.small() {
		lead += page.Pad(page.Cut(l.Name, 18), 19)
	}
	text, expect := "no reading would turn it", ""
	if t := d.Turns; t != nil {
		then := "day off"
		if t.Action == plan.Bring {
			then = "spare goes on"
		}
		if s.small() {
			then = map[plan.Action]string{plan.Bring: "spare", plan.DoNotTake: "off"}[t.Action]
		}
		text = fmt.Sprintf("%s under %s: %s", s.spot(t.Name, t.Place, t.Zone, t.Set), needs(t.Measure, s.Units, t.Under), then)
		if expect = level(t.Measure, s.Units, t.Expect); s.small() {
			expect, _, _ = strings.Cut(strings.TrimSuffix(expect, "/32"), " ")
		}
	}
	if len(d.Fit) > 0 && s.cut < fits {
		fit := "spare " + plan.Listed(d.Fit) + " go on; "
		if s.small() {
			fit = "spare on; "
		}
		text = fit + text
	}
	width := 8
	if s.small() {
		width = 5
	}
	s.columns(lead, text, expect, width)
}

// spot names a point: RF outside tread, RF pad.
func (s *screen) spot(name, place, zone, id string) string {
	for _, set := range s.Sets {
		if set.ID == id {
			if look := kind.Of(set.Kind).Look; look != "" {
				return strings.TrimSpace(place + " " + cmp.Or(zone, look))
			}
		}
	}
	return name
}

// watch lists what is looked at: what a gauge reads with its lines, then the rest.
func (s *screen) watch() {
	if s.aside() {
		return
	}
	type line struct {
		look, lines string
		where       []string
		before      int
	}
	var gauged []*line
	var looked []string
	for _, w := range s.a.Watch {
		if w.Measure == "" {
			if s.cut >= how {
				w.Look, _, _ = strings.Cut(w.Look, " with ")
				w.Look, _, _ = strings.Cut(w.Look, " at ")
			}
			looked = append(looked, w.First())
			continue
		}
		act, stop := level(w.Measure, s.Units, w.Act), level(w.Measure, s.Units, w.Stop)
		if s.cut >= where {
			act, _, _ = strings.Cut(strings.TrimSuffix(act, "/32"), " ")
		}
		lines := fmt.Sprintf("act %s, stop %s", act, stop)
		i := slices.IndexFunc(gauged, func(l *line) bool { return l.look == w.Look && l.lines == lines && l.before < 0 && w.Before < 0 })
		if i < 0 {
			i = len(gauged)
			gauged = append(gauged, &line{w.Look, lines, nil, w.Before})
		}
		if s.cut < where || gauged[i].where == nil {
			gauged[i].where = append(gauged[i].where, w.Where)
		}
	}
	label := "Watch"
	told, _ := s.shown(len(gauged))
	for _, l := range gauged[:told] {
		text := strings.Join(l.where, ", ") + " " + l.look
		if s.cut >= where && strings.Contains(l.where[0], " ") { // a zone says what it is of
			text = l.where[0]
		}
		text += ": " + l.lines
		if l.before >= 0 && s.cut < asides {
			text += "; spare on before " + s.Legs[l.before].Name
		}
		s.entry(label, text)
		label = ""
	}
	if len(looked) > 0 && s.cut < looks {
		s.entry(label, strings.Join(looked, "; "))
	}
}

func (s *screen) weak() {
	w := s.a.Weak
	if w == nil || s.aside() {
		return
	}
	text := w.Name
	switch {
	case strings.Contains(w.Name, w.Where):
	case s.cut >= where:
		text = s.spot(w.Where, w.Where, "", w.Set)
		if strings.Contains(w.Where, " ") { // a zone says it
			text = w.Where
		}
	case s.cut < where:
		text += ", " + w.Where
	}
	text += fmt.Sprintf(": %s to %s", quantity.Chance(w.Chance), w.End)
	if w.Most >= 0 && s.cut < asides {
		text += ", most of it on " + s.Legs[w.Most].Name
		if l := s.Legs[w.Most]; l.Kind == profiles.CircuitLeg {
			side := "left"
			share := l.LeftShare
			if share < 0.5 {
				side, share = "right", 1-share
			}
			text += fmt.Sprintf(", %.0f %% %s turns", 100*share, side)
		}
	}
	s.entry("Weak spot", text)
}

// cost is the sum, and its parts from the largest down.
func (s *screen) cost() {
	sums := map[string]float64{"shop": s.Spend(plan.ForLabor) + s.Spend(plan.ForVisits), "parts": s.Spend(plan.ForParts)}
	for _, k := range []string{plan.ForFuel, plan.ForFees, plan.ForNights} {
		sums[k] = s.Spend(k)
	}
	var of []string
	for _, k := range slices.SortedFunc(maps.Keys(sums), func(a, b string) int {
		return cmp.Or(cmp.Compare(sums[b], sums[a]), cmp.Compare(a, b))
	}) {
		if sums[k] >= 0.5 {
			of = append(of, k+" "+page.Thousands(sums[k]))
		}
	}
	text := s.money(s.Spend(""))
	switch n := s.Unpriced(); {
	case n > 0 && s.cut >= bare:
		text += " + ?"
	case n > 0:
		text += " and " + page.Count(n, "unknown price")
	}
	switch {
	case s.cut >= bare:
		of = nil
	case s.small() || s.cut >= details:
		of = slices.DeleteFunc(of, func(one string) bool { return !strings.HasPrefix(one, "parts ") })
	}
	if len(of) > 0 {
		text += ": " + strings.Join(of, ", ")
	}
	s.entry("Cost", text)
}

// rests says what was read and what is a guess.
func (s *screen) rests() {
	read, guessed := plan.RestsOn(s.Sets)
	if len(guessed) == 0 || s.cut >= bare || s.aside() && s.Verdict == plan.CantSay { // whose first line counts them
		return
	}
	text := "guess: " + strings.Join(ofKinds(guessed, s.Sets), ", ")
	switch {
	case s.cut >= details:
		text = fmt.Sprintf("%d of %d sets read", len(read), len(s.Sets))
	case s.small():
	case s.Verdict == plan.CantSay: // its first line counts them
		text = "a " + text
	case s.Verdict != plan.CantSay:
		text = fmt.Sprintf("%d of %d sets read; a ", len(read), plan.Readable(s.Sets)) + text
	}
	s.entry("Rests on", text)
}

// ofKinds names the sets of a kind in one where they are several.
func ofKinds(ids []string, sets []plan.Set) []string {
	var out []string
	count := map[profiles.Kind]int{}
	var kinds []profiles.Kind
	names := map[profiles.Kind]string{}
	for _, set := range sets {
		if slices.Contains(ids, set.Name) {
			if count[set.Kind] == 0 {
				kinds = append(kinds, set.Kind)
			}
			count[set.Kind]++
			names[set.Kind] = set.Name
		}
	}
	for _, k := range kinds {
		if n := count[k]; n > 1 {
			all := 0
			for _, set := range sets {
				if set.Kind == k {
					all++
				}
			}
			names[k] = map[bool]string{true: "all ", false: fmt.Sprint(n) + " "}[n == all] + k.Info().Plural
		}
		out = append(out, names[k])
	}
	return out
}
