package planner

import (
	"math"
	"time"

	"example.com/tripwear/profiles"
	"example.com/tripwear/wearmodel/brake"
	"example.com/tripwear/wearmodel/oil"
)

const (
	day   = 24 * time.Hour
	month = 365.2425 / 12 // days, mean of the Gregorian calendar
)

// age is how many days after the fill of an entry a leg ends; 0 where the
// profile does not date it.
func (b *builder) age(fit fitting, leg int) float64 {
	since, depart := fit.entry.Since.Date, b.depart
	if since.IsZero() || depart.IsZero() {
		return b.legs[leg].EndDay
	}
	return depart.Sub(since).Hours()/day.Hours() + b.legs[leg].EndDay
}

// oil follows the fill by equivalent distance to its ceiling; months count too.
func (b *builder) oil() *set {
	fit := b.parts[profiles.Oil]["engine"]
	part := fit.part.Oil
	s := b.start("oil", "engine oil", fit)
	s.road, s.circuit = float64(b.folder.Model.Spread.Oil), float64(b.folder.Model.Spread.Oil)
	interval, ceiling := b.reported(s, float64(part.Interval), float64(part.Ceiling))
	p := point{Point: Point{
		Place: "engine", Measure: OilLife, New: ceiling, Start: ceiling,
		Margin: ceiling - interval,
	}}
	of := func(w wear) float64 { return w.oil }
	b.unmeasured(&p, fit, of)
	s.Measured = estimated
	if b.folder.Car.OilTemp == 0 {
		s.Measured += "; no gauge, so the oil's heat on circuit is assumed"
	}
	s.add(p, b.usages, of)
	s.renewed()
	if part.Months > 0 {
		limits := oil.Limits{Ceiling: ceiling, Months: float64(part.Months)}
		left := func(days float64) float64 {
			_, used := limits.Used(0, days/month)
			return ceiling * (1 - used)
		}
		for j := range b.legs {
			s.points[0].cap = append(s.points[0].cap, left(b.age(fit, j)))
			s.fresh.points[0].cap = append(s.fresh.points[0].cap, left(b.legs[j].EndDay))
		}
		s.points[0].Cap = s.points[0].cap
	}
	return s
}

// fluid follows the margin between the brake fluid and its boiling point;
// every circuit leg has its own, and the lowest so far counts.
func (b *builder) fluid() *set {
	fit := b.parts[profiles.Fluid]["system"]
	part := fit.part.Fluid
	fill := b.fill()
	s := b.start("fluid", "brake fluid", fit)
	s.circuit, s.summary, s.alone = float64(b.folder.Model.Spread.FluidHeat), float64(b.folder.Model.Spread.FluidHeat), true
	s.Measured = "water estimated from its age"
	if part.Uptake > 0 && fit.entry.Water > 0 {
		s.Measured = "water measured"
	}
	const daysPerYear = 12 * month
	older := 0.0 // years, by its colour
	if water := colourWater(fit.entry.Colour); water > 0 && part.Uptake > 0 {
		older = water / float64(part.Uptake)
		s.Seen = append(s.Seen, "dark: taken as wet")
	}
	years := func(days float64) float64 {
		if fit.entry.Water > 0 && part.Uptake > 0 {
			measured := float64(fit.entry.Water/part.Uptake) + (days-b.age(fit, 0)+b.legs[0].EndDay)/daysPerYear
			return max(measured, older)
		}
		return max(days/daysPerYear, older)
	}
	p := point{Point: Point{Place: "system", Measure: BoilMargin, New: fill.Dry, Start: fill.Dry, Margin: float64(part.Warn)}}
	fresh := make([]float64, 0, len(b.legs))
	for j, u := range b.usages {
		if !u.circuit {
			p.legs, p.Loss = append(p.legs, loss{}), append(p.Loss, 0)
			p.cap, fresh = append(p.cap, math.Inf(1)), append(fresh, math.Inf(1))
			continue
		}
		ambient := b.legs[j].Ambient
		heat := func(w wear) float64 {
			return fill.Temperature(brake.Outcome{Bulk: max(w.bulk[0], w.bulk[1])}, ambient, b.worn(j)) - ambient
		}
		p.legs = append(p.legs, loss{heat(u.at[0]), heat(u.at[1]), heat(u.at[2])})
		p.Loss = append(p.Loss, heat(u.nominal()))
		p.cap = append(p.cap, fill.Boils(fill.Water(years(b.age(fit, j))))-ambient)
		fresh = append(fresh, fill.Boils(fill.Water(b.legs[j].EndDay/daysPerYear))-ambient)
		b.legs[j].FluidPeak = ambient + heat(u.nominal())
	}
	p.from = p.Start
	s.points = append(s.points, p)
	s.renewed()
	s.fresh.points[0].cap = fresh
	return s
}

// fill is the brake fluid as the wear model sees it.
func (b *builder) fill() brake.Fluid {
	part := b.parts[profiles.Fluid]["system"].part.Fluid
	return brake.Fluid{
		Dry: float64(part.Dry), Wet: float64(part.Wet), Uptake: float64(part.Uptake),
		HeatThick: float64(part.HeatThick), HeatWorn: float64(part.HeatWorn),
	}
}

// worn is how far the front pads are nominally used at the end of a leg.
func (b *builder) worn(leg int) float64 {
	fit := b.parts[profiles.Pads]["LF"]
	now := float64(fit.part.Pads.NewDepth)
	if left, ok := fit.entry.Pad["LF"]; ok {
		now = float64(left)
	}
	for _, u := range b.usages[:leg+1] {
		now -= u.nominal().pad[0][1]
	}
	return brake.Worn(now, float64(fit.part.Pads.NewDepth), float64(fit.part.Pads.Limit))
}
