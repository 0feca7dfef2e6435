package oil

import (
	"fmt"
	"math"
	"slices"
)

// reading judges one figure.
func (c Criteria) reading(f Figure, v float64, grade Grade, used Sample, fresh *Sample) Reading {
	none := math.NaN()
	r := Reading{Figure: f, Used: v, Below: used.Below[f], Least: none, Most: none, Rate: none, LimitAt: none, Verdict: Unjudged}
	if fresh != nil {
		r.New, r.HasNew = fresh.Values[f], has(*fresh, f)
	}
	switch f {
	case KV40:
		r.Why = "for the viscosity index alone"
	case KV100:
		c.viscosity(&r, grade)
	case BaseNumber:
		c.base(&r, used, fresh)
	case AcidNumber:
		acid(&r, used)
	case Fuel, Water:
		r.New, r.HasNew = 0, true // clean oil holds none
		r.Most = map[Figure]float64{Fuel: c.Fuel, Water: c.Water}[f]
		r.judge("the most; common practice, no source")
	case Glycol:
		r.New, r.HasNew, r.Most, r.Verdict = 0, true, 0, Fine
		r.Why = "any is coolant in the oil: do not drive the engine; common practice, no source"
		if v > 0 {
			r.Verdict = Stop
		}
	default:
		c.metal(&r)
	}
	if !used.Below[f] {
		r.line(used.Equivalent)
	}
	return r
}

func has(s Sample, f Figure) bool { _, ok := s.Values[f]; return ok }

// judge compares the figure with its limits.
func (r *Reading) judge(why string) {
	r.Verdict, r.Why = Fine, why
	if r.Used < r.Least || r.Used > r.Most {
		r.Verdict = Flagged
	}
}

// viscosity holds the figure to its grade, and to the new oil where known.
func (c Criteria) viscosity(r *Reading, grade Grade) {
	r.Least, r.Most = grade.Summer.From, grade.Summer.To
	if grade.Summer.Name == "" {
		r.Least, r.Most = grade.Winter.LeastKV, math.Inf(1)
	}
	why := "inside its grade, SAE J300"
	if r.HasNew {
		r.Least, r.Most = math.Max(r.Least, r.New*(1-c.Thinner)), math.Min(r.Most, r.New*(1+c.Thicker))
		why += fmt.Sprintf(", and -%.0f to +%.0f %% of new, common practice, no source", 100*c.Thinner, 100*c.Thicker)
	}
	r.judge(why)
	if !grade.Holds(r.Used) {
		r.Verdict = Flagged
	}
	if r.HasNew && (r.Used < r.New*(1-c.StopThinner) || r.Used > r.New*(1+c.StopThicker)) {
		r.Verdict = Stop
		r.Why = fmt.Sprintf("beyond -%.0f to +%.0f %% of new: this fill is not run on; common practice, no source", 100*c.StopThinner, 100*c.StopThicker)
	}
}

// base judges the alkaline reserve. Base numbers of two methods differ by the
// method, so they are never subtracted: without a reference by the same method
// the least figure alone counts.
func (c Criteria) base(r *Reading, used Sample, fresh *Sample) {
	r.Least = c.BaseLeast
	why := "the least that neutralises; common practice, no source"
	switch {
	case r.HasNew && (used.BaseMethod == "" || used.BaseMethod != fresh.BaseMethod):
		r.HasNew = false
		why += "; the new oil's was measured by another method or none is named, so the two are not compared"
	case r.HasNew:
		r.Least = math.Max(c.BaseLeast, c.BaseShare*r.New)
		why = fmt.Sprintf("%.0f %% of new and %.1f at least; common practice, no source", 100*c.BaseShare, c.BaseLeast)
	}
	r.judge(why)
}

// acid flags a fill in which the acid has outgrown the reserve.
func acid(r *Reading, used Sample) {
	base, ok := used.Values[BaseNumber]
	if !ok {
		r.Why = "judged beside the base number, which was not measured"
		return
	}
	r.Most = base
	r.judge("not above the base number of the same sample; common practice, no source")
}

// metal judges wear and dirt by all there is of it, as published levels do.
func (c Criteria) metal(r *Reading) {
	if most, ok := c.Metals[r.Figure]; ok && slices.Contains(metals, r.Figure) {
		r.Most = most
		r.judge("a published warning level; an engine's own trend comes first")
	}
}

// line draws the straight line from new to used and finds its limit. The
// acid number's limit moves with the base number and glycol has no limit to
// grow to, so their lines lead nowhere.
func (r *Reading) line(equivalent float64) {
	if !r.HasNew || equivalent <= 0 {
		return
	}
	r.Rate = (r.Used - r.New) / equivalent
	if r.Figure == AcidNumber || r.Figure == Glycol {
		return
	}
	limit := r.Most
	if r.Rate < 0 {
		limit = r.Least
	}
	if math.IsNaN(limit) {
		return
	}
	r.LimitAt = math.Inf(1)
	if r.Rate != 0 && !math.IsInf(limit, 0) {
		r.LimitAt = math.Max(0, (limit-r.New)/r.Rate)
	}
}
