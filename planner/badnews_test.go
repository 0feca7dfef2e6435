package planner

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/randomcar"
	"example.com/tripwear/profiles"
)

// slack is by how much a chance may fall with worse news: half of what is
// printed. What a logbook teaches has tails that a reading narrows.
const slack = 0.005

// never fails where worse news made an answer better: no set's chance to last
// as it stands may rise, and a no may not become a yes.
func never(t *rapid.T, what string, one, other *randomcar.Owner) (good, bad *plan.Plan) {
	t.Helper()
	return neverOf(t, false, func(plan.Set) bool { return true }, what, one, other)
}

// neverOf is never by the model's rates alone or the logbook's, where the
// chances of some sets alone may not rise.
func neverOf(t *rapid.T, prior bool, of func(plan.Set) bool, what string, one, other *randomcar.Owner) (good, bad *plan.Plan) {
	t.Helper()
	good, bad = pair(t, prior, one, other)
	if fuelStops(good) != fuelStops(bad) && one.Tank == other.Tank {
		return good, bad // one more fuel stop is one more check
	}
	if disbelieved(good, one) {
		return good, bad
	}
	// What one could not say yet may turn out as feared: yes, once that is replaced.
	if bad.Safe && !good.Safe && !(good.Verdict == plan.CantSay && bad.Verdict == plan.YesOnce) {
		t.Errorf("%s turns the no into a yes: %s", what, difference(good, bad))
	}
	for i, s := range good.Sets {
		if was, is := s.Decision.PAsIs, bad.Sets[i].Decision.PAsIs; of(s) && is < was-slack {
			t.Errorf("%s lowers the chance to reach the limit of %s from %.4f to %.4f", what, s.ID, was, is)
		}
	}
	return good, bad
}

// disbelieved says whether an owner's last row is a reading that is better than
// could be, or makes it likely that the gauge reads too deep. It is said aloud, the plan goes from the lower one that it would
// replace and it teaches nothing, so that it is no news, and no good news.
func disbelieved(p *plan.Plan, o *randomcar.Owner) bool {
	if len(o.Rows) == 0 {
		return false
	}
	r := o.Rows[len(o.Rows)-1]
	of := r.Date.Format("of 2 Jan 2006")
	return slices.ContainsFunc(p.Sets, func(s plan.Set) bool {
		return slices.ContainsFunc(s.Doubts, func(d string) bool { return strings.Contains(d, r.Place) && strings.Contains(d, r.Value) })
	}) || slices.ContainsFunc(p.Warnings, func(w string) bool {
		return strings.Contains(w, of+" at "+r.Place) && strings.Contains(w, "teaches nothing") || strings.Contains(w, "deeper since about")
	})
}

// difference is what is decided otherwise.
func difference(a, b *plan.Plan) string {
	var out []string
	for i, s := range a.Sets {
		if was, is := s.Decision, b.Sets[i].Decision; was.Action != is.Action || len(s.Stop) != len(b.Sets[i].Stop) {
			out = append(out, fmt.Sprintf("%s %s (%.3f) %v -> %s (%.3f) %v", s.ID, was.Action, was.PAsIs, s.Stop, is.Action, is.PAsIs, b.Sets[i].Stop))
		}
	}
	return strings.Join(out, "; ")
}

// TestWorseReadingInCar: a worse reading in car.yaml, without a logbook, gives no
// better an answer.
func TestWorseReadingInCar(t *testing.T) {
	randomcar.Check(t, 4, func(t *rapid.T) {
		o := randomcar.Draw(t, 0)
		f, r := reading(t, o)
		if f < 0 {
			return
		}
		worse := o.Clone()
		levels := worse.Fitted[f].Readings[r].Levels
		i := rapid.IntRange(0, len(levels)-1).Draw(t, "which")
		step := float64(rapid.IntRange(1, 30).Draw(t, "worse")) / 10
		if worse.Fitted[f].Readings[r].Key == "used" {
			levels[i] += 10 * step
		} else {
			levels[i] = max(3, levels[i]-step)
			levels[i] = min(levels[i], o.Fitted[f].Readings[r].Levels[i])
		}
		never(t, fmt.Sprint(o.Fitted[f].Part, o.Fitted[f].Readings[r], " -> ", levels), o, worse)
	})
}

// reading picks a reading with levels of car.yaml; -1 where there is none.
func reading(t *rapid.T, o *randomcar.Owner) (fitted, reading int) {
	var all [][2]int
	for i, f := range o.Fitted {
		for j, r := range f.Readings {
			if len(r.Levels) > 0 {
				all = append(all, [2]int{i, j})
			}
		}
	}
	if len(all) == 0 {
		return -1, -1
	}
	at := rapid.SampledFrom(all).Draw(t, "reading")
	return at[0], at[1]
}

// TestMoreDriving: more miles, or one session more, never help.
func TestMoreDriving(t *testing.T) {
	randomcar.Check(t, 4, func(t *rapid.T) {
		o := randomcar.Draw(t, 10)
		more, j := o.Clone(), rapid.IntRange(0, len(o.Legs)-1).Draw(t, "longer leg")
		switch l := &more.Legs[j]; l.Kind {
		case profiles.RoadLeg:
			l.Miles += rapid.IntRange(1, 100).Draw(t, "more miles")
		case profiles.CircuitLeg:
			l.Sessions++
		case profiles.StopLeg:
			return
		}
		never(t, fmt.Sprintf("leg %d: %+v", j+1, more.Legs[j]), o, more)
	})
}

func fuelStops(p *plan.Plan) (n int) {
	for _, l := range p.Legs {
		n += l.Refuels
	}
	return n
}

// TestOneCheckFewer: without the looks at what is unlikely to reach its limit,
// or with a tank that saves fuel stops, a no stays a no.
func TestOneCheckFewer(t *testing.T) {
	randomcar.Check(t, 4, func(t *rapid.T) {
		o := randomcar.Draw(t, 10)
		o.Run = "0.1 %"
		fewer := o.Clone()
		what := "safety.run: 2 %"
		if rapid.Bool().Draw(t, "larger tank") {
			fewer.Tank, what = 200, "a tank of 200 L"
		} else {
			fewer.Run = ""
		}
		good, bad := never(t, what, o, fewer)
		if fewer.Tank != o.Tank && fuelStops(bad) > 0 {
			return // the stops that are left lie elsewhere
		}
		for i, s := range bad.Sets {
			if was := good.Sets[i].Decision; was.Action == s.Decision.Action && was.Leg == s.Decision.Leg && was.Spare == s.Decision.Spare && s.Decision.PUnsafe < was.PUnsafe-1e-9 {
				t.Errorf("%s: %s is missed less often, %.4f -> %.4f", what, s.ID, was.PUnsafe, s.Decision.PUnsafe)
			}
		}
	})
}

// TestReadingLeftOut: where a reading gives a no, leaving it out may not give a
// yes, if the plan itself holds such a reading likely: no further below its
// estimate than one spread of the rates.
func TestReadingLeftOut(t *testing.T) {
	randomcar.Check(t, 4, func(t *rapid.T) {
		o := randomcar.Draw(t, 0)
		f, r := reading(t, o)
		if f < 0 {
			return
		}
		gone, left := o.Clone(), o.Fitted[f].Readings[r]
		gone.Fitted[f].Readings = slices.Delete(gone.Fitted[f].Readings, r, r+1)
		with, without := pair(t, false, o, gone)
		if !with.Safe && without.Safe && likely(with, without, left.Place) {
			t.Errorf("%s without %v is a yes, with it a no: %s", o.Fitted[f].Part, left, difference(with, without))
		}
	})
}

// likely says whether a set's points at a place, as read, lie no further below
// the estimate without the reading than one spread of what wore them.
func likely(with, without *plan.Plan, place string) bool {
	for i, s := range without.Sets {
		for j, p := range s.Points {
			if read := with.Sets[i].Points[j]; p.Place == place && read.Start != p.Start {
				spread := math.Hypot(p.Prior[0]*s.RoadSpread, p.Prior[1]*s.CircuitSpread)
				if read.Start < p.Start-spread-p.Reading {
					return false
				}
			}
		}
	}
	return true
}
