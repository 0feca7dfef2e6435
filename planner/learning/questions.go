package learning

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/quantity"
)

// questions are an estimate's theories in words, with the rows that answer them.
func (h *history) questions(l estimate) []plan.Question {
	all := l
	all.theories = l.asked
	if len(l.asked) > 0 {
		all.fit = h.rates(all).Fit(all.fit)
	}
	var out []plan.Question
	for n, t := range l.asked {
		if t.said {
			continue
		}
		q := plan.Question{Odometer: t.from, Chance: 1 / (1 + math.Exp(-t.gain)), Taken: slices.Contains(l.theories, t)}
		since, log := h.onDial(t.from), func(what, at string) string {
			return fmt.Sprintf("tripwear log add %s%s --odometer %q", what, at, h.odometer(t.from))
		}
		name := h.kind.ID.Info().Plural
		switch t.what {
		case changed:
			q.Set, q.Place = h.kind.ID.Info().Sets[h.axleOf(t.key)].ID, t.place
			q.Size = math.Exp(h.meanOf(all, n))
			q.Text = fmt.Sprintf("The %s at %s wear %.1fx what they did, since about %s on the odometer: %s?", name, t.place, q.Size, since, cause(h.kind.ID))
			q.Answers = []string{log("change "+cause(h.kind.ID), " --at "+t.place), log("change "+logbook.Nothing, " --at "+t.place)}
		case missing:
			q.Until, q.Size = t.to, math.Exp(h.meanOf(all, n))
			q.Text = fmt.Sprintf("Between %s and %s on the odometer the %s lost about %.1f circuit days more than the logbook has: was one not written down?", since, h.onDial(t.to), name, q.Size)
			q.Answers = []string{fmt.Sprintf("tripwear log add trip driven TRIP --odometer %q", h.odometer(t.to))}
		case stepped:
			q.Size = h.meanOf(all, n) - all.fit.OffsetOf(1)
			side := "deeper"
			if q.Size < 0 {
				side = "less"
			}
			q.Text = fmt.Sprintf("The gauge of the %s reads %.1f mm %s since about %s on the odometer: another one, or zeroed anew?", name, 1000*math.Abs(q.Size), side, since)
			q.Answers = []string{log("gauge "+string(h.reads()), "")}
		}
		out = append(out, q)
	}
	return out
}

// cause is what most often changes how one wheel's wear. Common practice, no
// source.
func cause(k profiles.Kind) string {
	if k == profiles.Pads {
		return logbook.Caliper
	}
	return logbook.Alignment
}

// odometer is where the car's odometer stood, in the unit that the logbook has it
// in whatever a plan is printed in.
func (h *history) odometer(m float64) string { return quantity.Distance[h.dial].Text(m) }

// onDial is the figure alone, as the dial shows it.
func (h *history) onDial(m float64) string {
	figure, _, _ := strings.Cut(h.odometer(m), " ")
	return figure
}

// dialOf is the system of the logbook's last odometer.
func dialOf(log []logbook.Entry) quantity.System {
	if n := len(log); n > 0 && strings.HasSuffix(strings.TrimSpace(log[n-1].Mark), "km") {
		return quantity.Metric
	}
	return quantity.US
}
