package planner

import (
	"cmp"
	"slices"
	"strings"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/projection"
)

const (
	turnDraws = 1000 // enough to find a threshold to a few percent
	turnSteps = 7    // halvings

	// Shares of a set's draws: the nearest to its ends that is asked about, and
	// how far past a threshold its other side is.
	nearEnd = 0.01
	pastIt  = 0.01
)

// unread is a set that could be read and was not.
type unread struct {
	set    int
	starts projection.Starts
}

// findUnread puts every set that nobody read where it starts for the worse.
func (c *outset) findUnread() {
	w := projection.NewWorker(c.turns, c.Usages)
	for i, s := range c.sets {
		if s.Unread() {
			u := unread{i, w.Starts(s)}
			worse := u.starts.ForTheWorse()
			if best := u.starts.AsRead(1 - plan.TurnsAt); best.WornOut() { // as it would be if it were read
				worse.Stop = append(worse.Stop, "not read, and by the model almost certainly past its limit now")
			}
			c.sets[i], c.unread = worse, append(c.unread, u)
		} else if old := s.Outdated(); c.Under != nil && old != nil {
			c.unread = append(c.unread, unread{i, w.Starts(old)})
		}
	}
}

// readings lists what to read because it could turn what is said of a set, what
// turns most first. said tells in words what follows from a set as if read.
func (c *outset) readings(said func(*projection.Set, *projection.Worker) string) []plan.Deciding {
	found := make([]*plan.Deciding, len(c.unread))
	projection.Parallel(len(c.unread), func() func(int) {
		w := projection.NewWorker(c.turns, c.Usages)
		return func(k int) { found[k] = c.unread[k].turns(w, c.sets[c.unread[k].set], said) }
	})
	var out []plan.Deciding
	for _, r := range found {
		if r != nil && r.Chance > plan.TurnsAt {
			out = append(out, *r)
		}
	}
	slices.SortStableFunc(out, func(a, b plan.Deciding) int { return cmp.Compare(b.Chance, a.Chance) })
	return out
}

// turns finds the reading at which what is said of a set turns; nil where none
// does. What is said goes one way with the level.
func (u unread) turns(w *projection.Worker, s *projection.Set, said func(*projection.Set, *projection.Worker) string) *plan.Deciding {
	open := u.starts.FirstOpen()
	first := s.Levels[open]
	out := &plan.Deciding{Set: s.ID, Name: s.Name, Place: first.Place, Zone: first.Zone, Measure: first.Measure}
	if s.Lifetime {
		out.Guess, out.Above, out.Below, out.Chance = first.Start, "tight: "+said(u.starts.AsRead(0.5), w), "play: do not drive it", w.FailedUnnoticed(s)
		return out
	}
	out.Guess = max(0, u.starts.Level(open, 0.5))
	at := func(share float64) string { return said(u.starts.AsRead(share), w) }
	guess := at(0.5)
	turn := func(from, to float64) float64 { // to says another thing
		for range turnSteps {
			if mid := (from + to) / 2; at(mid) == guess {
				from = mid
			} else {
				to = mid
			}
		}
		return (from + to) / 2
	}
	below, above := 0.0, 1.0
	if at(nearEnd) != guess {
		below = turn(0.5, nearEnd)
	}
	if at(1-nearEnd) != guess {
		above = turn(0.5, 1-nearEnd)
	}
	out.Chance = below + 1 - above
	switch {
	case below > 1-above:
		out.Threshold, out.Above, out.Below = u.starts.Level(open, below), guess, at(max(nearEnd, below-pastIt))
		if worst := at(plan.TurnsAt); worst != out.Below && worst != guess {
			out.Below += ", or " + worst
		}
	case above < 1:
		out.Threshold, out.Above, out.Below = u.starts.Level(open, above), at(min(1-nearEnd, above+pastIt)), guess
	case above == 1:
		return nil
	}
	lookFor(s, first, out)
	return out
}

// lookFor names both sides by what an eye finds, where no gauge reads the
// measure.
func lookFor(s *projection.Set, first projection.Level, d *plan.Deciding) {
	if first.Measure.Info().Length || len(s.Spec.Findings) == 0 || s.Read { // another look would find the same
		return
	}
	var good, bad []string
	look := s.Spec.Findings[0]
	for _, f := range look.List {
		if f.Forbids {
			continue
		}
		if s.Spec.SpeaksFor(look.Row, f.Word) {
			good = append(good, string(f.Word))
		} else {
			bad = append(bad, string(f.Word))
		}
	}
	d.Above = strings.Join(good, " or ") + ": " + d.Above
	d.Below = strings.Join(bad, " or ") + ": " + d.Below
}
