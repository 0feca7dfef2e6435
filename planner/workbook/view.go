package workbook

import (
	"fmt"
	"slices"
	"time"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
)

// view is a plan in the units of a workbook: what every sheet asks of it.
type view struct {
	*plan.Plan
	u      units
	driven []int // legs that wear something: roads and circuit days
}

func viewOf(p *plan.Plan, system quantity.System) view {
	v := view{Plan: p, u: unitsOf(system)}
	for j, l := range p.Legs {
		if l.Kind != profiles.StopLeg {
			v.driven = append(v.driven, j)
		}
	}
	return v
}

// last is the number of the last leg.
func (v view) last() int { return len(v.Legs) - 1 }

// has says whether there is such a leg.
func (v view) has(leg int) bool { return leg >= 0 && leg < len(v.Legs) }

// ends is the day a leg ends.
func (v view) ends(j int) time.Time {
	hours := v.Legs[j].EndDay * 24
	return v.Depart.Add(time.Duration(hours * float64(time.Hour)))
}

// leaves is the departure in words.
func (v view) leaves() string {
	if v.Depart.IsZero() {
		return "no date set"
	}
	return "leaves " + v.Depart.Format("2 Jan 2006")
}

// legName is a leg's number and name.
func (v view) legName(j int) string { return fmt.Sprintf("%d  %s", j+1, v.Legs[j].Name) }

// legShort is the same in a narrow column: a road by its number.
func (v view) legShort(j int) string {
	if v.Legs[j].Kind == profiles.RoadLeg {
		return fmt.Sprintf("%d  road", j+1)
	}
	return fmt.Sprintf("%d  %s", j+1, clip(v.Legs[j].Name, 26))
}

// byLeg are the labels of a chart by leg, short enough for its axis.
func (v view) byLeg() []string {
	out := []string{"start"}
	for _, j := range v.driven {
		out = append(out, v.legShort(j))
	}
	return out
}

// action is what is done, with the stop or the spare.
func (v view) action(d plan.Decision) string {
	switch {
	case d.Action == plan.ReplaceAtStop && v.has(d.Leg):
		return "replace at " + v.Legs[d.Leg].Name
	case d.Action == plan.Bring:
		return "bring a spare"
	case d.Spare:
		return string(d.Action) + ", and bring a spare"
	}
	return string(d.Action)
}

// points lists the points of one measure in the order of the tables.
func (v view) points(m kind.Measure) []plan.Point {
	var out []plan.Point
	for _, s := range v.Sets {
		for _, p := range s.Points {
			if p.Measure == m {
				out = append(out, p)
			}
		}
	}
	slices.SortStableFunc(out, func(a, b plan.Point) int {
		return slices.Index(columns, a.Place) - slices.Index(columns, b.Place)
	})
	return out
}

// columns is the order of the wheels in tables.
var columns = []string{"LF", "RF", "LR", "RR"}
