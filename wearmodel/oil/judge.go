package oil

import (
	"cmp"
	"fmt"
	"math"
	"slices"
)

// Verdict is how a figure stands to its limit.
type Verdict int

// The verdicts, from good to bad.
const (
	Unjudged Verdict = iota // no limit, or nothing to compare with
	Fine
	Flagged // past its limit: no extension, and the interval shortens
	Stop    // the fill, or with glycol the engine, is not run on
)

// String is the word a report prints.
func (v Verdict) String() string { return [...]string{"not judged", "fine", "FLAG", "STOP"}[v] }

// MarshalText is the word, for machines.
func (v Verdict) MarshalText() ([]byte, error) { return []byte(v.String()), nil }

// Reading is one figure judged.
type Reading struct {
	Figure  Figure  `json:"figure"`
	New     float64 `json:"new"` // of the new oil; for fuel, water and glycol 0
	HasNew  bool    `json:"has_new"`
	Used    float64 `json:"used"`
	Below   bool    `json:"below"` // Used is a bound
	Least   float64 `json:"least"` // limits, in the figure's unit; NaN where there is none on that side
	Most    float64 `json:"most"`
	Rate    float64 `json:"rate"`     // change per equivalent m; NaN without a new-oil reference
	LimitAt float64 `json:"limit_at"` // equivalent m at which the straight line from new gets to a limit; +Inf where it never does, NaN where there is no line
	Verdict Verdict `json:"verdict"`
	Why     string  `json:"why"` // what the verdict rests on
}

// Judgement is what a report says and what it supports.
type Judgement struct {
	Readings   []Reading `json:"readings"`
	Missing    []Figure  `json:"missing"`     // not measured
	Grades     []string  `json:"grades"`      // SAE J300 grades of the viscosity at 100 deg C
	Index      float64   `json:"index"`       // viscosity index; NaN where it cannot be worked out
	Verdict    Verdict   `json:"verdict"`     // the worst of the readings
	FirstLimit float64   `json:"first_limit"` // equivalent m at which the first line gets to its limit; +Inf where none does
	First      Figure    `json:"first"`       // whose line that is; "" where none
	Supported  float64   `json:"supported"`   // equivalent m that the report supports as the next interval
	Longer     bool      `json:"longer"`      // that is more than today's
	Trends     []Trend   `json:"trends"`
	Doubts     []string  `json:"doubts"` // why it does not support a longer one
}

// Engine says whether the engine, not only the fill, must not be driven.
func (j Judgement) Engine() bool {
	for _, r := range j.Readings {
		if r.Figure == Glycol && r.Verdict == Stop {
			return true
		}
	}
	return false
}

// Judge reads a used-oil sample against its grade, the new oil (nil where
// there is none to compare with), the earlier samples of the engine, the
// oldest first, and today's interval (equivalent m).
// Straight lines from new to used give each limit's distance; the interval
// that is supported is Criteria.Line of the first, at most Criteria.Step times
// today's or the distance that the sample shows, and never longer than today's
// on a report with a flag, without a new-oil reference or with an unknown
// top-up (common practice, no source); where several earlier reports show that
// a metal now comes faster, at most Criteria.Turn of the longest fill that did
// not show it yet.
func Judge(grade Grade, used Sample, fresh *Sample, earlier []Sample, interval float64, c Criteria) Judgement {
	j := Judgement{Index: math.NaN(), FirstLimit: math.Inf(1)}
	for _, f := range Figures {
		v, ok := used.Values[f]
		if !ok {
			j.Missing = append(j.Missing, f)
			continue
		}
		r := c.reading(f, v, grade, used, fresh)
		j.Verdict = max(j.Verdict, r.Verdict)
		if r.LimitAt < j.FirstLimit {
			j.FirstLimit, j.First = r.LimitAt, f
		}
		j.Readings = append(j.Readings, r)
	}
	if kv, ok := used.Values[KV100]; ok {
		j.Grades = Grades(kv)
		if vi, ok := Index(used.Values[KV40], kv); ok {
			j.Index = vi
		}
	}
	j.Trends = trends(used, fresh, earlier)
	j.support(used, fresh, interval, c)
	return j
}

// support works out the interval that the judgement carries.
func (j *Judgement) support(used Sample, fresh *Sample, interval float64, c Criteria) {
	if fresh == nil {
		j.Doubts = append(j.Doubts, "there is no new-oil reference to draw lines from")
	}
	if j.Verdict >= Flagged {
		j.Doubts = append(j.Doubts, "a figure is past its limit")
	}
	if !used.TopUpKnown {
		j.Doubts = append(j.Doubts, "what was added since the fill is not known, and fresh oil flatters every figure")
	}
	if used.Equivalent <= 0 {
		j.Doubts = append(j.Doubts, "the distance on the fill is not known")
	}
	for _, t := range j.Trends {
		if t.Rising {
			j.Doubts = append(j.Doubts, fmt.Sprintf("%s comes %.1f times as fast as in the earlier reports", t.Figure, t.Now/t.Before))
		}
	}
	for _, f := range []Figure{KV100, BaseNumber} {
		if slices.Contains(j.Missing, f) {
			j.Doubts = append(j.Doubts, fmt.Sprintf("the %s was not measured", f))
		}
	}
	most := math.Max(c.Step*interval, used.Equivalent)
	if len(j.Doubts) > 0 {
		most = interval
	}
	j.Supported = math.Min(most, c.Line*j.FirstLimit)
	for _, t := range j.Trends {
		if turned := cmp.Or(t.Steady, used.Equivalent); t.Rising && t.Reports > 1 {
			j.Supported = math.Min(j.Supported, c.Turn*turned)
		}
	}
	if j.Verdict >= Flagged {
		// A flag without a line of its own still says that it was too much.
		much := interval
		if used.Equivalent > 0 {
			much = math.Min(interval, used.Equivalent)
		}
		j.Supported = math.Min(j.Supported, c.Line*much)
	}
	j.Longer = j.Supported > interval
}
