package workbook

import (
	"fmt"
	"slices"

	"example.com/tripwear/planner"
	"example.com/tripwear/profiles"
)

// oilAndBearings shows each hub's chance of lasting and the oil's distance.
func (b *book) oilAndBearings() *sheet {
	s := &sheet{name: "Oil and bearings", wide: true, side: 1, widths: pairs(4, 34, 9.5, 13.5)}
	s.title("Oil and bearings", "As the car stands, nothing renewed on the way. Play at 12 and 6 o'clock, roughness or a moved nut mark is a fail, whatever the chance says.")
	b.warn(s)
	b.seen(s, profiles.Oil, profiles.Bearing)
	b.hubs(s)
	b.oil(s)
	return s
}

func (b *book) hubs(s *sheet) {
	hubs := b.pick(profiles.Bearing, planner.HubLife)
	if len(hubs) == 0 {
		return
	}
	s.section("Hub bearings: chance of lasting, as planned, %, and what the leg takes, live, share of an L10 life")
	names, below := []cell{left("Until the end of")}, []cell{left("")}
	for _, p := range hubs {
		names = append(names, joined(center(p.Place), 2)...)
		below = append(below, right("lasts"), right("leg takes"))
	}
	s.add(names...)
	s.add(below...)
	c := chart{
		title: "Chance that each hub bearing lasts, as planned",
		alt:   "Line chart of the chance that each hub bearing lasts to the end of each leg.",
		x:     "to the end of leg", y: "chance of lasting", format: asShare, top: 1, labels: []string{"start"},
	}
	for _, p := range hubs {
		c.lines = append(c.lines, line{name: p.Place, values: []float64{1}})
	}
	for _, j := range b.driven {
		cells := []cell{text(look{}, b.legName(j))}
		for i, p := range hubs {
			lasts := 1 - p.After[j].PLimit
			w, _, _ := b.after(p, j)
			takes := w.wear[slices.Index(b.driven, j)]
			cells = append(cells, asPlanned(b.u.chance.in(look{}, lasts)), live(look{weight: quiet}, "0.000", takes.in(s), takes.v))
			c.lines[i].values = append(c.lines[i].values, lasts)
		}
		s.add(cells...)
		c.labels = append(c.labels, b.legLabel(j))
	}
	s.span(look{weight: quiet}, "An L10 life is what nine of ten ordinary bearings reach. A few corners have a problem of their own, so the chance is lower than that figure alone says.")
	c.bottom()
	s.chart(c)
}

// bottom lets a chart of chances begin where it can be read: at the tenth
// below the lowest.
func (c *chart) bottom() {
	low := 1.0
	for _, l := range c.lines {
		for _, v := range l.values {
			if finite(v) {
				low = min(low, v)
			}
		}
	}
	c.low = max(0, float64(int(float64(low*10)-0.01))/10)
}

// oil counts the fill's equivalent distance up from the last change.
func (b *book) oil(s *sheet) {
	fills := b.pick(profiles.Oil, planner.OilLife)
	if len(fills) == 0 {
		return
	}
	w, u := b.find(fills[0]), b.u.distance
	fresh := w.fresh.in(s)
	used := func(level ref) string { return fmt.Sprintf("(%s-%s)", fresh, level.in(s)) }
	interval, ceiling := w.fresh.v-w.margin.v, w.fresh.v-w.limit.v
	s.keepRows(len(b.driven) + 5)
	s.section(fmt.Sprintf("Engine oil: equivalent distance since the change, live, %s", u.name))
	s.add(left("After"), right("nominal"), center("5 – 95 %"), right("interval"), right("past it, chance"), right("ceiling"), right("past it, chance"), right("as planned"), left(""))
	first := s.next()
	for k, j := range b.driven {
		st := w.steps[k+1]
		s.add(text(look{}, b.legName(j)),
			live(look{weight: strong}, u.format, fmt.Sprintf("MAX(0,%s)", used(st.left)), max(0, w.fresh.v-st.left.v)),
			u.between(look{weight: quiet}, used(st.hi), w.fresh.v-st.hi.v, used(st.lo), w.fresh.v-st.lo.v),
			live(look{}, u.format, used(w.margin), interval), live(look{}, asChance, st.pPast.in(s), st.pPast.v),
			live(look{}, u.format, used(w.limit), ceiling), live(look{}, asChance, st.pLimit.in(s), st.pLimit.v),
			asPlanned(b.u.chance.in(look{weight: quiet}, w.p.After[j].PLimit)))
	}
	last := s.next() - 1
	level := relative(s.at(2, first, 0).in(s))
	s.marks = append(s.marks,
		mark{s.at(2, first, 0).upTo(s.at(2, last, 0), s), level + ">=" + relative(s.at(6, first, 0).in(s)), out},
		mark{s.at(2, first, 0).upTo(s.at(2, last, 0), s), level + ">=" + relative(s.at(4, first, 0).in(s)), low})
	s.span(look{weight: quiet}, "Between interval and ceiling the oil may be stretched away from home; sample it at the change. Oil that saw more than "+
		fmt.Sprintf("%.0f %s", b.u.heat.of(140), b.u.heat.name)+" is changed before going home. Level at FULL before every session.")
}
