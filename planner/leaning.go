package planner

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/projection"
	"example.com/tripwear/planner/trip"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/decode"
)

// assumption is one that an answer may lean on: a key of a kind's parts or,
// without a kind, of the model.
type assumption struct {
	kind profiles.Kind
	key  string
	name string
	sd   float64 // of ln: how far it may be off
}

// mayTurn are the assumptions that are tried, each with how far it may be off.
// Engineering choices, from how far published values and like cars lie apart.
var mayTurn = []assumption{
	{profiles.Tire, "abrasion", "the tires' abrasion", 0.4},
	{profiles.Tire, "land", "the share of the tread that is rubber", 0.08},
	{profiles.Tire, "cornering", "the tires' cornering stiffness", 0.2},
	{profiles.Pads, "wear", "the pads' wear while cool", 0.3},
	{profiles.Pads, "threshold", "the heat from which pads wear faster", 0.1},
	{profiles.Pads, "area", "the pads' area", 0.2},
	{profiles.Rotors, "ring_mass", "the rotors' mass", 0.2},
	{profiles.Rotors, "area", "the rotors' cooled area", 0.2},
	{profiles.Rotors, "crack", "how soon rotors crack", 0.56},
	{profiles.Bearing, "road_life", "the hubs' road life", 0.4},
	{profiles.Bearing, "severity", "the life that circuits leave a hub", 0.5},
	{profiles.Bearing, "capacity", "the hubs' load rating", 0.15},
	{profiles.Fluid, "uptake", "the water that fluid takes up", 0.3},
	{profiles.Fluid, "heat_thick", "the heat that new pads let through", 0.2},
	{"", "tire.hot_factor", "the wear of hot tread", 0.3},
	{"", "tire.road_rate", "the wear of tread on roads", 0.25},
	{"", "oil.circuit_rise", "the oil's rise on circuit", 0.12},
	{"", "caught.hub", "the share of loose hubs that a shake finds", 0.3},
	{"", "caught.pads", "the share of thin pads that a gauge finds", 0.1},
	{"", "session.rest", "the rest between sessions", 0.3},
	{ofCar, "front_weight", "the weight on the front axle", 0.06},
	{ofCar, "cg_height", "the height of the center of gravity", 0.08},
	{ofCar, "roll_front", "the front share of the load transfer", 0.08},
	{ofCar, "drag_area", "the drag area", 0.12},
	{ofCar, "wheelbase", "the wheelbase", 0.04},
	{ofCar, "track.front", "the front track", 0.03},
	{ofCar, "track.rear", "the rear track", 0.03},
	{ofCar, "alignment.front.camber", "the front camber", 0.5},
	{ofCar, "alignment.rear.camber", "the rear camber", 0.4},
	{ofCar, "mass", "the mass", 0.06},
	{ofCar, "power", "the power", 0.12},
}

// ofCar marks a key of the car, which is tried where its owner has it assumed.
const ofCar profiles.Kind = "car"

// What working out the leanings may cost, and what of it is told.
const (
	leaningDraws = 1000
	tenth        = 1.2816 // standard normal at 90 %
	mostLeanings = 10
	leastMove    = 0.01 // of a chance
)

// Leanings completes a plan with the assumptions that move it most: each is set
// to its own 10 and 90 %, and the trip planned anew, with few draws.
func Leanings(p *plan.Plan, f *profiles.Folder, outing profiles.Trip, o Options) {
	o = o.orDefault()
	o.Draws = min(leaningDraws, o.Draws)
	m := trip.NewMachine(f)
	was, err := outlined(m, f, outing, o)
	if err != nil {
		return // the plan itself could not have been made
	}
	found := make([][2]*plan.Leaning, len(mayTurn))
	projection.Parallel(2*len(mayTurn), func() func(int) {
		return func(k int) { found[k/2][k%2] = mayTurn[k/2].leaning(m, p, was, f, outing, o, float64(2*(k%2)-1)) }
	})
	for _, both := range found {
		if both := slices.DeleteFunc(both[:], func(l *plan.Leaning) bool { return l == nil }); len(both) > 0 {
			p.Leanings = append(p.Leanings, *slices.MinFunc(both, byMove))
		}
	}
	slices.SortStableFunc(p.Leanings, func(a, b plan.Leaning) int { return byMove(&a, &b) })
	p.Leanings = p.Leanings[:min(mostLeanings, len(p.Leanings))]
}

// byMove puts first what turns a set to or from one that is not to be taken,
// then what turns most sets, then what moves a chance most.
func byMove(a, b *plan.Leaning) int {
	grave := func(l *plan.Leaning) int {
		if l.Turns != "" && (l.Action == plan.DoNotTake) != (l.Turns == plan.DoNotTake) {
			return 1
		}
		return 0
	}
	return cmp.Or(cmp.Compare(grave(b), grave(a)), cmp.Compare(b.Turned, a.Turned), cmp.Compare(math.Abs(b.To-b.From), math.Abs(a.To-a.From)))
}

// leaning is what a plan becomes with an assumption at one of its ends; nil
// where it is the owner's own figure, or nothing moves.
func (a assumption) leaning(m trip.Machine, p, was *plan.Plan, f *profiles.Folder, outing profiles.Trip, o Options, end float64) *plan.Leaning {
	changed, varied := f.Clone(), outing.Clone()
	l := &plan.Leaning{What: a.name, Times: math.Exp(end * tenth * a.sd)}
	for _, key := range a.keys(f) {
		if err := changed.Apply(&varied, profiles.Change{Key: key.path, Value: scaled(key.value, l.Times)}); err != nil {
			return nil // outside its range
		}
		if !slices.Contains(l.Usual, key.value) {
			l.Usual = append(l.Usual, key.value)
		}
	}
	if len(l.Usual) == 0 {
		return nil
	}
	is, err := outlined(m.With(changed), changed, varied, o)
	if err != nil {
		return nil
	}
	return moved(l, p, was, is)
}

// keyed is where an assumption is written, and its value there.
type keyed struct{ path, value string }

// keys are where an assumption is written for what is on the car, but for what
// its owner has given himself.
func (a assumption) keys(f *profiles.Folder) (out []keyed) {
	add := func(path string, s profiles.Source) {
		if s.Value != "" && s.Tag != decode.Owner && !slices.ContainsFunc(out, func(k keyed) bool { return k.path == path }) {
			out = append(out, keyed{path, s.Value})
		}
	}
	switch a.kind {
	case "":
		add(a.key, f.Model.Sources[a.key])
		return out
	case ofCar:
		own, rest, _ := strings.Cut(a.key, ".")
		if s := f.Car.Sources[strings.NewReplacer("front.camber", "LF.camber", "rear.camber", "LR.camber").Replace(a.key)]; slices.Contains(f.Car.Assumed, own) && (rest == "" || s.Value != "") {
			out = append(out, keyed{a.key, s.Value})
		}
		return out
	}
	for _, e := range f.Car.Fitted {
		if part := f.Parts[e.Part]; part.Kind == a.kind {
			add("parts."+part.ID+"."+a.key, part.Sources[a.key])
		}
	}
	return out
}

// scaled is a written value times a factor, to three figures: "100000 mi".
func scaled(value string, factor float64) string {
	var number float64
	rest := strings.TrimLeft(value, "0123456789.")
	if _, err := fmt.Sscan(strings.TrimSuffix(value, rest), &number); err != nil {
		return value // words have no ends
	}
	number *= factor
	if unit := math.Pow(10, math.Floor(math.Log10(number))-2); number > 0 {
		number = math.Round(number/unit) * unit
	}
	return fmt.Sprintf("%.6g%s", number, rest)
}

// moved puts down what the assumption changed turns and moves of a plan, by two
// plans of few draws without and with it; nil where that is nothing. A set of
// which few draws decide otherwise than the plan does not turn.
func moved(l *plan.Leaning, p, was, is *plan.Plan) *plan.Leaning {
	for i, s := range p.Sets {
		before, after := was.Sets[i].Decision, is.Sets[i].Decision
		turns := before.Action == s.Decision.Action && after.Action != before.Action
		if turns {
			l.Turned++
		}
		larger := math.Abs(after.PAsIs-before.PAsIs) > math.Max(leastMove, math.Abs(l.To-l.From))
		if turns && (l.Turned == 1 || larger) || l.Turned == 0 && larger {
			l.Set, l.Name, l.End = s.ID, s.Name, s.Points[0].Measure.Info().End
			l.From = s.Decision.PAsIs
			l.To = min(1, max(0, l.From+after.PAsIs-before.PAsIs))
			l.Action, l.Turns = s.Decision.Action, ""
			if turns {
				l.Turns = after.Action
			}
		}
	}
	if l.Name == "" {
		return nil
	}
	return l
}
