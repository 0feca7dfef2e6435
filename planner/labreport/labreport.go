// Package labreport judges laboratory reports on used oil for a car.
package labreport

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/tripwear/profiles"
	"example.com/tripwear/wearmodel/oil"
)

// Distances of the oil's count.
const (
	statuteMile = 1609.344                // m
	circuitPace = 60 * statuteMile / 3600 // m/s: what an hour on circuit puts on the odometer; assumed
	leastLine   = 100 * statuteMile       // m: an interval or ceiling below it is a change now
)

// Reading is a report on used oil, judged for the car. Distances are
// equivalent m.
type Reading struct {
	ID              string  `json:"id"`
	File            string  `json:"file"`
	Sampled         string  `json:"sampled"` // date
	Grade           string  `json:"grade"`
	Distance        float64 `json:"distance"` // m driven on the fill
	Equivalent      float64 `json:"equivalent"`
	Interval        float64 `json:"interval"` // today's
	Ceiling         float64 `json:"ceiling"`
	oil.Judgement   `json:"judgement"`
	CircuitTemp     float64  `json:"circuit_temp"` // deg C of the oil on circuit
	HotViscosity    float64  `json:"hot_viscosity"`
	NewHotViscosity float64  `json:"new_hot_viscosity"` // mm2/s there, of the sample and of the new oil; NaN where it cannot be worked out
	Next            float64  `json:"next"`              // the interval that plans use from now on
	NextCeiling     float64  `json:"next_ceiling"`      // and the ceiling
	BaseMethod      string   `json:"base_method"`       // ASTM, "" where none is named
	AcidMethod      string   `json:"acid_method"`
	Current         bool     `json:"current"` // the sample is of the fill that is in the engine
	Earlier         int      `json:"earlier"` // reports of the same engine before it
	Assumed         []string `json:"assumed"` // what the report does not say
	CannotSay       []string `json:"cannot_say"`
}

// Read judges a report for the folder's car, beside the folder's earlier
// reports of the same engine. It fails where no SAE J300 grade is known.
func Read(f *profiles.Folder, r profiles.OilReport) (Reading, error) {
	part, entry := f.On(profiles.Oil, "engine")
	out := Reading{
		ID: r.ID, File: r.File, Sampled: r.Sampled.Format("2 Jan 2006"), Grade: r.Grade,
		Distance: float64(r.Fill.Distance), Interval: float64(r.Interval), Ceiling: float64(part.Oil.Ceiling),
		BaseMethod: r.Used.BaseMethod, AcidMethod: r.Used.AcidMethod,
		Current: r.Sampled.After(entry.Since.Date),
	}
	assume := func(format string, a ...any) { out.Assumed = append(out.Assumed, fmt.Sprintf(format, a...)) }
	if out.Grade == "" {
		out.Grade = part.Oil.Grade
		assume("grade %s, that of the oil fitted", out.Grade)
	}
	grade, ok := oil.ParseGrade(out.Grade)
	if !ok {
		return out, fmt.Errorf("%s: %q is no grade of SAE J300", r.File, out.Grade)
	}
	if out.Interval == 0 {
		out.Interval = float64(part.Oil.Interval)
	}
	used := sample(r, "used", r.Used)
	used.Equivalent = equivalent(f, r, assume)
	out.Equivalent = used.Equivalent
	used.Meters, used.TopUpKnown = float64(r.Fill.Distance), r.Has("fill.added")
	out.CircuitTemp = circuitTemp(f, r)
	unused := sample(r, "new", r.New)
	out.HotViscosity, out.NewHotViscosity = used.At(out.CircuitTemp), unused.At(out.CircuitTemp)
	var fresh *oil.Sample
	if len(unused.Values) > 0 {
		fresh = &unused
	}
	var earlier []oil.Sample
	for _, other := range f.OilReports {
		if other.Engine == r.Engine && other.Sampled.Before(r.Sampled) {
			s := sample(other, "used", other.Used)
			s.Equivalent = equivalent(f, other, func(string, ...any) {})
			earlier = append(earlier, s)
		}
	}
	out.Earlier = len(earlier)
	out.Judgement = oil.Judge(grade, used, fresh, earlier, out.Interval, criteria(f.Model.OilReport))
	out.lines()
	out.CannotSay = cannotSay(out.Missing)
	return out, nil
}

// lines works out the interval and the ceiling that plans use from now on.
func (r *Reading) lines() {
	most := r.FirstLimit
	if r.Verdict >= oil.Flagged && r.Equivalent > 0 {
		most = math.Min(most, r.Equivalent)
	}
	r.NextCeiling = math.Max(leastLine, math.Min(r.Ceiling, most))
	r.Next = math.Max(leastLine, math.Min(r.Supported, r.NextCeiling))
}

// Safe says whether the engine may be driven on this fill.
func (r Reading) Safe() bool { return r.Verdict < oil.Stop }

// sample turns a report's figures into the wear model's.
func sample(r profiles.OilReport, part string, f profiles.OilFigures) oil.Sample {
	s := oil.Sample{Values: map[oil.Figure]float64{}, Below: map[oil.Figure]bool{}, BaseMethod: f.BaseMethod, AcidMethod: f.AcidMethod}
	glycol := 0.0
	if f.Glycol == "found" {
		glycol = 1
	}
	for key, v := range map[string]struct {
		figure oil.Figure
		value  float64
	}{
		"kv40": {oil.KV40, float64(f.KV40)}, "kv100": {oil.KV100, float64(f.KV100)},
		"base_number": {oil.BaseNumber, float64(f.BaseNumber)}, "acid_number": {oil.AcidNumber, float64(f.AcidNumber)},
		"fuel": {oil.Fuel, float64(f.Fuel)}, "water": {oil.Water, float64(f.Water)}, "glycol": {oil.Glycol, glycol},
		"iron": {oil.Iron, float64(f.Iron)}, "chromium": {oil.Chromium, float64(f.Chromium)}, "copper": {oil.Copper, float64(f.Copper)},
		"tin": {oil.Tin, float64(f.Tin)}, "lead": {oil.Lead, float64(f.Lead)}, "aluminium": {oil.Aluminium, float64(f.Aluminium)},
		"silicon": {oil.Silicon, float64(f.Silicon)},
	} {
		if r.Has(part + "." + key) {
			s.Values[v.figure] = v.value
			s.Below[v.figure] = strings.HasPrefix(strings.TrimSpace(r.Sources[part+"."+key].Value), "<")
		}
	}
	return s
}

// circuitTemp is how hot (deg C) the fill was on circuit: by the report, or as
// in a plan of the car on a usual day.
func circuitTemp(f *profiles.Folder, r profiles.OilReport) float64 {
	if r.Fill.OilTemp != 0 {
		return float64(r.Fill.OilTemp)
	}
	const usual = 0.80 // pace; a report says nothing of it: engineering choice
	return Heat(f).On(float64(f.Model.Session.Ambient), usual)
}

// equivalent counts what a sampled fill had been through.
func equivalent(f *profiles.Folder, r profiles.OilReport, assume func(string, ...any)) float64 {
	hours := float64(r.Fill.Circuit)
	if !r.Has("fill.circuit") {
		assume("no circuit hours on the fill")
	}
	temp := circuitTemp(f, r)
	if r.Fill.OilTemp == 0 && hours > 0 {
		how := "the car's gauge"
		if f.Car.OilTemp == 0 {
			how = "no gauge"
		}
		assume("oil on circuit at %.0f C, %.0f F (%s)", temp, float64(temp*1.8)+32, how)
	}
	if hours > 0 {
		assume("60 mi (97 km) of the distance an hour on circuit, the rest highway")
	}
	road := math.Max(0, float64(r.Fill.Distance)-float64(hours*circuitPace))
	return oil.RoadEquivalent(road, 1, float64(f.Model.Oil.RoadTemp)) + oil.CircuitEquivalent(hours, temp)
}

func criteria(c profiles.OilCriteria) oil.Criteria {
	return oil.Criteria{
		Thinner: float64(c.Thinner), Thicker: float64(c.Thicker), StopThinner: float64(c.StopThinner), StopThicker: float64(c.StopThicker),
		BaseShare: float64(c.BaseShare), BaseLeast: float64(c.BaseLeast), Fuel: float64(c.Fuel), Water: float64(c.Water),
		Metals: map[oil.Figure]float64{
			oil.Iron: float64(c.Iron), oil.Chromium: float64(c.Chromium), oil.Copper: float64(c.Copper), oil.Tin: float64(c.Tin),
			oil.Lead: float64(c.Lead), oil.Aluminium: float64(c.Aluminium), oil.Silicon: float64(c.Silicon),
		},
		Line: float64(c.Line), Turn: float64(c.Turn), Step: float64(c.Step),
	}
}

// cannotSay lists what no report says, and what this one leaves out.
func cannotSay(missing []oil.Figure) []string {
	var out []string
	if len(missing) > 0 {
		names := make([]string, len(missing))
		for i, f := range missing {
			names[i] = string(f)
		}
		out = append(out, "not measured, so not judged: "+strings.Join(names, ", "))
	}
	return append(out,
		"one bottle is one moment: two laboratories differ by about a tenth",
		"particles larger than some 5 micrometers, such as a failing bearing sheds, are not seen: cut the filter open",
		"it does not say what will break next, only how this fill aged")
}

// Newest is the newest report of the car's own engine, judged; nil where there
// is none.
func Newest(f *profiles.Folder) (*Reading, error) {
	for i, r := range slices.Backward(f.OilReports) {
		if r.Engine == "" || r.Engine == f.Car.Name {
			out, err := Read(f, f.OilReports[i])
			return &out, err
		}
	}
	return nil, nil
}

// Flagged lists the figures past their limits.
func (r Reading) Flagged() string {
	var out []string
	for _, f := range r.Readings {
		if f.Verdict >= oil.Flagged {
			out = append(out, string(f.Figure))
		}
	}
	return strings.Join(out, ", ")
}

// Heat is what the heat of the car's oil on circuit depends on.
func Heat(f *profiles.Folder) oil.Heat {
	h := oil.Heat{
		Gauge: float64(f.Car.OilTemp), Power: float64(f.Car.Power),
		Rise: float64(f.Model.Oil.CircuitRise), Most: float64(f.Model.Oil.CircuitMost),
	}
	if f.Car.OilCooler {
		h.Cooling = float64(f.Model.Oil.Cooler)
	}
	return h
}
