package card

import (
	"fmt"
	"math"
	"strings"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
)

// lists are what the car is parked for, and what is looked at on the way.
func (b builder) lists() {
	b.c.Park = []string{"Cords showing", "Crack at a rotor's edge", "Pad at its plate", "Play in a hub", "Soft pedal", "Coolant in the oil"}
	for _, w := range b.Answer.Watch {
		text := upper(w.First())
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
	b.c.Room = b.Boot.Room(b.u) + " beside the luggage: " + fits
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
