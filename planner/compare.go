package planner

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/lists"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
)

// MostWays is how many plans can be compared at once: what fits a screen.
const MostWays = 4

// Way is one of the plans to compare, of the same car.
type Way struct {
	Label  string // what sets it apart
	Folder *profiles.Folder
	Plan   *plan.Plan
}

// Compare sets plans of one car side by side.
func Compare(ways []Way) *plan.Comparison {
	first := ways[0]
	c := &plan.Comparison{Car: first.Plan.Car, Currency: first.Plan.Currency}
	for _, w := range ways {
		c.Ways = append(c.Ways, outcome(w))
	}
	for _, id := range taken(ways) {
		across := plan.SetAcross{ID: id}
		var points []plan.PointAcross
		for _, w := range ways {
			s := w.set(id)
			if len(s.Name) > len(across.Name) { // with its part, where others swap with it
				across.Name = s.Name
			}
			addSet(&across, w.Plan, s)
			for _, p := range s.Points {
				if !slices.ContainsFunc(points, func(a plan.PointAcross) bool { return a.Place == p.Place && a.Zone == p.Zone && a.Measure == p.Measure }) {
					points = append(points, plan.PointAcross{Place: p.Place, Zone: p.Zone, Measure: p.Measure})
				}
			}
		}
		c.Decisions = append(c.Decisions, across)
		for _, point := range points {
			point.Set = across.Name
			if _, part, named := strings.Cut(across.Name, "("); named {
				point.Part = strings.TrimSuffix(part, ")")
			}
			for _, w := range ways {
				addPoint(&point, w.set(id))
			}
			point.Change = max(spread(point.Share), spread(point.PLimit))
			c.Wear = append(c.Wear, point)
		}
	}
	c.Tread = wheels(c.Wear, ways)
	slices.SortStableFunc(c.Decisions, func(a, b plan.SetAcross) int {
		switch {
		case a.Differs && !b.Differs:
			return -1
		case b.Differs && !a.Differs:
			return 1
		case !a.Differs:
			return 0
		}
		return cmp.Compare(spread(b.Cost), spread(a.Cost))
	})
	slices.SortStableFunc(c.Wear, func(a, b plan.PointAcross) int { return cmp.Compare(b.Change, a.Change) })
	return c
}

// taken lists the ids of the sets that any of the plans takes along, in the order
// of a walk round the car.
func taken(ways []Way) []string {
	var out []string
	for _, w := range ways {
		for _, s := range w.Plan.Sets {
			if !slices.Contains(out, s.ID) {
				out = append(out, s.ID)
			}
		}
	}
	all := profiles.Sets()
	place := func(id string) int {
		of, _, _ := strings.Cut(id, ":")
		return slices.IndexFunc(all, func(s profiles.Set) bool { return s.ID == of })
	}
	slices.SortStableFunc(out, func(a, b string) int { return cmp.Or(cmp.Compare(place(a), place(b)), cmp.Compare(a, b)) })
	return out
}

// set is a plan's set; an empty one where it stays at home.
func (w Way) set(id string) plan.Set {
	for _, s := range w.Plan.Sets {
		if s.ID == id {
			return s
		}
	}
	return plan.Set{}
}

// InTurn sets trips side by side, each from what the one before leaves, decided as
// a season.
func InTurn(f *profiles.Folder, names []string, o Options) (*plan.Comparison, error) {
	trips, err := SeasonTrips(f, names, time.Time{}, time.Time{})
	if err != nil {
		return nil, err
	}
	s, err := Season(f, trips, o)
	if err != nil {
		return nil, err
	}
	var ways []Way
	for _, t := range s.Calendar {
		if !t.AtHome {
			ways = append(ways, Way{Label: t.TripID + ": " + t.Trip, Folder: f, Plan: t.Plan})
		}
	}
	c := Compare(ways)
	c.InTurn = true
	return c, nil
}

// spread is the largest difference between figures.
func spread(x []float64) float64 { return slices.Max(x) - slices.Min(x) }

// outcome sums one way up.
func outcome(w Way) plan.Outcome {
	o := plan.Outcome{Label: w.Label, Trip: w.Plan.Trip, Verdict: w.Plan.Verdict, Headline: w.Plan.Headline(), Why: w.Plan.Why, Safe: w.Plan.Safe, Purse: w.Plan.Spend(""), Unpriced: w.Plan.Unpriced()}
	for _, s := range w.Plan.Sets {
		for _, found := range s.Stop {
			o.Found = append(o.Found, s.Name+", "+found)
		}
	}
	for _, l := range w.Plan.Legs {
		o.Nights += l.Nights
	}
	o.Road, o.Days, o.Laps = w.Plan.Driven()
	for _, kind := range plan.ExpenseKinds {
		o.Spend = append(o.Spend, w.Plan.Spend(kind))
	}
	for _, e := range w.Plan.Apart {
		o.Apart += e.Amount
	}
	o.Life = lists.LifeWorn(w.Folder, w.Plan)
	return o
}

func addSet(a *plan.SetAcross, p *plan.Plan, s plan.Set) {
	d := s.Decision
	stop := ""
	if d.Action == plan.ReplaceAtStop {
		stop = p.Legs[d.Leg].Name
	}
	a.Absent = append(a.Absent, s.ID == "")
	a.Parts, a.Actions, a.Stops, a.Spares = append(a.Parts, s.PartName), append(a.Actions, d.Action), append(a.Stops, stop), append(a.Spares, d.Spare)
	a.PAsIs, a.POut, a.Cost = append(a.PAsIs, d.PAsIs), append(a.POut, d.POut), append(a.Cost, d.Cost)
	a.Differs = a.Differs || a.Parts[0] != s.PartName || a.Actions[0] != d.Action || a.Stops[0] != stop || a.Spares[0] != d.Spare
}

// addPoint adds a way's point; one of a set that stays at home loses nothing, and
// where it stands is not foretold.
func addPoint(a *plan.PointAcross, s plan.Set) {
	i := slices.IndexFunc(s.Points, func(p plan.Point) bool { return a.Place == p.Place && a.Zone == p.Zone && a.Measure == p.Measure })
	if i < 0 {
		a.Taken, a.Share, a.End, a.PLimit = append(a.Taken, 0), append(a.Share, 0), append(a.End, math.NaN()), append(a.PLimit, 0)
		return
	}
	p := s.Points[i]
	end := p.After[len(p.After)-1]
	a.Taken, a.Share = append(a.Taken, lists.Taken(p)), append(a.Share, lists.Taken(p)/(p.New-p.Limit))
	a.End, a.PLimit = append(a.End, end.P50), append(a.PLimit, end.PLimit)
}

// wheels gathers the tread zones of each wheel.
func wheels(points []plan.PointAcross, ways []Way) []plan.WheelAcross {
	var out []plan.WheelAcross
	for i := 0; i < len(points); i += len(kind.Zones) {
		if points[i].Measure != kind.Tread {
			break // tires come first
		}
		three := points[i : i+len(kind.Zones)]
		w := plan.WheelAcross{Place: three[0].Place, Part: three[0].Part}
		for k := range ways {
			worst, best, sum := three[0], three[0], 0.0
			for _, z := range three {
				if z.Taken[k] > worst.Taken[k] {
					worst = z
				}
				if z.Taken[k] < best.Taken[k] {
					best = z
				}
				sum += z.Taken[k]
			}
			w.Worst, w.Best = append(w.Worst, worst.Zone), append(w.Best, best.Zone)
			w.Most, w.Least, w.Mean = append(w.Most, worst.Taken[k]), append(w.Least, best.Taken[k]), append(w.Mean, sum/3)
			even, lasts := 1.0, 0.0
			if worst.Taken[k] > 0 {
				even, lasts = best.Taken[k]/worst.Taken[k], 1/worst.Share[k]
			}
			w.Even, w.Lasts = append(w.Even, even), append(w.Lasts, lasts)
		}
		for _, z := range three {
			w.Differs = w.Differs || spread(z.Taken) > 0
		}
		out = append(out, w)
	}
	return out
}

// Vary is a plan of the trip with changes applied to copies of the folder and
// the trip. What a change refuses comes back as profiles.Errors.
func Vary(f *profiles.Folder, trip profiles.Trip, changes []profiles.Change, o Options) (*profiles.Folder, *plan.Plan, error) {
	folder, varied := f.Clone(), trip.Clone()
	var all profiles.Errors
	for _, c := range changes {
		if err := folder.Apply(&varied, c); err != nil {
			bad, ok := err.(profiles.Errors)
			if !ok {
				return nil, nil, err
			}
			all = append(all, bad...)
		}
	}
	if len(all) > 0 {
		return nil, nil, all
	}
	var paid []plan.Expense
	for _, part := range putOn(f, changes) {
		e := plan.Expense{Kind: plan.ForParts, What: f.Parts[part.ID].Name + ", put on for this", Amount: float64(part.Price), Leg: -1}
		if i := shelved(folder, part.ID); i >= 0 {
			folder.Car.Shelf[i].Quantity--
			e.Amount = 0
		}
		paid = append(paid, e)
	}
	p, err := Make(folder, varied, o)
	if err == nil {
		p.Budget = append(p.Budget, paid...)
	}
	return folder, p, err
}

// putOn are the parts that changes put on the car new, to be bought unless one
// lies on the shelf; not those that lie aside.
func putOn(f *profiles.Folder, changes []profiles.Change) []profiles.Part {
	var out []profiles.Part
	for _, c := range changes {
		set, ok := strings.CutPrefix(c.Key, "fitted.")
		if part, known := f.Parts[c.Value]; ok && known && !strings.Contains(set, ".") && !f.Owns(set, part.ID) {
			out = append(out, part)
		}
	}
	return out
}

// shelved is where on the shelf a part lies, -1 where it does not.
func shelved(f *profiles.Folder, part string) int {
	return slices.IndexFunc(f.Car.Shelf, func(s profiles.Spare) bool { return s.Part == part && s.Quantity >= 1 })
}

// Paid says of each part that changes put on what it costs.
func Paid(f *profiles.Folder, changes []profiles.Change) string {
	var out []string
	for _, part := range putOn(f, changes) {
		how := " bought, its price unknown"
		if price := float64(part.Price); shelved(f, part.ID) >= 0 {
			how = " from the shelf"
		} else if quantity.Known(price) {
			how = fmt.Sprintf(" bought for %.0f", price)
		}
		out = append(out, part.ID+how)
	}
	if out == nil {
		return ""
	}
	return " (" + strings.Join(out, ", ") + ")"
}
