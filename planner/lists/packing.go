package lists

import (
	"fmt"
	"slices"
	"strings"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
)

// Pack fills the packing list: spares, oil for topping up, and the tools that
// work and checks on the way take. Tools count with the luggage, as their
// room is not known.
func Pack(p *plan.Plan, f *profiles.Folder, carried []plan.Swap) {
	for _, it := range p.Shopping {
		if it.Buy == plan.BuyBring {
			p.Packing = append(p.Packing, it)
		}
	}
	for _, c := range carried {
		part := f.Parts[c.On]
		for _, s := range p.Sets {
			if s.Part == c.On && s.Swaps() && strings.HasPrefix(s.ID, c.Set) {
				c.Set = s.ID
			}
		}
		p.Packing = append(p.Packing, plan.Item{Set: c.Set, Part: c.On, Name: fmt.Sprintf("%s (%s, to swap)", part.Name, c.Name), Buy: plan.BuyBring, Count: 1, As: "set", OnShelf: true, Volume: float64(part.Volume), Mass: float64(part.Weight)})
	}
	p.Boot = load(p.Packing, f.Car)
	for _, s := range p.Swaps {
		for _, tool := range s.Tools {
			if s.Leg > 0 {
				take(p, tool, s.Name)
			}
		}
	}
	for _, s := range p.Sets {
		if !mayBeFitted(p, s.Decision) {
			continue
		}
		for _, tool := range f.Parts[s.Part].Tools {
			take(p, tool, s.Name)
		}
	}
	for _, s := range p.Sets {
		k := kind.Of(s.Kind)
		off := mayBeFitted(p, s.Decision) || s.Decision.Action == plan.ReplaceBefore || s.Decision.Action == plan.ReplaceAtStop
		if off && k.WheelsOff {
			take(p, "torque wrench", "wheel fasteners after the "+s.Name)
		}
		read := slices.ContainsFunc(plan.Checks(k, p.Legs, s.On, s.Decision.Watched), func(o plan.Ordered) bool {
			return o.By == kind.ByGauge && len(o.Moments) > 0
		})
		for _, g := range k.Gauges {
			if !g.Reads || read {
				take(p, g.Name, s.Name)
			}
		}
	}
	if slices.ContainsFunc(p.Legs, isCircuit) {
		take(p, "torque wrench", "wheel fasteners before each session")
	}
	if p.TopUp > 0 {
		take(p, "funnel", "oil for topping up")
	}
}

// mayBeFitted says whether a set may go on away from a shop.
func mayBeFitted(p *plan.Plan, d plan.Decision) bool {
	return d.Action == plan.Bring || d.Spare || d.Action == plan.ReplaceAtStop && !slices.Contains(p.Legs[d.Leg].Can, "shop")
}

// take adds a tool, once however often it is wanted.
func take(p *plan.Plan, name, use string) {
	for i := range p.Tools {
		if t := &p.Tools[i]; t.Name == name {
			if !slices.Contains(t.For, use) {
				t.For = append(t.For, use)
			}
			return
		}
	}
	p.Tools = append(p.Tools, plan.Tool{Name: name, For: []string{use}})
}

// load weighs the packing against the trunk, luggage taken off.
func load(items []plan.Item, car profiles.Car) plan.Boot {
	b := plan.Boot{
		LuggageVol: float64(car.Luggage.Volume), LuggageKg: float64(car.Luggage.Mass),
		Volume: float64(car.Boot.Volume - car.Luggage.Volume), Payload: float64(car.Boot.Payload - car.Luggage.Mass),
	}
	for _, it := range items {
		if !quantity.Known(it.Volume) || !quantity.Known(it.Mass) {
			b.Unknown++
		}
		b.UsedVolume += quantity.OrZero(it.Volume)
		b.UsedMass += quantity.OrZero(it.Mass)
	}
	b.Fits = b.UsedVolume <= b.Volume+plan.TrunkSlack && b.UsedMass <= b.Payload+plan.TrunkSlack
	return b
}
