package oil

import (
	"math"
	"testing"
)

// kv is a sample of a viscosity at 100 deg C and nothing else.
func kv(v float64) Sample {
	return Sample{Values: map[Figure]float64{KV100: v}, Equivalent: 1000 * mile, TopUpKnown: true}
}

// SAE J300: a 40 is 12.5 up to 16.3 mm2/s, a 10W alone 4.1 or more.
func TestGradeLimits(t *testing.T) {
	winter, _ := ParseGrade("10W")
	for _, row := range []struct {
		grade       Grade
		least, most float64
	}{{fiveForty, 12.5, 16.3}, {winter, 4.1, math.Inf(1)}} {
		r := find(Judge(row.grade, kv(14), nil, nil, 3500*mile, usual()), KV100)
		if r.Least != row.least || r.Most != row.most || r.Verdict != Fine || r.Why != "inside its grade, SAE J300" {
			t.Errorf("%+v, want %g to %g", r, row.least, row.most)
		}
	}
}

// 10 mm2/s new, -20 % to +30 % of it: 8.0 and 13.0 are flagged, what is beyond
// is not run on. Common practice, no source.
func TestStopIsBeyond(t *testing.T) {
	thirty, _ := ParseGrade("5W-30")
	fresh := kv(10)
	for v, want := range map[float64]Verdict{7.99: Stop, 8: Flagged, 13: Flagged, 13.01: Stop} {
		r := find(Judge(thirty, kv(v), &fresh, nil, 3500*mile, usual()), KV100)
		if r.Verdict != want {
			t.Errorf("%g mm2/s: %v, want %v", v, r.Verdict, want)
		}
	}
}

// The shares in the reasons are the criteria's own, as a hundredth each.
func TestReasons(t *testing.T) {
	used, fresh := clean()
	j := Judge(fiveForty, used, &fresh, nil, 3500*mile, usual())
	used.Values[KV100] = 11
	stopped := Judge(fiveForty, used, &fresh, nil, 3500*mile, usual())
	for _, row := range []struct{ got, want string }{
		{find(j, KV100).Why, "inside its grade, SAE J300, and -10 to +20 % of new, common practice, no source"},
		{find(stopped, KV100).Why, "beyond -20 to +30 % of new: this fill is not run on; common practice, no source"},
		{find(j, BaseNumber).Why, "50 % of new and 2.0 at least; common practice, no source"},
	} {
		if row.got != row.want {
			t.Errorf("%q, want %q", row.got, row.want)
		}
	}
}

// Without a distance there is no rate; where nothing has changed the rate is 0
// and the limit is never reached.
func TestLines(t *testing.T) {
	used, fresh := clean()
	used.Values[Iron] = fresh.Values[Iron]
	r := find(Judge(fiveForty, used, &fresh, nil, 3500*mile, usual()), Iron)
	if r.Rate != 0 || !math.IsInf(r.LimitAt, 1) {
		t.Errorf("nothing changed: %+v", r)
	}
	used.Equivalent = 0
	j := Judge(fiveForty, used, &fresh, nil, 3500*mile, usual())
	for _, r := range j.Readings {
		if !math.IsNaN(r.Rate) || !math.IsNaN(r.LimitAt) {
			t.Errorf("no distance: %+v", r)
		}
	}
	if !math.IsInf(j.FirstLimit, 1) || j.First != "" {
		t.Errorf("no distance: %q reaches its limit first, at %g", j.First, j.FirstLimit)
	}
	clear(used.Values)
	used.Values[Iron], used.Equivalent = fresh.Values[Iron], 1000*mile
	if j := Judge(fiveForty, used, &fresh, nil, 3500*mile, usual()); j.First != "" {
		t.Errorf("nothing changed: %q reaches its limit first", j.First)
	}
}

// A flag without a line of its own, acid over base: nine tenths of what was
// driven, or of today's interval where that is not known. By hand.
func TestFlagShortens(t *testing.T) {
	for miles, want := range map[float64]float64{2000: 1800, 5000: 3150, 0: 3150} {
		used, fresh := clean()
		used.Values[AcidNumber], used.Equivalent = 7, miles*mile
		j := Judge(fiveForty, used, &fresh, nil, 3500*mile, usual())
		near(t, "supported, mi", j.Supported/mile, want, 1e-9)
	}
}
