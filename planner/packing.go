package planner

import (
	"math"
	"slices"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/profiles"
	"example.com/tripwear/wearmodel/oil"
)

// A litre bottle of oil as packed. Assumed: oil weighs about 0.86 kg/L.
const (
	bottleRoom = 1.2 * kind.Liter // m3
	bottleMass = 0.95             // kg
)

// pack fills the packing list: spares, oil for topping up, and the tools that
// work and checks on the way take. Tools count with the luggage, as their
// room is not known.
func (p *Plan) pack(f *profiles.Folder) {
	for _, it := range p.Shopping {
		if it.Buy == BuyCarry {
			p.Packing = append(p.Packing, it)
		}
	}
	p.Boot = load(p.Packing, f.Car)
	for _, s := range p.Sets {
		if !p.mayBeFitted(s.Decision) {
			continue
		}
		for _, tool := range f.Parts[s.Part].Tools {
			p.take(tool, s.Name)
		}
	}
	for _, s := range p.Sets {
		k := kind.Of(s.Kind)
		off := p.mayBeFitted(s.Decision) || s.Decision.Action == RenewBefore || s.Decision.Action == RenewAtStop
		if off && k.WheelsOff {
			p.take("torque wrench", "wheel fasteners after the "+s.Name)
		}
		for _, g := range k.Gauges {
			if !g.Watched || s.Decision.Action == Watch || s.Decision.Action == Carry {
				p.take(g.Name, s.Name)
			}
		}
	}
	if p.TopUp > 0 {
		p.take("funnel", "oil for topping up")
	}
}

// mayBeFitted says whether a set may go on away from a workshop.
func (p *Plan) mayBeFitted(d Decision) bool {
	return d.Action == Carry || d.Spare || d.Action == RenewAtStop && !slices.Contains(p.Legs[d.Leg].Can, "shop")
}

// take adds a tool, once however often it is wanted.
func (p *Plan) take(name, use string) {
	for i := range p.Tools {
		if t := &p.Tools[i]; t.Name == name {
			t.For = append(t.For, use)
			return
		}
	}
	p.Tools = append(p.Tools, Tool{Name: name, For: []string{use}})
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

// topUp is the oil (m3) to expect to add on the way, from what the owner sees
// it use.
func topUp(car profiles.Car, legs []Leg, usages []usage) float64 {
	const perThousandKm = 1e-3 / 1e6 // m3 per m for each litre per 1,000 km
	road, circuit := 0.0, 0.0
	for j, l := range legs {
		switch l.Kind {
		case profiles.RoadLeg:
			road += l.Metres
		case profiles.CircuitLeg:
			circuit += usages[j].nominal().Oil
		}
	}
	return oil.TopUp(float64(car.OilUse)*perThousandKm, road, circuit)
}

// topUpRoom is the room (m3, kg) that oil for topping up takes in the boot.
func topUpRoom(volume float64) [2]float64 {
	n := math.Ceil(volume/kind.Liter - 1e-9)
	return [2]float64{float64(n * bottleRoom), float64(n * bottleMass)}
}
