package planner

import (
	"fmt"
	"slices"
	"time"

	"example.com/tripwear/profiles"
)

// Where an item is bought or brought.
const (
	BuyBefore   = "before leaving"
	BuyCarry    = "carry"
	BuyOnTheWay = "on the way"
)

// shop fills the shopping and packing lists from the decisions.
func shop(p *Plan, sets []*set, f *profiles.Folder, today time.Time) {
	onShelf := map[string]int{}
	for _, spare := range f.Car.Shelf {
		onShelf[spare.Part] += int(spare.Quantity)
	}
	for _, s := range sets {
		part := f.Parts[s.Part]
		for _, buy := range needs(s, p.Legs, onShelf[s.Part] > 0) {
			it := Item{
				Set: s.ID, Part: s.Part, Name: fmt.Sprintf("%s (%s)", part.Name, s.Name), Buy: buy,
				Price: float64(part.Price), Volume: float64(part.Volume), Mass: float64(part.Weight), Tools: part.Tools,
			}
			if onShelf[s.Part] > 0 && buy != BuyOnTheWay {
				onShelf[s.Part]--
				it.OnShelf = true
			}
			if part.LeadTime > 0 && !it.OnShelf && buy != BuyOnTheWay && !p.Depart.IsZero() {
				it.OrderBy = orderBy(p.Depart, part)
				it.Late = !today.IsZero() && it.OrderBy.Before(today)
			}
			p.Shopping = append(p.Shopping, it)
			if buy == BuyCarry {
				p.Packing = append(p.Packing, it)
			}
		}
	}
	slices.SortStableFunc(p.Shopping, func(a, b Item) int { return rank(a.Buy) - rank(b.Buy) })
	p.Boot = load(p.Packing, f.Car)
}

func rank(buy string) int { return slices.Index([]string{BuyBefore, BuyCarry, BuyOnTheWay}, buy) }

// needs lists how many new sets a decision takes, each by where it is wanted.
// What lies on the shelf comes along to a stop; otherwise the stop's own parts
// counter serves, where it has one.
func needs(s *set, legs []Leg, onShelf bool) []string {
	switch d := s.Decision; d.Action {
	case Carry:
		return []string{BuyCarry}
	case RenewBefore:
		if d.Spare {
			return []string{BuyBefore, BuyCarry}
		}
		return []string{BuyBefore}
	case RenewAtStop:
		if !onShelf && slices.Contains(legs[d.Leg].Can, "parts") {
			return []string{BuyOnTheWay}
		}
		return []string{BuyCarry}
	default:
		return nil
	}
}

// load weighs the packing against the boot, luggage taken off.
func load(items []Item, car profiles.Car) Boot {
	b := Boot{
		LuggageVol: float64(car.Luggage.Volume), LuggageKg: float64(car.Luggage.Mass),
		Volume: float64(car.Boot.Volume - car.Luggage.Volume), Payload: float64(car.Boot.Payload - car.Luggage.Mass),
	}
	for _, it := range items {
		b.UsedVolume += it.Volume
		b.UsedMass += it.Mass
	}
	b.Fits = b.UsedVolume <= b.Volume && b.UsedMass <= b.Payload
	return b
}

// checks ties the usual inspections to what the plan found.
func checks(p *Plan) []Check {
	var out []Check
	add := func(when, format string, a ...any) { out = append(out, Check{when, fmt.Sprintf(format, a...)}) }
	const before, fuel, session, night, home = "before leaving", "at each fuel stop", "before each session", "after each circuit day", "back home"
	for _, s := range p.Sets {
		if s.Decision.Action == RenewBefore {
			add(before, "renew the %s", s.Name)
		}
	}
	add(before, "measure tread, pads and rotors and read the rotor faces; write the readings in the Measurements sheet")
	for _, s := range p.Sets {
		d := s.Decision
		watched := d.Action == Watch || d.Action == Carry || d.Spare
		switch s.Kind {
		case profiles.Tire:
			add(fuel, "%s: pressure cold, cuts and cords; depth at %s", s.Name, d.Where)
			if watched {
				add(session, "%s: depth at %s", s.Name, d.Where)
			}
		case profiles.Pads:
			if watched {
				add(session, "%s: thickness at the thinnest end, %s", s.Name, d.Where)
			} else {
				add(night, "%s: thickness at the thinnest end", s.Name)
			}
		case profiles.Rotors:
			if watched {
				add(session, "%s: run a fingernail over the faces, look at the edges for a crack, %s", s.Name, d.Where)
			} else {
				add(night, "%s: look for heat checks and a crack at the edge", s.Name)
			}
		}
	}
	for _, l := range p.Legs {
		for _, w := range l.Wet {
			add(fuel, "%s", w.inRain(l.Name))
		}
	}
	worst := -1
	for i, s := range p.Sets {
		if s.Kind == profiles.Bearing && (worst < 0 || s.Decision.PAsIs > p.Sets[worst].Decision.PAsIs) {
			worst = i
		}
	}
	if worst >= 0 {
		add(session, "shake each wheel at 12 and 6 o'clock; %s suffers most (chance to fail %s)", p.Sets[worst].Points[0].Place, Chance(p.Sets[worst].Decision.PAsIs))
	}
	add(session, "oil level at full, fluid level, firm pedal, wheel fasteners to the maker's torque when cold")
	add(home, "measure tread, pads and rotors again: the readings are worth more than the model")
	order := []string{before, fuel, session, night, home}
	slices.SortStableFunc(out, func(a, b Check) int { return slices.Index(order, a.When) - slices.Index(order, b.When) })
	return out
}
