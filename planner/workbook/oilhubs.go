package workbook

import (
	"fmt"

	"example.com/tripwear/planner"
	"example.com/tripwear/profiles"
)

// oilAndBearings shows each hub's chance of lasting and the oil's distance.
func (b *book) oilAndBearings() *sheet {
	s := &sheet{name: "Oil and bearings", wide: true, side: 1, widths: pairs(4, 34, 9.5, 13.5)}
	s.title("Oil and bearings", "As the car stands, nothing renewed on the way. Play at 12 and 6 o'clock, roughness or a moved nut mark is a fail, whatever the chance says.")
	b.hubs(s)
	b.oil(s)
	return s
}

func (b *book) hubs(s *sheet) {
	hubs := b.pick(profiles.Bearing, planner.HubLife)
	if len(hubs) == 0 {
		return
	}
	s.section("Hub bearings: chance of lasting, %, and what the leg takes, share of an L10 life")
	names, below := []cell{left("Until the end of")}, []cell{left("")}
	for _, p := range hubs {
		names = append(names, joined(center(p.Place), 2)...)
		below = append(below, right("lasts"), right("leg takes"))
	}
	s.add(names...)
	s.add(below...)
	c := chart{
		title: "Chance that each hub bearing lasts",
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
			cells = append(cells, b.u.chance.in(look{}, lasts), number(look{weight: quiet}, "0.000", p.Loss[j]))
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
	c.low = max(0, float64(int(low*10-0.01))/10)
}

// oil counts the fill's equivalent distance up from the last change.
func (b *book) oil(s *sheet) {
	fills := b.pick(profiles.Oil, planner.OilLife)
	if len(fills) == 0 {
		return
	}
	p, u := fills[0], b.u.distance
	used := func(level float64) float64 { return p.New - level }
	interval, ceiling := used(p.Margin), used(p.Limit)
	s.keep(float64(len(b.driven)+5) * (lineHeight + linePad))
	s.section(fmt.Sprintf("Engine oil: equivalent distance since the change, %s", u.name))
	s.add(left("After"), right("median"), center("5 – 95 %"), right("interval"), right("past it, chance"), right("ceiling"), right("past it, chance"), left(""), left(""))
	for _, j := range b.driven {
		a := p.After[j]
		s.add(text(look{}, b.legName(j)),
			u.in(look{weight: strong}, used(a.P50)),
			text(look{weight: quiet, across: "center"}, band(u, planner.Band{P5: used(a.P95), P95: used(a.P5)})),
			u.in(look{}, interval), b.u.chance.in(look{}, a.PMargin),
			u.in(look{}, ceiling), b.u.chance.in(look{}, a.PLimit))
	}
	s.span(look{weight: quiet}, "Between interval and ceiling the oil may be stretched away from home; sample it at the change. Oil that saw more than "+
		fmt.Sprintf("%.0f %s", b.u.heat.of(140), b.u.heat.name)+" is changed before going home. Level at FULL before every session.")
}
