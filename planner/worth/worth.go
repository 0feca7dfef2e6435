package worth

import (
	"cmp"
	"math"
	"slices"
	"time"

	"example.com/tripwear/planner/decision"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/projection"
	"example.com/tripwear/planner/trip"
	"example.com/tripwear/profiles/quantity"
)

// What is looked at. Engineering choices.
const (
	classes = 5   // equally likely readings
	draws   = 500 // enough to tell one option from another
	least   = 1.0 // money: less is not worth a sentence
)

// Of is what each unknown of a trip is worth, what is worth most first. A reading
// is worth what the best decision after it costs less, on average, than the one
// made without it, each set by itself: preposterior analysis, Raiffa and Schlaifer,
// Applied Statistical Decision Theory, 1961, 4.5. For an age or a room it is told
// what knowing it can save at most.
func Of(sets []*projection.Set, way *trip.Journey, today time.Time, seed uint64) []plan.Worth {
	found := make([][]plan.Worth, len(sets))
	d := projection.NewDraws(draws, seed)
	projection.Parallel(len(sets), func() func(int) {
		w := projection.NewWorker(d, way.Usages)
		return func(i int) {
			s := sets[i]
			found[i] = slices.Concat(reading(s, w, way, today), unknown(s))
		}
	})
	out := slices.DeleteFunc(slices.Concat(found...), func(v plan.Worth) bool { return v.Saving < least })
	slices.SortStableFunc(out, func(a, b plan.Worth) int { return cmp.Compare(b.Saving, a.Saving) })
	return out
}

// reading is what reading a set once more before leaving is worth; none where no
// gauge reads it, or nothing that it costs could be saved.
func reading(s *projection.Set, w *projection.Worker, way *trip.Journey, today time.Time) []plan.Worth {
	if s.Decision.Cost < least || s.Decision.Action == plan.DoNotTake || len(s.Stop) > 0 {
		return nil
	}
	open := s.Reopened()
	if open == nil {
		return nil
	}
	st := w.Starts(open)
	sum := 0.0
	for k := range classes {
		at := st.AsRead((float64(k) + 0.5) / classes)
		sum += decision.Regret(at, w, way, today, s.Decision)
	}
	p := s.Levels[st.FirstOpen()]
	return []plan.Worth{{Set: s.ID, Name: s.Name, Place: p.Place, Zone: p.Zone, What: plan.WorthReading, Saving: sum / classes}}
}

// unknown is what the age of a set, and the room that its spare takes, are worth at
// most: all that is done about the set because of it.
func unknown(s *projection.Set) []plan.Worth {
	var out []plan.Worth
	_, entry := s.Way.Folder.On(s.Kind, s.Levels[0].Place)
	aged := s.PerLeg || s.Levels[0].Cap != nil
	if entry != nil && entry.Since.Undated && aged && s.Decision.Action != plan.DoNotTake {
		out = append(out, plan.Worth{Set: s.ID, Name: s.Name, What: plan.WorthAge, Saving: s.Decision.Cost, AtMost: true})
	}
	part := s.Way.Folder.Parts[s.Part]
	if next := s.Decision.Next; s.Decision.Action == plan.Bring && next != nil && !(quantity.Known(part.Volume) && quantity.Known(part.Weight)) {
		out = append(out, plan.Worth{Set: s.ID, Name: s.Name, What: plan.WorthRoom, Saving: math.Min(next.Extra, plan.NotTaken), AtMost: true})
	}
	return out
}
