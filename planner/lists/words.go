package lists

import (
	"fmt"
	"slices"
	"strings"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/decode"
	"example.com/tripwear/wearmodel/oil"
)

// Cautions are said with every plan.
func Cautions() []string {
	return []string{
		"This is a planning estimate. Inspect before every session, whatever the forecast says.",
		"Never drive on a rotor cracked through or to its edge, on cords, on pads at the backing plate, or on a loose hub.",
		"The maker's limits, the organizer's technical inspection and local law come first.",
		"Safety-critical work belongs to a qualified mechanic.",
	}
}

// Pads made for heat, and a road long enough to say what that means on it.
// Engineering choices.
const (
	trackPads = 400.0           // C, from which they wear faster
	longRoad  = 1000 * 1609.344 // m
)

// Warnings are what the trip asks for beside the sets.
func Warnings(p *plan.Plan, f *profiles.Folder) []string {
	var out []string
	add := func(format string, a ...any) { out = append(out, fmt.Sprintf(format, a...)) }
	for _, l := range p.Legs {
		for _, w := range l.Wet {
			if w.Shallow {
				add("Rain is likely on part of %s and the %s are expected below the depth wanted in rain (%s %s first; wet stops take about %.1f times as long as with full tread): slow down, keep out of standing water.", l.Name, w.Name, w.Place, w.Zone, w.Stop)
			}
		}
		if l.Day == 1 && l.Tanks > 1 {
			add("%s burns about %.1f tanks a day: find fuel near the circuit.", l.Circuit, l.Tanks)
		}
		if l.Waits > 0 {
			add("The trip waits %d %s for %s: to leave later saves them.", l.Waits, plan.Plural(l.Waits, "night"), l.Circuit)
		}
		if l.Day == 1 && oil.Spent(float64(f.Car.OilTemp)) {
			add("%s: oil as hot as your gauge shows is spent there: change it before the way home, and find it more cooling.", l.Circuit)
		}
		if l.Day == 1 && l.Laps < float64(l.Sessions) {
			add("%s: a session of %.0f min holds less than one hot lap between its out lap and its in lap.", l.Circuit, l.SessionTime/60)
		}
		if l.WheelLifts && l.Day == 1 {
			add("At this pace the car lifts a wheel at %s; the loads there are estimates.", l.Circuit)
		}
		if l.BySummary && l.Day == 1 {
			add("%s is known by its summary alone, so its figures are wider; corners would narrow them.", l.Circuit)
			if l.Told != nil {
				add("%s: %s.", l.Circuit, l.Told.Words())
			}
		}
	}
	for _, l := range p.Legs {
		for i, axle := range []string{"front", "rear"} {
			if l.Day == 1 && l.PadsTooHot[i] {
				add("%s: the %s rotors run hotter than the pads fitted can take; a pad for more heat is wanted.", l.Circuit, axle)
			}
		}
	}
	for j, l := range p.Legs {
		if work := work(p, j, f); work > l.Stay {
			add("The work at %s takes about %.1f h, its stay is %.1f h: give it time, the dates do not.", l.Name, work/3600, l.Stay/3600)
		}
	}
	for _, s := range p.Sets {
		pads, road := f.Parts[s.Part].Pads, 0.0
		for j, l := range p.Legs {
			if l.Kind == profiles.RoadLeg && s.IsOn(j) {
				road += l.Meters
			}
		}
		hot := pads != nil && pads.Threshold >= trackPads
		if hot && s.Swaps() && road < longRoad {
			add("The %s are for heat: cold, they bite late; warm them on the out lap, and swap back before the road.", s.Name)
		}
		if hot && road >= longRoad {
			add("The %s are for heat: cold, on the road, they bite late, squeal and wear rotors; leave room, and warm them before you need them.", s.Name)
		}
	}
	for _, it := range p.Shopping {
		if it.Late {
			add("%s should have been ordered by %s.", it.Name, it.OrderBy.Format("2 Jan 2006"))
		}
	}
	if !p.Boot.Fits {
		add("The packing does not fit the trunk with the luggage.")
	}
	return append(out, unknowns(p, f)...)
}

// work is how long (s) what is replaced at a stop takes, a smaller job within
// the larger where they share their labor.
func work(p *plan.Plan, stop int, f *profiles.Folder) float64 {
	here := func(s plan.Set) bool { return s.Decision.Action == plan.ReplaceAtStop && s.Decision.Leg == stop }
	sum := 0.0
	for i, s := range p.Sets {
		if !here(s) {
			continue
		}
		hours := float64(f.Parts[s.Part].Hours)
		if k := partner(p.Sets, i); k >= 0 && here(p.Sets[k]) {
			if other := float64(f.Parts[p.Sets[k].Part].Hours); hours < other || hours == other && k < i {
				continue
			}
		}
		sum += hours
	}
	return sum
}

// Assumptions lists every value the plan leans on that was not measured on
// this car: the general model's and those of the fitted parts.
func Assumptions(p *plan.Plan, f *profiles.Folder) []plan.Assumption {
	var out []plan.Assumption
	list := func(prefix string, sources profiles.Sources, replace func(key string) string) {
		keys := make([]string, 0, len(sources))
		for k := range sources {
			keys = append(keys, k)
		}
		slices.Sort(keys)
		for _, k := range keys {
			src := sources[k]
			if k == "tire.wet_grip" && !slices.ContainsFunc(p.Legs, func(l plan.Leg) bool { return l.WetCircuit }) {
				continue
			}
			if src.Tag == decode.Owner || len(f.OilReports) == 0 && strings.HasPrefix(k, "oil_report.") {
				continue
			}
			out = append(out, plan.Assumption{What: prefix + strings.ReplaceAll(k, "_", " "), Value: src.Value, Tag: src.Tag, Source: src.Text, Replace: replace(k)})
		}
	}
	for _, key := range f.Car.Assumed {
		value := f.Car.Sources[key].Value
		if value == "" {
			value = "as car.yaml has it"
		}
		out = append(out, plan.Assumption{What: "car: " + strings.ReplaceAll(key, "_", " "), Value: value, Tag: "assumed", Source: "the kind of car, not this one", Replace: "measure it, put it in car.yaml, and take it out of assumed"})
	}
	list("", f.Model.Sources, func(string) string { return "set it in model.yaml" })
	seen := map[string]bool{}
	for _, s := range p.Sets {
		if seen[s.Part] {
			continue
		}
		seen[s.Part] = true
		list(s.PartName+": ", f.Parts[s.Part].Sources, func(k string) string { return kind.Of(s.Kind).Advice })
	}
	return out
}
