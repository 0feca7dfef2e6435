package planner

import (
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/randomcar"
	"example.com/tripwear/profiles"
)

var (
	chanceSaid = regexp.MustCompile(`(over |under )?([\d.]+) % chance( past it)?`)
	lifeSaid   = regexp.MustCompile(`comes home with about ([\d.]+) % of its life`)
	capSaid    = regexp.MustCompile(`at best (over |under )?([\d.]+) % chance .* over the cap of ([\d.]+) %`)
)

// TestSentences: every reason agrees with the figures beside it.
func TestSentences(t *testing.T) {
	randomcar.Check(t, 8, func(t *rapid.T) {
		p := printed(t, answered(t, randomcar.Draw(t, 20)))
		for _, s := range p.Sets {
			d := s.Decision
			wrong := func(why string) { t.Errorf("%s, %s: %q: %s", s.ID, d.Action, d.Reason, why) }
			for _, said := range chanceSaid.FindAllStringSubmatch(d.Reason, -1) {
				if !slices.ContainsFunc(s.chances(), func(p float64) bool { return prints(said[1], said[2], p) }) {
					wrong(said[0] + " is none of its chances")
				}
			}
			if said := lifeSaid.FindStringSubmatch(d.Reason); said != nil && !prints("", said[1], max(0, d.LifeEnd)) {
				wrong("its life at home is another")
			}
			if said := capSaid.FindStringSubmatch(d.Reason); said != nil && (said[1] == "under " || !(toNumber(said[2]) > toNumber(said[3]))) {
				wrong("that is not over the cap")
			}
			if d.PAsIs > 0.5 && (strings.Contains(d.Reason, "should stay") || strings.Contains(d.Reason, "stays")) {
				wrong("it does not: " + strconv.FormatFloat(d.PAsIs, 'f', 3, 64))
			}
			if d.Action == plan.Run && len(s.Stop) > 0 {
				wrong("it runs with " + s.Stop[0])
			}
			if d.Spare != strings.Contains(d.Reason, "spare") && d.Action != plan.Bring && len(s.Stop) == 0 {
				wrong("a spare is said or kept from him")
			}
		}
	})
}

// chances are those that a sentence about a set may tell.
func (s jsonSet) chances() []float64 {
	d := s.Decision
	out := []float64{d.PAsIs, d.POut, d.PUnsafe, d.PNeed}
	for _, b := range s.After {
		out = append(out, b.PLimit, b.PMargin)
	}
	return out
}

// prints says whether a chance is printed so, to the digits that are printed.
// Decimals are printed of what is over a cap, and rounded up.
func prints(bound, text string, p float64) bool {
	v := toNumber(text) / 100
	switch bound {
	case "over ":
		return p > v
	case "under ":
		return p < v
	}
	if _, decimals, over := strings.Cut(text, "."); over {
		return p <= v+1e-6 && p >= v-math.Pow10(-2-len(decimals))-1e-6
	}
	return math.Abs(p-v) <= 0.005+1e-6
}

func toNumber(s string) float64 {
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		return math.NaN()
	}
	return v
}

// TestWatchIsOnTheChecklist: what a sentence tells the owner to look at, and
// where, is on the checklist, at a time that the trip has; nothing that is
// watched or whose spare is brought is left without a look on the way.
func TestWatchIsOnTheChecklist(t *testing.T) {
	randomcar.Check(t, 8, func(t *rapid.T) {
		p := printed(t, answered(t, randomcar.Draw(t, 20)))
		has := func(when string) bool {
			return slices.ContainsFunc(p.Legs, func(l jsonLeg) bool {
				return when == "at each fuel stop" && l.Refuels > 0 || when == "before each session" && l.Kind == profiles.CircuitLeg ||
					when == "after each circuit day" && l.Kind == profiles.CircuitLeg
			})
		}
		for _, s := range p.Sets {
			var at []string
			for _, c := range p.Checks {
				if c.Set == s.ID || s.Kind == profiles.Bearing && strings.Contains(c.What, "each wheel") {
					at = append(at, c.When)
				}
			}
			for _, when := range []string{"before each session", "at each fuel stop", "after each circuit day"} {
				if strings.Contains(s.Decision.Reason, when) && !slices.Contains(at, when) {
					t.Errorf("%s, %s: %q, the checklist has it %q", s.ID, s.Decision.Action, s.Decision.Reason, at)
				}
				if strings.Contains(s.Decision.Reason, when) && !has(when) {
					t.Errorf("%s, %s: %q on a trip without any", s.ID, s.Decision.Action, s.Decision.Reason)
				}
			}
			counts := s.Critical && (s.Decision.Action == plan.Watch || s.Decision.Action == plan.Bring || s.Decision.Spare)
			if counts && s.Decision.PUnsafe < s.Decision.POut-1e-9 && !slices.ContainsFunc(at, has) {
				t.Errorf("%s, %s counts on checks and is on none: %q", s.ID, s.Decision.Action, at)
			}
		}
	})
}
