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

func (s *screen) orders() {
	label, total, unpriced := "Order", 0.0, 0
	for k, i := range s.a.Orders {
		it := s.Shopping[i]
		when := "any time"
		switch {
		case it.Late:
			when = "LATE, was " + s.Day(it.OrderBy)
		case !it.OrderBy.IsZero():
			when = "by " + s.Day(it.OrderBy)
		}
		price := "price?"
		if quantity.Known(it.Price) {
			price = s.money(it.Price)
			total += it.Price
		} else {
			unpriced++
		}
		what := s.name(it)
		if !s.small() {
			much, _, _ := strings.Cut(it.Quantity(s.Units), ", ")
			what += ", " + much
		}
		if k > 0 && k == len(s.a.Orders)-1 && !s.small() {
			what += "; all " + s.money(total)
			if unpriced > 0 {
				what += " and " + page.Count(unpriced, "unknown price")
			}
		}
		s.amount(label, page.Pad(when, 14)+what, price)
		label = ""
	}
}

func (s *screen) atHome() {
	if len(s.a.AtHome) == 0 {
		return
	}
	label := "At home"
	if s.Standing != nil {
		label, _, _ = strings.Cut(page.First(s.First()), ",")
	}
	s.entry(label, strings.Join(s.a.AtHome, "; "))
}

func (s *screen) trunk() {
	if len(s.Packing) == 0 {
		return
	}
	var names []string
	for _, it := range s.Packing {
		names = append(names, s.name(it))
	}
	volume, weight := quantity.Boot[s.Units], quantity.Weight[s.Units]
	fits := "it fits"
	switch {
	case !s.Boot.Fits:
		fits = "IT DOES NOT FIT"
	case s.Boot.Unknown > 0:
		fits = page.Count(s.Boot.Unknown, "thing") + " of unknown room"
	}
	s.entry("Trunk", fmt.Sprintf("%s; %s: %s of %s, %s of %s", strings.Join(names, ", "), fits,
		volume.Number(s.Boot.UsedVolume), volume.Text(s.Boot.Volume), weight.Number(s.Boot.UsedMass), weight.Text(s.Boot.Payload)))
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
		all[i] = what + " before " + plan.Listed(before[what])
	}
	for _, c := range s.Own {
		s.entry("Or", c.What)
	}
	if len(all) > 0 {
		s.entry("Swap", strings.Join(all, "; "))
	}
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
		if w.Due {
			text = fmt.Sprintf("%s due after %s, on %s: no stop is there", plan.Listed(w.Sets), s.Miles(w.Meters), w.Name)
		}
		if w.Cost > 0 {
			text += ", " + s.money(w.Cost)
		}
		if !s.small() && !w.Due {
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
		head = "Circuit days, on if these pass"
	case plan.No:
		s.Line("Circuit days: none is on until it is safe")
		return
	}
	const expect = "expect"
	s.Line("%s%s", page.Pad(head, s.Width-len(expect)), expect)
	for _, d := range s.a.Days {
		s.day(d)
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
			expect, _, _ = strings.Cut(expect, " ")
		}
	}
	if len(d.Fit) > 0 {
		fit := "spare " + plan.Listed(d.Fit) + " go on; "
		if s.small() {
			fit = "spare on; "
		}
		text = fit + text
	}
	s.columns(lead, text, expect, 8)
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
	type line struct {
		look, lines string
		where       []string
		before      int
	}
	var gauged []*line
	var looked []string
	for _, w := range s.a.Watch {
		if w.Measure == "" {
			looked = append(looked, w.Look+", "+w.Where+" first")
			continue
		}
		lines := fmt.Sprintf("act %s, stop %s", level(w.Measure, s.Units, w.Act), level(w.Measure, s.Units, w.Stop))
		i := slices.IndexFunc(gauged, func(l *line) bool { return l.look == w.Look && l.lines == lines && l.before < 0 && w.Before < 0 })
		if i < 0 {
			i = len(gauged)
			gauged = append(gauged, &line{w.Look, lines, nil, w.Before})
		}
		gauged[i].where = append(gauged[i].where, w.Where)
	}
	label := "Watch"
	for _, l := range gauged {
		text := strings.Join(l.where, ", ") + " " + l.look + ": " + l.lines
		if l.before >= 0 && !s.small() {
			text += "; spare on before " + s.Legs[l.before].Name
		}
		s.entry(label, text)
		label = ""
	}
	if len(looked) > 0 {
		s.entry(label, strings.Join(looked, "; "))
	}
}

func (s *screen) weak() {
	w := s.a.Weak
	if w == nil {
		return
	}
	text := w.Name
	if !strings.Contains(w.Name, w.Where) {
		text += ", " + w.Where
	}
	text += fmt.Sprintf(": %s to %s", quantity.Chance(w.Chance), w.End)
	if w.Most >= 0 && !s.small() {
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
	if n := s.Unpriced(); n > 0 {
		text += " and " + page.Count(n, "unknown price")
	}
	if s.small() {
		of = []string{"parts " + page.Thousands(sums["parts"])}
	}
	if len(of) > 0 {
		text += ": " + strings.Join(of, ", ")
	}
	s.entry("Cost", text)
}

// rests says what was read and what is a guess.
func (s *screen) rests() {
	read, guessed := plan.RestsOn(s.Sets)
	if len(guessed) == 0 {
		return
	}
	text := "guess: " + strings.Join(together(guessed, s.Sets), ", ")
	switch {
	case s.small():
	case s.Verdict == plan.CantSay: // its first line counts them
		text = "a " + text
	case s.Verdict != plan.CantSay:
		text = fmt.Sprintf("%d of %d sets read; a ", len(read), len(s.Sets)) + text
	}
	s.entry("Rests on", text)
}

// together names the sets of a kind in one where they are several.
func together(ids []string, sets []plan.Set) []string {
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
