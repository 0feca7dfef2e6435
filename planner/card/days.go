package card

import (
	"fmt"
	"strings"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
)

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
	if len(out) == 0 {
		return "Nothing is left to drive."
	}
	return sentence(strings.Join(out, "; "))
}

func (b builder) circuits() {
	for _, d := range b.Answer.Days {
		l := b.Legs[d.Leg]
		one := CircuitDay{Day: "day " + fmt.Sprint(int(l.EndDay)+1), Name: l.Circuit, If: "no single reading changes it"}
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
		}
		if len(d.Fit) > 0 {
			one.If = "Spare " + strings.Join(d.Fit, ", ") + " on before it. " + one.If
		}
		b.c.Circuits = append(b.c.Circuits, one)
	}
}
