package planner

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"time"

	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/wearmodel/brake"
)

// inspect lets what an eye or a hand found override what the model believes
// of the sets, for the worse. Common practice, no source, unless a rule says
// otherwise.
func (b *builder) inspect(sets []*set) {
	for _, s := range sets {
		for _, place := range s.places() {
			entry := b.parts[s.Kind][place].entry
			switch s.Kind {
			case profiles.Tire:
				s.tire(place, entry)
				s.aged(place, b.built(entry.Built[place]))
			case profiles.Pads:
				s.lining(place, entry.Lining[place])
			case profiles.Rotors:
				s.face(place, entry.Face[place])
			case profiles.Bearing:
				s.feel(place, entry.Feel[place])
			case profiles.Fluid:
				s.pedal(entry.Pedal)
			}
		}
	}
}

// places lists where the set's points are, each once.
func (s *set) places() []string {
	var out []string
	for _, p := range s.points {
		if !slices.Contains(out, p.Place) {
			out = append(out, p.Place)
		}
	}
	return out
}

// see notes a finding that leaves the set to the forecast.
func (s *set) see(format string, a ...any) { s.Seen = append(s.Seen, fmt.Sprintf(format, a...)) }

// fail takes a place to the end of its life, whatever the forecast says.
func (s *set) fail(place, format string, a ...any) {
	s.Stop = append(s.Stop, place+": "+fmt.Sprintf(format, a...))
	s.failed = true
	for i := range s.points {
		if p := &s.points[i]; p.Place == place && p.Measure != Thickness {
			p.lower(p.Limit)
			for j := range p.cap {
				p.cap[j] = math.Min(p.cap[j], 0)
			}
		}
	}
}

// lower puts a point at a level, if it is believed above it; what was seen is
// not uncertain.
func (p *point) lower(level float64) {
	if p.Start > level {
		p.Start, p.from, p.gauge, p.wornRoad, p.wornCircuit = level, level, 0, 0, 0
	}
}

func (s *set) tire(place string, entry *profiles.Fitted) {
	switch entry.Found[place] {
	case "cords":
		s.fail(place, "cords show")
	case "cut":
		s.fail(place, "a cut; nobody drives a circuit on it before a tire shop has judged it")
	case "sound":
		s.see("%s found sound", place)
	}
}

// What age does to a tire whatever its tread. Car makers advise to replace
// after 6 years, tire makers after 10 at the latest; from memory.
const (
	tireOld  = 6.0  // years
	tireLast = 10.0 // years
)

// aged judges a tire's age, years at the end of the trip; NaN where unknown.
func (s *set) aged(place string, years float64) {
	switch {
	case years > tireLast:
		s.fail(place, "built %.0f years before the trip ends, past the %.0f that tire makers allow", years, tireLast)
	case years > tireOld:
		s.see("%s is %.0f years old: past the %.0f that car makers advise, look for cracks in the sidewall", place, years, tireOld)
		s.watched = true
	case years < 0:
		s.see("%s has a week code later than the trip: read it again", place)
		s.watched = true
	}
}

// built is a tire's age in years at the end of the trip, from its week code;
// NaN where there is no code or no date.
func (b *builder) built(code string) float64 {
	if len(code) != 4 || b.depart.IsZero() {
		return math.NaN()
	}
	week, _ := strconv.Atoi(code[:2]) // a profile holds digits only
	year, _ := strconv.Atoi(code[2:])
	born := time.Date(2000+year, 1, 1, 0, 0, 0, 0, time.UTC).AddDate(0, 0, 7*(week-1))
	end := b.depart.Add(time.Duration(b.legs[len(b.legs)-1].EndDay * float64(day)))
	return end.Sub(born).Hours() / (day.Hours() * 12 * month)
}

func (s *set) lining(place string, found logbook.Finding) {
	switch found {
	case "plate":
		s.fail(place, "worn to the backing plate")
	case "indicator":
		for i := range s.points {
			if p := &s.points[i]; p.Place == place {
				p.lower(p.Margin)
			}
		}
		s.see("%s is down to its wear indicator: the lining is put at its margin", place)
		s.watched = true
	case "taper":
		s.see("%s wears aslant: free the caliper's slides, and measure at the thin end", place)
		s.watched = true
	case "even":
		s.see("%s wears evenly", place)
	}
}

func (s *set) face(place string, found logbook.Finding) {
	look, ok := map[logbook.Finding]brake.Look{"smooth": brake.Smooth, "checks": brake.HeatChecks, "catches": brake.Catches, "edge": brake.EdgeCrack}[found]
	if !ok {
		return
	}
	if look == brake.EdgeCrack {
		s.fail(place, "a crack reaches the edge of the rotor")
	}
	for i := range s.points {
		if p := &s.points[i]; p.Place == place && p.Measure == Crack {
			p.lower(1 - look.Damage(1-p.Start))
		}
	}
	switch look {
	case brake.Catches:
		s.see("%s: cracks catch a fingernail, so it has a tenth of its life at most", place)
		s.watched = true
	case brake.HeatChecks:
		s.see("%s: heat checks that a fingernail does not catch", place)
	case brake.Smooth:
		s.see("%s: smooth", place)
	}
}

func (s *set) feel(place string, found logbook.Finding) {
	switch found {
	case "play":
		s.fail(place, "play at 12 and 6 o'clock")
	case "rough":
		s.fail(place, "rough when turned by hand")
	case "moved":
		s.fail(place, "the mark on its nut has moved")
	case "tight":
		s.see("%s found tight", place)
	}
}

func (s *set) pedal(found logbook.Finding) {
	switch found {
	case "soft":
		s.fail("system", "a soft pedal: air or boiled fluid; flush and bleed, and it must be firm after")
	case "long":
		s.fail("system", "a long pedal: find out why first (a loose hub that knocks the pads back, pads worn aslant, a leak)")
		s.final = true
	case "firm":
		s.see("firm pedal")
	}
}

// colourWater is how much water (share) a colour says at least. Dark fluid is taken
// as wet: engineering choice.
func colourWater(colour logbook.Finding) float64 {
	const wet = 0.037 // 49 CFR 571.116
	if colour == "dark" {
		return wet
	}
	return 0
}
