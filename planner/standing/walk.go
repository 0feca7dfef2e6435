package standing

import (
	"slices"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles/logbook"
)

// Question is one thing that a walk round the car asks: a reading, or what an
// eye or a hand finds.
type Question struct {
	Set     string // id
	What    logbook.What
	Place   string
	Zone    string
	Measure kind.Measure // of a reading
	Expect  float64
	Act     float64
	Stop    float64
	Words   []logbook.Finding // of a finding, from good to bad
	Forbids []logbook.Finding // those to park it for
	By      string            // eye, hand, foot or dipstick
}

// Same says whether another question asks the same.
func (q Question) Same(o Question) bool {
	return q.Set == o.Set && q.What == o.What && q.Place == o.Place && q.Zone == o.Zone
}

// around is the order of a walk round the car: from the driver's corner on.
var around = slices.Concat([]string{"LF", "RF", "RR", "LR"}, logbook.Fills)

// Questions lists what a plan wants read now, wheel by wheel: what its checks
// have a gauge read, at the point that they name, and what an eye or a hand may
// find that forbids driving.
func Questions(p *plan.Plan) []Question {
	var out []Question
	for _, place := range around {
		for _, s := range p.Sets {
			out = append(out, readings(p, s, place)...)
			if slices.ContainsFunc(s.Points, func(pt plan.Point) bool { return pt.Place == place }) {
				out = append(out, findings(s, place)...)
			}
		}
	}
	return out
}

// readings are what the checks have read of a set at a place: at the point that
// ends first as the car stands, or at the one that they name.
func readings(p *plan.Plan, s plan.Set, place string) []Question {
	var out []Question
	for _, c := range p.Checks {
		if first := s.Points[s.First]; first.Measure == c.Measure {
			c.Place, c.Zone = first.Place, first.Zone
		}
		if c.Set != s.ID || c.Looks != kind.ByGauge || c.Place != place {
			continue
		}
		q := Question{Set: s.ID, What: c.Measure.Info().Form.Row, Place: place, Zone: c.Zone, Measure: c.Measure, Act: c.Act, Stop: c.Stop}
		for _, pt := range s.Points {
			if pt.Place == place && pt.Zone == c.Zone && pt.Measure == c.Measure {
				q.Expect = max(0, pt.Start)
			}
		}
		if !slices.ContainsFunc(out, func(had Question) bool { return had.What == q.What && had.Zone == q.Zone }) {
			out = append(out, q)
		}
	}
	return out
}

// findings are what may be found at a place of a set that no gauge reads, where
// one of the words forbids driving or a dipstick tells it.
func findings(s plan.Set, place string) []Question {
	k := kind.Of(s.Kind)
	if k.Counted || s.Points[0].Measure.Info().Length {
		return nil
	}
	var out []Question
	for _, f := range k.Findings {
		q := Question{Set: s.ID, What: f.Row, Place: place, By: f.By}
		for _, x := range f.List {
			q.Words = append(q.Words, x.Word)
			if x.Forbids {
				q.Forbids = append(q.Forbids, x.Word)
			}
		}
		if len(q.Forbids) > 0 || f.By == "dipstick" {
			out = append(out, q)
		}
	}
	return out
}
