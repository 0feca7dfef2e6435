package trace

import (
	"fmt"
	"math"
	"slices"
)

// Which laps are hot laps. Engineering choices.
const (
	usualShare = 0.25 // the usual lap is the one that a quarter of the laps beat
	slowLap    = 1.05 // times the usual: traffic, a cool-down lap, or one from the pits
	improving  = 1.25 // times the usual, up to which a lap counts that the next beats by no more than slowLap
	atSpeed    = 0.6  // of the usual speed at the start line: a lap with less begins or ends in the pits
	fastLap    = 0.93 // times the usual: not the same lap
	stopTime   = 8.0  // s on one spot
)

// part is a lap of the trace, from one crossing of the start line to the next.
type part struct {
	from, to float64 // s
	meters   float64
	why      string // it is not used; "" for a hot lap
	slow     bool   // that is why
}

func (p part) seconds() float64 { return p.to - p.from }

func (p part) hot() bool { return p.why == "" }

// Dropped is a lap of the trace that was not used.
type Dropped struct {
	Start   float64 // s after the first fix
	Seconds float64
	Why     string
}

// laps cuts the trace at a gate and says of each lap whether it may be a hot one,
// whatever its time.
func (tr *track) laps(o *outline, g gate, length float64) (parts []part, outIn int) {
	cs := g.crossings(o)
	for i := range cs {
		cs[i].t = tr.refine(o, g, cs[i])
	}
	outIn = o.outAndIn(cs, length)
	speeds := make([]float64, len(cs))
	for i, c := range cs {
		speeds[i] = o.speedAt(c)
	}
	slow := atSpeed * median(slices.Clone(speeds))
	for i := 1; i < len(cs); i++ {
		a, b := cs[i-1], cs[i]
		if o.run[a.k] != o.run[b.k] {
			continue
		}
		p := part{from: a.t, to: b.t, meters: b.gone - a.gone}
		stop := o.longestStop(a.k, b.k)
		switch off := p.meters/length - 1; {
		case stop > stopTime:
			p.why = fmt.Sprintf("stood still for %s in it: the in lap and the out lap", clockWord(stop))
		case math.Abs(off) > lapLength:
			p.why = fmt.Sprintf("%.0f %% %s than the others", 100*math.Abs(off), map[bool]string{true: "longer", false: "shorter"}[off > 0])
		case speeds[i] < slow:
			p.why = "ends slowly, on the way to the pits"
		case speeds[i-1] < slow:
			p.why = "begins slowly, on the way from the pits"
		}
		parts = append(parts, p)
	}
	return parts, outIn
}

// judge takes out the laps that are too slow for hot ones, slowest times the
// usual, or too fast for laps of this circuit.
func judge(parts []part, slowest float64) {
	var times []float64
	for _, p := range parts {
		if p.hot() {
			times = append(times, p.seconds())
		}
	}
	usual := quantile(times, usualShare)
	for i := len(parts) - 1; i >= 0; i-- {
		p := &parts[i]
		better := i+1 < len(parts) && parts[i+1].hot() && parts[i+1].from == p.to && p.seconds() < slowLap*parts[i+1].seconds()
		switch ratio := p.seconds() / usual; {
		case !p.hot():
		case ratio > slowest && better && ratio < improving: // a driver who learns
		case ratio > slowest:
			p.slow = true
			p.why = fmt.Sprintf("%.0f %% slower than the usual lap: traffic, a cool-down lap, or one from the pits", 100*(ratio-1))
		case ratio < fastLap:
			p.why = fmt.Sprintf("%.0f %% faster than the usual lap", 100*(1-ratio))
		}
	}
}

// speedAt is the mean speed over two seconds to either side of a crossing, m/s.
func (o *outline) speedAt(c crossing) float64 {
	from, to := c.k, c.k
	for from > 0 && o.run[from-1] == o.run[c.k] && o.t[from] > c.t-2 {
		from--
	}
	for to+1 < len(o.t) && o.run[to+1] == o.run[c.k] && o.t[to] < c.t+2 {
		to++
	}
	return (o.gone[to] - o.gone[from]) / (o.t[to] - o.t[from])
}

// clockWord is a time in words.
func clockWord(seconds float64) string {
	if seconds < 90 {
		return fmt.Sprintf("%.0f s", seconds)
	}
	return fmt.Sprintf("%.0f min", seconds/60)
}

// longestStop is the longest time on one spot between two outline points.
func (o *outline) longestStop(from, to int) float64 {
	longest, since := 0.0, -1
	for k := from + 1; k <= to; k++ {
		if o.speed[k] > standing {
			since = -1
			continue
		}
		if since < 0 {
			since = k - 1
		}
		longest = max(longest, o.t[k]-o.t[since])
	}
	return longest
}

// outAndIn counts the laps begun before the first and after the last crossing
// of each recording.
func (o *outline) outAndIn(cs []crossing, length float64) int {
	first, last := map[int]float64{}, map[int]float64{}
	for _, c := range cs {
		r := o.run[c.k]
		if _, ok := first[r]; !ok {
			first[r] = c.gone
		}
		last[r] = c.gone
	}
	count := 0
	for k := range o.t {
		r := o.run[k]
		f, ok := first[r]
		if !ok {
			continue
		}
		if (k == 0 || o.run[k-1] != r) && f-o.gone[k] > length/10 {
			count++
		}
		if (k == len(o.t)-1 || o.run[k+1] != r) && o.gone[k]-last[r] > length/10 {
			count++
		}
	}
	return count
}

// refine times a crossing from all fixes around it: a straight line through
// the way to the gate over 0.6 s to either side, or for few fixes a second the
// crossing of the outline itself.
func (tr *track) refine(o *outline, g gate, c crossing) float64 {
	const half = 0.6
	var n, st, sa, stt, sta float64
	for i := o.at[c.k]; i >= 0 && tr.t[i] >= c.t-half; i-- {
		add(tr, g, i, c.t, half, &n, &st, &sa, &stt, &sta)
	}
	for i := o.at[c.k] + 1; i < len(tr.t) && tr.t[i] <= c.t+half; i++ {
		add(tr, g, i, c.t, half, &n, &st, &sa, &stt, &sta)
	}
	slope := (float64(n*sta) - float64(st*sa)) / (float64(n*stt) - float64(st*st))
	if n < 4 || !(slope > 1) {
		return c.t
	}
	return c.t - (sa-float64(slope*st))/n/slope
}

// add puts one fix into the sums of a straight line.
func add(tr *track, g gate, i int, at, half float64, n, st, sa, stt, sta *float64) {
	t := tr.t[i] - at
	if math.Abs(t) > half {
		return
	}
	a := float64((tr.x[i]-g.x)*g.ux) + float64((tr.y[i]-g.y)*g.uy)
	*n, *st, *sa, *stt, *sta = *n+1, *st+t, *sa+a, *stt+float64(t*t), *sta+float64(t*a)
}
