package planner

import (
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
)

// TestCreditIsOnTheList: over both demos and variants of them, whatever a
// reason sends its reader to look at is on the checklist at that occasion, and
// where nothing on it is about a kind of part, no crossing of it is caught.
func TestCreditIsOnTheList(t *testing.T) {
	variants := 200
	if testing.Short() {
		variants = 10
	}
	r := rand.New(rand.NewPCG(14, 6))
	occasions := []string{kind.Fuel, kind.Session, kind.Night}
	said, caught := 0, 0
	for n := range variants + 2 {
		f, outing := demo(t, []string{"juniper", "fjord"}[n%2])
		if n >= 2 {
			outing = outing.Clone()
			outing.Legs = slices.DeleteFunc(outing.Legs, func(profiles.Leg) bool { return len(outing.Legs) > 1 && r.IntN(4) == 0 })
			if len(outing.Legs) == 0 {
				continue
			}
			for i := range outing.Legs {
				l := &outing.Legs[i]
				l.Distance *= quantity.Length(0.2 + 2*r.Float64())
				l.Days = l.Days * (1 + r.IntN(2))
			}
			if r.IntN(3) == 0 {
				f.Car.Fuel.Tank = 0
			}
			f.Model.Safety.Run = quantity.Share(0.5 * r.Float64() * r.Float64())
		}
		p, err := Make(f, outing, Options{Draws: 300})
		if err != nil {
			continue // such as a session too short for a lap
		}
		listed := func(s plan.Set, when string) bool {
			return slices.ContainsFunc(p.Checks, func(c plan.Check) bool {
				if c.When != when || c.Set == "" {
					return false
				}
				same := slices.IndexFunc(p.Sets, func(x plan.Set) bool { return x.ID == c.Set && x.Kind == s.Kind })
				return same >= 0 && len(c.Before) > 0 && (c.Set == s.ID || strings.Contains(c.What, "each wheel"))
			})
		}
		for _, s := range p.Sets {
			any := false
			for _, when := range occasions {
				on := listed(s, when)
				any = any || on
				if strings.Contains(s.Decision.Reason, when) {
					said++
					if !on {
						t.Errorf("variant %d, %s: %q, and nothing on the list %s", n, s.ID, s.Decision.Reason, when)
					}
				}
			}
			if s.Caught > 0 {
				caught++
				if !any {
					t.Errorf("variant %d, %s: %.0f %% caught by no check", n, s.ID, 100*s.Caught)
				}
			}
			if d := s.Decision; d.Action != plan.DoNotTake && len(s.Stop) == 0 && d.PUnsafe > float64(f.Model.Safety.Cap) {
				t.Errorf("variant %d, %s: %s at %g unnoticed", n, s.ID, d.Action, d.PUnsafe)
			}
		}
	}
	if said < variants/4 || caught < variants {
		t.Errorf("%d sentences and %d credits looked at", said, caught)
	}
}
