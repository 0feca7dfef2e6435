package workbook

import (
	"fmt"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/workbook/expr"
)

// oilAndBearings shows each hub's chance of lasting and the oil's distance.
func oilAndBearings(v view, all worn) *sheet {
	s := levelsOn(oilName, "As the car stands, nothing replaced on the way. Play at 12 and 6 o'clock, roughness or a moved nut mark is a fail, whatever the chance says.", pairs(4, 34, 9.5, 13.5), v, all)
	v.hubs(s.sheet, all)
	if fills := v.points(kind.OilLife); len(fills) > 0 {
		v.oil(s.sheet, all.find(fills[0]))
	}
	return s.sheet
}

func (v view) hubs(s *sheet, all worn) {
	hubs := v.points(kind.HubLife)
	if len(hubs) == 0 {
		return
	}
	s.section("Hub bearings: chance of lasting, as planned, %, and what the leg takes, live, share of an L10 life")
	s.pairHeads("Until the end of", hubs, right("lasts"), right("leg takes"))
	c := chart{
		title: "Chance that each hub bearing lasts, as planned",
		alt:   "Line chart of the chance that each hub bearing lasts to the end of each leg.",
		x:     "to the end of leg", y: "chance of lasting", format: asShare, top: 1, labels: v.byLeg(),
	}
	for _, p := range hubs {
		c.lines = append(c.lines, line{name: p.Place, values: []expr.X{expr.Num(1)}})
	}
	for k, j := range v.driven {
		cells := []cell{text(look{}, v.legName(j))}
		for i, p := range hubs {
			lasts := 1 - p.After[j].PLimit
			cells = append(cells, asPlanned(v.u.chance.in(look{}, lasts)), live(look{weight: quiet}, "0.000", all.find(p).wear[k]))
			c.lines[i].values = append(c.lines[i].values, expr.Num(lasts))
		}
		s.add(cells...)
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
		for _, x := range l.values {
			if v := x.Value().Num; finite(v) {
				low = min(low, v)
			}
		}
	}
	c.low = max(0, float64(int(float64(low*10)-0.01))/10)
}

// oil counts the fill's equivalent distance up from the last change.
func (v view) oil(s *sheet, w *wearing) {
	u := v.u.distance
	used := func(level expr.Ref) expr.X { return expr.F("(a-b)", w.fresh, level) }
	s.keepRows(len(v.driven) + 5)
	s.section(fmt.Sprintf("Engine oil: equivalent distance since the change, live, %s", u.name))
	s.add(left("After"), right("nominal"), center("5 – 95 %"), right("interval"), right("past it, chance"), right("ceiling"), right("past it, chance"), right("as planned"), left(""))
	first := s.next()
	for k, j := range v.driven {
		st := w.steps[k+1]
		s.add(text(look{}, v.legName(j)), live(look{weight: strong}, u.format, expr.F("MAX(0,a)", used(st.left))),
			u.between(look{weight: quiet}, used(st.hi), used(st.lo)),
			live(look{}, u.format, used(w.margin)), live(look{}, asChance, st.pPast),
			live(look{}, u.format, used(w.limit)), live(look{}, asChance, st.pLimit),
			asPlanned(v.u.chance.in(look{weight: quiet}, w.p.After[j].PLimit)))
	}
	at := func(col, row int) expr.Ref { return s.at(col, row, 0) }
	for _, line := range []struct {
		col  int
		tone tone
	}{{6, out}, {4, low}} {
		s.mark(at(2, first), at(2, s.next()-1), expr.F("a>=b", at(2, first).Free(), at(line.col, first).Free()), line.tone)
	}
	s.span(look{weight: quiet}, "Between interval and ceiling the oil may be stretched away from home; sample it at the change. Oil that saw more than "+
		fmt.Sprintf("%.0f %s", v.u.heat.of(140), v.u.heat.name)+" is changed before going home. Level at FULL before every session.")
}
