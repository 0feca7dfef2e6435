package workbook

import (
	"fmt"
	"strings"

	"example.com/tripwear/profiles"
)

// legs lists the trip as it will be driven, a row a leg.
func (b *book) legs() *sheet {
	s := &sheet{name: "Legs", wide: true, side: 3, widths: []float64{4, 13, 27, 9, 12, 9.5, 6, 8, 7, 7.5, 9.5, 9, 8, 7.5, 7.5, 8, 8, 8}}
	s.title("Legs", "The trip as it will be driven. A circuit known by its summary alone has wider figures; (s) marks it.")
	u := b.u
	s.add(left("No."), left("Kind"), left("Name"), right(u.distance.head("Distance")), right("Ends"),
		right("Sessions, x min"), right("Hot laps"), right("Lap time, m:s"), right("Pace, %"), right("Left share, %"), right("Heavy brakings a lap"),
		right(u.heat.head("Ambient")), right("Rain, %"), right(u.fuel.head("Fuel")), right("Tanks"),
		right(u.heat.head("Front rotor peak")), right(u.heat.head("Rear rotor peak")), right(u.heat.head("Fluid peak")))
	s.head = 3
	metres, fuel, tanks := 0.0, 0.0, 0.0
	for j, l := range b.p.Legs {
		metres, fuel, tanks = metres+l.Metres, fuel+l.FuelUsed, tanks+l.Tanks
		s.add(b.leg(j)...)
	}
	total := look{total: true}
	cells := []cell{blank(total), blank(total), text(total, "Total"), u.distance.in(total, metres)}
	for len(cells) < 13 {
		cells = append(cells, blank(total))
	}
	cells = append(cells, u.fuel.in(total, fuel), number(total, asTenth, tanks))
	for len(cells) < len(s.widths) {
		cells = append(cells, blank(total))
	}
	s.add(cells...)
	s.span(look{weight: quiet}, "Left share is the share of the cornering load taken in left turns, which wear the right-hand side. Peaks are the hottest moment of a session, after a braking, in the median.")
	b.rain(s)
	return s
}

// leg is one row; what a kind of leg does not have stays empty.
func (b *book) leg(j int) []cell {
	l, u := b.p.Legs[j], b.u
	box := look{box: true}
	name := l.Name
	if len(l.Can) > 0 {
		name += " (" + strings.Join(l.Can, ", ") + ")"
	}
	if l.BySummary {
		name += " (s)"
	}
	kind := string(l.Kind)
	if l.Kind == profiles.RoadLeg && l.Surface != "" {
		kind += ", " + l.Surface
	}
	ends := number(box, asTenth, l.EndDay)
	if !b.p.Depart.IsZero() {
		ends = day(box, b.at(j))
	} else {
		ends.look.format = `"day "0.0`
	}
	out := []cell{number(look{box: true, across: "left"}, "0", float64(j+1)), text(box, kind), text(look{weight: strong, box: true}, name)}
	blanks := func(n int) {
		for range n {
			out = append(out, blank(box))
		}
	}
	switch l.Kind {
	case profiles.StopLeg:
		blanks(1)
		out = append(out, ends)
		blanks(13)
	case profiles.RoadLeg:
		out = append(out, u.distance.in(box, l.Metres), ends)
		blanks(6)
		out = append(out, u.heat.in(box, l.Ambient), number(box, asShare, l.Rain), u.fuel.in(box, l.FuelUsed), number(box, asTenth, l.Tanks))
		blanks(3)
	default:
		heavy := blank(box)
		if l.HeavyBrakings > 0 {
			heavy = number(box, "0", float64(l.HeavyBrakings))
		}
		out = append(out, u.distance.in(box, l.Metres), ends,
			text(look{box: true, across: "right"}, b.sessions(j)), number(box, "0", float64(l.Laps)),
			number(box, asLap, l.LapTime/86400), number(box, asShare, l.Pace), number(box, asShare, l.LeftShare), heavy,
			u.heat.in(box, l.Ambient), number(box, asShare, l.Rain), u.fuel.in(box, l.FuelUsed), number(box, asTenth, l.Tanks),
			u.heat.in(box, l.RotorPeak[0]), u.heat.in(box, l.RotorPeak[1]), u.heat.in(box, l.FluidPeak))
	}
	return out
}

// sessions is a circuit day's running, such as "5 x 20".
func (b *book) sessions(j int) string {
	l := b.p.Legs[j]
	return fmt.Sprintf("%d x %.0f", l.Sessions, l.SessionTime/60)
}
