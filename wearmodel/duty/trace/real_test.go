package trace_test

import (
	"math"
	"testing"

	"example.com/tripwear/wearmodel/duty"
	"example.com/tripwear/wearmodel/duty/trace/synthetic"
)

// ramped is a corner list whose curvature grows over 20 m at the start of
// every corner and fades over 20 m at its end, as a driven line does.
func ramped(t testing.TB, segs []duty.Segment) []duty.Segment {
	t.Helper()
	const (
		steps  = 5
		meters = 4.0 // of each
	)
	var out []duty.Segment
	for _, s := range segs {
		sign := math.Copysign(1, s.Turn)
		rest, straight := math.Abs(s.Turn), s.Straight
		var up []duty.Segment
		for k := range steps {
			c := (float64(k) + 0.5) / steps / s.Radius
			up = append(up, duty.Segment{Turn: sign * c * meters, Radius: 1 / c})
			rest -= 2 * c * meters
		}
		if rest <= 0 {
			t.Fatalf("a corner of %g rad has no room for its ramps", s.Turn)
		}
		up[0].Straight = straight
		out = append(out, up...)
		out = append(out, duty.Segment{Turn: sign * rest, Radius: s.Radius})
		for k := range up {
			down := up[steps-1-k]
			down.Straight = 0
			out = append(out, down)
		}
	}
	return out
}

// closedByStraights closes a lap by its straights alone: what Close does to a
// list whose other pieces must stay as they are.
func closedByStraights(t testing.TB, segs []duty.Segment) []duty.Segment {
	t.Helper()
	out := append([]duty.Segment(nil), segs...)
	for range 30 {
		var x, y, h, xx, xy, yy float64
		for _, s := range out {
			c, sn := math.Cos(h), math.Sin(h)
			if s.Straight > 0 {
				x, y = x+s.Straight*c, y+s.Straight*sn
				xx, xy, yy = xx+c*c, xy+c*sn, yy+sn*sn
			}
			r := math.Copysign(s.Radius, s.Turn)
			x += r * (math.Sin(h+s.Turn) - sn)
			y -= r * (math.Cos(h+s.Turn) - c)
			h += s.Turn
		}
		det := xx*yy - xy*xy
		px, py := (yy*x-xy*y)/det, (xx*y-xy*x)/det
		h = 0
		for i := range out {
			if out[i].Straight > 0 {
				out[i].Straight -= px*math.Cos(h) + py*math.Sin(h)
			}
			h += out[i].Turn
		}
	}
	return out
}

// What no corner list has: curvature that grows into a corner, and errors that
// last for seconds, as those of receivers that smooth their fixes do. The same
// must be promised.
func TestNearerToRealTracks(t *testing.T) {
	ramps := closedByStraights(t, ramped(t, heronFlats()))
	for _, tt := range []struct {
		name string
		segs []duty.Segment
		day  synthetic.Day
	}{
		{"ramps, 1 Hz", ramps, synthetic.Day{Rate: 1, White: 1, Drift: 2}},
		{"ramps, 5 Hz", ramps, synthetic.Day{Rate: 5, White: 3, Drift: 2}},
		{"ramps, 25 Hz", ramps, synthetic.Day{Rate: 25, White: 0.3, Drift: 2}},
		{"errors of 2 s, 1 Hz", heronFlats(), synthetic.Day{Rate: 1, White: 0.2, Drift: 1.5, DriftT: 2}},
		{"errors of 2 s, 10 Hz", heronFlats(), synthetic.Day{Rate: 10, White: 0.2, Drift: 1.5, DriftT: 2}},
		{"errors of 10 s, 5 Hz", heronFlats(), synthetic.Day{Rate: 5, White: 0.2, Drift: 1.5, DriftT: 10}},
	} {
		truth := lapOf(t, tt.segs)
		if miss := synthetic.NewLap(truth).Miss(); miss > 0.1 {
			t.Fatalf("%s: the lap ends %.2f m from its start", tt.name, miss)
		}
		tt.day.Laps = session(truth)
		lap, d := survey(t, record(t, tt.segs, tt.day, 9))
		share, brake := duty.LeftShare(d)-duty.LeftShare(truth), d.BrakeEnergy*lap.Harder/truth.BrakeEnergy-1
		t.Logf("%s: left share %+.4f (stated %.4f), lap %+.3f %%, braking energy %+.1f %%", tt.name, share, lap.ShareSD, 100*(lap.Seconds/truth.Seconds-1), 100*brake)
		if math.Abs(share) > 0.02 || math.Abs(lap.Seconds/truth.Seconds-1) > 0.002 || math.Abs(brake) > 0.10 {
			t.Errorf("%s: left share %+.4f, lap %+.3f %%, braking energy %+.1f %%", tt.name, share, 100*(lap.Seconds/truth.Seconds-1), 100*brake)
		}
	}
}
